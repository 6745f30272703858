package page

import "time"

// Lot is everything the page knows, as it stands in the file. Energies on
// surfaces are kWh/m², those of targets kWh, lengths metres, x east, y north.
type Lot struct {
	Name    string       `json:"name"`
	Place   string       `json:"place"`
	Season  string       `json:"season"` // "Oct–Apr"
	Months  []time.Month `json:"months"`
	Source  string       `json:"source"` // where the weather comes from
	Sky     string       `json:"sky"`
	Assumed int          `json:"assumed"` // values nobody measured
	Feet    bool         `json:"feet"`
	HeatIn  string       `json:"heatIn"` // unit of heat
	Budget  float64      `json:"budget"` // dollars, 0: not stated
	Sun     SunPlace     `json:"sun"`
	Trees   []Tree       `json:"trees"`
	Plan    Plan         `json:"plan"`
	Sets    []Set        `json:"sets"`

	Blockers []Blocker `json:"blockers"`
	DayState []int     `json:"dayState"` // leaf state of every day of the year
	Factors  []byte    `json:"factors"`  // see terms.go
	Index    []byte    `json:"index"`
	Energy   []byte    `json:"energy"`
	Wide     bool      `json:"wide"`   // Index holds 32-bit numbers, not 16-bit
	Narrow   bool      `json:"narrow"` // Factors holds 8-bit numbers, not 16-bit

	Surfaces []Surface `json:"surfaces"`
	Groups   []Group   `json:"groups"`
	Targets  []Target  `json:"targets"`
	Maps     []Map     `json:"maps"`
	Heat     *Heat     `json:"heat"` // null: not studied
}

// SunPlace is what the page needs to find the sun.
type SunPlace struct {
	Latitude  float64 `json:"latitude"`
	Longitude float64 `json:"longitude"`
	Offset    float64 `json:"offset"` // hours, local standard time minus UTC
	Year      int     `json:"year"`   // calendar year of the sun's places
	Terrain   bool    `json:"terrain"`
}

// Tree is one tree that can be ticked in and out.
type Tree struct {
	ID     string     `json:"id"`
	Words  string     `json:"words"` // "silver maple, 47 ft high, 32 ft wide"
	At     [2]float64 `json:"at"`
	Semi   [2]float64 `json:"semi"`
	Twist  float64    `json:"twist"`
	Cost   float64    `json:"cost"`
	Known  bool       `json:"known"` // the cost was stated, not taken from the species table
	Whose  string     `json:"whose"` // empty: the owner's own, free to remove
	Solids []Solid    `json:"solids"`
}

// Solid is a crown or a trunk: at height z an ellipse with semi-axes scaled by
// √(a + b·z + c·z²).
type Solid struct {
	Blocker int        `json:"blocker"`
	At      [2]float64 `json:"at"`
	Semi    [2]float64 `json:"semi"`
	Twist   float64    `json:"twist"`
	Bottom  float64    `json:"bottom"`
	Top     float64    `json:"top"`
	ABC     [3]float64 `json:"abc"`
}

// Plan is what does not change on the plan.
type Plan struct {
	Box       [4]float64   `json:"box"` // west, south, east, north
	Lot       [][2]float64 `json:"lot"`
	Buildings []Building   `json:"buildings"`
	Fences    []Line       `json:"fences"`
	Wires     []Line       `json:"wires"`
}

// Building is a house or shed: its walls on the plan and every face that
// stops the sun.
type Building struct {
	Name  string         `json:"name"`
	Own   bool           `json:"own"`
	Walls [][][2]float64 `json:"walls"`
	Faces [][][3]float64 `json:"faces"`
}

// Line is a fence or a wire.
type Line struct {
	Name  string         `json:"name"`
	Line  [][2]float64   `json:"line"`
	Faces [][][3]float64 `json:"faces,omitempty"`
}

// Set is a named set of trees gone.
type Set struct {
	Name string `json:"name"`
	Gone []int  `json:"gone"`
}

// Blocker is a crown or trunk in the way.
type Blocker struct {
	Tree int       `json:"tree"`
	Tau  []float64 `json:"tau"` // what passes, by leaf state
}

// Reading is a sum over terms: Fixed + Unit · Σ energy · what passes.
type Reading struct {
	Open  float64 `json:"open"`
	Fixed float64 `json:"fixed"`
	Unit  float64 `json:"unit"`
	First int     `json:"first"`
	Count int     `json:"count"`
}

// Surface is a wall, window or roof plane.
type Surface struct {
	ID      string  `json:"id"`
	Words   string  `json:"words"`
	Area    float64 `json:"area"`
	Heating Reading `json:"heating"`
	Rest    Reading `json:"rest"` // the other months
}

// Group is surfaces that are read together, weighted by area.
type Group struct {
	Name    string `json:"name"`
	Members []int  `json:"members"`
}

// Target is what the sun is wanted for.
type Target struct {
	Name   string  `json:"name"`
	Season string  `json:"season"`
	Sun    Reading `json:"sun"`
}

// Map is a face, or the ground, cut into cells; heating season.
type Map struct {
	Name    string         `json:"name"`
	Words   string         `json:"words"`
	Ground  bool           `json:"ground"`
	Wide    float64        `json:"wide"` // of a cell, m
	High    float64        `json:"high"` // of a cell, m
	Outline [][][2]float64 `json:"outline"`
	Glass   []Pane         `json:"glass"`
	Breaks  []float64      `json:"breaks"`
	Colours []string       `json:"colours"`
	Inks    []string       `json:"inks"` // of lettering on each colour
	Cells   []Cell         `json:"cells"`
}

// Pane is a window on its wall.
type Pane struct {
	ID      string       `json:"id"`
	Surface int          `json:"surface"`
	Ring    [][2]float64 `json:"ring"`
}

// Cell is one cell of a map: its lower left corner and how much of it is on
// the face.
type Cell struct {
	At   [2]float64 `json:"at"`
	Area float64    `json:"area"` // m²
	Sun  Reading    `json:"sun"`
}
