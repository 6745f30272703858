package heat

import (
	"math"
	"math/rand"
	"reflect"
	"testing"

	"github.com/southyard/southyard/model"
)

func TestSystemWithoutACoilAddsNothing(t *testing.T) {
	w, sun, air := roofWater(t, "flat plate", 4)
	need := make([]float64, 8760)
	for i := range need {
		need[i] = 5000
	}
	out, err := w.CoilHeat(sun, air, need, Months{900, 900, 900})
	if err != nil || out != (CoilHeat{}) {
		t.Errorf("%v, %+v", err, out)
	}
	with := w
	with.Coil = Coil{Conductance: 125, KeepAbove: 49, Air: 20, Blower: 150}
	a, _ := w.Heat(sun, air, nil)
	b, _ := with.Heat(sun, air, nil) // no need told: the coil stands still
	if !reflect.DeepEqual(a, b) {
		t.Error("a coil that is never asked changes the hot water")
	}
}

func TestCoilWithoutSurplusGivesNothing(t *testing.T) {
	w, sun, air := roofWater(t, "flat plate", 2)
	w.Coil, _ = CoilFromChoice(model.CoilChoice{}, w.Hot, 20)
	need, left := make([]float64, 8760), Months{}
	for i := range need {
		need[i] = 5000
	}
	for m := range left {
		left[m] = 3000
	}
	thirsty := w
	thirsty.Persons *= 20
	for name, c := range map[string]struct {
		w WaterSystem
		s Sun
	}{"no sun": {w, dark()}, "every drop drawn": {thirsty, sun}} {
		out, err := c.w.CoilHeat(c.s, air, need, left)
		if err != nil || out.Given != 0 || out.Useful != 0 || out.WaterLess != 0 || out.Blower != 0 || out.Pump != 0 {
			t.Errorf("%s: %v, %+v", name, err, out)
		}
	}
}

func TestCoilNeverCountsMoreThanTheHouseHasStillToBuy(t *testing.T) {
	random := rand.New(rand.NewSource(5))
	h, s, _ := cottage(t)
	for n := range 6 {
		w, sun, air := roofWater(t, "flat plate", 1+float64(random.Intn(8)))
		col := balance(t, h, Case{"x", s, nil}, air)
		unit, _ := DefaultAirHeater("A", 6, plane(denver(t), 90, 180))
		heaters, err := h.AirHeaters(col, air, []AirHeater{unit}, BandDefault)
		if err != nil {
			t.Fatal(err)
		}
		w.Coil = Coil{Conductance: 10 + 600*random.Float64(), KeepAbove: 22 + 30*random.Float64(), Air: 20, Blower: 150}
		var left Months
		for m, b := range col.Months {
			left[m] = max(0, b.Need-heaters.UsefulBy[m])
			if n%2 == 1 { // a house with next to nothing to buy
				left[m] *= .02
			}
		}
		out, err := w.CoilHeat(sun, air, heaters.Needs(), left)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%.1f m², coil %.0f W/K above %.0f °C: gives %.0f kWh, %.0f counted, hot water %.0f less", w.Area, w.Coil.Conductance, w.Coil.KeepAbove, out.Given, out.Useful, out.WaterLess)
		run, _ := w.step(sun, air, w.mains(air), heaters.Needs())
		near(t, "closes", run.Residual, 0, 1e-6)
		for i, x := range run.spaceBy {
			if x < 0 || x > heaters.Needs()[i]+1e-9 {
				t.Fatalf("hour %d: %g Wh of a need of %g", i, x, heaters.Needs()[i])
			}
		}
		for m, x := range out.UsefulBy {
			if x < 0 || x > left[m] {
				t.Errorf("month %d: %g of %g kWh", m+1, x, left[m])
			}
		}
		if out.Useful > out.Given+1e-9 || out.WaterLess < 0 || out.Given > run.Collected {
			t.Errorf("%+v", out)
		}
	}
}

// Nobody draws and the house takes all it can: what comes in goes to the coil,
// the room or the store.
func TestWithoutDrawsAllSunGoesToTheHouseAndTheRoom(t *testing.T) {
	w, sun, air := roofWater(t, "flat plate", 4)
	w.Persons = 0
	w.Coil = Coil{Conductance: 200, KeepAbove: 21, Air: 20}
	need := make([]float64, 8760)
	for i := range need {
		need[i] = 1e5
	}
	run, _ := w.step(sun, air, w.mains(air), need)
	// With nobody drawing, what is collected goes to the coil or the room.
	near(t, "collected", run.Collected, run.SpaceHeat+run.Lost+run.Stored, 1e-6)
	// The coil holds the tank near the house: its mean rise is heat/conductance.
	if rise := run.SpaceHeat * 1000 / w.Coil.Conductance / run.CoilHours; !(rise > 1 && rise < 30) {
		t.Errorf("mean rise of the tank above the duct %g K", rise)
	}
}

func TestHotWaterIsPricedAtItsOwnFuel(t *testing.T) {
	e, _, err := EconomyFromChoice(model.HeatChoice{Fuel: "gas", Price: 1.5, FuelUnit: "therm", Efficiency: .8,
		Water: model.WaterChoice{Fuel: "electricity", Price: .16, FuelUnit: "kwh", Efficiency: 1}})
	if err != nil {
		t.Fatal(err)
	}
	r := e.ReturnOn(Measure{Cost: 5000, Heat: 2000, Water: 2000})
	near(t, "saving", r.Saving, 2000*.16, 1e-9)
	near(t, "CO₂", r.CO2, 2000*gridCO2, 1e-9)
	near(t, "a million Btu", r.FuelPerMMBtu, 46.89, .005) // heat.md table: resistance at $.16
	both := e.ReturnOn(Measure{Heat: 3000, Water: 2000})
	near(t, "house and water", both.Saving, 2000*.16+1000*1.5/(29.307*.8), .001)
	// A coil that takes from the water what it gives the house loses money here.
	if r := e.ReturnOn(Measure{Heat: 0, Water: -100}); r.Saving >= 0 || !r.Simple.Never {
		t.Errorf("%+v", r)
	}
}

func TestWaterHeaterIsTheHousesOwnUnlessStated(t *testing.T) {
	for _, c := range []struct {
		name    string
		choice  model.HeatChoice
		fuel    string
		perKWh  float64
		assumed int
	}{
		{"nothing said", model.HeatChoice{Fuel: "oil", Price: 4, FuelUnit: "gallon", Efficiency: .85}, "heating oil", 4 / (138500.0 / BtuPerKWh * .85), 2},
		{"fuel alone", model.HeatChoice{Fuel: "oil", Water: model.WaterChoice{Fuel: "electric"}}, "electricity", .16 / .98, 2},
		{"efficiency alone", model.HeatChoice{Fuel: "gas", Price: 2, FuelUnit: "therm", Efficiency: .9, Water: model.WaterChoice{Efficiency: .6}}, "natural gas", 2 / (1e5 / BtuPerKWh * .6), 1},
		{"same fuel, other unit", model.HeatChoice{Fuel: "gas", Price: 2, FuelUnit: "therm", Efficiency: .9, Water: model.WaterChoice{Fuel: "gas", FuelUnit: "ccf", Efficiency: .9}}, "natural gas", 2 / (1e5 / BtuPerKWh * .9), 0},
		{"free wood", model.HeatChoice{Water: model.WaterChoice{Fuel: "wood", PriceKnown: true, FuelUnit: "cord", Efficiency: .6}}, "wood", 0, 0},
	} {
		house, _, err := FuelFromChoice(c.choice)
		if err != nil {
			t.Fatal(err)
		}
		f, assumed, err := WaterFuelFromChoice(c.choice, house)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if f.Name != c.fuel || math.Abs(f.PerKWh()-c.perKWh) > 1e-9 || len(assumed) != c.assumed {
			t.Errorf("%s: %+v at %g a kWh, %d assumed: %v; want %s at %g, %d assumed", c.name, f, f.PerKWh(), len(assumed), assumed, c.fuel, c.perKWh, c.assumed)
		}
	}
	if _, _, err := WaterFuelFromChoice(model.HeatChoice{Water: model.WaterChoice{Fuel: "propane", FuelUnit: "cord"}}, Fuel{}); err == nil {
		t.Error("propane by the cord was taken")
	}
}

func TestAStatedZeroIsZero(t *testing.T) {
	e, assumed, err := EconomyFromChoice(model.HeatChoice{PriceRiseKnown: true, DiscountKnown: true, PriceKnown: true, FuelUnit: "therm"})
	if err != nil {
		t.Fatal(err)
	}
	if e.Rise != 0 || e.Discount != 0 || e.Fuel.Price != 0 {
		t.Errorf("rise %g, discount %g, price %g; want 0", e.Rise, e.Discount, e.Fuel.Price)
	}
	for _, d := range assumed {
		if d.Name == "fuel price rise" || d.Name == "discount rate" || d.Name == "price of natural gas" {
			t.Errorf("%s is stated and yet marked assumed", d.Name)
		}
	}
	near(t, "20 years without rates", PresentWorthFactor(e.Years, e.Rise, e.Discount), 20, 1e-9)
	r := e.ReturnOn(Measure{Cost: 100, Heat: 1000})
	if r.Saving != 0 || !r.Simple.Never || math.IsNaN(r.Present+r.CostPerMMBtu) {
		t.Errorf("free fuel saves nothing: %+v", r)
	}
	w, _, err := WaterFromChoice(model.CollectorChoice{Kind: "flat plate"}, 6, model.HeatChoice{PersonsKnown: true}, false)
	if err != nil || w.Persons != 0 {
		t.Errorf("%v, %g persons in an empty house", err, w.Persons)
	}
	if e, _, _ := EconomyFromChoice(model.HeatChoice{}); e.Rise != .03 || e.Discount != .05 {
		t.Errorf("not stated: rise %g, discount %g", e.Rise, e.Discount)
	}
}

func TestCertificateTankAndCavitiesTakeThePlaceOfAssumptions(t *testing.T) {
	plain, assumed, err := WaterFromChoice(model.CollectorChoice{Kind: "flat plate"}, 6, model.HeatChoice{}, false)
	if err != nil {
		t.Fatal(err)
	}
	own := model.Certificate{Eta0: .74, A1: 3.9, A2: .011, Aperture: .91}
	stated, fewer, err := WaterFromChoice(model.CollectorChoice{Kind: "flat plate", Certificate: &own}, 6,
		model.HeatChoice{Water: model.WaterChoice{Tank: 300, Hot: 55}}, false)
	if err != nil {
		t.Fatal(err)
	}
	if c := stated.Collector; c.Eta0 != .74 || c.A1 != 3.9 || c.A2 != .011 || math.Abs(stated.Area-6*.91) > 1e-12 || stated.Tank != 300 || stated.Hot != 55 {
		t.Errorf("%+v", stated)
	}
	if len(assumed)-len(fewer) != 4 || plain.Collector.Eta0 == .74 {
		t.Errorf("%d assumed without and %d with certificate, tank and temperature", len(assumed), len(fewer))
	}
	own.Eta0 = 1.2
	if _, _, err := WaterFromChoice(model.CollectorChoice{ID: "C1", Kind: "flat plate", Certificate: &own}, 6, model.HeatChoice{}, false); err == nil {
		t.Error("a panel that gives more than falls was taken")
	}
	_, before, after, _, err := FromChoice(model.HeatChoice{Before: model.Envelope{Cavity: model.DensePacked, Attic: 6 * metresPerInch}, After: model.Envelope{Cavity: model.EmptyCavity, Wall: 2}},
		Dimensions{FloorArea: 100, Volume: 250, WallArea: 120, CeilingArea: 100, GroundArea: 100})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "dense-packed", before.Wall/RSI, 13.05, .005)        // as published, see TestWallsAndWindowsAddUpAsPublished
	near(t, "6 in of loose fill", before.Ceiling/RSI, 23.9, .05) // 1.7 + 6 × 3.7
	near(t, "a stated R-value goes first", after.Wall, 2, 0)
}
