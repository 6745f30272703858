package heat

import "testing"

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
