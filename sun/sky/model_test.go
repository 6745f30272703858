package sky

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/r3"

	"github.com/southyard/southyard/sun"
)

// someHours of weather: real courses of the sun, any beam and diffuse, with the
// global they add up to.
func someHours() []sun.Hour {
	random := rand.New(rand.NewPCG(1, 2))
	var hours []sun.Hour
	for _, latitude := range []float64{-90, -43.5, 0, 41.65, 66.6, 90} {
		y := sun.NewYear(latitude, 12, 0, time.Hour, 2025)
		for i := 0; i < sun.HoursAYear; i += 11 {
			h := y.Hours[i]
			h.Albedo = random.Float64()
			if h.Up > 0 {
				h.Beam = h.Up * 1100 * random.Float64() * float64(random.IntN(2))
				h.Diffuse = h.Up * 500 * random.Float64() * float64(random.IntN(3)) / 2
			} else if i%5 == 0 {
				h.Diffuse = 4 // twilight
			}
			h.Global = h.Beam*h.Incidence(r3.Vector{Z: 1}) + h.Diffuse
			hours = append(hours, h)
		}
	}
	return hours
}

func TestHorizontalPlaneReturnsGlobal(t *testing.T) {
	for _, m := range Models() {
		for _, h := range someHours() {
			got := OnPlane(h, r3.Vector{Z: 1}, m).Sum()
			if math.Abs(got-h.Global) > 1e-9*(1+h.Global) {
				t.Fatalf("%s: %g, global %g of %+v", m, got, h.Global, h)
			}
		}
	}
}

func TestPartsAreNeverNegative(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for _, m := range Models() {
		for _, h := range someHours() {
			n := facing(180*random.Float64(), 360*random.Float64())
			p := OnPlane(h, n, m)
			for _, e := range []float64{p.Beam, p.Circumsolar, p.Dome, p.Horizon, p.Ground} {
				if !(e >= 0) || math.IsInf(e, 0) {
					t.Fatalf("%s: %+v from %+v on %v", m, p, h, n)
				}
			}
		}
	}
}

func TestPlaneFacingAwayGetsDiffuseAndGroundOnly(t *testing.T) {
	for _, m := range Models() {
		for _, h := range someHours() {
			if h.Up < 1 {
				continue
			}
			away := h.Sun.Mul(-1)
			p := OnPlane(h, away, m)
			if p.Beam != 0 || p.Circumsolar != 0 {
				t.Fatalf("%s: %+v", m, p)
			}
			near(t, "ground", p.Ground, h.Global*h.Albedo*(1+h.Sun.Z)/2, 1e-9)
		}
	}
}

func TestCeilingSeesOnlyGround(t *testing.T) {
	for _, m := range Models() {
		for _, h := range someHours() {
			p := OnPlane(h, r3.Vector{Z: -1}, m)
			near(t, string(m), p.Sum(), h.Global*h.Albedo, 1e-9*(1+h.Global))
		}
	}
}

// A closed cube with its faces to the four winds: the beam meets the sum of the
// sun's components; the even sky counts as one top and four half walls; the
// ground likewise from below.
func TestClosedBoxAddsUp(t *testing.T) {
	faces := []r3.Vector{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}}
	for _, m := range []Model{Isotropic, HayDavies, Anisotropic} {
		for _, h := range someHours() {
			var box Parts
			for _, n := range faces {
				p := OnPlane(h, n, m)
				box.Beam += p.Beam
				box.Circumsolar += p.Circumsolar
				box.Dome += p.Dome
				box.Horizon += p.Horizon
				box.Ground += p.Ground
			}
			met := 0.0
			for _, s := range h.Steps {
				met += (math.Abs(s.X) + math.Abs(s.Y) + math.Abs(s.Z)) / 4
			}
			near(t, "beam", box.Beam, h.Beam*met, 1e-9*(1+h.Beam))
			near(t, "ground", box.Ground, 3*h.Global*h.Albedo, 1e-9*(1+h.Global))
			if m == Isotropic {
				near(t, "sky", box.Dome, 3*h.Diffuse, 1e-9*(1+h.Diffuse))
				continue
			}
			// what the sun's surroundings give, the even sky lacks
			if height := h.Incidence(r3.Vector{Z: 1}); m == HayDavies && height > 0 {
				top := OnPlane(h, r3.Vector{Z: 1}, m)
				near(t, "circumsolar", box.Circumsolar, top.Circumsolar*met/height, 1e-7*(1+box.Circumsolar))
				near(t, "sky", box.Dome, 3*(h.Diffuse-top.Circumsolar), 1e-9*(1+h.Diffuse))
			}
		}
	}
}

func TestMirroredSunOnMirroredPlane(t *testing.T) {
	for _, m := range Models() {
		for _, h := range someHours() {
			n := facing(60, 25)
			want := OnPlane(h, n, m)
			mirrored := h
			mirrored.Sun.Y = -h.Sun.Y
			for i := range h.Steps {
				mirrored.Steps[i].Y = -h.Steps[i].Y
			}
			n.Y = -n.Y
			near(t, string(m), OnPlane(mirrored, n, m).Sum(), want.Sum(), 1e-9*(1+want.Sum()))
		}
	}
}

func TestWallTowardTheEquatorWinsInEachHemisphere(t *testing.T) {
	for _, latitude := range []float64{-43.5, 43.5} {
		y := sun.NewYear(latitude, 0, 0, 0, 2025)
		north, south := 0.0, 0.0
		for _, h := range y.Hours {
			h.Beam, h.Diffuse, h.Global = ClearSky(h, 0, DefaultLinke)
			north += OnPlane(h, r3.Vector{Y: 1}, Anisotropic).Sum()
			south += OnPlane(h, r3.Vector{Y: -1}, Anisotropic).Sum()
		}
		if (north > south) != (latitude < 0) {
			t.Errorf("%g: north wall %.0f, south wall %.0f", latitude, north, south)
		}
	}
}

func TestOvercastHorizonIsTakenFromTheDome(t *testing.T) {
	// Bin 1, no beam: F2 is −0.051, so the wall's horizon part would be
	// negative; the sum is the published one all the same.
	const degree = math.Pi / 180
	s := r3.Vector{X: math.Sqrt(1 - math.Pow(math.Cos(50*degree), 2) - 0.25), Y: -math.Cos(50 * degree), Z: 0.5}
	h := sun.Hour{Up: 1, Sun: s, Steps: [4]r3.Vector{s, s, s, s}, Extra: 1361, Diffuse: 300, Global: 300}
	p := OnPlane(h, r3.Vector{Y: -1}, Anisotropic)
	if p.Horizon != 0 {
		t.Errorf("horizon %g", p.Horizon)
	}
	near(t, "sum", p.Dome+p.Circumsolar, 178.33, 0.1)
}

func TestSunriseHourIsFinite(t *testing.T) {
	for z := 0.0; z < 0.02; z += 0.0005 {
		up := r3.Vector{Y: -math.Sqrt(1 - z*z), Z: z}
		h := sun.Hour{Up: 0.01, Sun: up, Steps: [4]r3.Vector{up, up, up, up}, Extra: 1361, Beam: 5, Diffuse: 5, Albedo: 0.2}
		h.Global = h.Beam*z + h.Diffuse
		for _, m := range Models() {
			if sum := OnPlane(h, r3.Vector{Y: -1}, m).Sum(); !(sum > 0 && sum < 5+5*12) {
				t.Errorf("%s at %g: %g", m, z, sum)
			}
		}
	}
}

func TestHourWithoutExtraterrestrialSunIsStillANumber(t *testing.T) {
	s := r3.Vector{Y: -0.6, Z: 0.8}
	for _, m := range Models() {
		for _, beam := range []float64{0, 500} {
			h := sun.Hour{Up: 1, Sun: s, Steps: [4]r3.Vector{s, s, s, s}, Beam: beam, Diffuse: 100}
			if sum := OnPlane(h, r3.Vector{Y: -1}, m).Sum(); !(sum > 0 && sum < 1000) {
				t.Errorf("%s: %g", m, sum)
			}
		}
	}
}

func TestModelNames(t *testing.T) {
	for _, m := range Models() {
		if got, err := ParseModel(string(m)); err != nil || got != m {
			t.Errorf("%q: %q, %v", m, got, err)
		}
	}
	if got, err := ParseModel(""); err != nil || got != Anisotropic {
		t.Errorf("%q, %v", got, err)
	}
	if _, err := ParseModel("cloudy"); err == nil || !strings.Contains(err.Error(), "isotropic") {
		t.Errorf("error %v does not say what would be right", err)
	}
}
