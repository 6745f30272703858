package page

import (
	"encoding/binary"
	"math"
	"slices"
	"time"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun"
)

// Heat is what the page needs to work out heat and money of any set of trees
// by the study's own method: monthly balance for the house, the difference of
// two hourly runs for air heaters, monthly correlation for hot water. Byte lists
// are little-endian 16-bit numbers; Air and Part are 32-bit floats.
type Heat struct {
	Conductance float64     `json:"conductance"` // W/K
	Capacity    float64     `json:"capacity"`    // J/K
	Setpoint    float64     `json:"setpoint"`    // °C
	TooWarm     float64     `json:"tooWarm"`     // °C
	Internal    float64     `json:"internal"`    // W
	MonthAir    [12]float64 `json:"monthAir"`    // °C
	Air         []byte      `json:"air"`         // °C by hour
	House       float64     `json:"house"`       // dollars a kWh of heat to the house
	WaterPrice  float64     `json:"waterPrice"`  // dollars a kWh of heat to hot water
	Power       float64     `json:"power"`       // dollars a kWh of power

	Sets    []byte   `json:"sets"`  // for each set of crossed blockers how many, then which
	Gains   HourSum  `json:"gains"` // Wh indoors through all windows
	Heaters []Heater `json:"heaters"`
	Band    float64  `json:"band"` // K above the setpoint that heaters may warm the house
	Water   *Water   `json:"water"`
	Coil    bool     `json:"coil"` // a duct coil, which the page leaves out
}

// Heater is an air heater.
type Heater struct {
	Area   float64 `json:"area"`   // m²
	Loss   float64 `json:"loss"`   // W/m²·K
	Fan    float64 `json:"fan"`    // W a m²
	Least  float64 `json:"least"`  // W/m² below which the fan stays off
	Intake HourSum `json:"intake"` // Wh taken in by the whole heater, before losses
}

// Water is hot water by the month.
type Water struct {
	Area    float64     `json:"area"` // aperture, m²
	Load    [12]float64 `json:"load"` // kWh
	X       [12]float64 `json:"x"`
	YPerSun [12]float64 `json:"yPerSun"`
	Pump    float64     `json:"pump"` // kWh of power a kWh of heat
	Sun     []Reading   `json:"sun"`  // by month, kWh/m²
}

// HourSum is an energy in every hour that is a sum over what stands before the
// sun and the sky. Energies are in units of Unit; where they are Fine they are
// 32-bit floats, as a threshold needs that they are held against.
type HourSum struct {
	Unit   float64 `json:"unit"`
	Fine   bool    `json:"fine"`
	Hours  []byte  `json:"hours"`  // hours of the year with light
	Ground []byte  `json:"ground"` // in each of them, what nothing shades
	Counts []byte  `json:"counts"` // how many beam terms each has
	Set    []byte  `json:"set"`    // of each beam term
	Beam   []byte  `json:"beam"`   // energy of each beam term
	Skies  []Sky   `json:"skies"`
}

// Sky is the diffuse light on surfaces that face one way.
type Sky struct {
	Dome []byte `json:"dome"` // in each hour with light, before anything stood in the way
	Band []byte `json:"band"`
	Set  []byte `json:"set"`  // sets of blockers before it
	Part []byte `json:"part"` // of each set: shares of Dome and of Band
}

// heatOf takes the heat of a study apart for the page; nil where none was
// studied, or where more sets of trees stand before the sun than it can number.
func heatOf(st *study.Study, t *terms) (*Heat, error) {
	if st.Heat == nil {
		return nil, nil
	}
	parts, err := st.HeatParts()
	if err != nil {
		return nil, err
	}
	h, e := st.Heat.House, st.Heat.Economy
	out := &Heat{Conductance: parts.Conductance, Capacity: h.Capacity, Setpoint: h.Setpoint, TooWarm: h.TooWarm, Internal: h.Internal,
		MonthAir: parts.MonthlyAir, House: e.Worth(1, 0, 0), WaterPrice: e.Worth(0, 1, 0), Power: -e.Worth(0, 0, 1), Band: heat.BandDefault,
		Coil: st.Heat.Coil != nil}
	for _, c := range parts.Air {
		out.Air = binary.LittleEndian.AppendUint32(out.Air, math.Float32bits(float32(c)))
	}
	sets := &crossings{terms: t, known: map[string]uint16{}}
	out.Gains = sets.sum(st.Account, st.Ledger, parts.Windows, false)
	for i, lit := range parts.Heaters {
		u := parts.Units[i]
		out.Heaters = append(out.Heaters, Heater{Area: u.Area, Loss: u.Loss, Fan: u.Fan, Least: u.MinRise / u.Rise(1),
			Intake: sets.sum(parts.Panels, parts.PanelsLedger, []study.Lit{lit}, true)})
	}
	if len(sets.known) > math.MaxUint16 {
		return nil, nil // the page then shows sun and cost only, and says so
	}
	out.Sets = sets.list
	if w := parts.Water; w != nil {
		out.Water = &Water{Area: w.Area, Load: w.Load, X: w.X, YPerSun: w.YPerSun, Pump: w.Pump}
		for _, m := range allMonths() {
			out.Water.Sun = append(out.Water.Sun, t.read(parts.Panels, shading.Demand{Weights: w.Weights, Months: []time.Month{m}}, 0, 0))
		}
	}
	return out, nil
}

// crossings numbers the sets of tree blockers met.
type crossings struct {
	*terms
	known map[string]uint16 // one number serves for two only past the count that heatOf allows
	list  []byte
}

// of is the number of a set, and what those of it that no tick can change let
// through.
func (c *crossings) of(set []uint16, number []int, on []float64) (id uint16, passes float64) {
	passes = 1
	var key []byte
	for _, b := range set {
		if n := number[b]; n >= 0 {
			key = binary.LittleEndian.AppendUint16(key, uint16(n))
		} else {
			passes *= on[b]
		}
	}
	id, ok := c.known[string(key)]
	if !ok {
		id = uint16(len(c.known))
		c.known[string(key)] = id
		c.list = binary.LittleEndian.AppendUint16(c.list, uint16(len(key)/2))
		c.list = append(c.list, key...)
	}
	return id, passes
}

// sum adds up surfaces of one account hour by hour.
func (c *crossings) sum(a *shading.Account, l *shading.YearLedger, lit []study.Lit, fine bool) HourSum {
	out := HourSum{Fine: fine}
	if len(lit) == 0 {
		return out
	}
	number, today := c.number(a), a.Today()
	on := a.On(today, 0) // of what is no tree, the same all year
	beam := make([]map[uint16]float64, sun.HoursAYear)
	ground := make([]float64, sun.HoursAYear)
	most := 0.0
	for h := range beam {
		beam[h] = map[uint16]float64{}
		for _, s := range lit {
			ground[h] += s.Ground[h]
			if s.Beam[h] <= 0 {
				continue
			}
			for _, e := range l.Hour(s.Surface, h) {
				set, passes := c.of(a.Sets[e.Set], number, on)
				beam[h][set] += s.Beam[h] * e.Share * passes
			}
		}
		most = max(most, ground[h])
		for _, e := range beam[h] {
			most = max(most, e)
		}
	}
	groups := facing(lit)
	for _, g := range groups {
		for h := range g[0].Dome {
			most = max(most, g[0].Dome[h], g[0].Band[h])
		}
	}
	if most <= 0 {
		return out
	}
	out.Unit = most / math.MaxUint16
	q := func(to []byte, x float64) []byte {
		if fine {
			return binary.LittleEndian.AppendUint32(to, math.Float32bits(float32(x/out.Unit)))
		}
		return binary.LittleEndian.AppendUint16(to, uint16(math.Round(x/out.Unit)))
	}
	var hours []int
	for h := range beam {
		light := ground[h] > 0
		for _, s := range lit {
			light = light || s.Dome[h] > 0 || s.Band[h] > 0 || s.Beam[h] > 0
		}
		if !light {
			continue
		}
		hours = append(hours, h)
		out.Hours = binary.LittleEndian.AppendUint16(out.Hours, uint16(h))
		out.Ground = q(out.Ground, ground[h])
		var sets []uint16
		for set, e := range beam[h] {
			if fine && e > 0 || e >= out.Unit/2 {
				sets = append(sets, set)
			}
		}
		slices.Sort(sets)
		out.Counts = binary.LittleEndian.AppendUint16(out.Counts, uint16(len(sets)))
		for _, set := range sets {
			out.Set = binary.LittleEndian.AppendUint16(out.Set, set)
			out.Beam = q(out.Beam, beam[h][set])
		}
	}
	for _, g := range groups {
		s := c.sky(a, g, number, on)
		for _, h := range hours {
			s.Dome, s.Band = q(s.Dome, g[0].Dome[h]), q(s.Band, g[0].Band[h])
		}
		out.Skies = append(out.Skies, s)
	}
	return out
}

// facing groups surfaces that face one way: their light differs by a factor.
func facing(lit []study.Lit) [][]study.Lit {
	var out [][]study.Lit
	where := map[r3.Vector]int{}
	for _, s := range lit {
		i, ok := where[s.Normal]
		if !ok {
			i = len(out)
			where[s.Normal] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], s)
	}
	return out
}

// sky is what stands before the sky of surfaces that face one way, in shares
// of the first one's light.
func (c *crossings) sky(a *shading.Account, lit []study.Lit, number []int, on []float64) Sky {
	sums := map[uint16][2]float64{}
	for _, s := range lit {
		if lit[0].Diffuse <= 0 {
			break
		}
		scale := s.Diffuse / lit[0].Diffuse
		for _, t := range a.SkyThrough(s.Surface) {
			set, passes := c.of(a.Sets[t.Set], number, on)
			x := sums[set]
			x[0] += scale * passes * t.Dome
			x[1] += scale * passes * t.Band
			sums[set] = x
		}
	}
	var out Sky
	var sets []uint16
	for set := range sums {
		sets = append(sets, set)
	}
	slices.Sort(sets)
	for _, set := range sets {
		out.Set = binary.LittleEndian.AppendUint16(out.Set, set)
		for _, x := range sums[set] {
			out.Part = binary.LittleEndian.AppendUint32(out.Part, math.Float32bits(float32(x)))
		}
	}
	return out
}
