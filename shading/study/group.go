package study

// Group are the numbers of the surfaces a name stands for: a surface's id, or
// a group such as "south windows", "south walls", "roof" (the planes that look
// within 90° of the equator or lie flat).
func (st *Study) Group(name string) ([]int, error) { return st.group(name) }

// Weights are a target's surfaces in m², by surface; nil where there is no
// such target.
func (st *Study) Weights(target int) []float64 {
	if target < 0 || target >= len(st.Targets) {
		return nil
	}
	return st.Targets[target].demand.Weights
}
