package model

// HeatChoice is what the site file says about the house's heat. Zero values
// are filled with marked defaults by package heat.
type HeatChoice struct {
	FloorArea   float64 // m²; 0: footprint times storeys
	Volume      float64 // m³
	Setpoint    float64 // °C
	Mass        string  // light, medium, heavy
	Before      Envelope
	After       Envelope
	Fuel        string
	Price       float64 // dollars a fuel unit
	FuelUnit    string
	Efficiency  float64 // 0..1, or a COP
	PriceRise   float64 // a year
	Discount    float64 // a year
	Years       int
	Persons     float64
	GallonsADay float64 // hot water, US gallons a person and day
	Water       WaterChoice

	// A stated 0 is 0, not "not stated".
	PriceKnown, PriceRiseKnown, DiscountKnown, PersonsKnown bool
}

// WaterChoice is how water is heated where the sun does not. Zero: as the
// house is heated.
type WaterChoice struct {
	Fuel       string
	Price      float64 // dollars a fuel unit
	PriceKnown bool
	FuelUnit   string
	Efficiency float64     // 0..1, or a COP
	Tank       float64     // litres that the sun alone heats
	Hot        float64     // °C at which water is delivered
	Coil       *CoilChoice // nil: no coil
}

// CoilChoice is a coil in the duct that gives the house what the solar tank
// has to spare. Zero values are filled with marked defaults.
type CoilChoice struct {
	Conductance float64 // W a K of tank above room
	KeepAbove   float64 // °C; the coil runs while the tank is warmer
	Cost        float64 // dollars, installed
	CostKnown   bool
}

// Envelope is the shell of the house in one condition. R-values are
// m²·K/W; air changes are per hour, natural. Zero: not stated.
type Envelope struct {
	Wall, Ceiling, Floor, Window float64
	AirChanges                   float64
	Glazing                      string
	Cavity                       Cavity  // of a 2×4 wall, in place of Wall
	Attic                        float64 // m of loose fill on the ceiling, in place of Ceiling
}

// Cavity is what the cavities of a framed wall hold.
type Cavity string

// The cavities a builder can tell by a look through a switch box.
const (
	EmptyCavity Cavity = "empty"
	DensePacked Cavity = "dense-packed"
)

// CollectorChoice is a wish for collectors on a wall or roof.
type CollectorChoice struct {
	ID     string
	Kind   string // "air heater", "flat plate", "evacuated tube"
	On     string // wall or roof plane id; empty: the best
	Width  float64
	Height float64
	Count  int
	Cost   float64 // dollars each, installed
	Turned bool    // landscape allowed

	CostKnown bool // a stated 0 is 0

	Certificate *Certificate // of a hot-water panel; nil: average figures of its kind
}

// Certificate is what a hot-water panel's test certificate says (ISO 9806), on
// aperture area.
type Certificate struct {
	Eta0     float64 // efficiency straight on at no temperature rise
	A1       float64 // W/m²·K
	A2       float64 // W/m²·K²
	Aperture float64 // share of the gross area; 0: not stated
}
