package lots

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"

	"github.com/southyard/southyard/shading/study"
)

// Version is the version of records and sheets. It rises when the same site
// file gives another record, or a field changes its meaning.
const Version = 1

// What lots are ranked for. The sun side is the south where the sun stands in
// the south, else the north.
const (
	ForWall    = "wall"    // the sun-side walls and windows together
	ForWindows = "windows" // the sun-side windows
	ForRoof    = "roof"    // the roof planes that take the sun
)

// Options are what a run was asked. Two sheets may be joined only if all of
// them agree.
type Options struct {
	For    string   `json:"ranked_for"`
	Budget *float64 `json:"budget_usd"` // over every file's own; nil: what each file says
	Sky    string   `json:"sky_model"`
	Seed   uint64   `json:"seed"`
	Row    float64  `json:"row_m"` // height of the rows the sun is cast on; 0 for 6 inches
}

// Check reports an option that has no meaning.
func (o Options) Check() error {
	switch {
	case o.For != ForWall && o.For != ForWindows && o.For != ForRoof:
		return fmt.Errorf("--for %s: lots are ranked for %s, %s or %s", o.For, ForWall, ForWindows, ForRoof)
	case o.Row != 0 && !(o.Row >= 0.02 && o.Row <= 2):
		return fmt.Errorf("--row %g m: rows may be 1 in to 6 ft high; 6 in is usual, 1 ft is faster and coarser", o.Row)
	}
	return nil
}

// Differs names the options in which two runs differ, or "".
func (o Options) Differs(p Options) string {
	var out []string
	say := func(name string, a, b any) {
		if !reflect.DeepEqual(a, b) {
			out = append(out, fmt.Sprintf("%s (%s and %s)", name, plain(a), plain(b)))
		}
	}
	say("--for", o.For, p.For)
	say("--budget", o.Budget, p.Budget)
	say("--sky", o.Sky, p.Sky)
	say("--seed", o.Seed, p.Seed)
	say("--row", o.Row, p.Row)
	return strings.Join(out, ", ")
}

func plain(x any) string {
	if p, ok := x.(*float64); ok {
		if p == nil {
			return "each file's own"
		}
		x = *p
	}
	return fmt.Sprint(x)
}

// Key names a record by everything it comes from: the program, the options
// and the bytes of the site file and of the hourly file it asks for (nil where
// it asks for none). Files with the same key have the same record, whatever
// they are called.
func Key(program string, o Options, site, hourly []byte) string {
	h := sha256.New()
	head, _ := json.Marshal(struct { // cannot fail: plain values, checked finite
		Record, Results int
		Program         string
		Options         Options
		Site, Hourly    int
	}{Version, study.ResultsVersion, program, o, len(site), len(hourly)})
	h.Write(head)
	h.Write(site)
	h.Write(hourly)
	return hex.EncodeToString(h.Sum(nil))[:32]
}
