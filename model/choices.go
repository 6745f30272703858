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
}

// Envelope is the shell of the house in one condition. R-values are
// m²·K/W; air changes are per hour, natural. Zero: not stated.
type Envelope struct {
	Wall, Ceiling, Floor, Window float64
	AirChanges                   float64
	Glazing                      string
}

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
}
