package heat

import (
	"math/rand"
	"testing"
)

// The fan runs while heat is taken, part of an hour where the house wants only
// part of it; and the heater warms air of the middle of the band that the house
// is let into.
func TestFanRunsWhileHeatIsTakenAndRoomAirIsOfTheBandsMiddle(t *testing.T) {
	h, s, _ := cottage(t)
	y := denver(t)
	air, south := airOf(y), plane(y, 90, 180)
	col := balance(t, h, Case{"x", s, []Glass{{ID: "W", Area: 6, Sun: south}}}, air)
	u, _ := DefaultAirHeater("A", 12, south)
	for _, band := range []float64{0, 3} {
		a, err := h.AirHeaters(col, air, []AirHeater{u}, band)
		if err != nil {
			t.Fatal(err)
		}
		if a.Delivered > 0.97*a.Offered {
			t.Fatalf("all but %.0f of %.0f kWh is taken: the house is no test of part hours", a.Offered-a.Delivered, a.Offered)
		}
		near(t, "fan", a.Fan, a.Hours*u.Fan*u.Area/1000, 1e-6*a.Fan)
		offered, running := 0.0, 0.0
		for i := range air {
			beam, diffuse := south.Hour(i)
			if w := u.Output(beam, diffuse, south.Incidence[i], h.Setpoint+band/2, air[i]); w > 0 {
				offered += w * u.Area / 1000
				running++
			}
		}
		near(t, "offered", a.Offered, offered, 1e-6*offered)
		if a.Hours >= running {
			t.Errorf("the fan runs %.0f h of %.0f h with heat to give, though not all is taken", a.Hours, running)
		}
	}
}

// Air outside that is warmer than the room's would heat the stream without any
// sun; what a heater gives is the sun's alone, so never more than fell on it.
func TestAirHeaterGivesNoMoreThanTheSunOnIt(t *testing.T) {
	u, _ := DefaultAirHeater("A", 2, Sun{})
	near(t, "a hot day", u.Output(200, 0, 1, 20, 80), 200, 1e-9) // 0.49 of 200 and 2.84 by 60 K would be 268 W/m²
	near(t, "a winter noon", u.Output(600, 100, 1, 20, 0), .49*(600+100*diffuseModifier(u.B0))-2.84*20, 1e-9)
	random := rand.New(rand.NewSource(8))
	for range 2000 {
		beam, diffuse := 900*random.Float64(), 400*random.Float64()
		if w := u.Output(beam, diffuse, random.Float64(), 20, 120*random.Float64()-40); w < 0 || w > beam+diffuse {
			t.Fatalf("%g W/m² of sun give %g", beam+diffuse, w)
		}
	}
}
