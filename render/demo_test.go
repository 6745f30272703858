package render

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
	"github.com/southyard/southyard/model"
)

// Invented pictures for the tests: a lot on an invented street.

const ft = metresAFoot

func rect(x0, y0, x1, y1 float64) orb.Ring {
	return orb.Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}, {x0, y0}}
}

func feet(r orb.Ring) orb.Ring {
	out := make(orb.Ring, len(r))
	for i, p := range r {
		out[i] = orb.Point{p[0] * ft, p[1] * ft}
	}
	return out
}

func demoTrees() []PlanTree {
	t := func(id string, x, y, w float64) PlanTree {
		return PlanTree{ID: id, At: orb.Point{x * ft, y * ft}, SpreadX: w * ft, SpreadY: w * ft, Owner: model.OwnerLot}
	}
	list := []PlanTree{t("T1", 9, 12, 26), t("T2", 22, 16, 30), t("T3", 34, 11, 24), t("T4", 4, 30, 16), t("T5", 37, 27, 14), t("S1", 20, -12, 34), t("N1", 52, 24, 22), t("P1", 33, 90, 12)}
	list[1].Removed, list[0].Removed = true, true
	list[3].Evergreen, list[4].Evergreen = true, true
	list[5].Owner, list[6].Owner = model.OwnerStreet, model.OwnerNeighbour
	list[7].Planted = true
	return list
}

func sunGrid(x0, y0, cell float64, cols, rows int, f func(x, y float64) float64) *Grid {
	g := &Grid{Origin: orb.Point{x0, y0}, Cell: cell, Cols: cols, Rows: rows}
	for r := range rows {
		for c := range cols {
			g.Values = append(g.Values, f(x0+cell*(float64(c)+0.5), y0+cell*(float64(r)+0.5)))
		}
	}
	return g
}

func demoPlan() LotPlan {
	d := LotPlan{
		Words: Words{Title: "Lot plan, front pair taken out", Caption: "Sun on the ground from October to April, kWh/m². Climate: three nearest stations, blended. Crown base of T4 and T5 assumed from the species table. Invented lot."},
		Lot:   feet(rect(0, 0, 40, 115)),
		Buildings: []PlanBuilding{
			{Name: "house", Kind: House, Walls: []orb.Ring{feet(rect(8, 38, 30, 66)), feet(rect(12, 66, 26, 76))}, Eaves: []orb.Ring{feet(rect(7, 37, 31, 67))}, Ridges: []orb.LineString{{{7 * ft, 52 * ft}, {31 * ft, 52 * ft}}}},
			{Name: "porch", Kind: Porch, Walls: []orb.Ring{feet(rect(10, 32, 28, 38))}},
			{Name: "No. 16", Kind: Neighbour, Walls: []orb.Ring{feet(rect(48, 40, 70, 70))}},
		},
		Fences: []PlanLine{{Name: "board fence", Line: orb.LineString{{40 * ft, 60 * ft}, {40 * ft, 115 * ft}}}},
		Wires:  []PlanLine{{Name: "service drop", Line: orb.LineString{{-8 * ft, -4 * ft}, {8 * ft, 44 * ft}}}},
		Trees:  demoTrees(),
		Points: []PlanPoint{{"porch corner", orb.Point{10 * ft, 32 * ft}}},
		Unit:   "kWh/m²",
		Dimensions: []Dimension{
			{A: orb.Point{0, 115 * ft}, B: orb.Point{40 * ft, 115 * ft}, Off: -10, Text: "40 ft"},
			{A: orb.Point{0, 0}, B: orb.Point{0, 115 * ft}, Off: 10, Text: "115 ft"},
		},
	}
	d.Sun = sunGrid(0, 0, 1*ft, 40, 115, func(x, y float64) float64 {
		v := 640.0
		for _, t := range d.Trees {
			if t.Removed || t.Planted {
				continue
			}
			r := t.SpreadX / 2
			dx, dy := x-t.At[0], y-t.At[1]-2*r
			v -= 260 * math.Exp(-(dx*dx+dy*dy*0.4)/(r*r))
		}
		return v - 200*math.Exp(-math.Pow((y-82*ft)/3, 2))*math.Exp(-math.Pow((x-19*ft)/4, 2))
	})
	return d
}

func circlePoly(x, y, rx, ry float64) orb.Polygon {
	var r orb.Ring
	for i := range 32 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 32)
		r = append(r, orb.Point{x + rx*c, y + ry*s})
	}
	return orb.Polygon{append(r, r[0])}
}

func shadowsAt(hour float64) []orb.Polygon {
	dir := (hour - 12) * 0.9
	var out []orb.Polygon
	for _, t := range demoTrees() {
		out = append(out, circlePoly(t.At[0]+dir*4, t.At[1]+9, t.SpreadX/2, t.SpreadX*0.8))
	}
	return append(out, orb.Polygon{{{8 * ft, 52 * ft}, {30 * ft, 52 * ft}, {30*ft + 4*dir, 52*ft + 12}, {8*ft + 4*dir, 52*ft + 12}, {8 * ft, 52 * ft}}})
}

func shadowPlan() LotPlan {
	d := demoPlan()
	d.Sun = nil
	d.Title, d.Caption = "Shadows, 21 December, noon local standard time", "Trees bare; shadows of crowns drawn whole."
	d.Shadows, d.Light = shadowsAt(12.5)[3:], shadowsAt(12.5)[:3]
	d.Dimensions = nil
	return d
}

func demoFace() FaceMap {
	return FaceMap{
		Words:   Words{Title: "South wall from the yard, trees as they are", Caption: "Sun on the wall in the heating season, October to April. Climate: three nearest stations, blended. Ground albedo 0.2, more in snow months (assumed)."},
		Outline: orb.MultiPolygon{{{{0, 0}, {22 * ft, 0}, {22 * ft, 17.5 * ft}, {11 * ft, 25 * ft}, {0, 17.5 * ft}, {0, 0}}}},
		Left:    "west end", Right: "east end", Unit: "kWh/m²", Ground: -0.4,
		Sun: sunGrid(0, 0, 0.5*ft, 44, 50, func(x, y float64) float64 {
			return 120 + 180*(y/(25*ft)) + 70*math.Sin(x*0.9) - 80*math.Exp(-math.Pow((x-2)/1.2, 2)-math.Pow((y-1.5)/1.5, 2))
		}),
		Edges: []FaceEdge{{orb.Point{22 * ft, 17.5 * ft}, orb.Point{11 * ft, 25 * ft}, "rake"}, {orb.Point{11 * ft, 25 * ft}, orb.Point{0, 17.5 * ft}, "rake"}, {orb.Point{0, 17.5 * ft}, orb.Point{0, 0}, "corner"}},
		Openings: []Opening{
			{ID: "W1", Ring: feet(rect(3, 2.5, 5.67, 7.5))}, {ID: "W2", Ring: feet(rect(16, 2.5, 18.67, 7.5))},
			{ID: "W3", Ring: feet(rect(4, 11, 6, 14.5))}, {ID: "stair", Ring: feet(rect(10, 18, 11.5, 19.5))},
			{ID: "chimney", Ring: feet(rect(14, 18.5, 15, 20)), Solid: true},
		},
		Collectors: []Collector{
			{ID: "A1", Ring: feet(rect(8, 9, 12, 17)), FromLeft: "8 ft 0 in", Up: "9 ft 0 in", Width: "4 ft", Height: "8 ft"},
			{ID: "A2", Ring: feet(rect(16, 9, 20, 17)), FromLeft: "16 ft 0 in", Up: "9 ft 0 in"},
		},
	}
}

func demoAccess() AccessTable {
	d := AccessTable{Words: Words{Title: "Solar access of the south wall by month and hour", Caption: "Energy-weighted, trees as they are. Typical year."}, Clock: "local standard time (UTC−5)"}
	for m := range 12 {
		half := 4.5 + 2.8*(1-math.Cos(2*math.Pi*(float64(m)+0.5)/12))/2
		for h := range 24 {
			d.Share[m][h] = math.NaN()
			if mid := float64(h) + 0.5 - 12.4; math.Abs(mid) < half {
				d.Share[m][h] = max(0, min(1, 0.55+0.3*math.Cos(mid*0.8+float64(m)*0.4)+0.15*math.Sin(float64(m*h))))
			}
		}
	}
	return d
}

func id(prefix string, i int) string { return fmt.Sprintf("%s%d", prefix, i) }

func demoPictures() map[string]Picture {
	return map[string]Picture{
		"plan-sun": demoPlan(), "plan-shadows": shadowPlan(), "face": demoFace(), "access": demoAccess(),
		"removals": demoRemovals(), "budget": demoBudget(), "outlook": demoOutlook(), "tornado": demoTornado(),
		"months": demoMonths(), "heat": demoHeat(), "pair": demoPair(), "plan-pair": demoPlanPair(), "day": demoDay(), "sky": demoSky(),
		"eye": demoEye(false), "eyes": demoEyes(), "bank": demoBank(), "bank-plan": bankPlan(),
	}
}
