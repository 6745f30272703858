package model

// Plan is a named set of changes. A plan may build on another, whose steps
// come first.
type Plan struct {
	Name  string
	On    string
	Steps []Step
}

// StepKind is what a step does.
type StepKind string

// The kinds of step.
const (
	Remove   StepKind = "remove"   // fell a tree
	Raise    StepKind = "raise"    // lift the crown base to Height
	Reduce   StepKind = "reduce"   // bring the crown to Height or Spread
	Thin     StepKind = "thin"     // let more light through: InLeaf, Bare
	Plant    StepKind = "plant"    // NewTree
	Build    StepKind = "build"    // NewBuilding or NewFence
	Demolish StepKind = "demolish" // take a building or fence away
)

// Step is one change. Only the fields its kind names are set.
type Step struct {
	Kind        StepKind
	Tree        string  // id, for remove, raise, reduce, thin
	Structure   string  // id, for demolish
	Height      float64 // m: the crown base after raising, the tree's after reducing
	Spread      float64 // m, after reducing; 0: as it is
	InLeaf      float64 // transmissivities after thinning, 0..1
	Bare        float64
	NewTree     *Tree
	NewBuilding *Building
	NewFence    *Fence
	Cost        float64 // dollars
	CostKnown   bool
}

// Thing is the id of what the step works on or brings.
func (s Step) Thing() string {
	switch {
	case s.NewTree != nil:
		return s.NewTree.ID
	case s.NewBuilding != nil:
		return s.NewBuilding.ID
	case s.NewFence != nil:
		return s.NewFence.ID
	case s.Structure != "":
		return s.Structure
	}
	return s.Tree
}
