package removal

// maxTable is how many combinations the exact method tabulates: 22 trees to
// remove or keep (32 MB), or 11 trees with three options each.
const maxTable = 1 << 22

// maxSpread is how many additions the terms may need to be entered in the table,
// about a second's worth; a term over B trees needs 2^|B|.
const maxSpread = 1 << 28

// space is the set of all combinations as a mixed-radix number: one digit a
// tree, digit 0 for leaving it and 1.. for its options in the order of groups.
type space struct {
	groups [][]int
	stride []int
	size   int // 0: more than maxTable
}

func newSpace(groups [][]int) space {
	sp := space{groups: groups, stride: make([]int, len(groups)), size: 1}
	for t, g := range groups {
		sp.stride[t] = sp.size
		sp.size *= len(g) + 1
		if sp.size > maxTable {
			sp.size = 0
			return sp
		}
	}
	return sp
}

// set lists the candidates of combination number at.
func (sp space) set(at int) []int {
	set := []int{}
	for t, g := range sp.groups {
		if digit := at / sp.stride[t] % (len(g) + 1); digit > 0 {
			set = append(set, g[digit-1])
		}
	}
	return set
}

// table is the reach, kWh, of every combination, or nil where that is too much
// work.
//
// A term is a product over trees of a factor that depends on that tree's digit
// only: f(0) with the tree left, f(c) with option c. Written as f(0) + Δ(c), the
// product multiplies out into coefficients (for removal alone: the Möbius
// transform of the set function), which all terms add into one table; one pass a
// tree then sums them back for every combination at once (the zeta transform;
// Yates 1937).
func (g Game) table(sp space) []float64 {
	if sp.size == 0 {
		return nil
	}
	at, ok := g.screensOf(sp)
	if !ok || g.spread(sp, at.tree) > maxSpread {
		return nil
	}
	out := make([]float64, sp.size)
	out[0] = g.Fixed
	if g.Clears == nil {
		g.enterTrees(out, sp, at.tree)
	} else {
		g.enter(out, sp, at)
	}
	sp.sumUp(out)
	return out
}

// screens says where the screens of a game stand in a space.
type screens struct {
	tree   []int      // screen → its tree, -1: that of none
	bit    []int      // screen → its number among its tree's
	clears [][]uint64 // tree → option → the screens it clears, by bit
}

// screensOf is not ok where a tree has more screens than bits.
func (g Game) screensOf(sp space) (at screens, ok bool) {
	at = screens{make([]int, g.Trees), make([]int, g.Trees), make([][]uint64, len(sp.groups))}
	for s := range at.tree {
		at.tree[s] = -1
	}
	for t, group := range sp.groups {
		n := 0
		for _, o := range group {
			for _, s := range g.screens(o) {
				if at.tree[s] < 0 {
					at.tree[s], at.bit[s] = t, n
					n++
				}
			}
		}
		if n > 64 {
			return at, false
		}
		at.clears[t] = make([]uint64, len(group))
		for c, o := range group {
			for _, s := range g.screens(o) {
				at.clears[t][c] |= 1 << at.bit[s]
			}
		}
	}
	return at, true
}

// enter adds the coefficients of all terms into the table.
func (g Game) enter(out []float64, sp space, at screens) {
	factor := make([][]float64, len(sp.groups)) // f(c) of the trees on this term
	var touched []int
	var index []int32
	var value []float64
	for k := range g.Terms {
		term := &g.Terms[k]
		energy := term.Energy
		for j, s := range term.Trees {
			t := at.tree[s]
			if t < 0 {
				energy *= term.Tau[j]
				continue
			}
			if len(factor[t]) == 0 {
				touched = append(touched, t)
				for range len(sp.groups[t]) + 1 {
					factor[t] = append(factor[t], 1)
				}
			}
			factor[t][0] *= term.Tau[j]
			for c, bits := range at.clears[t] {
				if bits>>at.bit[s]&1 == 0 {
					factor[t][c+1] *= term.Tau[j]
				}
			}
		}
		index, value = append(index[:0], 0), append(value[:0], energy)
		for _, t := range touched {
			f := factor[t]
			for n, m := 0, len(index); n < m; n++ {
				v := value[n]
				value[n] = v * f[0]
				for c := 1; c < len(f); c++ {
					if f[c] > f[0] {
						index = append(index, index[n]+int32(c*sp.stride[t]))
						value = append(value, v*(f[c]-f[0]))
					}
				}
			}
			factor[t] = f[:0]
		}
		touched = touched[:0]
		for n, i := range index {
			out[i] += value[n]
		}
	}
}

// enterTrees is enter where a digit says only whether its tree goes.
func (g Game) enterTrees(out []float64, sp space, treeOf []int) {
	stride, tau := make([]int32, len(sp.groups)), make([]float64, len(sp.groups))
	index, value := make([]int32, 1), make([]float64, 1)
	for k := range g.Terms {
		term := &g.Terms[k]
		energy, n := term.Energy, 0
		for j, s := range term.Trees {
			if t := treeOf[s]; t < 0 {
				energy *= term.Tau[j]
			} else {
				stride[n], tau[n] = int32(sp.stride[t]), term.Tau[j]
				n++
			}
		}
		if len(index) < 1<<n {
			index, value = make([]int32, 1<<n), make([]float64, 1<<n)
		}
		index[0], value[0] = 0, energy
		m := 1
		for x := range n {
			left, right := tau[x], 1-tau[x]
			for i := range m {
				v := value[i]
				value[i] = v * left
				index[m+i], value[m+i] = index[i]+stride[x], v*right
			}
			m *= 2
		}
		for i, v := range value[:m] {
			out[index[i]] += v
		}
	}
}

// sumUp turns coefficients into the reach of every combination, one pass a tree.
func (sp space) sumUp(out []float64) {
	for t, group := range sp.groups {
		stride := sp.stride[t]
		block := stride * (len(group) + 1)
		for base := 0; base < sp.size; base += block {
			left := out[base : base+stride]
			for c := 1; c <= len(group); c++ {
				done := out[base+c*stride : base+(c+1)*stride]
				for j, v := range left {
					done[j] += v
				}
			}
		}
	}
}

// spread is the most additions the terms can need to be entered in the table.
func (g Game) spread(sp space, screenTree []int) float64 {
	sum := 0.0
	seen := make([]int, len(sp.groups)) // number of the last term that met the tree
	for k := range g.Terms {
		entries := 1.0
		for _, s := range g.Terms[k].Trees {
			if t := screenTree[s]; t >= 0 && seen[t] <= k {
				seen[t] = k + 1
				entries *= float64(len(sp.groups[t]) + 1)
			}
		}
		sum += entries
	}
	return sum
}
