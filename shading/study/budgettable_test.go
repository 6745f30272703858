package study

import (
	"fmt"
	"strings"
	"testing"

	"github.com/southyard/southyard/shading/removal"
)

func TestLongCurveShowsFirstKneeAndLastAndCountsTheRest(t *testing.T) {
	for _, n := range []int{1, mostSteps, mostSteps + 1, 30, 500} {
		c := removal.Curve{Exact: true, Knee: 2 * n / 3, Steps: make([]removal.Step, 1)} // the first buys nothing
		for i := range n {
			c.Steps = append(c.Steps, removal.Step{IDs: []string{fmt.Sprintf("T%d", i)}, Cost: float64(100 * i), Gain: float64(i * (2*n - i))})
		}
		c.Knee++
		budget := c.Steps[(n+1)/2].Cost
		shown, left := someSteps(c, reachedBy(c, budget))
		if len(shown) > mostSteps+1 || len(shown)+left != n {
			t.Errorf("%d steps: %d shown, %d left out", n, len(shown), left)
		}
		if want := fmt.Sprintf(" %d ", c.Knee); shown[0] != 1 || shown[len(shown)-1] != n || !strings.Contains(" "+strings.Trim(fmt.Sprint(shown), "[]")+" ", want) {
			t.Errorf("%d steps: first, knee %d and last should be among %v", n, c.Knee, shown)
		}
		var text strings.Builder
		steps(func(f string, args ...any) { fmt.Fprintf(&text, f+"\n", args...) }, "What each sum of money buys", c, budget)
		if strings.Count(text.String(), "the most the budget buys") != 1 {
			t.Errorf("%d steps: the budget's is not told once: %q", n, text.String())
		}
		if told := strings.Contains(text.String(), fmt.Sprintf("and %d more", left)); told != (left > 0) {
			t.Errorf("%d steps: %q", n, text.String())
		}
	}
}
