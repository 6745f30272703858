package sitefile

import (
	"fmt"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

const houseExample = "house: {footprint: [[8, 38], [30, 38], [30, 66], [8, 66]], wall height: 17 ft 6 in, roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}}"

var owners = map[string]model.Owner{
	"lot": model.OwnerLot, "ours": model.OwnerLot, "own": model.OwnerLot,
	"neighbour": model.OwnerNeighbour, "neighbours": model.OwnerNeighbour, "neighbor": model.OwnerNeighbour,
	"street": model.OwnerStreet, "city": model.OwnerStreet, "public": model.OwnerStreet,
}

func (r *reader) house(top *object) {
	if !top.child(houseExample, func(o *object) {
		r.site.House = r.building(o, "house", model.OwnerLot, false)
		o.each("- {id: W1, wall: south, left: 3 ft, sill: 2 ft 6 in, width: 32 in, height: 60 in}", func(n int, w *object) {
			r.site.Windows = append(r.site.Windows, r.window(w, n))
		}, "windows")
	}, "house") && !r.faulty["house"] {
		top.missing("house", houseExample)
	}
}

// id reads a thing's id and reports one that was given before; things
// without get the fallback.
func (r *reader) id(o *object, fallback string) string {
	id := o.text("id")
	if id == "" {
		return fallback
	}
	key := plainKey(id)
	if before, twice := r.ids[key]; twice {
		r.fault(o.at("id"), "another id", "the id %q is taken on line %d", short(id), before.line)
		return id
	}
	r.ids[key] = o.at("id")
	return id
}

// building reads a house, a neighbour's house, a porch or a shed. A building
// of one part may leave out parts and give its footprint and roof directly.
func (r *reader) building(o *object, fallback string, usual model.Owner, open bool) model.Building {
	b := model.Building{Owner: usual}
	b.ID = r.id(o, fallback)
	b.Name = o.text("name")
	if owner, ok := choice(o, owners, "owner"); ok {
		b.Owner = owner
	}
	subject := "house"
	if fallback != "house" {
		subject = b.ID
	}
	if o.has("parts") {
		o.each("- {footprint: [[8, 38], [30, 38], [30, 66], [8, 66]], wall height: 17 ft 6 in, roof: {kind: gable, pitch: 9/12}}", func(i int, p *object) {
			if p == nil {
				b.Parts = append(b.Parts, model.Part{})
				return
			}
			name := fmt.Sprintf("part %d", i+1)
			id := p.text("id")
			if id != "" {
				name = id
			}
			part := r.part(p, subject+", "+name, open)
			part.ID = id
			b.Parts = append(b.Parts, part)
		}, "parts")
		for _, key := range []string{"footprint", "wall height", "roof", "base"} {
			if o.has(key) {
				o.get(key)
				r.fault(o.at(key), "it inside a part", "%s stands beside parts", key)
			}
		}
	} else if o.misspelt("parts") {
		o.get("parts") // finish tells the slip
		for _, key := range []string{"parts", "footprint", "wall height", "roof"} {
			r.faulty[join(o.path, key)] = true
		}
		b.Parts = []model.Part{{}}
	} else {
		b.Parts = []model.Part{r.part(o, subject, open)}
	}
	o.each("- {at: [20, 52], width: 24 in, depth: 24 in, top: 27 ft}", func(n int, c *object) {
		b.Chimneys = append(b.Chimneys, r.chimney(c, fmt.Sprintf("chimney %d", n+1)))
	}, "chimneys")
	return b
}

func (r *reader) part(o *object, subject string, open bool) model.Part {
	p := model.Part{Open: open}
	if v, ok := o.get("footprint"); ok {
		p.Footprint, _ = r.ring(v, "the footprint")
	} else {
		o.missing("footprint", "footprint: [[8, 38], [30, 38], [30, 66], [8, 66]]")
	}
	if base, ok := o.size(-30, 60, "base"); ok {
		p.Base = base
	} else if len(p.Footprint) > 0 {
		p.Base = r.groundAt(p.Footprint.Bound().Center())
	}
	if h, ok := o.size(0.9, 60, "wall height"); ok {
		p.WallHeight = h
	} else if !o.has("wall height") {
		o.missing("wall height", "wall height: 17 ft 6 in (from the base to where the roof meets the wall)")
	}
	p.Open = o.flag(open, "open")
	if !o.child("roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}", func(roof *object) {
		p.Roof = r.roof(roof, subject, p)
	}, "roof") && !o.has("roof") {
		o.missing("roof", "roof: {kind: gable, ridge: east-west, pitch: 9/12, overhang: 14 in}")
	}
	return p
}

var roofKinds = map[string]model.RoofKind{
	"gable": model.Gable, "hip": model.Hip, "hipped": model.Hip, "shed": model.Shed, "lean to": model.Shed, "flat": model.Flat, "planes": model.Plane, "plane": model.Plane,
}

// usualOverhang is what an eave sticks out where nobody measured, metres:
// 12 in, common practice, no source.
const usualOverhang = 12 * 0.0254

func (r *reader) roof(o *object, subject string, p model.Part) model.Roof {
	var roof model.Roof
	kind, ok := choice(o, roofKinds, "kind")
	if !ok && !o.has("kind") {
		o.missing("kind", "kind: gable, hip, shed, flat or planes")
	}
	roof.Kind = kind
	pitch, hasPitch := field(o, measure.ParsePitch, "pitch")
	roof.Pitch = pitch
	ridge, hasRidge := field(o, parseRidge, "ridge")
	down, hasDown := field(o, measure.ParseBearing, "down", "falls")
	overhang, hasOverhang := o.size(0, 3, "overhang")
	roof.Overhang = overhang
	if !hasOverhang && !o.has("overhang") && (kind == model.Gable || kind == model.Hip || kind == model.Shed) {
		roof.Overhang = usualOverhang
		r.assume(subject, "roof overhang", measure.FormatLength(usualOverhang, r.unit), "common practice, no source")
	}
	if hasRidge {
		roof.Ridge = r.drawn(ridge)
	}
	if hasDown {
		roof.Down = r.drawn(down)
	}
	if v, ok := o.get("planes"); ok {
		roof.Planes = r.planes(v)
	}
	steep := map[model.RoofKind]bool{model.Gable: true, model.Hip: true, model.Shed: true}[kind]
	switch {
	case steep && !hasPitch && !o.has("pitch"):
		o.missing("pitch", "pitch: 9/12 (rise in 12, or degrees)")
	case kind == model.Shed && !hasDown && !o.has("down"):
		o.missing("down", "down: south (the side toward which the roof falls)")
	case kind == model.Flat && hasPitch && pitch > 0 && !hasDown && !o.has("down"):
		o.missing("down", "down: south (the side toward which the roof falls)")
	case kind == model.Plane && len(roof.Planes) == 0 && !o.has("planes"):
		o.missing("planes", "planes: [[[8, 38, 17], [30, 38, 17], [30, 52, 27], [8, 52, 27]], …]")
	case kind == model.Gable && !hasRidge && !o.has("ridge") && len(p.Footprint) > 0:
		roof.Ridge = longSide(p.Footprint)
		r.assume(subject, "ridge", "along the longer side, "+measure.FormatBearing(roof.Ridge), "common practice, no source")
	}
	return roof
}

// parseRidge reads the line of a ridge: east-west, or any bearing along it.
func parseRidge(s string) (measure.Bearing, error) {
	switch plainKey(s) {
	case "east west", "west east", "e w", "w e":
		s = "east"
	case "north south", "south north", "n s", "s n":
		s = "north"
	}
	b, err := measure.ParseBearing(s)
	if err != nil {
		return b, &measure.Error{Wrong: fmt.Sprintf("%q is not the line of a ridge", short(s)), Right: "east-west, north-south or a bearing along it such as N 4° E"}
	}
	return b, nil
}

// planes reads explicit roof planes: lists of corners [x, y, height].
func (r *reader) planes(v value) [][]model.Point3 {
	const example = "planes: [[[8, 38, 17], [30, 38, 17], [30, 52, 27], [8, 52, 27]], …]"
	list, ok := v.list("planes", example)
	if !ok {
		return nil
	}
	var out [][]model.Point3
	for _, plane := range list {
		corners, ok := plane.list("a roof plane", "[[8, 38, 17], [30, 38, 17], [30, 52, 27]]")
		if !ok {
			continue
		}
		var points []model.Point3
		for _, c := range corners {
			numbers, ok := c.list("a corner", "[8, 38, 17]")
			if !ok {
				continue
			}
			if len(numbers) != 3 {
				r.fault(c.spot, "[8, 38, 17] (right, up on the sketch, height)", "a corner of a roof plane has three numbers, not %d", len(numbers))
				continue
			}
			x, okX := read(numbers[0], r.parseLength)
			y, okY := read(numbers[1], r.parseLength)
			z, okZ := read(numbers[2], r.parseLength)
			if okX && okY && okZ {
				q := turned(orb.Point{x, y}, r.site.Turn)
				points = append(points, model.Point3{X: q[0], Y: q[1], Z: z})
			}
		}
		out = append(out, points)
	}
	return out
}

// otherBuildings reads what else stands about: neighbours, porches on posts,
// and sheds and garages with walls.
func (r *reader) otherBuildings(top *object) {
	top.each("- {id: north house, footprint: [[50, 30], [74, 30], [74, 60], [50, 60]], wall height: 18 ft, roof: {kind: gable, ridge: east-west, pitch: 9/12}}", func(i int, o *object) {
		b := model.Building{Owner: model.OwnerNeighbour}
		if o != nil {
			b = r.building(o, fmt.Sprintf("neighbour %d", i+1), model.OwnerNeighbour, false)
		}
		r.site.Neighbours = append(r.site.Neighbours, b)
	}, "neighbours")
	read := func(open bool, word, list string) func(int, *object) {
		return func(i int, o *object) {
			b := model.Building{Owner: model.OwnerLot}
			if o != nil {
				b = r.building(o, fmt.Sprintf("%s %d", word, i+1), model.OwnerLot, open)
			}
			r.porchAt = append(r.porchAt, fmt.Sprintf("%s[%d]", list, i))
			r.site.Porches = append(r.site.Porches, b)
		}
	}
	top.each("- {id: porch, footprint: [[8, 30], [30, 30], [30, 38], [8, 38]], wall height: 9 ft, roof: {kind: shed, down: south, pitch: 3/12}}", read(true, "porch", "porches"), "porches")
	const example = "- {id: shed, footprint: [[4, 90], [14, 90], [14, 100], [4, 100]], wall height: 8 ft, roof: {kind: gable, pitch: 6/12}}"
	top.each(example, read(false, "shed", "sheds"), "sheds")
	top.each(example, read(false, "garage", "garages"), "garages")
}

// longSide is the azimuth of a footprint's longest side.
func longSide(ring orb.Ring) (along s1.Angle) {
	longest := 0.0
	for i := 0; i+1 < len(ring); i++ {
		dx, dy := ring[i+1][0]-ring[i][0], ring[i+1][1]-ring[i][1]
		if d := dx*dx + dy*dy; d > longest*(1+1e-9) {
			longest, along = d, azimuthOf(dx, dy)
		}
	}
	return along
}
