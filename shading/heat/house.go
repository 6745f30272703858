package heat

import (
	"fmt"
	"math"
	"strings"

	"github.com/southyard/southyard/model"
)

// House is what the balance needs to know of a house whatever its condition.
type House struct {
	FloorArea   float64 `json:"floor_area_m2"`
	Volume      float64 `json:"volume_m3"`
	WallArea    float64 `json:"wall_area_m2"`    // opaque outside wall
	CeilingArea float64 `json:"ceiling_area_m2"` // under the attic or roof
	GroundArea  float64 `json:"ground_area_m2"`  // lowest floor
	FloorFactor float64 `json:"floor_factor"`    // share of the indoor-outdoor difference the lowest floor sees
	Setpoint    float64 `json:"setpoint_c"`
	TooWarm     float64 `json:"too_warm_c"`       // windows are opened above this
	Capacity    float64 `json:"capacity_j_per_k"` // internal heat capacity
	Internal    float64 `json:"internal_gain_w"`  // people, lights, cooking
	Elevation   float64 `json:"elevation_m"`      // thins the air
}

// Shell is the house's envelope in one condition, R in m²·K/W.
type Shell struct {
	Name       string  `json:"name"`
	Wall       float64 `json:"wall_r"`
	Ceiling    float64 `json:"ceiling_r"`
	Floor      float64 `json:"floor_r"`
	Window     float64 `json:"window_r,omitempty"` // 0: by glazing
	AirChanges float64 `json:"air_changes_per_hour"`
	Glazing    string  `json:"glazing,omitempty"`    // of every window; empty: each its own
	AddStorms  bool    `json:"add_storms,omitempty"` // a storm before each single window
}

// Dimensions are the sizes of a house taken from its outline.
type Dimensions struct {
	FloorArea, Volume, WallArea, CeilingArea, GroundArea, Elevation float64
}

// Internal heat capacity by class, kJ/K a m² of floor (ISO 13790:2008 Table
// 12, from memory).
var massClasses = []struct {
	name string
	kJ   float64
}{{"very light", 80}, {"light", 110}, {"medium", 165}, {"heavy", 260}, {"very heavy", 370}}

// Capacity of a floor area (m²) in a mass class, J/K.
func Capacity(mass string, floorArea float64) (float64, error) {
	var names []string
	for _, c := range massClasses {
		if c.name == plainName(mass) {
			return c.kJ * 1000 * floorArea, nil
		}
		names = append(names, c.name)
	}
	return 0, fmt.Errorf("thermal mass %q is not known; use one of %s", mass, strings.Join(names, ", "))
}

const cubicMetresPerFoot = 0.3048 * 0.3048 * 0.3048

// FromChoice fills what the site file leaves open and lists what it assumed.
// before is the house as found, after the house after its rehab.
func FromChoice(c model.HeatChoice, d Dimensions) (h House, before, after Shell, assumed []Default, err error) {
	h = House{FloorArea: c.FloorArea, Volume: c.Volume, WallArea: d.WallArea, CeilingArea: d.CeilingArea,
		GroundArea: d.GroundArea, Setpoint: c.Setpoint, Elevation: d.Elevation}
	fill(&h.FloorArea, d.FloorArea, &assumed, "floor area", areas(d.FloorArea), "footprint times storeys")
	volume := d.Volume
	if volume <= 0 {
		volume = h.FloorArea * 2.5
	}
	fill(&h.Volume, volume, &assumed, "volume", volumes(volume), "from the outline")
	fill(&h.Setpoint, 20, &assumed, "indoor temperature", degrees(20), commonPractice)
	h.TooWarm = max(26, h.Setpoint+3)
	assumed = append(assumed,
		Default{"windows are opened above", degrees(h.TooWarm), ownAssumption})
	mass := c.Mass
	if mass == "" {
		mass = "light"
		assumed = append(assumed, Default{"thermal mass", "light (110 kJ/K a m² of floor)", "ISO 13790 Table 12, from memory; the careful class for a wood-frame house"})
	}
	if h.Capacity, err = Capacity(mass, h.FloorArea); err != nil {
		return
	}
	h.Internal = 4 * h.FloorArea
	h.FloorFactor = 0.5
	assumed = append(assumed,
		Default{"heat from people, lights and cooking", "4 W a m² of floor", ownAssumption},
		Default{"the lowest floor sees", "half the indoor-outdoor difference", commonPractice})
	before = shellFrom("as found", c.Before, &assumed, shellDefaults{
		wall: FramedWall(0), wallText: rValue(FramedWall(0), 1) + ", empty 2×4 cavities",
		ceiling: AtticFloor(3 * metresPerInch), ceilingText: rValue(AtticFloor(3*metresPerInch), 0) + ", " + inches(3*metresPerInch) + " of loose fill",
		floor: 4 * RSI, floorText: rValue(4*RSI, 0) + ", bare wood floor",
		air: 1.0, airText: "1.0 an hour, natural"})
	after = shellFrom("after rehab", c.After, &assumed, shellDefaults{
		wall: FramedWall(13 * RSI), wallText: rValue(FramedWall(13*RSI), 0) + ", cavities dense-packed",
		ceiling: AtticFloor(12 * metresPerInch), ceilingText: rValue(AtticFloor(12*metresPerInch), 0) + ", " + inches(12*metresPerInch) + " of blown cellulose",
		floor: before.Floor, floorText: rValue(before.Floor, 0) + ", as before",
		air: 0.5, airText: "0.5 an hour, natural, after sealing"})
	if c.After.Glazing == "" && c.After.Window == 0 {
		after.AddStorms = true
		assumed = append(assumed, Default{"after rehab: windows", "a clear storm on each single window, " + rValue(2*RSI, 1), ashraeMemory})
	}
	return h, before, after, assumed, h.check()
}

type shellDefaults struct {
	wall, ceiling, floor, air                 float64
	wallText, ceilingText, floorText, airText string
}

func shellFrom(name string, e model.Envelope, assumed *[]Default, d shellDefaults) Shell {
	s := Shell{Name: name, Wall: e.Wall, Ceiling: e.Ceiling, Floor: e.Floor, Window: e.Window,
		AirChanges: e.AirChanges, Glazing: e.Glazing}
	switch {
	case s.Wall > 0:
	case e.Cavity == model.EmptyCavity:
		fill(&s.Wall, FramedWall(0), assumed, name+": walls with empty cavities", rValue(FramedWall(0), 1), "parallel path, layers from ASHRAE, from memory")
	case e.Cavity == model.DensePacked:
		fill(&s.Wall, FramedWall(13*RSI), assumed, name+": walls with dense-packed cavities", rValue(FramedWall(13*RSI), 0), "parallel path, layers from ASHRAE, from memory")
	}
	if e.Attic > 0 {
		fill(&s.Ceiling, AtticFloor(e.Attic), assumed, name+": ceiling under "+inches(e.Attic)+" of loose fill", rValue(AtticFloor(e.Attic), 0), "blown cellulose, R 3.7 an inch, from memory")
	}
	fill(&s.Wall, d.wall, assumed, name+": walls", d.wallText, "parallel path, layers from ASHRAE, from memory")
	fill(&s.Ceiling, d.ceiling, assumed, name+": ceiling", d.ceilingText, commonPractice)
	fill(&s.Floor, d.floor, assumed, name+": floor", d.floorText, commonPractice)
	fill(&s.AirChanges, d.air, assumed, name+": air changes", d.airText, commonPractice)
	return s
}

func (h House) check() error {
	for _, f := range []struct {
		name      string
		value     float64
		low, high float64
	}{
		{"floor area", h.FloorArea, 1, 1e5}, {"volume", h.Volume, 1, 1e6}, {"wall area", h.WallArea, 0, 1e5},
		{"ceiling area", h.CeilingArea, 0, 1e5}, {"lowest floor area", h.GroundArea, 0, 1e5},
		{"indoor temperature", h.Setpoint, 5, 35}, {"internal gain", h.Internal, 0, 1e6},
		{"heat capacity", h.Capacity, 1e4, 1e12}, {"opening temperature", h.TooWarm, h.Setpoint, 60},
		{"floor factor", h.FloorFactor, 0, 1}, {"elevation", h.Elevation, -500, 9000},
	} {
		if math.IsNaN(f.value) || f.value < f.low || f.value > f.high {
			return fmt.Errorf("house: %s is %g, want %g to %g", f.name, f.value, f.low, f.high)
		}
	}
	return nil
}

// Conductance is heat lost per degree, W/K, by way out.
type Conductance struct {
	Walls   float64 `json:"walls_w_per_k"`
	Ceiling float64 `json:"ceiling_w_per_k"`
	Floor   float64 `json:"floor_w_per_k"`
	Windows float64 `json:"windows_w_per_k"`
	Air     float64 `json:"air_w_per_k"`
	Total   float64 `json:"total_w_per_k"`
}

// airHeat is the heat capacity of a cubic metre of air at sea level, J/m³·K
// (ISO 13790:2008, 9.3.1: 1200, from memory).
const airHeat = 1200.0

// Conductance of the house in a condition, with these windows.
func (h House) Conductance(s Shell, windows []Glass) (Conductance, error) {
	if !(s.Wall > 0 && s.Ceiling > 0 && s.Floor > 0 && s.AirChanges >= 0) {
		return Conductance{}, fmt.Errorf("%s: R-values must be above 0 and air changes not below 0", s.Name)
	}
	c := Conductance{Walls: h.WallArea / s.Wall, Ceiling: h.CeilingArea / s.Ceiling, Floor: h.FloorFactor * h.GroundArea / s.Floor}
	for _, w := range windows {
		glazing, err := w.glazingIn(s)
		if err != nil {
			return Conductance{}, err
		}
		c.Windows += w.Area / glazing.R
	}
	// ICAO standard atmosphere, density by height.
	thin := math.Pow(1-2.25577e-5*h.Elevation, 4.2559)
	c.Air = airHeat * thin * s.AirChanges * h.Volume / 3600
	c.Total = c.Walls + c.Ceiling + c.Floor + c.Windows + c.Air
	if !(c.Total > 0) {
		return Conductance{}, fmt.Errorf("%s: the house loses no heat; are its areas given?", s.Name)
	}
	return c, nil
}
