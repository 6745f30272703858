package render

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"
	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

func demoPair() Pair {
	a, b := demoFace(), demoFace()
	a.Words, b.Words = Words{Title: "As it is"}, Words{Title: "Front pair out"}
	g := *b.Sun
	g.Values = append([]float64(nil), g.Values...)
	for i := range g.Values {
		g.Values[i] = min(400, g.Values[i]*1.5)
	}
	b.Sun = &g
	a.Collectors, b.Collectors = nil, nil
	breaks := Breaks(50, 400, 7)
	a.Breaks, b.Breaks, a.NoLegend, b.NoLegend = breaks, breaks, true, true
	return Pair{Words: Words{Title: "South wall before and after", Caption: "Heating season, both on one scale."}, Left: a, Right: b, Breaks: breaks, Unit: "kWh/m²"}
}

func demoDay() ShadowDay {
	d := ShadowDay{Words: Words{Title: "Shadows through 21 December", Caption: "Local standard time. Crowns whole."}, Plan: demoPlan()}
	for h := 9; h <= 15; h++ {
		d.Hours = append(d.Hours, ShadowHour{Name: fmt.Sprintf("%d:00", h), Sun: "sun 21° up, S 22° E", Shadows: shadowsAt(float64(h))[5:], Light: shadowsAt(float64(h))[:3]})
	}
	return d
}

// demoSun is a rough sun at 41.65° N, good enough to draw.
func demoSun(decl, hour float64) SkyPoint {
	const lat = 41.65 * math.Pi / 180
	d, h := decl*math.Pi/180, (hour-12)*math.Pi/12
	alt := math.Asin(math.Sin(lat)*math.Sin(d) + math.Cos(lat)*math.Cos(d)*math.Cos(h))
	az := math.Atan2(-math.Cos(d)*math.Sin(h), math.Sin(d)*math.Cos(lat)-math.Cos(d)*math.Cos(h)*math.Sin(lat))
	return SkyPoint{math.Mod(az*180/math.Pi+360, 360), alt * 180 / math.Pi}
}

func demoSky() SkyView {
	d := SkyView{Words: Words{Title: "The sky from window W1", Caption: "Sun paths on the 21st of each month, dashed where the trees stand otherwise; numbers are hours, local standard time. Strokes are the closer the less a crown lets through."}, Facing: 180}
	leaf := []string{"", "", "21 Oct", "21 Sep", "21 Aug", "21 May/Jul", "21 Jun"}
	bare := []string{"21 Dec", "21 Jan/Nov", "21 Feb", "21 Mar", "21 Apr", "", ""}
	for i, dec := range []float64{-23.4, -20.1, -11, 0, 11.6, 20.1, 23.4} {
		p := SunPath{Name: bare[i] + leaf[i], Leaf: leaf[i], Bare: bare[i]}
		for h := 4.0; h <= 20; h += 0.25 {
			if q := demoSun(dec, h); q.Altitude > 0 {
				p.Points = append(p.Points, q)
			}
		}
		d.Paths = append(d.Paths, p)
	}
	for h := 7.0; h <= 17; h += 2 {
		p := SunPath{Name: fmt.Sprint(h)}
		for dec := -23.4; dec <= 23.4; dec += 3.9 {
			if q := demoSun(dec, h); q.Altitude > 0 {
				p.Points = append(p.Points, q)
			}
		}
		d.Hours = append(d.Hours, p)
	}
	blob := func(az, alt, r float64) []SkyPoint {
		var out []SkyPoint
		for i := range 40 {
			s, c := math.Sincos(2 * math.Pi * float64(i) / 40)
			out = append(out, SkyPoint{az + r*c, alt + 0.8*r*s})
		}
		return out
	}
	d.Crowns = []SkyCrown{
		{ID: "T1", Outline: blob(205, 30, 22), InLeaf: 0.15, Bare: 0.65}, {ID: "T2", Outline: blob(170, 34, 24), InLeaf: 0.15, Bare: 0.65},
		{ID: "T5", Outline: blob(128, 20, 13), InLeaf: 0.1, Bare: 0.1, Evergreen: true}, {ID: "S1", Outline: blob(184, 17, 14), InLeaf: 0.2, Bare: 0.7},
	}
	d.Solids = []SkySolid{{Name: "No. 16", Outline: []SkyPoint{{85, 0}, {85, 18}, {95, 24}, {108, 17}, {108, 0}}}, {Name: "skyline", Outline: []SkyPoint{{60, 0}, {60, 3}, {120, 4}, {180, 2}, {240, 5}, {300, 3}, {300, 0}}}}
	d.Near = []SkySolid{{Name: "own eave", Outline: []SkyPoint{{95, 10}, {110, 45}, {180, 62}, {250, 45}, {265, 10}, {265, 89}, {95, 89}}}}
	d.Behind, d.Back = []SkyPoint{{60, 90}, {94.99, 90}, {95.01, 0}, {264.99, 0}, {265.01, 90}, {300, 90}}, "behind the wall"
	return d
}

func box3(x0, y0, x1, y1, base, top float64) []EyeFace {
	v := func(x, y, z float64) r3.Vector { return r3.Vector{X: x * ft, Y: y * ft, Z: z * ft} }
	w := func(ax, ay, bx, by float64) EyeFace {
		return EyeFace{Ring: []r3.Vector{v(ax, ay, base), v(bx, by, base), v(bx, by, top), v(ax, ay, top)}, Kind: model.WallFace}
	}
	return []EyeFace{w(x0, y0, x1, y0), w(x1, y0, x1, y1), w(x1, y1, x0, y1), w(x0, y1, x0, y0)}
}

func demoEye(after bool) EyeView {
	v := func(x, y, z float64) r3.Vector { return r3.Vector{X: x * ft, Y: y * ft, Z: z * ft} }
	d := EyeView{Words: Words{Title: "From the south-west, 21 December, noon", Caption: "Shadows on the ground only."}, From: 215, Height: 28, Sun: model.Toward(0.5, 3.2), Lot: feet(rect(0, 0, 40, 115)), Shadows: shadowsAt(12.5)[3:], Light: shadowsAt(12.5)[:3]}
	d.Faces = box3(8, 38, 30, 66, 0, 17.5)
	d.Faces = append(d.Faces,
		EyeFace{Ring: []r3.Vector{v(8, 38, 17.5), v(8, 52, 28), v(8, 66, 17.5)}, Kind: model.WallFace},
		EyeFace{Ring: []r3.Vector{v(30, 38, 17.5), v(30, 66, 17.5), v(30, 52, 28)}, Kind: model.WallFace},
		EyeFace{Ring: []r3.Vector{v(7, 37, 16.8), v(31, 37, 16.8), v(31, 52, 28), v(7, 52, 28)}, Kind: model.RoofFace},
		EyeFace{Ring: []r3.Vector{v(31, 67, 16.8), v(7, 67, 16.8), v(7, 52, 28), v(31, 52, 28)}, Kind: model.RoofFace})
	for _, w := range [][4]float64{{11, 3, 14, 8}, {24, 3, 27, 8}, {12, 11, 15, 15}, {23, 11, 26, 15}} {
		d.Faces = append(d.Faces, EyeFace{Kind: model.WindowFace, Ring: []r3.Vector{v(w[0], 38.3, w[1]), v(w[2], 38.3, w[1]), v(w[2], 38.3, w[3]), v(w[0], 38.3, w[3])}})
	}
	for _, f := range box3(48, 40, 70, 70, 0, 26) {
		f.Neighbour = true
		d.Faces = append(d.Faces, f)
	}
	d.Faces = append(d.Faces, EyeFace{Neighbour: true, Kind: model.RoofFace, Ring: []r3.Vector{v(48, 40, 26), v(70, 40, 26), v(70, 70, 26), v(48, 70, 26)}})
	for _, t := range demoTrees() {
		e := EyeTree{ID: t.ID, At: t.At, Height: t.SpreadX * 1.3, CrownBase: t.SpreadX * 0.25, SpreadX: t.SpreadX, SpreadY: t.SpreadY, Evergreen: t.Evergreen, Planted: t.Planted, Removed: t.Removed && after}
		if t.Evergreen {
			e.Shape, e.Height = model.Cone, t.SpreadX*2.2
		}
		d.Trees = append(d.Trees, e)
	}
	return d
}

// demoLand is a bank before the house: level behind, 5 ft higher at the street.
func demoLand() model.Ground {
	site := model.Site{House: model.Building{Parts: []model.Part{{Footprint: feet(rect(8, 38, 30, 66)), WallHeight: 5}}}}
	for _, at := range [][3]float64{{0, 0, 5}, {40, 0, 4}, {0, 20, 4}, {40, 20, 3.5}, {0, 30, 0}, {40, 30, 0}, {0, 115, -3}, {40, 115, -2}} {
		site.Terrain.Spots = append(site.Terrain.Spots, model.Spot{At: orb.Point{at[0] * ft, at[1] * ft}, Up: at[2] * ft})
	}
	return site.Ground()
}

func bankPlan() LotPlan {
	d := shadowPlan()
	d.Title, d.Caption = "A bank before the house", "Shadows on the ground between the spot heights."
	d.Land = PlanLand{Ground: demoLand(), Step: ft}
	for _, at := range []PlanSpot{{orb.Point{0, 0}, "+5 ft"}, {orb.Point{40, 0}, "+4 ft"}, {orb.Point{0, 20}, "+4 ft"}, {orb.Point{40, 20}, "+3 ft 6 in"}, {orb.Point{0, 30}, "0"}, {orb.Point{40, 30}, "0"}, {orb.Point{0, 115}, "−3 ft"}, {orb.Point{40, 115}, "−2 ft"}} {
		at.At = orb.Point{at.At[0] * ft, at.At[1] * ft}
		d.Land.Spots = append(d.Land.Spots, at)
	}
	return d
}

func demoBank() EyeView {
	d := demoEye(false)
	d.Title, d.Caption = "From the south-west, a bank before the house", "Thin lines: one height each, 1 ft apart."
	d.Land, d.Step = demoLand(), ft
	for i := range d.Trees {
		d.Trees[i].Ground = d.Land.At(d.Trees[i].At)
	}
	d.Trees[3].Ground += 3 * ft
	d.Trees[4].Ground -= 2 * ft
	return d
}

func demoEyes() Pair {
	a, b := demoEye(false), demoEye(true)
	a.Words, b.Words = Words{Title: "As it is"}, Words{Title: "Front pair out"}
	return Pair{Words: Words{Title: "Before and after from the same eye", Caption: "Dashed: taken out."}, Left: a, Right: b}
}

func demoPlanPair() Pair {
	a, b := demoPlan(), demoPlan()
	a.Words, b.Words = Words{Title: "As it is"}, Words{Title: "Front pair out"}
	a.Trees[0].Removed, a.Trees[1].Removed = false, false
	breaks := Breaks(0, 700, 7)
	a.Breaks, b.Breaks, a.Dimensions, b.Dimensions = breaks, breaks, nil, nil
	a.NoLegend, b.NoLegend = true, true
	return Pair{Words: Words{Title: "Sun on the ground, before and after"}, Left: a, Right: b, Breaks: breaks, Unit: "kWh/m² a year"}
}
