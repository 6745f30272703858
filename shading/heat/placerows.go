package heat

import (
	"math"
	"sort"
)

// rowBest[k] is the most that k panels in one row can get, less the penalty
// of each group of touching panels; -Inf where k do not fit.
type rowBest struct {
	best []float64
	// pick[k] are the columns, worked out only when asked.
	pick func(k int) []int
}

// row searches one row exactly: ending[k][c] is the best of k panels the last
// of which starts at column c.
func (g grid) row(values []float64, count int, penalty float64) rowBest {
	n := len(values)
	most := min(count, (n-1)/g.stepU+1)
	ending := make([][]float64, most+1)
	upTo := make([][]float64, most+1) // best of ending over columns up to c
	for k := range ending {
		ending[k] = make([]float64, n)
		upTo[k] = make([]float64, n)
		high := math.Inf(-1)
		for c := 0; c < n; c++ {
			ending[k][c] = math.Inf(-1)
			if k > 0 && values[c] >= 0 {
				before := -penalty
				if k > 1 {
					before = math.Inf(-1)
					if c >= g.stepU {
						before = max(ending[k-1][c-g.stepU], upTo[k-1][c-g.stepU]-penalty)
					}
				}
				ending[k][c] = before + values[c]
			}
			high = max(high, ending[k][c])
			upTo[k][c] = high
		}
	}
	out := rowBest{best: make([]float64, most+1)}
	for k := 1; k <= most; k++ {
		out.best[k] = upTo[k][n-1]
	}
	out.pick = func(k int) []int {
		var columns []int
		for c := first(ending[k], upTo[k][n-1]); k > 0; k-- {
			columns = append(columns, c)
			if k == 1 {
				break
			}
			at := c - g.stepU
			if ending[k-1][at] >= upTo[k-1][at]-penalty {
				c = at
			} else {
				c = first(ending[k-1], upTo[k-1][at])
			}
		}
		sort.Ints(columns)
		return columns
	}
	return out
}

func first(values []float64, x float64) int {
	for i, v := range values {
		if v == x {
			return i
		}
	}
	return 0
}

// best chooses rows at least stepV apart and how many panels hang in each:
// the most panels up to count, and among those the most value less penalties.
// It returns the spots and their value less penalties.
func (g grid) best(count int, penalty float64) ([]spot, float64) {
	if count == 0 || len(g.value) == 0 {
		return nil, 0
	}
	rows := make([]rowBest, len(g.value))
	// below[r][k] is the best of k panels in rows up to r.
	below := make([][]float64, len(g.value))
	took := make([][]int, len(g.value)) // panels in row r in that best, 0 for none
	for r := range g.value {
		rows[r] = g.row(g.value[r], count, penalty)
		below[r] = make([]float64, count+1)
		took[r] = make([]int, count+1)
		for k := range below[r] {
			switch {
			case r > 0:
				below[r][k] = below[r-1][k]
			case k > 0:
				below[r][k] = math.Inf(-1)
			}
			for here := 1; here < len(rows[r].best) && here <= k; here++ {
				rest := math.Inf(-1)
				if r >= g.stepV {
					rest = below[r-g.stepV][k-here]
				} else if k == here {
					rest = 0
				}
				if x := rest + rows[r].best[here]; x > below[r][k] {
					below[r][k], took[r][k] = x, here
				}
			}
		}
	}
	top := len(g.value) - 1
	k := count
	for k > 0 && math.IsInf(below[top][k], -1) {
		k--
	}
	value := below[top][k]
	var spots []spot
	for r := top; r >= 0 && k > 0; {
		here := took[r][k]
		if here == 0 {
			r--
			continue
		}
		for _, c := range rows[r].pick(here) {
			spots = append(spots, spot{r, c})
		}
		k -= here
		r -= g.stepV
	}
	return spots, value
}

// align slides whole rows sideways so that rows of like groups start on one
// line, and up or down so that their spacing is the least, where each costs no
// more than a small share of the row's value.
func (g grid) align(spots []spot) []spot {
	byRow := map[int][]spot{}
	var rows []int
	for _, s := range spots {
		if byRow[s.row] == nil {
			rows = append(rows, s.row)
		}
		byRow[s.row] = append(byRow[s.row], s)
	}
	sort.Ints(rows)
	if len(rows) < 2 {
		return spots
	}
	var out []spot
	var last []spot
	for n, r := range rows {
		line := byRow[r]
		sort.Slice(line, func(i, j int) bool { return line[i].column < line[j].column })
		if n > 0 {
			for _, try := range []spot{{last[0].row + g.stepV - r, last[0].column - line[0].column}, {0, last[0].column - line[0].column}, {last[0].row + g.stepV - r, 0}} {
				if n+1 < len(rows) && r+try.row > rows[n+1]-g.stepV {
					continue
				}
				if moved, ok := g.moved(line, try); ok && g.sum(moved) >= (1-aligning)*g.sum(line) {
					line = moved
					break
				}
			}
		}
		out = append(out, line...)
		last = line
	}
	return out
}

func (g grid) moved(line []spot, by spot) ([]spot, bool) {
	out := make([]spot, len(line))
	for i, s := range line {
		out[i] = spot{s.row + by.row, s.column + by.column}
		if out[i].row < 0 || out[i].row >= len(g.value) || out[i].column < 0 || out[i].column >= len(g.value[out[i].row]) ||
			g.value[out[i].row][out[i].column] < 0 {
			return nil, false
		}
	}
	return out, true
}
