package sitefile

import (
	"fmt"
	"math"
	"strings"
	"time"
	_ "time/tzdata" // so that a time zone is known on any machine

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
	"go.yaml.in/yaml/v3"

	"github.com/southyard/southyard/model/measure"
)

const placeExample = "place: {latitude: 41.65, longitude: -83.54, elevation: 585 ft, time zone: America/New_York}"

func (r *reader) place(top *object) {
	p := &r.site.Place
	p.Elevation = math.NaN()
	if !top.child(placeExample, func(o *object) {
		lat, okLat := field(o, measure.ParseLatitude, "latitude")
		lng, okLng := field(o, measure.ParseLongitude, "longitude")
		p.LatLng = s2.LatLng{Lat: lat, Lng: lng}
		if !o.has("latitude") {
			o.missing("latitude", "latitude: 41.65 (degrees, north positive)")
		}
		if !o.has("longitude") {
			o.missing("longitude", "longitude: -83.54 (degrees, west of Greenwich negative)")
		}
		asia := okLat && okLng && lat > 15*s1.Degree && lat < 72*s1.Degree && lng > 52*s1.Degree && lng < 130*s1.Degree && r.unit == measure.Feet
		if asia {
			r.warn(o.at("longitude"), fmt.Sprintf("longitude: -%s if it is in North America", o.values["longitude"].node.Value), "this longitude lies in Asia")
		}
		if e, ok := field(o, r.parseLength, "elevation", "altitude"); ok {
			if e < -450 || e > 6000 {
				r.fault(o.at("elevation"), r.sample("elevation: 585 ft"), "nobody builds at %s", r.shown(e))
			} else {
				p.Elevation = e
			}
		}
		if zone, ok := field(o, parseZone, "time zone", "timezone", "zone"); ok {
			p.Zone = zone
			if okLng && !asia {
				r.clocks(r.reading, p.Longitude(), zone)
			}
		}
	}, "place") {
		if !r.faulty["place"] {
			top.missing("place", placeExample)
		}
		return
	}
	if p.Zone == "" {
		p.Zone = zoneByLongitude(p.Longitude())
		r.assume("site", "time zone", p.Zone, "from the longitude")
	}
}

// parseZone reads an IANA time zone name.
func parseZone(s string) (string, error) {
	s = strings.TrimSpace(s)
	if len(s) < 64 && s != "" && s != "Local" {
		if _, err := time.LoadLocation(s); err == nil {
			return s, nil
		}
		if t := strings.ReplaceAll(s, " ", "_"); t != s {
			if _, err := time.LoadLocation(t); err == nil {
				return t, nil
			}
		}
	}
	known := map[string]string{
		"eastern": "America/New_York", "est": "America/New_York", "edt": "America/New_York", "et": "America/New_York",
		"central": "America/Chicago", "cst": "America/Chicago", "cdt": "America/Chicago",
		"mountain": "America/Denver", "mst": "America/Denver", "mdt": "America/Denver",
		"pacific": "America/Los_Angeles", "pst": "America/Los_Angeles", "pdt": "America/Los_Angeles",
	}
	right := "America/New_York, America/Chicago, America/Denver or another name of the IANA list"
	if z, ok := known[strings.ToLower(strings.Fields(s + " ?")[0])]; ok {
		right = z
	}
	return "", &measure.Error{Wrong: fmt.Sprintf("%q is not a time zone", short(s)), Right: right}
}

// zoneByLongitude is the fixed zone whose hours fit a longitude best. The
// IANA names of fixed zones count west of Greenwich as positive.
func zoneByLongitude(longitude float64) string {
	n := int(math.Round(longitude / 15))
	if n == 0 {
		return "Etc/GMT"
	}
	return fmt.Sprintf("Etc/GMT%+d", -n)
}

const climateExample = "climate: nearest, a station's name, {file: hours.csv}, or {sun: [twelve figures], temperature: [twelve figures]}"

func (r *reader) climate(top *object) {
	v, ok := top.get("climate")
	if !ok {
		return
	}
	c := &r.site.Climate
	if v.node.Kind == yaml.ScalarNode {
		switch text := strings.TrimSpace(v.node.Value); {
		case strings.EqualFold(text, "nearest"):
		case strings.HasSuffix(strings.ToLower(text), ".csv"):
			c.File = text
		default:
			c.Station = text
		}
		return
	}
	o, ok := v.object("climate", climateExample)
	if !ok {
		return
	}
	c.Station, c.File = o.text("station"), o.text("file")
	sun, hasSun := o.get("sun")
	temp, hasTemp := o.get("temperature")
	if hasSun {
		if months, ok := r.twelve(sun, func(s string) (float64, error) { return bounded(s, 0, 14, "kWh/m² a day") }); ok {
			c.Global, c.Monthly = months, true
		}
		if !hasTemp {
			o.missing("temperature", "temperature: [twelve mean temperatures, January to December]")
		}
	}
	if hasTemp {
		if months, ok := r.twelve(temp, r.inUnit(measure.ParseTemperature)); ok {
			c.Temp = months
		}
	}
	if d, ok := o.get("diffuse"); ok {
		if months, ok := r.twelve(d, func(s string) (float64, error) { return bounded(s, 0, 8, "kWh/m² a day") }); ok {
			for m := range months {
				if months[m] > c.Global[m] && c.Monthly {
					r.fault(d.spot, "", "%s has more diffuse sun than sun", time.Month(m+1))
				}
			}
			c.Diffuse = &months
		}
	}
	if a, ok := o.get("ground reflects", "albedo"); ok {
		if months, ok := r.twelve(a, measure.ParseShare); ok {
			c.Albedo = &months
		}
	}
	set := 0
	for _, is := range []bool{c.Station != "", c.File != "", hasSun} {
		if is {
			set++
		}
	}
	if set > 1 {
		r.fault(v.spot, climateExample, "a station, a file and monthly figures go one without the other")
	}
	o.finish()
}

func bounded(s string, least, most float64, unit string) (float64, error) {
	x, err := measure.ParseNumber(s)
	if err == nil && (x < least || x > most) {
		err = &measure.Error{Wrong: fmt.Sprintf("%q is out of range", short(s)), Right: fmt.Sprintf("%s to %s %s", measure.Number(least, 0), measure.Number(most, 0), unit)}
	}
	return x, err
}

func (r *reader) twelve(v value, parse func(string) (float64, error)) (out [12]float64, ok bool) {
	items, ok := v.list("twelve monthly figures", "[1.7, 2.6, 3.6, 4.6, 5.6, 6.1, 6.0, 5.2, 4.2, 2.9, 1.8, 1.4]")
	if !ok {
		return out, false
	}
	if len(items) != 12 {
		r.fault(v.spot, "one figure for each month, January to December", "%s here", measure.Count(len(items), "figure"))
		return out, false
	}
	for i, item := range items {
		x, good := read(item, parse)
		out[i], ok = x, ok && good
	}
	return out, ok
}

// months reads a span (Oct to Apr) or a list of months, each once, in order.
func (r *reader) months(v value) []time.Month {
	parts := []value{v}
	if v.node.Kind == yaml.SequenceNode {
		parts, _ = v.list("months", "[Oct, Nov, Dec]")
	}
	var out []time.Month
	seen := map[time.Month]bool{}
	for _, p := range parts {
		months, _ := read(p, measure.ParseMonths)
		for _, m := range months {
			if !seen[m] {
				seen[m] = true
				out = append(out, m)
			}
		}
	}
	return out
}
