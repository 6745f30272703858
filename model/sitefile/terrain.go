package sitefile

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

func (r *reader) terrain(top *object) {
	top.child("terrain: {slope: 1/20, uphill: north}", func(o *object) {
		t := &r.site.Terrain
		slope, hasSlope := field(o, parseSlope, "slope")
		uphill, hasUphill := r.bearing(o, "uphill")
		if hasSlope && (slope < 0 || slope > 1) {
			r.fault(o.at("slope"), "a slope from flat to 1/1, with the uphill side stated", "%q is no slope of a lot", short(o.values["slope"].node.Value))
		} else if hasSlope {
			t.SlopeRise, t.SlopeUphill = slope, uphill
		}
		if hasSlope && slope > 0 && !hasUphill {
			o.missing("uphill", "uphill: north")
		}
		r.spots, r.hasSpots = o.get("spots", "spot heights")
		o.each("- {bearing: S 30° E, altitude: 4°}", func(_ int, item *object) {
			if item == nil {
				return
			}
			azimuth, okA := r.bearing(item, "bearing")
			altitude, okB := field(item, measure.ParseAngle, "altitude", "up")
			if okA && okB {
				t.Skyline = append(t.Skyline, model.SkylinePoint{Azimuth: azimuth, Altitude: altitude})
				return
			}
			for _, key := range []string{"bearing", "altitude"} {
				if !item.has(key) {
					item.missing(key, "{bearing: S 30° E, altitude: 4°}")
				}
			}
		}, "skyline")
		sort.SliceStable(t.Skyline, func(i, j int) bool { return t.Skyline[i].Azimuth < t.Skyline[j].Azimuth })
	}, "terrain")
}

func parseSlope(s string) (float64, error) {
	if strings.Contains(s, "/") || strings.Contains(s, ":") {
		a, err := measure.ParsePitch(s)
		return math.Tan(a.Radians()), err
	}
	a, err := measure.ParseAngle(s)
	if err == nil && !strings.ContainsAny(s, "%°d") {
		err = &measure.Error{Wrong: fmt.Sprintf("%q could be percent or degrees", short(s)), Right: "5 %, 3° or 1/20"}
	}
	return math.Tan(a.Radians()), err
}

const spotExample = "{at: [20, 4], up: 2 ft 6 in}"

// lie reads the spot heights, which may be measured from the house and from
// named points, and so come after them, and settles the lie of the land.
func (r *reader) lie() {
	if r.hasSpots {
		items, _ := r.spots.list("spots", "a list, such as - "+spotExample)
		for _, item := range items {
			spot := model.Spot{At: orb.Point{math.NaN(), math.NaN()}} // keeps the numbers of those after it
			if o, ok := item.object("each of the spots", spotExample); ok {
				spot = r.spotHeight(o)
				o.finish()
			}
			r.site.Terrain.Spots = append(r.site.Terrain.Spots, spot)
		}
		if len(items) == 0 && r.spots.node.Content == nil && !r.faulty[r.spots.path] {
			r.fault(r.spots.spot, "- "+r.sample(spotExample), "the list of spots is empty")
		}
	}
	r.ground = r.site.Ground()
}

// spotHeight reads how far up or down the ground is at one point. A sign is
// easily lost, so there is a word for each way.
func (r *reader) spotHeight(o *object) model.Spot {
	at, ok := r.position(o)
	if !ok {
		at.at = orb.Point{math.NaN(), math.NaN()}
	}
	spot := model.Spot{At: at.at}
	read := func(key, other string) (float64, bool) {
		v, has := o.get(key)
		if !has {
			return 0, false
		}
		if x, err := r.parseLength(v.node.Value); err == nil && x < 0 {
			r.fault(v.spot, other+": "+strings.TrimLeft(strings.TrimSpace(v.node.Value), "-−– "), "%s %s is the other way", key, short(v.node.Value))
			return 0, true
		}
		x, _ := r.sizeOf(v, 0, 100)
		return x, true
	}
	up, hasUp := read("up", "down")
	down, hasDown := read("down", "up")
	const right = "up: 2 ft 6 in where it lies above the ground at the house, down: 2 ft 6 in where it lies below"
	switch v, hasHeight := o.get("height"); {
	case hasHeight:
		r.fault(v.spot, r.sample(right), "a spot lies up or down")
	case hasUp && hasDown:
		r.fault(o.at("down"), "one of the two", "this spot lies both up and down")
	case !hasUp && !hasDown && !o.has("up") && !o.has("down"):
		o.missing("up", right)
	}
	spot.Up = up - down
	return spot
}
