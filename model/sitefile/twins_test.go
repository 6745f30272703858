package sitefile

import (
	"fmt"
	"strings"
	"testing"
)

func TestOneSlipCopiedDownAListIsToldOnce(t *testing.T) {
	windows := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "    - {id: X%d, wall: south, left: %d in, sill: 1 ft, width: 10 in, height: 12 in, glazing: singel}\n", i, 12*i)
		}
		return with("trees:", b.String()+"trees:")
	}
	for name, c := range map[string]struct {
		text string
		want []string // the faults, without the file's name
	}{
		"one":     {windows(1), []string{`13:91: house.windows[X0].glazing: "singel" is no kind of window; write single`}},
		"two":     {windows(2), []string{`13:91: house.windows[X0].glazing: "singel" is no kind of window; write single (the same on line 14)`}},
		"four":    {windows(4), []string{`13:91: house.windows[X0].glazing: "singel" is no kind of window; write single (the same on lines 14, 15 and 16)`}},
		"fifteen": {windows(15), []string{`13:91: house.windows[X0].glazing: "singel" is no kind of window; write single (the same on 14 more lines: 14, 15, 16 …)`}},
		"a word of another key is its own slip": {with("species: silver maple", "species: silver maple, owner: twon") + "fences:\n  - {line: [[0, 0], [0, 9]], height: 6 ft, owner: twon}\n",
			[]string{`14:44: trees[T1].owner: "twon" is not known here; write own`, `20:51: fences[1].owner: "twon" is not known here; write own`}},
		"two words":             {strings.NewReplacer("left: 2 ft", "left: 2 fot", "left: 8 ft", "left: 8 fot").Replace(sound), []string{`11:35: house.windows[W1].left: "2 fot"`, `12:35: house.windows[W2].left: "8 fot"`}},
		"what is missing":       {strings.ReplaceAll(sound, "sill: 3 ft, ", ""), []string{"11:7: house.windows[W1]: sill is missing", "12:7: house.windows[W2]: sill is missing"}},
		"a doubt":               {strings.NewReplacer("silver maple", "zzyzx tree", "red maple", "zzyzx tree").Replace(sound), []string{"14:23: look again: trees[T1].species: "}},
		"a line twice in doubt": {with("[T1, T2]}", "[T8, T9, T8]}"), []string{`17:27: plans[both].remove[1]: there is no tree "T8"`, `17:31: plans[both].remove[2]: there is no tree "T9"`}},
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := Read("f", []byte(c.text))
			var got []string
			for _, f := range faults {
				if text := strings.TrimPrefix(f.String(), "f:"); !strings.Contains(text, "overlaps") && !strings.Contains(text, "in the place of") && !strings.Contains(text, "unusual") {
					got = append(got, text)
				}
			}
			if len(got) != len(c.want) {
				t.Fatalf("told:\n%s", strings.Join(got, "\n"))
			}
			for i, want := range c.want {
				if !strings.HasPrefix(got[i], want) || strings.Contains(want, "write single") && got[i] != want {
					t.Errorf("told %q, want %q", got[i], want)
				}
			}
		})
	}
}

func TestFileMovedInWithTabsIsOneFault(t *testing.T) {
	for text, want := range map[string]string{
		strings.ReplaceAll(sound, "\n  ", "\n\t"):                       "f:7:1: this line is moved in with a tab; write two spaces for each step to the right (the same on 8 more lines: 8, 9, 10 …)",
		with("\n  wall height", "\n\twall height"):                      "f:8:1: this line is moved in with a tab; write two spaces for each step to the right",
		with("\n  wall height", "\n  \twall height") + "# \tfine\n\t\n": "f:8:3: this line is moved in with a tab; write two spaces for each step to the right",
	} {
		if _, faults := Read("f", []byte(text)); len(faults) != 1 || faults[0].String() != want {
			t.Errorf("%v\n%s", faults, text)
		}
	}
}
