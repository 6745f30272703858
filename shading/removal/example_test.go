package removal_test

import (
	"fmt"

	"github.com/southyard/southyard/shading/removal"
)

// Two maples stand in line before the south wall, a spruce stands beside them.
// Alone, each maple gains little; the spruce looks best until $3,000 is there.
func Example() {
	d := removal.Decision{
		Game: removal.Game{
			Trees: 3,
			Fixed: 400,
			Terms: []removal.Term{
				{Energy: 900, Trees: []int{0, 1}, Tau: []float64{0.1, 0.1}}, // through both maples
				{Energy: 200, Trees: []int{2}, Tau: []float64{0.2}},         // through the spruce
			},
		},
		Candidates: []removal.Candidate{
			{ID: "maple 1", Cost: 1500, Owner: "lot", Agreed: true},
			{ID: "maple 2", Cost: 1400, Owner: "lot", Agreed: true},
			{ID: "spruce", Cost: 900, Owner: "lot", Agreed: true},
		},
	}
	if err := d.Check(); err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range d.Rank(d.Agreed()) {
		fmt.Printf("%-7s  alone %3.0f  fair share %3.0f  after all others %3.0f kWh\n", s.ID, s.Alone, *s.Fair, s.AfterAllOthers)
	}
	for _, budget := range []float64{1000, 3000} {
		b := d.Best(budget, d.Agreed())
		fmt.Printf("$%.0f: %v gain %.0f kWh\n", budget, b.IDs, b.Gain)
	}
	// Output:
	// maple 1  alone  81  fair share 446  after all others 810 kWh
	// maple 2  alone  81  fair share 446  after all others 810 kWh
	// spruce   alone 160  fair share 160  after all others 160 kWh
	// $1000: [spruce] gain 160 kWh
	// $3000: [maple 1 maple 2] gain 891 kWh
}
