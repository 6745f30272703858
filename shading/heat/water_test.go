package heat

import (
	"math"
	"testing"

	"github.com/southyard/southyard/model"
)

// roofWater is two 4×8 ft panels on a 37° south roof at Denver.
func roofWater(t testing.TB, kind string, panels float64) (WaterSystem, Sun, []float64) {
	t.Helper()
	y := denver(t)
	w, assumed, err := WaterFromChoice(model.CollectorChoice{Kind: kind}, panels*32*metresPerFoot*metresPerFoot, model.HeatChoice{}, false)
	if err != nil {
		t.Fatal(err)
	}
	if len(assumed) < 8 {
		t.Fatalf("only %d defaults listed", len(assumed))
	}
	return w, plane(y, 37, 180), airOf(y)
}

func TestHotWaterMethodsAgreeAndEveryBalanceCloses(t *testing.T) {
	for _, kind := range []string{"flat plate", "evacuated tube"} {
		for _, panels := range []float64{1, 2, 3} {
			w, sun, air := roofWater(t, kind, panels)
			out, err := w.Heat(sun, air, nil)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%.0f × %s: demand %.0f, EN 15316 %.0f, 1976 correlation %.0f, UK %.0f, our tank %.0f kWh; hottest %.0f °C, idle %.0f h",
				panels, kind, out.Demand, out.Solar, out.Chart, out.Yearly, out.Tank.Useful, out.Tank.Hottest, out.Tank.IdleHours)
			near(t, "tank closes", out.Tank.Residual, 0, 1e-6)
			near(t, "year ends as it starts", out.Tank.Stored, 0, .05)
			if d := (out.Tank.Useful - out.Solar) / out.Solar; math.Abs(d) > .2 {
				t.Errorf("%.0f × %s: the hourly tank differs from the standard by %.0f %%", panels, kind, 100*d)
			}
			for m, b := range out.Months {
				for name, x := range map[string]float64{"standard": b.Solar, "1976": b.Chart, "tank": b.Hourly} {
					// The tank may carry a day's heat over the month's end.
					if x > b.Demand*(1+1e-9) || x > b.Sun+.2*w.Tank*waterWh*60/1000 || x < -1e-9 {
						t.Errorf("%s, month %d: %g of demand %g and sun %g", name, m+1, x, b.Demand, b.Sun)
					}
				}
			}
			if out.Tank.Hottest > w.MaxTank+1e-6 {
				t.Errorf("tank reached %g °C", out.Tank.Hottest)
			}
		}
	}
}

func TestDoublingPanelsNeverDoublesHotWater(t *testing.T) {
	w, sun, air := roofWater(t, "flat plate", 1)
	lastStandard, lastTank := -1.0, -1.0
	for area := w.Area; area < 100; area *= 2 {
		s := w
		s.Area = area
		out, err := s.Heat(sun, air, nil)
		if err != nil {
			t.Fatal(err)
		}
		if lastTank >= 0 {
			if out.Solar >= 2*lastStandard {
				t.Errorf("%.1f m²: standard %g after %g", area, out.Solar, lastStandard)
			}
			if out.Tank.Useful >= 2*lastTank || out.Tank.Useful < lastTank {
				t.Errorf("%.1f m²: tank %g after %g", area, out.Tank.Useful, lastTank)
			}
		}
		lastStandard, lastTank = out.Solar, out.Tank.Useful
	}
}

func TestHotWaterAtTheLimits(t *testing.T) {
	w, sun, air := roofWater(t, "flat plate", 2)
	heat := func(w WaterSystem, s Sun) WaterHeat {
		t.Helper()
		out, err := w.Heat(s, air, nil)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(out.Tank.Residual) > 1e-6 || math.IsNaN(out.Solar+out.Tank.Useful+out.Chart) {
			t.Errorf("residual %g, solar %g, tank %g", out.Tank.Residual, out.Solar, out.Tank.Useful)
		}
		return out
	}
	if out := heat(w, dark()); out.Solar != 0 || out.Tank.Useful != 0 || out.Chart != 0 || out.Yearly != 0 || out.Pump != 0 {
		t.Errorf("no sun: %+v", out)
	}
	tiny := w
	tiny.Area = 1e-4
	if out := heat(tiny, sun); out.Solar > out.Sun || out.Tank.Useful > out.Sun || out.Tank.Useful < -1e-9 {
		t.Errorf("tiny: %+v", out)
	}
	huge := w
	huge.Area, huge.Tank = 2000, 2000*75
	out := heat(huge, sun)
	if out.Solar > out.Demand+1e-6 || out.Tank.Useful > out.Demand+1e-6 || out.Tank.Useful < .95*out.Demand {
		t.Errorf("huge: solar %g, tank %g of %g", out.Solar, out.Tank.Useful, out.Demand)
	}
	none := w
	none.Persons = 0
	if out := heat(none, sun); out.Solar != 0 || out.Share != 0 || out.Demand != 0 {
		t.Errorf("nobody at home: %+v", out)
	}
	none = w
	none.Area = 0
	if out := heat(none, sun); out.Solar != 0 || out.Tank.Useful != 0 {
		t.Errorf("no panels: %+v", out)
	}
	bad := w
	bad.Tank = math.NaN()
	if _, err := bad.Heat(sun, air, nil); err == nil {
		t.Error("a tank that is no number must be refused")
	}
}

func TestCoilGivesTheHouseOnlyWhatItWantsAndTheTankHas(t *testing.T) {
	w, sun, air := roofWater(t, "flat plate", 4)
	h, s, _ := cottage(t)
	col := balance(t, h, Case{"x", s, nil}, air)
	plain, err := w.Heat(sun, air, nil)
	if err != nil {
		t.Fatal(err)
	}
	w.Coil = Coil{Conductance: 300, KeepAbove: 40, Air: 20}
	out, err := w.Heat(sun, air, col.Hourly.Needs())
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("coil: %.0f kWh to the house, tank collects %.0f (%.0f without), hot water %.0f (%.0f)", out.SpaceHeat, out.Tank.Collected, plain.Tank.Collected, out.Tank.Useful, plain.Tank.Useful)
	near(t, "closes", out.Tank.Residual, 0, 1e-6)
	if !(out.SpaceHeat > 0 && out.Tank.Useful <= plain.Tank.Useful && out.SpaceHeat+out.Tank.Useful <= out.Tank.Collected+1) {
		t.Errorf("space %g, water %g, collected %g", out.SpaceHeat, out.Tank.Useful, out.Tank.Collected)
	}
	for i, x := range out.Tank.spaceBy {
		if x < 0 || x > col.Hourly.Needs()[i]+1e-9 {
			t.Fatalf("hour %d: %g Wh of a need of %g", i, x, col.Hourly.Needs()[i])
		}
	}
	// A house that wants nothing gets nothing.
	if out, err := w.Heat(sun, air, make([]float64, 8760)); err != nil || out.SpaceHeat != 0 {
		t.Errorf("%v, %g", err, out.SpaceHeat)
	}
}
