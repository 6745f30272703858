package mapfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
)

// round9 rounds degrees to nine decimals, a tenth of a millimetre.
func round9(degrees float64) float64 { return math.Round(degrees*1e9) / 1e9 }

type outGeometry struct {
	Type        string `json:"type"`
	Coordinates any    `json:"coordinates"`
}

type outFeature struct {
	Type       string         `json:"type"`
	Geometry   outGeometry    `json:"geometry"`
	Properties map[string]any `json:"properties"`
}

// GeoJSON writes what stands on a site as a map (RFC 7946): lot, house and
// other buildings part by part, chimneys, fences, wires and trees, with their
// sizes as properties in metres and degrees. Site reads it back to within a
// centimetre. The site's origin is put at the site's latitude and longitude,
// so the map lies as true as these were stated. Notes say what a map does not
// hold. Features stand one on a line; the same site gives the same bytes.
func GeoJSON(site *model.Site) (data []byte, notes []string, err error) {
	x := &exporter{plane: planeAt(site.Place.LatLng), site: site}
	x.lot()
	x.house()
	for _, b := range site.Neighbours {
		x.building("neighbour", b)
	}
	for _, b := range site.Porches {
		kind := "shed"
		for _, p := range b.Parts {
			if p.Open {
				kind = "porch"
			}
		}
		x.building(kind, b)
	}
	x.fences()
	x.wires()
	x.spots()
	for i := range site.Trees {
		x.tree(&site.Trees[i])
	}
	x.left()
	data, err = x.collection()
	return data, x.notes, err
}

type exporter struct {
	plane    plane
	site     *model.Site
	features []outFeature
	notes    []string
}

// collection is the features as text, one on a line.
func (x *exporter) collection() ([]byte, error) {
	var out bytes.Buffer
	out.WriteString("{\"type\": \"FeatureCollection\", \"features\": [\n")
	for i, f := range x.features {
		text, err := json.Marshal(f)
		if err != nil {
			return nil, fmt.Errorf("feature %d cannot be written: %w", i+1, err)
		}
		out.Write(text)
		if i < len(x.features)-1 {
			out.WriteByte(',')
		}
		out.WriteByte('\n')
	}
	out.WriteString("]}\n")
	return out.Bytes(), nil
}

// sloping tells whether heights of zero must be stated, since a site file
// otherwise takes them from the lie of the land.
func (x *exporter) sloping() bool {
	return x.site.Terrain.SlopeRise != 0 || len(x.site.Terrain.Spots) > 0
}

// metres rounds to a tenth of a millimetre, degreesOf to a millionth.
func metres(x float64) float64    { return math.Round(x*1e4) / 1e4 }
func degreesOf(x float64) float64 { return math.Round(x*1e6) / 1e6 }

func (x *exporter) add(kind string, coordinates any, p map[string]any) {
	x.features = append(x.features, outFeature{"Feature", outGeometry{kind, coordinates}, p})
}

func (x *exporter) position(p orb.Point) [2]float64 {
	at := x.plane.lift(p)
	return [2]float64{round9(at.Lng.Degrees()), round9(at.Lat.Degrees())}
}

func (x *exporter) positions(line []orb.Point) [][2]float64 {
	out := make([][2]float64, 0, len(line))
	for _, p := range line {
		out = append(out, x.position(p))
	}
	return out
}

func (x *exporter) polygon(r orb.Ring) [][][2]float64 { return [][][2]float64{x.positions(r)} }

// lot writes the lot line with what is true of the whole site.
func (x *exporter) lot() {
	site := x.site
	if len(site.Lot) < 4 {
		return
	}
	lot := map[string]any{"kind": "lot", "name": site.Name}
	if site.Turn != 0 {
		lot["sketch_up_deg"] = degreesOf(site.Turn.Degrees())
	}
	if !math.IsNaN(site.Place.Elevation) {
		lot["elevation_m"] = metres(site.Place.Elevation)
	}
	if site.Place.Zone != "" {
		if _, err := time.LoadLocation(site.Place.Zone); err == nil {
			lot["time_zone"] = site.Place.Zone
		}
	}
	if t := site.Terrain; t.SlopeRise != 0 {
		lot["slope_percent"], lot["uphill_deg"] = degreesOf(100*t.SlopeRise), degreesOf(t.SlopeUphill.Degrees())
	}
	var skyline [][2]float64
	for _, p := range site.Terrain.Skyline {
		skyline = append(skyline, [2]float64{degreesOf(p.Azimuth.Degrees()), degreesOf(p.Altitude.Degrees())})
	}
	if len(skyline) > 0 {
		lot["skyline"] = skyline
	}
	x.add("Polygon", x.polygon(site.Lot), lot)
}

func (x *exporter) fences() {
	for _, f := range x.site.Fences {
		p := map[string]any{"kind": "fence", "id": f.ID, "height_m": metres(f.Height), "owner": string(f.Owner)}
		if len(f.Feet) == 0 && (f.Base != 0 || x.sloping()) {
			p["base_m"] = metres(f.Base)
		}
		if f.Transmissivity != 0 {
			p["lets_through"] = f.Transmissivity
		}
		x.add("LineString", x.positions(f.Line), p)
	}
}

func (x *exporter) wires() {
	for _, w := range x.site.Wires {
		p := map[string]any{"kind": "wire", "id": w.ID}
		if w.Height > 0 {
			p["height_m"] = metres(w.Height)
		}
		if w.Note != "" {
			p["note"] = w.Note
		}
		x.add("LineString", x.positions(w.Line), p)
	}
}

func (x *exporter) spots() {
	for _, s := range x.site.Terrain.Spots {
		x.add("Point", x.position(s.At), map[string]any{"kind": "spot height", "height_m": metres(s.Up)})
	}
}

// coarse tells whether degrees have three decimals at most.
func coarse(degrees float64) bool {
	return math.Abs(degrees*1000-math.Round(degrees*1000)) < 1e-7
}

// left notes what a map does not hold.
func (x *exporter) left() {
	s := x.site
	var lost []string
	if coarse(s.Place.Latitude()) && coarse(s.Place.Longitude()) {
		x.notes = append(x.notes, "latitude and longitude are stated to three decimals or fewer, so the whole map may lie a hundred metres or more off its true place")
	}
	building := 0
	for _, a := range s.Assumed {
		if !strings.HasPrefix(a.Subject, "tree ") && a.Subject != "site" {
			building++
		}
	}
	if building > 0 {
		x.notes = append(x.notes, fmt.Sprintf("%d values of buildings and windows that nobody measured stand on the map like measured ones; southyard check lists them", building))
	}
	for _, c := range []struct {
		has  bool
		what string
	}{
		{len(s.Plans) > 0, "the plans"}, {len(s.Targets) > 0, "the targets"}, {len(s.Collectors) > 0, "the collectors"},
		{s.Heat != model.HeatChoice{}, "what is said of the house's heat"}, {s.Budget > 0, "the budget"}, {len(s.Season) > 0, "the season"},
		{s.Climate.Station != "" || s.Climate.File != "" || s.Climate.Monthly, "the climate"},
		{len(s.Points) > 0, "the named points"},
	} {
		if c.has {
			lost = append(lost, c.what)
		}
	}
	if len(lost) > 0 {
		x.notes = append(x.notes, "a map does not hold "+strings.Join(lost, ", "))
	}
}
