package heat

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
)

// cottage is a small wood-frame house at Denver with defaults filled.
func cottage(t testing.TB) (House, Shell, Shell) {
	t.Helper()
	h, before, after, assumed, err := FromChoice(model.HeatChoice{}, Dimensions{FloorArea: 110, Volume: 275, WallArea: 120, CeilingArea: 75, GroundArea: 75, Elevation: 1650})
	if err != nil {
		t.Fatal(err)
	}
	if len(assumed) < 12 {
		t.Fatalf("only %d defaults listed for an empty choice", len(assumed))
	}
	for _, d := range assumed {
		if d.Name == "" || d.Value == "" || d.Source == "" {
			t.Errorf("default without a name, value or source: %+v", d)
		}
	}
	return h, before, after
}

func dark() Sun {
	z := make([]float64, 8760)
	return Sun{z, z, z, z}
}

func balance(t testing.TB, h House, c Case, air []float64) Column {
	t.Helper()
	col, err := h.Balance(c, air)
	if err != nil {
		t.Fatal(err)
	}
	return col
}

func TestHourlyBalanceClosesAndStaysNearTheMonthly(t *testing.T) {
	h, before, after := cottage(t)
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	for _, c := range []struct {
		name   string
		shell  Shell
		window float64
		mass   string
	}{
		{"as found, light", before, 8, "light"}, {"after rehab, light", after, 8, "light"},
		{"after rehab, medium", after, 8, "medium"}, {"after rehab, heavy, much glass", after, 16, "heavy"},
	} {
		h.Capacity, _ = Capacity(c.mass, h.FloorArea)
		col := balance(t, h, Case{c.name, c.shell, []Glass{{ID: "W", Area: c.window, Sun: south}}}, air)
		r := col.Hourly
		t.Logf("%s: %.0f W/K, τ %.0f h, need %.0f kWh monthly, %.0f hourly (%+.1f %%)", c.name, col.Conductance.Total, col.TimeConstant, col.Need, r.Need, 100*col.HourlyDiffer)
		if math.Abs(r.Residual) > 1e-6 || math.Abs(r.Stored) > 1e-3 {
			t.Errorf("%s: open by %g kWh, stored %g", c.name, r.Residual, r.Stored)
		}
		if math.Abs(col.HourlyDiffer) > .12 {
			t.Errorf("%s: hourly differs by %.1f %%", c.name, 100*col.HourlyDiffer)
		}
		for m, b := range col.Months {
			gain := b.Solar + b.Internal
			if b.Loss > 0 {
				near(t, "month closes", b.Need+b.Share*gain, b.Loss, 1e-9)
			}
			if used := b.Share * gain; used > b.Loss+1e-9 || used > gain+1e-9 || b.Need < 0 || b.Unused < -1e-9 {
				t.Errorf("%s, month %d: %+v", c.name, m+1, b)
			}
		}
		if col.SolarUseful > col.Solar || col.SolarUseful < 0 {
			t.Errorf("useful sun %g of %g", col.SolarUseful, col.Solar)
		}
	}
}

func TestSteadyColdNeedsLossLessGains(t *testing.T) {
	h, s, _ := cottage(t)
	air := make([]float64, 8760)
	for i := range air {
		air[i] = -10
	}
	col := balance(t, h, Case{"cold", s, []Glass{{ID: "W", Area: 2, Sun: dark()}}}, air)
	want := (col.Conductance.Total*30 - h.Internal) * 8760 / 1000
	near(t, "hourly", col.Hourly.Need, want, 1e-6*want)
	near(t, "monthly", col.Need, want, 2e-3*want) // η is 0.998 there
	if col.Solar != 0 || col.SolarUseful != 0 {
		t.Error("no sun must give no heat")
	}
}

func TestMoreInsulationLessNeedAndMoreSunNeverMoreNeed(t *testing.T) {
	h, s, _ := cottage(t)
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	need := func(s Shell, share float64) float64 {
		sun := Sun{scaled(south.Beam, share), scaled(south.Diffuse, share), nil, south.Incidence}
		return balance(t, h, Case{"x", s, []Glass{{ID: "W", Area: 9, Sun: sun}}}, air).Need
	}
	base := need(s, .5)
	for name, change := range map[string]func(*Shell){
		"wall": func(s *Shell) { s.Wall *= 1.5 }, "ceiling": func(s *Shell) { s.Ceiling *= 1.5 }, "floor": func(s *Shell) { s.Floor *= 1.5 },
		"window": func(s *Shell) { s.Window = 3 * RSI }, "air": func(s *Shell) { s.AirChanges *= .8 },
	} {
		better := s
		change(&better)
		if n := need(better, .5); n >= base {
			t.Errorf("better %s needs %g, was %g", name, n, base)
		}
	}
	last := math.Inf(1)
	for share := 0.0; share <= 1; share += .125 {
		n := need(s, share)
		if n > last {
			t.Errorf("more sun needs more heat: %g after %g", n, last)
		}
		last = n
	}
}

func scaled(values []float64, k float64) []float64 {
	out := make([]float64, len(values))
	for i, v := range values {
		out[i] = v * k
	}
	return out
}

func TestWorthIsTheDifferenceOfTwoNeedsAndLessThanTheSunAdded(t *testing.T) {
	h, _, s := cottage(t)
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	shaded := Sun{scaled(south.Beam, .3), scaled(south.Diffuse, .7), scaled(south.Ground, .7), south.Incidence}
	from := balance(t, h, Case{"now", s, []Glass{{ID: "W", Area: 9, Sun: shaded}}}, air)
	to := balance(t, h, Case{"plan", s, []Glass{{ID: "W", Area: 9, Sun: south}}}, air)
	w := WorthOf(from, to)
	near(t, "saved", w.Saved, from.Need-to.Need, 1e-12)
	if !(w.Saved > 0 && w.UsedShare < 1 && w.UsedShare > .2 && w.SummerGain > 0) {
		t.Errorf("%+v", w)
	}
	if back := WorthOf(to, from); back.Saved != -w.Saved || back.UsedShare != 0 {
		t.Errorf("turned about: %+v", back)
	}
}

func economy(t testing.TB) Economy {
	e, _, err := EconomyFromChoice(model.HeatChoice{})
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func TestAirHeatersGiveNoMoreThanNeedNorGain(t *testing.T) {
	h, s, _ := cottage(t)
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	col := balance(t, h, Case{"x", s, []Glass{{ID: "W", Area: 6, Sun: south}}}, air)
	useful := func(area float64, sun Sun, band float64) AirHeat {
		u, _ := DefaultAirHeater("A", area/2, sun)
		a, err := h.AirHeaters(col, air, []AirHeater{u, u}, band)
		if err != nil {
			t.Fatal(err)
		}
		return a
	}
	if a := useful(6, dark(), BandDefault); a.Useful != 0 || a.Fan != 0 || a.Delivered != 0 {
		t.Errorf("without sun: %+v", a)
	}
	last := AirHeat{}
	for _, area := range []float64{.001, 3, 6, 12, 24, 1e5} {
		a := useful(area, south, BandDefault)
		t.Logf("%g m²: sun %.0f, offered %.0f, delivered %.0f, useful %.0f kWh of a need of %.0f, fan %.0f kWh in %.0f h", area, a.Sun, a.Offered, a.Delivered, a.Useful, col.Hourly.Need, a.Fan, a.Hours)
		if a.Useful > a.Delivered+1e-9 || a.Delivered > a.Offered || a.Offered > a.Sun || a.Useful > col.Hourly.Need || a.Useful < 0 {
			t.Errorf("%g m²: %+v", area, a)
		}
		if a.Useful < last.Useful-1e-9 {
			t.Errorf("%g m² gives less than %g m²", area, last.Area)
		}
		if last.Area > 0 && a.Useful/a.Area > last.Useful/last.Area*(1+1e-9) {
			t.Errorf("%g m² gives more per m² than %g m²", area, last.Area)
		}
		for m, u := range a.UsefulBy {
			if u > col.Hourly.NeedBy[m]+1e-9 {
				t.Errorf("month %d: useful %g of need %g", m+1, u, col.Hourly.NeedBy[m])
			}
		}
		last = a
	}
	if with, without := useful(12, south, 2), useful(12, south, 0); with.Useful < without.Useful {
		t.Error("a store must not lose heat")
	}
	// Hour by hour: never more than brings the house to its upper limit.
	u, _ := DefaultAirHeater("A", 1e4, south)
	offered := make([]float64, 8760)
	for i := range offered {
		b, d := u.Sun.Hour(i)
		offered[i] = 1e4 * u.Output(b, d, u.Sun.Incidence[i], 21, air[i])
	}
	r := h.Hourly(col.Conductance.Total, air, col.HourlyGains(), offered, 2)
	near(t, "closes", r.Residual, 0, 1e-6)
	for i, at := range r.starts {
		if i > 0 && r.taken[i-1] > 0 && at > h.Setpoint+2+1e-9 {
			t.Fatalf("hour %d: the heater left the house at %g °C", i, at)
		}
	}
}

func TestBadInputsAreErrorsNotPanics(t *testing.T) {
	h, s, _ := cottage(t)
	air := make([]float64, 8760)
	nan := make([]float64, 8760)
	nan[7] = math.NaN()
	for name, c := range map[string]struct {
		glass Glass
		air   []float64
		want  string
	}{
		"short":     {Glass{ID: "W1", Area: 1, Sun: Sun{Beam: []float64{1}}}, air, "8760"},
		"nan":       {Glass{ID: "W1", Area: 1, Sun: Sun{nan, nan, nan, nan}}, air, "hour 7"},
		"no area":   {Glass{ID: "W1", Sun: dark()}, air, "area"},
		"glazing":   {Glass{ID: "W1", Area: 1, Glazing: "triple gold", Sun: dark()}, air, "triple gold"},
		"no air":    {Glass{ID: "W1", Area: 1, Sun: dark()}, nil, "air temperature"},
		"bad air":   {Glass{ID: "W1", Area: 1, Sun: dark()}, nan, "hour 7"},
		"all frame": {Glass{ID: "W1", Area: 1, Frame: 1, Sun: dark()}, air, "frame"},
	} {
		if _, err := h.Balance(Case{"x", s, []Glass{c.glass}}, c.air); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want it to say %q", name, err, c.want)
		}
	}
	if _, _, _, _, err := FromChoice(model.HeatChoice{Mass: "feather"}, Dimensions{FloorArea: 50}); err == nil || !strings.Contains(err.Error(), "medium") {
		t.Errorf("unknown mass: %v", err)
	}
	if _, err := h.Balance(Case{Name: "bare"}, air); err == nil {
		t.Error("a shell without R-values must be refused")
	}
}

func TestRandomHousesCloseTheirBalance(t *testing.T) {
	random := rand.New(rand.NewSource(5))
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	for n := 0; n < 12; n++ {
		h, s, _ := cottage(t)
		h.Capacity *= math.Exp(2 * random.NormFloat64())
		h.Internal *= random.Float64() * 4
		s.AirChanges = random.Float64() * 3
		s.Wall *= math.Exp(random.NormFloat64())
		col := balance(t, h, Case{"x", s, []Glass{{ID: "W", Area: 1 + 30*random.Float64(), Sun: south}}}, air)
		if math.Abs(col.Hourly.Residual) > 1e-6 || math.IsNaN(col.Need) || col.Need < 0 {
			t.Errorf("house %d: residual %g, need %g", n, col.Hourly.Residual, col.Need)
		}
	}
}

// The figure for people, lights and cooking is the one that is listed as assumed.
// It lies between two published ones, both from memory: 2.1 W/m² of the passive
// house method, and for this floor and three bedrooms 6.5 W/m² by the sum of
// 17,900 + 23.8 Btu a ft² + 4,104 Btu a bedroom a day of the American code for
// rating homes.
func TestInternalGainIsTheOneAssumed(t *testing.T) {
	h, _, _ := cottage(t)
	near(t, "4 W a m²", h.Internal/h.FloorArea, 4, 1e-12)
	sqft := h.FloorArea / (metresPerFoot * metresPerFoot)
	rated := (17900 + 23.8*sqft + 4104*3) / BtuPerKWh * 1000 / 24 / h.FloorArea
	if got := h.Internal / h.FloorArea; got < 2.1 || got > rated {
		t.Errorf("%.2f W/m², published ones are 2.1 and %.1f", got, rated)
	}
	_, _, _, assumed, err := FromChoice(model.HeatChoice{}, Dimensions{FloorArea: 110, Volume: 275, WallArea: 120, CeilingArea: 75, GroundArea: 75})
	if err != nil {
		t.Fatal(err)
	}
	said := 0.0
	for _, d := range assumed {
		if d.Name == "heat from people, lights and cooking" {
			if _, err := fmt.Sscanf(d.Value, "%g W a m² of floor", &said); err != nil {
				t.Errorf("%q: %v", d.Value, err)
			}
		}
	}
	near(t, "as it is told", said, h.Internal/h.FloorArea, 1e-12)
}
