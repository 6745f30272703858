package portfolio

import (
	"math"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/shading"
)

// hides tells whether an outline of a sky picture covers a direction, and how
// many degrees its nearest edge is off.
func hides(o render.SkySolid, facing, azimuth, altitude float64) (bool, float64) {
	flat := func(a float64) float64 { return math.Mod(a-facing+540, 360) - 180 }
	var ring orb.Ring
	for _, q := range o.Outline {
		ring = append(ring, orb.Point{flat(q.Azimuth), q.Altitude})
	}
	ring = append(ring, ring[0])
	at := orb.Point{flat(azimuth), altitude}
	return planar.RingContains(ring, at), planar.DistanceFrom(orb.LineString(ring), at)
}

// TestTheSkyPictureHidesWhatTheCasterHides casts a patch of an inch in the
// middle of every south window, in directions all over the half sky: what the
// house itself hides there is what the picture covers with its own eave, its
// own house and the reveal, but for a degree along the edges.
func TestTheSkyPictureHidesWhatTheCasterHides(t *testing.T) {
	for _, example := range []string{"alder-row", "foundry-lane", "prairie-corner"} {
		s := ofExample(t, example)
		compared := 0
		for _, i := range s.tables() {
			surface := s.st.Scene.Surfaces[i]
			if surface.Kind != model.WindowFace {
				continue
			}
			d := s.sky(&surface)
			const inch = 0.0254
			middle := surface.Face.Outline.Bound().Center()
			surface.Face.Outline = orb.MultiPolygon{{orb.Bound{
				Min: orb.Point{middle[0] - inch/2, middle[1] - inch/2}, Max: orb.Point{middle[0] + inch/2, middle[1] + inch/2}}.ToRing()}}
			surface.Face.Area = inch * inch
			scene := *s.st.Scene
			scene.Surfaces = []shading.Surface{surface}
			type place struct{ azimuth, altitude float64 }
			var places []place
			var toward []r3.Vector
			for altitude := 2.5; altitude < 80; altitude += 4.7 {
				for off := -88.0; off <= 88; off += 5.3 {
					azimuth := math.Mod(d.Facing+off+360, 360)
					v := model.Toward(s1.Angle(altitude)*s1.Degree, s1.Angle(azimuth)*s1.Degree)
					if v.Dot(surface.Face.N) < 0.02 {
						continue
					}
					places, toward = append(places, place{azimuth, altitude}), append(toward, v)
				}
			}
			l := scene.Cast([]int{0}, len(toward), func(_, k int) (r3.Vector, bool) { return toward[k], true }, shading.Casting{})
			for k, p := range places {
				seen := 0.0
				for _, e := range l.Surfaces[0].Lines[k] {
					seen += e.Share
				}
				covered, nearest := false, 180.0
				for _, o := range d.Near {
					in, off := hides(o, d.Facing, p.azimuth, p.altitude)
					covered, nearest = covered || in, min(nearest, off)
				}
				if nearest < 1.2 || s.behindOther(d, p.azimuth, p.altitude) {
					continue
				}
				compared++
				if covered != (seen < 0.5) {
					t.Errorf("%s %s: toward azimuth %.0f°, %.1f° up, the caster lets %.0f %% of the sky through; covered in the picture: %v", example, surface.ID, p.azimuth, p.altitude, 100*seen, covered)
				}
			}
		}
		if compared < 1000 {
			t.Errorf("%s: only %d directions compared", example, compared)
		}
		t.Logf("%s: %d directions", example, compared)
	}
}

// behindOther tells whether a building that is no part of the house, or the
// land, stands in a direction: whether the house does too cannot be seen there.
func (s set) behindOther(d render.SkyView, azimuth, altitude float64) bool {
	return slices.ContainsFunc(d.Solids, func(o render.SkySolid) bool {
		in, off := hides(o, d.Facing, azimuth, altitude)
		return in || off < 1.2
	})
}

// TestTheEaveCutsTheWindowsSkyAtTheAngleOfASection takes the figures of the
// example's file: the eave's edge hangs 14 in out and 14 in × 9/12 below the
// wall's 13 ft 6 in, the middle of the glass lies at 4 ft + 30 in, 3 in back.
// Straight ahead that is an altitude of atan(73.5 / 17) = 76.98°; and 45° to
// the side, atan(73.5 cos 45° / 17) = 71.89°.
func TestTheEaveCutsTheWindowsSkyAtTheAngleOfASection(t *testing.T) {
	s := ofExample(t, "alder-row")
	i := s.st.Scene.SurfaceNamed("W2")
	surface := &s.st.Scene.Surfaces[i]
	d := s.sky(surface)
	ahead := math.Mod(math.Atan2(surface.Face.N.X, surface.Face.N.Y)*180/math.Pi+360, 360)
	rise := 13.5*12 - 14*9.0/12 - (4*12 + 30)
	for _, side := range []float64{0, 45} {
		want := math.Atan(rise*math.Cos(side*math.Pi/180)/(14+3)) * 180 / math.Pi
		eave := 90.0
		for altitude := 90.0; altitude > 40; altitude -= 0.02 {
			for _, o := range d.Near {
				if in, _ := hides(o, d.Facing, ahead+side, altitude); in {
					eave = altitude
				}
			}
		}
		if math.Abs(eave-want) > 0.4 { // the picture's edges are chords
			t.Errorf("%g° to the side the eave is drawn down to %.2f°, a section gives %.2f°", side, eave, want)
		}
	}
}
