package heat

import (
	"math"
	"testing"

	"github.com/southyard/southyard/model"
)

// work is a package with a bit of everything: windows freed of shade, two air
// heaters, two panels, and a coil where asked for.
func work(t *testing.T, coil bool) Package {
	t.Helper()
	h, _, s := cottage(t)
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	shaded := Sun{scaled(south.Beam, .3), scaled(south.Diffuse, .7), scaled(south.Ground, .7), south.Incidence}
	p := Package{House: h, Air: air, Cost: 9000,
		From: balance(t, h, Case{"now", s, []Glass{{ID: "W", Area: 9, Sun: shaded}}}, air),
		To:   balance(t, h, Case{"after", s, []Glass{{ID: "W", Area: 9, Sun: south}}}, air)}
	for _, id := range []string{"A", "B"} {
		u, _ := DefaultAirHeater(id, 3, south)
		p.Heaters = append(p.Heaters, u)
	}
	w, sun, _ := roofWater(t, "flat plate", 3)
	if coil {
		w.Coil, _ = CoilFromChoice(model.CoilChoice{}, w.Hot, h.Setpoint)
	}
	p.Water, p.WaterSun, p.PumpUse = &w, sun, .03
	var err error
	if p.Economy, _, err = EconomyFromChoice(model.HeatChoice{Water: model.WaterChoice{Fuel: "propane"}}); err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPackageIsTheSumOfItsParts(t *testing.T) {
	p := work(t, true)
	got, err := measured(p)
	if err != nil {
		t.Fatal(err)
	}
	heaters, err := p.House.AirHeaters(p.To, p.Air, p.Heaters, BandDefault)
	if err != nil {
		t.Fatal(err)
	}
	water, err := p.Water.Heat(p.WaterSun, p.Air, nil)
	if err != nil {
		t.Fatal(err)
	}
	var left Months
	for m, b := range p.To.Months {
		left[m] = max(0, b.Need-heaters.UsefulBy[m])
	}
	coil, err := p.Water.CoilHeat(p.WaterSun, p.Air, heaters.Needs(), left)
	if err != nil {
		t.Fatal(err)
	}
	if !(coil.Useful > 0 && heaters.Useful > 0 && water.Solar > 0) {
		t.Fatalf("coil %g, heaters %g, water %g", coil.Useful, heaters.Useful, water.Solar)
	}
	near(t, "heat", got.Heat, WorthOf(p.From, p.To).Saved+heaters.Useful+water.Solar-coil.WaterLess+coil.Useful, 1e-6)
	near(t, "hot water", got.Water, water.Solar-coil.WaterLess, 1e-6)
	near(t, "power", got.Power, heaters.Fan+.03*water.Solar+coil.Blower+coil.Pump, 1e-6)
}

func TestTornadoOfAPackage(t *testing.T) {
	p := work(t, false)
	used, bars, err := p.Tornado(0)
	if err != nil {
		t.Fatal(err)
	}
	base, _ := measured(p)
	near(t, "the middle", used.Saving, p.Economy.ReturnOn(base).Saving, 1e-9)
	last, by := math.Inf(1), map[string]Bar{}
	for _, b := range bars {
		by[b.Name] = b
		if b.move > last || b.Swing < 0 || !(b.Low < b.Used && b.Used < b.High) || b.Why == "" {
			t.Errorf("%+v after %g", b, last)
		}
		last = b.move
	}
	for _, name := range []string{"fuel price", "price of the water heater's fuel", "house heater's efficiency", "water heater's efficiency", "cost of the work", "sun that trees leave", "mains temperature", "persons", "hot water a person", "heat loss of the shell", "panels' efficiency"} {
		if by[name].Name == "" {
			t.Errorf("nothing is said of the %s", name)
		}
	}
	house, water := base.Heat-base.Water, base.Water
	b := by["fuel price"]
	near(t, "dearer gas", b.AtHigh-used.Saving, .25*house*p.Economy.Fuel.PerKWh(), 1e-9)
	b = by["price of the water heater's fuel"]
	near(t, "dearer propane", b.AtHigh-used.Saving, .25*water*p.Economy.WaterFuel.PerKWh(), 1e-9)
	b = by["cost of the work"]
	near(t, "cost moves no saving", b.Swing, 0, 1e-12)
	near(t, "cost low", b.BackLow.Years, .8*9000/used.Saving, 1e-9)
	near(t, "cost high", b.BackHigh.Years, 1.25*9000/used.Saving, 1e-9)
	for _, rises := range []string{"persons", "hot water a person", "sun on the panels", "sun that trees leave", "panels' efficiency"} {
		if b := by[rises]; !(b.AtLow < used.Saving && used.Saving < b.AtHigh) {
			t.Errorf("%s: %g, %g, %g", rises, b.AtLow, used.Saving, b.AtHigh)
		}
	}
	for _, falls := range []string{"mains temperature", "house heater's efficiency", "water heater's efficiency"} {
		if b := by[falls]; !(b.AtLow > used.Saving && used.Saving > b.AtHigh) {
			t.Errorf("%s: %g, %g, %g", falls, b.AtLow, used.Saving, b.AtHigh)
		}
	}
	// The package itself is untouched.
	if again, _ := measured(p); again != base {
		t.Errorf("%+v after the trials, %+v before", again, base)
	}
}

// Crown transmissivity ±0.10 in leaf and ±0.15 bare and outlines ±5 to 10 % are
// taken as a fifth of the sun where nothing else is said.
func TestSunThatTreesLeaveMayBeOffByAFifthUnlessTold(t *testing.T) {
	p := work(t, false)
	bar := func(sureness float64) Bar {
		_, bars, err := p.Tornado(sureness)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range bars {
			if b.Name == "sun that trees leave" {
				return b
			}
		}
		t.Fatal("nothing is said of the sun that trees leave")
		return Bar{}
	}
	usual := bar(0)
	near(t, "low", usual.Low, .8, 1e-12)
	near(t, "high", usual.High, 1.2, 1e-12)
	if told := bar(.2); usual != told {
		t.Errorf("left out: %+v, told: %+v", usual, told)
	}
	if wide := bar(.4); wide.Low != .6 || !(wide.Swing > usual.Swing) {
		t.Errorf("a doubt twice as wide swings %g, after %g", wide.Swing, usual.Swing)
	}
}

func TestTornadoSaysNothingOfWhatIsNotThere(t *testing.T) {
	p := work(t, false)
	p.Heaters, p.Water, p.From, p.Cost = nil, nil, p.To, 0
	used, bars, err := p.Tornado(0)
	if err != nil || used.Saving != 0 || len(bars) != 0 {
		t.Errorf("%v, %g, %+v", err, used.Saving, bars)
	}
}

func TestWhatADoubtDoesNotMoveNeedsNoWorkingOut(t *testing.T) {
	for _, coil := range []bool{false, true} {
		p := work(t, coil)
		house, err := p.house()
		if err != nil {
			t.Fatal(err)
		}
		solar := p.solar()
		base, _ := p.join(house, solar)
		for _, d := range p.doubts(.2) {
			got, err := p.turned(d, d.Low, house, solar, base)
			if err != nil {
				t.Fatal(err)
			}
			whole := p
			own := *p.Water
			whole.Water = &own
			d.turn(&whole, d.Low)
			m, err := measured(whole)
			if err != nil {
				t.Fatal(err)
			}
			if want := whole.Economy.ReturnOn(m); got != want {
				t.Errorf("coil %t, %s: %+v, worked out anew %+v", coil, d.Name, got, want)
			}
		}
	}
}

// measured works out what the package does in a year.
func measured(p Package) (Measure, error) {
	house, err := p.house()
	if err != nil {
		return Measure{}, err
	}
	return p.join(house, p.solar())
}
