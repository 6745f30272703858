package shading

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/testdata"
)

// The exported crowns and trunks are triangles. Every one lies within the true
// solid with its half-widths made outFacets times as large, and holds the true
// solid made inFacets times as large about its middle: TestMeshLiesBetween in
// render/gltf proves both.
const (
	outFacets = 1.00144
	inFacets  = 0.997
)

// sized is a solid wide times as wide and tall times as tall about its middle.
func sized(s model.Solid, wide, tall float64) model.Solid {
	m := (s.Bottom + s.Top) / 2
	o := m * (1 - 1/tall) // the old height of z is o + z/tall
	s.A, s.B, s.C = s.A+s.B*o+s.C*o*o, (s.B+2*s.C*o)/tall, s.C/(tall*tall)
	s.SemiX, s.SemiY = s.SemiX*wide, s.SemiY*wide
	s.Bottom, s.Top = m+(s.Bottom-m)*tall, m+(s.Top-m)*tall
	return s
}

// withSolids is the reference lot with every crown and trunk sized.
func withSolids(t *testing.T, wide, tall float64) *Scene {
	sc := referenceScene(t, 24)
	for i := range sc.Blockers {
		for j, s := range sc.Blockers[i].solids {
			if !s.Empty() {
				sc.Blockers[i].solids[j] = sized(s, wide, tall)
			}
		}
	}
	return sc
}

// found are the shares of testdata/reference-024-kernel.csv, by column.
type found map[string]float64

// sums reads one line of a ledger as the file's columns do.
func (sc *Scene) sums(t *testing.T, sets [][]uint16, line []Entry) found {
	out := found{"free": 0, "opaque": 1, "in_leaf": 0, "bare": 0, "mixed": 0}
	for _, e := range line {
		leaf, bare, mixed := e.Share, e.Share, e.Share
		for _, b := range sets[e.Set] {
			blocker := sc.Blockers[b]
			n, err := strconv.Atoi(strings.TrimPrefix(blocker.Thing, "T"))
			if err != nil {
				t.Fatal(err)
			}
			o := blocker.Optics
			switch {
			case blocker.Kind == Trunk:
				leaf, bare, mixed = 0, 0, 0
			case o.Evergreen:
				leaf, bare, mixed = leaf*o.InLeaf, bare*o.InLeaf, mixed*float64(n%9+1)/10
			default:
				leaf, bare, mixed = leaf*o.InLeaf, bare*o.Bare, mixed*float64(n%9+1)/10
			}
		}
		if len(sets[e.Set]) == 0 {
			out["free"] += e.Share
		}
		if leaf > 0 {
			out["opaque"] -= e.Share
		}
		out["in_leaf"] += leaf
		out["bare"] += bare
		out["mixed"] += mixed
	}
	return out
}

// TestKernelFindsTheCastersShares holds 949 pairs of a sun and a receiver
// against a general ray-tracing kernel that traced the exported triangles
// (testdata/reference-024-kernel.csv says how). No bound is fitted:
//
//   - Triangles for crowns: what the kernel finds must lie between the caster's
//     answers for crowns and trunks a little smaller and a little larger than
//     the triangles.
//   - Points by lot, one a cell: five times the binomial error of the cells an
//     edge runs through, as in TestLedgerAgreesWithPlainRayCaster; and a row of
//     the caster, here a thousandth of the receiver's height.
//   - Of what touches the receiver the caster leaves out the part within 0.1 mm
//     of its plane (README, limits), the kernel does not: an edge along the
//     whole side and one along the whole top are lit that much further. A roof
//     falls outward from a wall's top, less than 45°.
func TestKernelFindsTheCastersShares(t *testing.T) {
	rows, err := testdata.Read("reference-024-kernel.csv")
	if err != nil {
		t.Fatal(err)
	}
	of := map[string][]testdata.Row{}
	for _, r := range rows {
		of[r["receiver"]] = append(of[r["receiver"]], r)
	}
	scene := referenceScene(t, 24)
	larger, smaller := withSolids(t, outFacets, 1), withSolids(t, inFacets, inFacets)
	columns := []string{"free", "opaque", "in_leaf", "bare", "mixed"}
	type difference struct{ squares, worst float64 }
	fine, sixInch := map[string]*difference{}, map[string]*difference{}
	for _, c := range columns {
		fine[c], sixInch[c] = &difference{}, &difference{}
	}
	note := func(d *difference, by float64) {
		d.squares += by * by
		if math.Abs(by) > math.Abs(d.worst) {
			d.worst = by
		}
	}
	const (
		line    = 1e-3 // row of the receiver's height
		leftOut = inFront
	)
	partly := 0
	for id, rows := range of {
		k := scene.SurfaceNamed(id)
		if k < 0 {
			t.Fatalf("no receiver %s", id)
		}
		toSun := func(i int) r3.Vector {
			return model.Toward(s1.Angle(rows[i].Number("altitude_deg"))*s1.Degree, s1.Angle(rows[i].Number("azimuth_deg"))*s1.Degree)
		}
		cast := func(sc *Scene, how Casting) (out []found) {
			l := sc.Cast([]int{k}, len(rows), func(_, i int) (r3.Vector, bool) { return toSun(i), true }, how)
			for _, entries := range l.Surfaces[0].Lines {
				out = append(out, sc.sums(t, l.Sets, entries))
			}
			return out
		}
		thin := Casting{Rows: 1 / line}
		as, low, high, usual := cast(scene, thin), cast(larger, thin), cast(smaller, thin), cast(scene, Casting{})
		face := scene.Surfaces[k].Face
		box := face.Outline.Bound()
		for i, r := range rows {
			s, points := toSun(i), r.Number("points")
			cos := s.Dot(face.N)
			strips := leftOut * (math.Abs(s.Dot(face.U)/cos)*(box.Max[1]-box.Min[1]) + (math.Abs(s.Dot(face.V)/cos)+1)*(box.Max[0]-box.Min[0])) / face.Area
			slack := 5*math.Sqrt(8*math.Sqrt(points)*0.25)/points + line
			for _, c := range columns {
				want := r.Number(c)
				note(fine[c], as[i][c]-want)
				note(sixInch[c], usual[i][c]-want)
				least, most := low[i][c]-slack-strips, high[i][c]+slack
				if c == "opaque" {
					least, most = high[i][c]-slack, low[i][c]+slack+strips
				}
				if want < least || want > most {
					t.Errorf("%s, sun %s° up at %s°, %s: kernel %.4f, caster %.4f, to be within %.4f and %.4f", id, r["altitude_deg"], r["azimuth_deg"], c, want, as[i][c], least, most)
				}
			}
			if v := r.Number("bare"); v > 0.02 && v < 0.98 {
				partly++
			}
		}
	}
	if len(of) != 18 || len(rows) != 949 || partly < len(rows)/2 {
		t.Errorf("%d receivers, %d rows, %d partly shaded", len(of), len(rows), partly)
	}
	for _, c := range columns {
		say := func(d *difference) string {
			return fmt.Sprintf("rms %.4f, worst %+.4f", math.Sqrt(d.squares/float64(len(rows))), d.worst)
		}
		t.Logf("%s: caster less kernel: fine rows %s; six-inch rows, one moment: %s", c, say(fine[c]), say(sixInch[c]))
	}
}
