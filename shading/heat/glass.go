package heat

import "fmt"

// Glass is a window and the sun at its glass: shaded by trees, overhang and
// reveal.
type Glass struct {
	ID      string
	Area    float64 // of the opening, m²
	Frame   float64 // share of the opening that is frame; 0: the default
	Glazing string  // empty: single
	Sun     Sun
}

// glazingIn is the window's glazing in a condition of the house.
func (g Glass) glazingIn(s Shell) (Glazing, error) {
	name := g.Glazing
	if name == "" {
		name = "single"
	}
	switch {
	case s.Glazing != "":
		name = s.Glazing
	case s.AddStorms && plainName(name) == "single":
		name = "single + storm"
	}
	glazing, err := GlazingNamed(name)
	if err != nil {
		return Glazing{}, fmt.Errorf("window %s: %w", g.ID, err)
	}
	if s.Window > 0 {
		glazing.R = s.Window
	}
	return glazing, nil
}

// glassArea is the see-through part of the opening, m².
func (g Glass) glassArea() float64 {
	frame := g.Frame
	if frame == 0 {
		frame = frameDefault
	}
	return g.Area * (1 - frame)
}

// Gain is the sun that becomes heat indoors, Wh each hour.
func (g Glass) Gain(glazing Glazing) []float64 {
	gain := make([]float64, len(g.Sun.Beam))
	g.addGain(glazing, gain)
	return gain
}

func (g Glass) addGain(glazing Glazing, to []float64) {
	area := g.glassArea()
	for i := range to {
		beam, diffuse := g.Sun.Hour(i)
		if beam+diffuse > 0 {
			to[i] += area * (beam*glazing.Angles.At(g.Sun.Incidence[i]) + diffuse*glazing.Diffuse)
		}
	}
}

// Pass is the heat indoors of 1 Wh/m² on a window's opening, Wh.
type Pass struct {
	Beam    func(cosine float64) float64
	Diffuse float64
}

// PassIn is what the window lets in, in a condition of the house.
func (g Glass) PassIn(s Shell) (Pass, error) {
	glazing, err := g.glazingIn(s)
	if err != nil {
		return Pass{}, err
	}
	area := g.glassArea()
	return Pass{func(cosine float64) float64 { return area * glazing.Angles.At(cosine) }, area * glazing.Diffuse}, nil
}

func (g Glass) check() error {
	if !(g.Area > 0 && g.Area < 1000) {
		return fmt.Errorf("window %s: area %g m², want more than 0", g.ID, g.Area)
	}
	if !(g.Frame >= 0 && g.Frame < 1) {
		return fmt.Errorf("window %s: frame share %g, want 0 to less than 1", g.ID, g.Frame)
	}
	return g.Sun.check("window " + g.ID)
}
