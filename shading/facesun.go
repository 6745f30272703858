package shading

import (
	"time"

	"github.com/golang/geo/r3"
)

// sunDays is how many days share the rays of FaceSun at most: the sun stands
// within 0.8° of where it would, while it moves through 15° in an hour.
const sunDays = 4

// FaceSun is what CastMap's Read gives for one state, kWh/m² a cell, at a part
// of the time and memory, for surfaces of which only one picture is wanted.
func (sc *Scene) FaceSun(surface *Surface, cell float64, light *Light, state State, months ...time.Month) (Cells, []float64) {
	p := sc.plateOf(surface, cell, []float64{0.5})
	cells := cellsOf(p, cell)
	out := make([]float64, len(cells.covered))
	if len(out) == 0 {
		return cells, out
	}
	a := &Account{Blockers: sc.Blockers}
	for _, period := range periodsOf(sc.Blockers) {
		if wanted(months, period.Month) {
			a.Periods = append(a.Periods, period)
		}
	}
	plane := light.on(surface.Face.N)
	lights, fixed := make([]lightIn, len(a.Periods)), 0.0
	for p, period := range a.Periods {
		sky, ground := plane.in(period)
		lights[p] = sky
		fixed += ground
	}
	tau := make([][]float64, len(a.Periods)) // by blocker
	for p := range tau {
		tau[p] = a.On(state, p)
	}
	tasks := make([][]float64, len(a.Periods)+1) // notes of all rows
	inParallel(len(tasks), func(task int) {
		s := newSweeper(p, len(sc.Blockers))
		s.every = true
		notes := make([]float64, cells.Rows*cells.length())
		row := func(r int) []float64 { return notes[r*cells.length():][:cells.length()] }
		tasks[task] = notes
		if task < len(a.Periods) {
			var passed []float64 // by set
			plane.cast(sc, a.Periods[task], sunDays, func(direction r3.Vector, energy float64) {
				s.cast(direction, func(r int, low, high float64, set int32) {
					for len(passed) <= int(set) {
						passed = append(passed, through(s.sets.sets[len(passed)], tau[task]))
					}
					cells.note(row(r), low, high, energy*passed[set])
				})
			})
			return
		}
		var passed []lightIn // by set: what all periods bring through it from an even sky and from the band
		patches := Dome()
		ofDome, ofBand := domeWeights(patches, surface.Face.N)
		for i, patch := range patches {
			if sc.hidden(patch.Direction) || patch.Direction.Dot(surface.Face.N) <= 1e-9 {
				continue
			}
			s.cast(patch.Direction, func(r int, low, high float64, set int32) {
				for len(passed) <= int(set) {
					var sum lightIn
					for p, l := range lights {
						t := through(s.sets.sets[len(passed)], tau[p])
						sum.dome += t * l.dome
						sum.band += t * l.band
					}
					passed = append(passed, sum)
				}
				cells.note(row(r), low, high, ofDome[i]*passed[set].dome+ofBand[i]*passed[set].band)
			})
		}
	})
	for r := range cells.Rows {
		sum := 0.0
		for c := range cells.Columns {
			for _, notes := range tasks {
				sum += notes[r*cells.length()+c]
			}
			at := r*cells.Columns + c
			if on := cells.covered[at]; on > 0 {
				out[at] = fixed + max(0, sum)*cells.Cell/on
			}
		}
	}
	cells.blank(out)
	return cells, out
}
