package shading

import "slices"

// tally adds up energies by set of blockers: a place for every set, and a list
// of those met, where a map would spend its time finding places.
type tally struct {
	sum []float64
	met []bool
	in  []int32
}

func newTally(sets int) *tally {
	return &tally{sum: make([]float64, sets), met: make([]bool, sets)}
}

func (t *tally) add(set int32, energy float64) {
	if !t.met[set] {
		t.met[set] = true
		t.in = append(t.in, set)
	}
	t.sum[set] += energy
}

// take gives the sets met by rising number, each with its sum, and begins anew.
func (t *tally) take(each func(set int32, energy float64)) {
	slices.Sort(t.in)
	for _, set := range t.in {
		each(set, t.sum[set])
		t.sum[set], t.met[set] = 0, false
	}
	t.in = t.in[:0]
}
