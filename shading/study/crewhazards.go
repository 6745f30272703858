package study

import (
	"fmt"
	"math"
	"strings"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

const (
	wireClearance = 10 * 0.3048 // within which line-clearance crews work (ANSI Z133; 29 CFR 1910.269)
	boundaryReach = 1 * 0.3048  // own rule: a trunk's edge so near the lot line may be on it
)

// nearWires notes overhead lines within ten feet of the crown, and those a
// falling tree could reach. Plan distances: a wire under or over the crown
// counts as near.
func (st *Study) nearWires(j *CrewJob, t model.Tree, felled bool) {
	unit := st.unit()
	for _, w := range st.Site.Wires {
		if len(w.Line) < 2 {
			continue
		}
		name := w.ID
		if name == "" {
			name = "overhead wire"
		}
		trunk := planar.DistanceFrom(w.Line, t.At)
		crown := trunk - max(t.SpreadX, t.SpreadY)/2
		switch {
		case crown <= 0:
			j.Hazards = append(j.Hazards, name+" runs over, under or through the crown")
		case crown < wireClearance:
			j.Hazards = append(j.Hazards, fmt.Sprintf("%s is %s from the crown, nearer than %s", name, measure.FormatLength(crown, unit), measure.FormatFeet(wireClearance, unit, 0)))
		case felled && trunk < t.Height:
			j.Hazards = append(j.Hazards, fmt.Sprintf("%s is within falling distance (%s from the trunk)", name, measure.FormatLength(trunk, unit)))
		default:
			continue
		}
		if crown < wireClearance {
			j.NotForTrainees = append(j.NotForTrainees, "near "+name+": line-clearance crew only")
		} else {
			j.NotForTrainees = append(j.NotForTrainees, "can fall on "+name)
		}
		j.Call = append(j.Call, "the company that owns "+name+", before any work")
	}
}

// nearThings notes roofs under the crown and buildings a falling tree reaches.
func (st *Study) nearThings(j *CrewJob, t model.Tree, felled bool) {
	buildings := append([]model.Building{st.Site.House}, st.Site.Neighbours...)
	buildings = append(buildings, st.Site.Porches...)
	reach := max(t.SpreadX, t.SpreadY) / 2
	var over, falls []string
	for i, b := range buildings {
		name := b.Name
		if name == "" {
			name = b.ID
		}
		if i == 0 {
			name = "the house"
		}
		far, eave := math.Inf(1), math.Inf(1)
		for _, p := range b.Parts {
			if len(p.Footprint) > 3 {
				d := toFootprint(p.Footprint, t.At)
				far = min(far, d)
				eave = min(eave, d-p.Roof.Overhang)
			}
		}
		switch {
		case eave < reach:
			over = append(over, name)
		case felled && far < t.Height:
			falls = append(falls, name)
		}
	}
	if len(over) > 0 {
		j.Hazards = append(j.Hazards, "crown reaches over the roof of "+strings.Join(over, ", "))
		j.NotForTrainees = append(j.NotForTrainees, "limbs over a roof")
	}
	for _, f := range st.Site.Fences {
		if felled && len(f.Line) > 1 && planar.DistanceFrom(f.Line, t.At) < t.Height {
			falls = append(falls, f.ID)
		}
	}
	if len(falls) > 0 {
		j.Hazards = append(j.Hazards, "within falling distance: "+strings.Join(falls, ", "))
	}
}

// toFootprint is how far a point is from a footprint, 0 inside.
func toFootprint(r orb.Ring, p orb.Point) float64 {
	if planar.RingContains(r, p) {
		return 0
	}
	return planar.DistanceFrom(orb.LineString(r), p)
}

// stand is where a trunk is as the lot line goes.
type stand int

const (
	insideLot   stand = iota
	overLotLine       // inside, its crown reaching over
	onLotLine         // or so near that it may be
	outsideLot
)

// nearLine notes how a tree stands to the lot line.
func (st *Study) nearLine(j *CrewJob, t model.Tree) stand {
	if t.Owner == model.OwnerStreet {
		j.Hazards = append(j.Hazards, "in the street's right-of-way: people and cars in the drop zone")
	}
	if len(st.Site.Lot) < 4 {
		return insideLot
	}
	line := planar.DistanceFrom(orb.LineString(st.Site.Lot), t.At)
	inside := planar.RingContains(st.Site.Lot, t.At)
	away := measure.FormatLength(line, st.unit())
	switch {
	case line <= t.Trunk/2+boundaryReach:
		j.Hazards = append(j.Hazards, "trunk on or at the lot line ("+away+"): have the line found before cutting")
		return onLotLine
	case !inside:
		j.Hazards = append(j.Hazards, "stands outside the lot, "+away+" past the line")
		return outsideLot
	case line < max(t.SpreadX, t.SpreadY)/2:
		j.Hazards = append(j.Hazards, "crown reaches over the lot line, "+away+" from the trunk")
		return overLotLine
	case line < t.Height:
		j.Hazards = append(j.Hazards, "can fall across the lot line, "+away+" away")
	}
	return insideLot
}

// whoAgrees are those without whose word in writing the tree is not touched.
func whoAgrees(t model.Tree, at stand) []string {
	var out []string
	switch {
	case t.Owner == model.OwnerStreet:
		out = append(out, "the city: its forester's permit")
		if at == onLotLine {
			out = append(out, "the owner of the lot: a trunk on the line may belong to both")
		}
	case at == onLotLine:
		out = append(out, "both owners, of the lot and of the land across the line, in writing: a trunk on the line belongs to both")
	case t.Owner == model.OwnerNeighbour:
		out = append(out, "the neighbour it belongs to, in writing")
	case at == outsideLot:
		out = append(out, "the owner of the land it stands on, in writing")
	case at == overLotLine:
		out = append(out, "the owner of the lot; the owner across the line is told first: limbs come down over their land")
	default:
		out = append(out, "the owner of the lot")
	}
	if t.Keep {
		out = append(out, "whoever marked it to keep")
	}
	return out
}
