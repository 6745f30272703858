package climate

import (
	"math"
)

// order refuses columns that are swapped.
func (r repair) order() error {
	s := r.file.stated
	if !s[global] || !s[beam] || !s[diffuse] {
		return nil
	}
	orders := [6][3]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}}
	var misses [6]float64
	for k, o := range orders {
		misses[k] = r.miss(o)
	}
	if math.IsNaN(misses[0]) || misses[0] < fairClosure {
		return nil
	}
	best := 0
	for k := range misses {
		if misses[k] < misses[best] {
			best = k
		}
	}
	if best != 0 && misses[best] < misses[0]/2 && misses[best] < poorClosure {
		o := orders[best]
		return fault(r.file.Name, 0, "the columns look swapped: global is not beam × sine of the altitude + diffuse (off by %.0f %%), but it is (within %.0f %%) if global stands under %q, beam under %q and diffuse under %q",
			100*misses[0], 100*misses[best], figureNames[o[0]], figureNames[o[1]], figureNames[o[2]])
	}
	if misses[0] > poorClosure {
		return fault(r.file.Name, 0, "global is not beam × sine of the altitude + diffuse: off by %.0f %% over the year; check the units (W/m², or Wh/m² in the hour), the UTC offset, the longitude, and whether times begin or end their hour", 100*misses[0])
	}
	r.note("global differs from beam and diffuse together by %.0f %% over the year; each was kept as given", 100*misses[0])
	return nil
}

// miss is the mean miss of the closure over the mean of global, for columns
// taken in an order.
func (r repair) miss(order [3]int) float64 {
	off, sum := 0.0, 0.0
	for i, h := range r.year.Hours {
		v := r.file.hours[i].values
		g, b, d := v[order[0]], v[order[1]], v[order[2]]
		if h.Up < 1 || math.IsNaN(g+b+d) {
			continue
		}
		off += math.Abs(g - b*h.Incidence(up) - d)
		sum += g
	}
	return off / sum
}
