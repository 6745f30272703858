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
	Tree        string // id, for remove, raise, reduce, thin
	Structure   string // id, for demolish
	Height      float64
	Spread      float64
	InLeaf      float64
	Bare        float64
	NewTree     *Tree
	NewBuilding *Building
	NewFence    *Fence
	Cost        float64
	CostKnown   bool
}
