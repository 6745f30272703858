package mapfile

import (
	"math"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/species"
)

func (x *exporter) tree(t *model.Tree) {
	p := map[string]any{
		"kind": "tree", "id": t.ID, "species": speciesOf(t), "height_m": metres(t.Height), "crown_base_m": metres(t.CrownBase),
		"crown_shape": string(t.Shape), "trunk_m": metres(t.Trunk), "in_leaf": t.InLeaf, "bare": t.Bare,
		"owner": string(t.Owner), "removable": t.Removable, "cost_usd": math.Round(t.Cost*100) / 100,
	}
	if t.SpreadX == t.SpreadY {
		p["spread_m"] = metres(t.SpreadX)
	} else {
		p["spread_x_m"], p["spread_y_m"] = metres(t.SpreadX), metres(t.SpreadY)
	}
	if _, known := species.Find(speciesOf(t)); !known && t.Evergreen {
		p["evergreen"] = true
	}
	if t.Keep {
		p["keep"] = true
	}
	if t.Ground != 0 || x.sloping() {
		p["ground_m"] = metres(t.Ground)
	}
	if len(t.Notes) > 0 {
		p["note"] = t.Notes[0]
		for _, n := range t.Notes[1:] {
			p["note"] = p["note"].(string) + "; " + n
		}
	}
	if assumed := x.assumed("tree " + t.ID); len(assumed) > 0 {
		p["assumed"] = assumed
	}
	if m := t.Measured[model.QHeight].Method; methodWords[m] {
		p["measured_by"] = m
	}
	x.add("Point", x.position(t.At), p)
}

// speciesOf is a tree's kind by a name that the species table finds again.
func speciesOf(t *model.Tree) string {
	if t.Species != species.GenericTree(t.Evergreen).Name {
		return t.Species
	}
	if t.Evergreen {
		return "unknown evergreen"
	}
	return "unknown"
}

// assumed lists the properties of a thing that nobody measured. Site leaves
// them out again, so that they stay assumed and never pass for measured.
func (x *exporter) assumed(subject string) []string {
	var out []string
	for _, a := range x.site.Assumed {
		if key := assumedKeys[a.Field]; key != "" && a.Subject == subject {
			out = append(out, key)
		}
	}
	return out
}

// assumedKeys are the site file's words for assumed values of a tree, and the
// keys they belong to.
var assumedKeys = map[string]string{
	"height": "height", "spread": "spread", "crown base": "crown base", "crown shape": "crown shape", "trunk": "trunk",
	"removal cost": "cost", "sun through the crown in leaf": "in leaf", "sun through the crown bare": "bare",
}
