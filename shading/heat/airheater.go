package heat

import (
	"fmt"
	"math"
)

// AirHeater is a glazed air collector on a wall: house air in at the bottom,
// warmer air back at the top.
type AirHeater struct {
	ID      string
	Area    float64 // glazed, m²
	Optical float64 // FR(τα)
	Loss    float64 // FR·UL, W/m²·K; belongs to Flow
	B0      float64
	Flow    float64 // L/s a m²
	Fan     float64 // W a m²
	MinRise float64 // K; below this rise the fan stays off
	Sun     Sun
}

// Density and heat capacity of room air at sea level, kg/m³ and J/kg·K.
const (
	roomAirDensity = 1.204
	roomAirHeat    = 1006.0
)

// DefaultAirHeater is a site-built glazed air heater of an area, with the
// figures assumed for it.
func DefaultAirHeater(id string, area float64, s Sun) (AirHeater, []Default) {
	return AirHeater{ID: id, Area: area, Optical: .49, Loss: 2.84, B0: .10, Flow: 10, Fan: 10, MinRise: 5, Sun: s}, []Default{
		{"air heater efficiency", "FR(τα) 0.49, FR·UL 2.84 W/m²·K", "Duffie & Beckman, air collector example, from memory"},
		{"air heater cover by angle", "b0 0.10, one cover", "Duffie & Beckman, from memory"},
		{"air heater air flow", both("2 cfm a ft² (10 L/s a m²)", "10 L/s a m² (2 cfm a ft²)"), commonPractice},
		{"air heater fan", both("1 W a ft² (10 W a m²)", "10 W a m² (1 W a ft²)"), ownAssumption},
		{"air heater fan starts at", both("9 °F (5 K)", "5 °C (9 °F)") + " of warming", commonPractice},
	}
}

// BandDefault is how far above the setpoint an air heater may warm the house,
// K: the small store is the house's own mass.
const BandDefault = 2.0

// Output is the heat a m² of the heater gives in an hour of sun, Wh, before
// asking whether the house wants it. 0 where the air would warm by less than
// MinRise.
func (a AirHeater) Output(beam, diffuse, cosine, room, air float64) float64 {
	taken := a.Optical * (beam*AngleModifier(a.B0, cosine) + diffuse*diffuseModifier(a.B0))
	out := taken - a.Loss*(room-air)
	if out <= 0 || a.Rise(out) < a.MinRise {
		return 0
	}
	return min(out, beam+diffuse)
}

// TakenOfBeam is what the whole heater takes in of 1 Wh/m² of beam, Wh, before
// its losses.
func (a AirHeater) TakenOfBeam(cosine float64) float64 {
	return a.Area * a.Optical * AngleModifier(a.B0, cosine)
}

// TakenOfDiffuse is the same of diffuse light.
func (a AirHeater) TakenOfDiffuse() float64 { return a.Area * a.Optical * diffuseModifier(a.B0) }

// Rise is the warming of the air stream, K, at an output of w W/m².
func (a AirHeater) Rise(w float64) float64 {
	return w / (a.Flow / 1000 * roomAirDensity * roomAirHeat)
}

func (a AirHeater) check() error {
	for _, v := range []float64{a.Area, a.Optical, a.Loss, a.Flow} {
		if !(v > 0) || math.IsInf(v, 0) {
			return fmt.Errorf("air heater %s: area, efficiency, loss and flow must be above 0", a.ID)
		}
	}
	if !(a.Optical <= 1 && a.B0 >= 0 && a.B0 < 1 && a.Fan >= 0 && a.MinRise >= 0) {
		return fmt.Errorf("air heater %s: coefficients out of range", a.ID)
	}
	return a.Sun.check("air heater " + a.ID)
}

// AirHeat is what air heaters do in a year, kWh.
type AirHeat struct {
	Area      float64 `json:"area_m2"`
	Sun       float64 `json:"sun_kwh"`       // on the glass
	Offered   float64 `json:"offered_kwh"`   // could have been given
	Delivered float64 `json:"delivered_kwh"` // given while the house wanted it
	Useful    float64 `json:"useful_kwh"`    // need without less need with
	Fan       float64 `json:"fan_kwh"`
	Hours     float64 `json:"fan_hours"` // of the unit that runs longest
	UsefulBy  Months  `json:"useful_by_month_kwh"`

	needs []float64
}

// Needs is the heat the house still wants in each hour, Wh.
func (a AirHeat) Needs() []float64 { return a.needs }

// AirHeaters runs the units on a house in the given column's condition. They
// give heat only while the house is below the setpoint plus band (K); Useful
// is the difference of two needs and so never more than the need.
func (h House) AirHeaters(c Column, air []float64, units []AirHeater, band float64) (AirHeat, error) {
	if err := checkAir(air); err != nil {
		return AirHeat{}, err
	}
	if !(band >= 0 && band <= 5) {
		return AirHeat{}, fmt.Errorf("band of %g K above the indoor temperature, want 0 to 5", band)
	}
	var out AirHeat
	offered := make([]float64, len(air))
	power := make([]float64, len(air)) // fan Wh if all is taken
	perUnit := make([][]bool, len(units))
	room := h.Setpoint + band/2
	for n, u := range units {
		if err := u.check(); err != nil {
			return AirHeat{}, err
		}
		out.Area += u.Area
		perUnit[n] = make([]bool, len(air))
		for i := range air {
			beam, diffuse := u.Sun.Hour(i)
			out.Sun += (beam + diffuse) * u.Area / 1000
			if w := u.Output(beam, diffuse, u.Sun.Incidence[i], room, air[i]); w > 0 {
				offered[i] += w * u.Area
				power[i] += u.Fan * u.Area
				perUnit[n][i] = true
			}
		}
	}
	with := h.Hourly(c.Conductance.Total, air, c.gains, offered, band)
	hours := make([]float64, len(units))
	for i, take := range with.taken {
		out.Offered += offered[i] / 1000
		out.Delivered += take / 1000
		if take <= 0 {
			continue
		}
		share := take / offered[i] // of the hour
		out.Fan += power[i] * share / 1000
		for n := range units {
			if perUnit[n][i] {
				hours[n] += share
			}
		}
	}
	for _, x := range hours {
		out.Hours = max(out.Hours, x)
	}
	out.Useful, out.needs = c.Hourly.Need-with.Need, with.needs
	for m := range out.UsefulBy {
		out.UsefulBy[m] = c.Hourly.NeedBy[m] - with.NeedBy[m]
	}
	return out, nil
}
