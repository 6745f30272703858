package sitefile

import (
	"math"
	"strconv"
	"strings"

	"github.com/paulmach/orb"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
)

// faultyUnder tells whether the value at a path, or any inside it, has a
// fault.
func (r *reader) faultyUnder(path string) bool {
	for p := range r.faulty {
		if p == path || inside(p, path) || path == "" {
			return true
		}
	}
	return false
}

// inside tells whether a path lies within another: trees[1].height in trees.
func inside(path, outer string) bool {
	return strings.HasPrefix(path, outer) && len(path) > len(outer) && (path[len(outer)] == '.' || path[len(outer)] == '[')
}

// spotOf finds where a path of the model is written: the path itself, or the
// nearest thing around it that stands in the file.
func (r *reader) spotOf(path string) spot {
	inFile := path
	if strings.HasPrefix(path, "windows") {
		inFile = "house." + path
	}
	if n, rest, cut := strings.Cut(strings.TrimPrefix(inFile, "porches["), "]"); cut && strings.HasPrefix(inFile, "porches[") {
		if i, err := strconv.Atoi(n); err == nil && i < len(r.porchAt) {
			inFile = r.porchAt[i] + rest
		}
	}
	if building, rest, cut := strings.Cut(inFile, ".parts[0]"); cut {
		if _, listed := r.places[building+".parts"]; !listed { // written without parts
			inFile = building + rest
		}
	}
	if raise, cut := strings.CutSuffix(inFile, ".height"); cut {
		if _, to := r.places[raise+".to"]; to {
			inFile = raise + ".to"
		}
	}
	for p := inFile; p != ""; {
		if at, ok := r.places[p]; ok {
			if rest := inFile[len(p):]; rest != "" {
				at.shown += rest
			}
			at.path = inFile
			return at
		}
		cut := strings.LastIndexAny(p, ".[")
		if cut < 0 {
			break
		}
		p = p[:cut]
	}
	return spot{path: path, shown: path}
}

// assumedLot is how far an assumed lot line stands off the house, metres.
const assumedLot = 30 * 0.3048

// geometry asks the model what is wrong with the shapes, and tells it at the
// place in the file, unless the values themselves could not be read.
func (r *reader) geometry() {
	if len(r.site.Lot) == 0 && !r.faultyUnder("lot") {
		var b orb.Bound
		for i, p := range r.site.House.Parts {
			if i == 0 {
				b = p.Footprint.Bound()
			} else {
				b = b.Union(p.Footprint.Bound())
			}
		}
		if len(r.site.House.Parts) > 0 && len(r.site.House.Parts[0].Footprint) > 0 && !math.IsInf(b.Min[0], 0) {
			r.site.Lot = b.Pad(assumedLot).ToRing()
			r.assume("site", "lot", "a rectangle "+measure.FormatLength(assumedLot, r.unit)+" off the house", "common practice, no source")
		}
	}
	for _, f := range r.site.Faults() {
		at := r.spotOf(f.Field)
		if r.faultyUnder(at.path) || r.faultAround(at.path) || r.follows(f.Field) {
			continue
		}
		r.remark(at, f.Severity == model.FaultWarning, f.Right, "%s", f.Wrong)
	}
	r.targetSurfaces()
}

// follows tells whether a fault of the shapes can only follow from another: a
// tree outside a lot that is drawn wrong, collectors on a house that is, work
// on a tree that is.
func (r *reader) follows(field string) bool {
	switch {
	case strings.HasPrefix(field, "trees[") && strings.HasSuffix(field, ".owner"):
		return r.faultyUnder("lot")
	case strings.HasPrefix(field, "trees[") && strings.HasSuffix(field, ".ground"): // where it stands may be what is wrong
		return r.faultyUnder(strings.TrimSuffix(field, ".ground"))
	case strings.HasPrefix(field, "trees[") && (strings.HasSuffix(field, ".spread") || strings.HasSuffix(field, ".crown base") || strings.HasSuffix(field, ".trunk")): // taken from the height where left out
		return r.faultyUnder(field[:strings.LastIndexByte(field, '.')] + ".height")
	case strings.HasPrefix(field, "collectors["), strings.HasPrefix(field, "keep clear["):
		return r.faultyUnder("house")
	}
	for step, tree := range r.treeOf {
		if field == step || inside(field, step) {
			return r.faultyTree(tree)
		}
	}
	return false
}

// faultAround tells whether a value that a path lies in could not be read.
func (r *reader) faultAround(path string) bool {
	for p := range r.faulty {
		if p != "" && inside(path, p) {
			return true
		}
	}
	return false
}
