package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// lands are a level lot, one slope, and spots about a house.
func lands() map[string]*Site {
	slope := houseSite()
	slope.Terrain.SlopeRise, slope.Terrain.SlopeUphill = 0.1, s1.Angle(30)*s1.Degree
	return map[string]*Site{
		"level": houseSite(),
		"slope": slope,
		"spots": houseSite(Spot{At: orb.Point{-12, -14}, Up: 1.5}, Spot{At: orb.Point{20, -14}, Up: 1}, Spot{At: orb.Point{20, 25}, Up: -2}, Spot{At: orb.Point{-12, 25}, Up: -1}, Spot{At: orb.Point{4, -8}, Up: 0.2}),
	}
}

func TestPiecesUnderALotCoverItOnceAtTheGroundsHeight(t *testing.T) {
	// An L, so that a piece may be cut in two.
	lot := orb.Ring{{-15, -18}, {24, -18}, {24, 30}, {3, 30}, {3, 16}, {-15, 16}, {-15, -18}}
	const area = 39*48 - 18*14
	for name, site := range lands() {
		g := site.Ground()
		sum := 0.0
		for _, p := range g.Pieces(100) {
			f, ok := p.Under(lot)
			if !ok {
				continue
			}
			sum += f.Area * f.N.Z
			for _, q := range f.Outline[0][0] {
				if at := f.At(q[0], q[1]); math.Abs(at.Z-g.At(flat(at))) > 1e-9 {
					t.Errorf("%s: a piece is at %.4f where the ground is at %.4f", name, at.Z, g.At(flat(at)))
				}
			}
		}
		if math.Abs(sum-area) > 1e-6*area {
			t.Errorf("%s: pieces cover %.4f m² of the lot's %d", name, sum, area)
		}
	}
}

func TestPiecesOfASlopeRiseAsItDoes(t *testing.T) {
	g := lands()["slope"].Ground()
	p := g.Pieces(50)
	if len(p) != 1 || math.Abs(p[0].Tilt().Radians()-math.Atan(0.1)) > 1e-12 || math.Abs(p[0].Azimuth().Degrees()-210) > 1e-9 {
		t.Fatalf("%+v", p)
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		q := orb.Point{40 * r.Float64(), 40 * r.Float64()}
		if math.Abs(p[0].Above(q)-g.At(q)) > 1e-9 {
			t.Errorf("at %v the piece is at %v, the ground at %v", q, p[0].Above(q), g.At(q))
		}
	}
	if g.Level() || !lands()["level"].Ground().Level() {
		t.Error("a slope counts as level, or level ground does not")
	}
}

// The foot of the downhill wall of a house on a slope stands free by rise times
// distance from the middle of the house, where the slope is at 0.
func TestFootingFillsTheGapDownhill(t *testing.T) {
	site := houseSite()
	site.Terrain.SlopeRise, site.Terrain.SlopeUphill = 0.1, 0 // uphill north; the house is 10 m deep
	faces := site.House.Footing(site.Ground())
	area := map[string]float64{}
	for _, f := range faces {
		switch {
		case f.N.Y < -0.9:
			area["south"] = f.Area
		case f.N.X > 0.9:
			area["east"] = f.Area
		case f.N.X < -0.9:
			area["west"] = f.Area
		default:
			t.Errorf("a footing looks toward %v", f.N)
		}
	}
	if len(faces) != 3 || math.Abs(area["south"]-8*0.5) > 1e-9 || math.Abs(area["east"]-5*0.5/2) > 1e-9 || math.Abs(area["west"]-5*0.5/2) > 1e-9 {
		t.Errorf("%v", area)
	}
	if got := lands()["level"].House.Footing(lands()["level"].Ground()); len(got) != 0 {
		t.Errorf("a house on level ground has a footing: %+v", got)
	}
	site.House.Parts[0].Open = true
	if got := site.House.Footing(site.Ground()); len(got) != 0 {
		t.Error("posts have a footing")
	}
}
