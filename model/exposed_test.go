package model

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// randomBuilding has one to four parts that overlap, touch or stand apart.
// Corners lie on a grid often, so that walls and roofs fall together.
func randomBuilding(rng *rand.Rand, overhang bool) Building {
	var b Building
	for range 1 + rng.Intn(4) {
		step := []float64{1, 0.5, 0.01}[rng.Intn(3)]
		snap := func(v float64) float64 { return math.Round(v/step) * step }
		x, y := snap(rng.Float64()*10), snap(rng.Float64()*10)
		w, d := snap(3+rng.Float64()*9), snap(3+rng.Float64()*9)
		p := Part{Footprint: box(x, y, x+w, y+d), WallHeight: 2 + float64(rng.Intn(5))}
		p.Roof = Roof{
			Kind:  []RoofKind{Gable, Hip, Shed, Flat}[rng.Intn(4)],
			Ridge: s1.Angle(rng.Intn(2)) * 90 * s1.Degree,
			Down:  s1.Angle(rng.Intn(4)) * 90 * s1.Degree,
			Pitch: s1.Angle(rng.Intn(10)) * 5 * s1.Degree,
		}
		if p.Roof.Kind != Gable && rng.Intn(2) == 0 { // an L
			cx, cy := x+snap(w*0.4), y+snap(d*0.6)
			p.Footprint = orb.Ring{{x, y}, {x + w, y}, {x + w, cy}, {cx, cy}, {cx, y + d}, {x, y + d}, {x, y}}
		}
		if overhang {
			p.Roof.Overhang = float64(rng.Intn(4)) * 0.2
		}
		if rng.Intn(3) == 0 { // aslant, about its own corner
			p = turned(Building{Parts: []Part{p}}, rng.Float64()*30).Parts[0]
		}
		b.Parts = append(b.Parts, p)
	}
	if rng.Intn(3) == 0 {
		c := b.Parts[0].Footprint[0]
		b.Chimneys = []Chimney{{At: orb.Point{c[0] + 1, c[1] + 1}, Width: 0.5, Depth: 0.4, Top: 15}}
	}
	return b
}

// The outward areas of a closed surface add up to nothing, so the exposed
// faces of a building without overhangs add up to its footprint, upward.
func TestExposedFacesCloseOverTheFootprint(t *testing.T) {
	worst := 0.0
	for seed := range int64(400) {
		b := randomBuilding(rand.New(rand.NewSource(seed)), false)
		faces, err := b.Faces()
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		var sum r3.Vector
		for _, f := range faces {
			sum = sum.Add(f.N.Mul(f.Area))
		}
		off := sum.Sub(r3.Vector{Z: b.FootprintArea()}).Norm()
		worst = max(worst, off)
		if off > 0.02 {
			t.Errorf("seed %d: faces add up to %v, want (0, 0, %.4f)", seed, sum, b.FootprintArea())
		}
	}
	t.Logf("worst gap %.5f m²", worst)
}

// The plain height of a roof at a point, part by part, with no geometry
// shared with the code under test.
func plainRoofHeight(p Part, at orb.Point) float64 {
	foot := tidy(p.Footprint)
	if !inRing(foot, at) {
		return math.Inf(-1)
	}
	m := math.Tan(p.Roof.Pitch.Radians())
	edge := func(i int) float64 {
		a, b, c := edgeLine(foot[i], foot[i+1])
		return c - a*at[0] - b*at[1]
	}
	rise := math.Inf(1)
	switch p.Roof.Kind {
	case Hip:
		// The greatest square about the point, turned with the walls, that
		// fits the footprint: halve the interval sixty times.
		a, b, _ := edgeLine(foot[0], foot[1])
		lo, hi := 0.0, 50.0
		for range 60 {
			if d := (lo + hi) / 2; squareFits(foot, at, orb.Point{a, b}, d) {
				lo = d
			} else {
				hi = d
			}
		}
		rise = lo
	case Gable:
		for i := range len(foot) - 1 {
			a, b, _ := edgeLine(foot[i], foot[i+1])
			sin, cos := math.Sincos(p.Roof.Ridge.Radians())
			if math.Abs(a*sin+b*cos) < 0.5 {
				rise = min(rise, edge(i))
			}
		}
	default:
		sin, cos := math.Sincos(p.Roof.Down.Radians())
		rise = 0
		for _, c := range foot {
			rise = max(rise, (c[0]-at[0])*sin+(c[1]-at[1])*cos)
		}
	}
	return p.Base + p.WallHeight + m*rise
}

func squareFits(foot orb.Ring, at, n orb.Point, d float64) bool {
	const steps = 24
	for i := -steps; i <= steps; i++ {
		s := d * float64(i) / steps
		for _, q := range [][2]float64{{d, s}, {-d, s}, {s, d}, {s, -d}} {
			if !inRing(foot, orb.Point{at[0] + q[0]*n[0] - q[1]*n[1], at[1] + q[0]*n[1] + q[1]*n[0]}) {
				return false
			}
		}
	}
	return true
}

func roofHits(faces []Face, at orb.Point) []float64 {
	var z []float64
	for _, f := range faces {
		if f.Kind != RoofFace {
			continue
		}
		// The point of the plane straight above or below.
		rise := f.Origin.Sub(r3.Vector{X: at[0], Y: at[1]}).Dot(f.N) / f.N.Z
		if inOutline(f.Outline, f.on(r3.Vector{X: at[0], Y: at[1], Z: rise})) {
			z = append(z, rise)
		}
	}
	return z
}

// eachUprightLine visits 40 upright lines through each of 150 random buildings
// without chimneys: the height of the highest part's plain roof there (-Inf
// outside every part) and the roof faces the line meets.
func eachUprightLine(t *testing.T, overhang bool, visit func(seed int64, at orb.Point, plain float64, hits []float64)) {
	t.Helper()
	for seed := range int64(150) {
		rng := rand.New(rand.NewSource(seed))
		b := randomBuilding(rng, overhang)
		b.Chimneys = nil
		faces, err := b.Faces()
		if err != nil {
			t.Fatal(err)
		}
		for range 40 {
			at := orb.Point{rng.Float64()*24 - 2, rng.Float64()*24 - 2}
			plain := math.Inf(-1)
			for _, p := range b.Parts {
				plain = max(plain, plainRoofHeight(p, at))
			}
			visit(seed, at, plain, roofHits(faces, at))
		}
	}
}

func TestUprightLineMeetsOneRoofFaceAtThePlainRoofHeight(t *testing.T) {
	checked, missed := 0, 0
	eachUprightLine(t, false, func(seed int64, at orb.Point, plain float64, hits []float64) {
		if math.IsInf(plain, -1) {
			if len(hits) != 0 {
				t.Errorf("seed %d: a roof without overhang covers %v outside every part", seed, at)
			}
			return
		}
		checked++
		if len(hits) != 1 || math.Abs(hits[0]-plain) > 0.02 {
			missed++
			t.Errorf("seed %d at %v: roofs at %.4f, want one at %.4f", seed, at, hits, plain)
		}
	})
	t.Logf("%d lines, %d off", checked, missed)
}

func TestOverhangsNeverBareTheWalls(t *testing.T) {
	eachUprightLine(t, true, func(seed int64, at orb.Point, plain float64, hits []float64) {
		top := math.Inf(-1)
		for _, z := range hits {
			top = max(top, z)
		}
		if top < plain-0.02 {
			t.Errorf("seed %d at %v: highest roof at %.4f, want at least %.4f", seed, at, top, plain)
		}
	})
}

func census(t *testing.T, b Building, turnedBy float64, mirror bool) map[string]float64 {
	t.Helper()
	faces, err := b.Faces()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]float64{}
	for _, f := range faces {
		az := f.Azimuth().Degrees() - turnedBy
		if f.Tilt() < 1e-6 {
			az = 0
		}
		az = math.Round(az * 10)
		if mirror {
			az = -az
		}
		az = math.Mod(az+7200, 3600) / 10
		out[fmt.Sprintf("%s %.1f° %.1f°", f.Kind, az, f.Tilt().Degrees())] += f.Area
	}
	return out
}

func sameCensus(t *testing.T, what string, got, want map[string]float64) {
	t.Helper()
	for k := range want {
		if math.Abs(got[k]-want[k]) > 0.01 {
			t.Errorf("%s: %s: %.4f m², want %.4f", what, k, got[k], want[k])
		}
	}
	if len(got) != len(want) {
		t.Errorf("%s: faces look %d ways, want %d", what, len(got), len(want))
	}
}

func TestTurnedBuildingHasTheSameFacesTurned(t *testing.T) {
	for seed := range int64(100) {
		b := randomBuilding(rand.New(rand.NewSource(seed)), true)
		want := census(t, b, 0, false)
		for _, turn := range []float64{90, 31, 180} {
			sameCensus(t, fmt.Sprintf("seed %d turned %g°", seed, turn), census(t, turned(b, turn), turn, false), want)
		}
	}
}

func TestMirroredBuildingHasTheSameFacesMirrored(t *testing.T) {
	for seed := range int64(100) {
		b := randomBuilding(rand.New(rand.NewSource(seed)), true)
		want := census(t, b, 0, false)
		m := b
		m.Parts, m.Chimneys = nil, nil
		for _, p := range b.Parts {
			var ring orb.Ring
			for _, c := range p.Footprint {
				ring = append(ring, orb.Point{-c[0], c[1]})
			}
			p.Footprint = ring // clockwise now, which Faces must not mind
			p.Roof.Ridge, p.Roof.Down = -p.Roof.Ridge, -p.Roof.Down
			m.Parts = append(m.Parts, p)
		}
		for _, c := range b.Chimneys {
			c.At[0], c.Twist = -c.At[0], -c.Twist
			m.Chimneys = append(m.Chimneys, c)
		}
		sameCensus(t, fmt.Sprintf("seed %d", seed), census(t, m, 0, true), want)
	}
}

func TestFaceAxesAreRightHanded(t *testing.T) {
	for seed := range int64(50) {
		b := randomBuilding(rand.New(rand.NewSource(seed)), true)
		faces, err := b.Faces()
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range faces {
			if f.U.Cross(f.V).Sub(f.N).Norm() > 1e-9 || math.Abs(f.U.Z) > 1e-12 || f.V.Z < -1e-12 {
				t.Errorf("seed %d %s: U %v V %v N %v", seed, f.ID, f.U, f.V, f.N)
			}
			if min := f.Outline.Bound().Min; math.Abs(min[0]) > 1e-9 || min[1] < -1e-9 {
				t.Errorf("seed %d %s begins at %v, want (0, 0)", seed, f.ID, min)
			}
		}
	}
}
