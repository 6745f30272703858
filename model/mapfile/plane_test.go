package mapfile

import (
	"math"
	"testing"

	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
)

// The length of a degree of latitude on the WGS 84 ellipsoid as published:
// 111132.92 - 559.82 cos 2φ + 1.175 cos 4φ - 0.0023 cos 6φ metres, good to a
// centimetre ("Geographic coordinate system", Wikipedia, section Length of a
// degree, read). Of longitude: 111412.84 cos φ - 93.5 cos 3φ + 0.118 cos 5φ
// (same place, from memory).
// The bound is one millionth: 1 mm in a kilometre.
func TestMetresOfADegreeAgreeWithThePublishedSeries(t *testing.T) {
	for _, lat := range []float64{-34, 0, 15, 30, 41.52, 45, 60, 71} {
		φ := lat * math.Pi / 180
		aLat := 111132.92 - 559.82*math.Cos(2*φ) + 1.175*math.Cos(4*φ) - 0.0023*math.Cos(6*φ)
		aLng := 111412.84*math.Cos(φ) - 93.5*math.Cos(3*φ) + 0.118*math.Cos(5*φ)
		p := planeAt(s2.LatLngFromDegrees(lat, -82.94))
		const step = 0.005
		north, east := p.drop(s2.LatLngFromDegrees(lat+step, -82.94)), p.drop(s2.LatLngFromDegrees(lat, -82.94+step))
		south := p.drop(s2.LatLngFromDegrees(lat-step, -82.94))
		if got := (north[1] - south[1]) / (2 * step); math.Abs(got-aLat) > 0.11 {
			t.Errorf("at %v° a degree of latitude is %.2f m; published %.2f", lat, got, aLat)
		}
		if got := east[0] / step; math.Abs(got-aLng) > 0.11 {
			t.Errorf("at %v° a degree of longitude is %.2f m; published %.2f", lat, got, aLng)
		}
	}
}

func TestPlaneThereAndBackIsFarUnderACentimetre(t *testing.T) {
	for _, origin := range []s2.LatLng{
		s2.LatLngFromDegrees(41.52, -82.94), s2.LatLngFromDegrees(0, 0), s2.LatLngFromDegrees(-37.8, 144.9),
		s2.LatLngFromDegrees(52, 179.9999), s2.LatLngFromDegrees(71, -180),
	} {
		p := planeAt(origin)
		for _, q := range []orb.Point{{0, 0}, {1000, 0}, {0, 1000}, {-707, 707}, {3, -12.345}, {-3000, -3000}} {
			at := p.lift(q)
			back := p.drop(at)
			if off := math.Hypot(back[0]-q[0], back[1]-q[1]); !(off < 1e-6) {
				t.Errorf("%v from %v comes back %g m off", q, origin, off)
			}
			// Written to nine decimals of a degree, as the export does.
			short := s2.LatLngFromDegrees(round9(at.Lat.Degrees()), round9(at.Lng.Degrees()))
			back = p.drop(short)
			if off := math.Hypot(back[0]-q[0], back[1]-q[1]); !(off < 2e-4) {
				t.Errorf("%v from %v comes back %g m off when written out", q, origin, off)
			}
		}
	}
}

// Between two neighbouring planes (the export's about the site's origin, the
// import's about the lot's centre) lengths change by far less than a
// centimetre over a kilometre.
func TestMovingTheOriginKeepsShapes(t *testing.T) {
	a := planeAt(s2.LatLngFromDegrees(41.52, -82.94))
	b := planeAt(a.lift(orb.Point{400, -300}))
	p, q := orb.Point{-500, 10}, orb.Point{480, 333}
	pb, qb := b.drop(a.lift(p)), b.drop(a.lift(q))
	was, is := math.Hypot(q[0]-p[0], q[1]-p[1]), math.Hypot(qb[0]-pb[0], qb[1]-pb[1])
	if math.Abs(was-is) > 1e-4 {
		t.Errorf("1 km grew by %g m", is-was)
	}
}
