package model

import (
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
)

// Site is one lot with everything on it that can take or give sun.
type Site struct {
	Name       string
	Place      Place
	Climate    ClimateChoice
	Turn       s1.Angle // how far the sketch was turned clockwise to bring its up to true north
	NorthNote  string   // how north was stated, in the writer's words
	Metric     bool     // the writer's unit: true for metres, false for feet
	Lot        orb.Ring // lot line, counter-clockwise, closed
	House      Building
	Windows    []Window
	Neighbours []Building
	Porches    []Building // open or closed porches, sheds, garages of the lot
	Fences     []Fence
	Trees      []Tree
	Wires      []Wire
	Plans      []Plan
	Points     map[string]orb.Point // named points to measure from
	Targets    []Target
	Season     []time.Month // heating season as stated; empty: from degree-days
	Budget     float64      // dollars; 0: not stated
	Terrain    Terrain
	Heat       HeatChoice
	Collectors []CollectorChoice
	KeepClear  []KeepClear // of walls and roof planes
	Assumed    []Assumption
}

// Place is where the site is on the earth.
type Place struct {
	LatLng    s2.LatLng
	Elevation float64 // metres above sea level; NaN where not stated
	Zone      string  // IANA name, such as America/New_York
}

// Latitude of the place in degrees, north positive.
func (p Place) Latitude() float64 { return p.LatLng.Lat.Degrees() }

// Longitude of the place in degrees, east positive.
func (p Place) Longitude() float64 { return p.LatLng.Lng.Degrees() }

// ClimateChoice says which sky the site asks for. Exactly one of the fields
// is set; all empty means the nearest stations, blended.
type ClimateChoice struct {
	Station string       // a station's name
	File    string       // an hourly file's path, relative to the site file
	Global  [12]float64  // kWh/m² a day, horizontal, when Monthly
	Temp    [12]float64  // °C, when Monthly
	Diffuse *[12]float64 // kWh/m² a day, horizontal; nil: from a correlation
	Monthly bool
	Albedo  *[12]float64 // ground albedo by month; nil: the stated snow rule
}

// Assumption is a value nobody measured: where it belongs, what was taken,
// and from what source.
type Assumption struct {
	Subject string // "tree T3"
	Field   string // "crown base"
	Value   string // as shown to people, "6 ft 7 in"
	Source  string // "species table: silver maple"
}

// Target is a named, weighted mix of surfaces whose sun the user wants.
type Target struct {
	Name   string
	Parts  map[string]float64 // surface id, or "south windows", "south walls", "roof" → weight
	Season []time.Month       // empty: the heating season
}

// Terrain is the lie of the land and the far skyline. The ground is level, one
// slope, or what the spot heights say; see Site.Ground.
type Terrain struct {
	SlopeRise   float64  // rise of the ground per metre; 0 for level ground
	SlopeUphill s1.Angle // azimuth toward which the ground rises
	Spots       []Spot
	Skyline     []SkylinePoint
}

// Spot is the height of the ground at one point.
type Spot struct {
	At orb.Point
	Up float64 // z: above the ground at the house, negative below it
}

// SkylinePoint is one reading of the far skyline. Readings are sorted by
// azimuth; between them the skyline is straight.
type SkylinePoint struct{ Azimuth, Altitude s1.Angle }
