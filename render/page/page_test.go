package page

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun/climate"
)

// alder is the example lot: its study, and its page as written.
var alder = sync.OnceValues(func() (struct {
	st   *study.Study
	html string
}, error) {
	var out struct {
		st   *study.Study
		html string
	}
	const file = "../../examples/alder-row/site.yaml"
	data, err := os.ReadFile(file)
	if err != nil {
		return out, err
	}
	site, faults := sitefile.Read(file, data)
	for _, f := range faults {
		if !f.Warning {
			return out, errors.New(fmt.Sprint(f))
		}
	}
	year, monthly, err := climate.ForSite(site.Place, site.Climate, os.ReadFile, 1)
	if err != nil {
		return out, err
	}
	if out.st, err = study.Run(site, &year, monthly, study.Options{}); err != nil {
		return out, err
	}
	lot, err := Of(out.st)
	if err != nil {
		return out, err
	}
	var b bytes.Buffer
	err = Write(&b, lot)
	out.html = b.String()
	return out, err
})

func alderPage(t *testing.T) (*study.Study, string) {
	t.Helper()
	a, err := alder()
	if err != nil {
		t.Fatal(err)
	}
	return a.st, a.html
}

// embedded is the lot as it stands in a page's text.
func embedded(t *testing.T, html string) Lot {
	t.Helper()
	found := regexp.MustCompile(`(?s)<script type="application/json" id="lot">(.*?)</script>`).FindStringSubmatch(html)
	if found == nil {
		t.Fatal("the page holds no lot")
	}
	var lot Lot
	if err := json.Unmarshal([]byte(found[1]), &lot); err != nil {
		t.Fatal(err)
	}
	return lot
}

// arithmetic is what the page's script does with the terms, done again here
// from what lot.go and terms.go say of the file.
type arithmetic struct {
	lot    Lot
	factor [][]uint16
	index  []int
	energy []float64
}

func arithmeticOf(lot Lot) arithmetic {
	a := arithmetic{lot: lot}
	u16 := func(b []byte, i int) uint16 { return binary.LittleEndian.Uint16(b[2*i:]) }
	list := make([]uint16, 0, len(lot.Factors))
	for i := range lot.Factors {
		switch {
		case lot.Narrow:
			list = append(list, uint16(lot.Factors[i]))
		case i%2 == 0:
			list = append(list, u16(lot.Factors, i/2))
		}
	}
	for i := 0; i < len(list); {
		f := []uint16{list[i]}
		n := int(list[i+1])
		f = append(f, list[i+2:i+2+n]...)
		a.factor = append(a.factor, f)
		i += 2 + n
	}
	for i := range len(lot.Energy) / 2 {
		if lot.Wide {
			a.index = append(a.index, int(binary.LittleEndian.Uint32(lot.Index[4*i:])))
		} else {
			a.index = append(a.index, int(u16(lot.Index, i)))
		}
		a.energy = append(a.energy, float64(u16(lot.Energy, i)))
	}
	return a
}

func (a arithmetic) reach(r Reading, gone []bool) float64 {
	sum := r.Fixed
	for i := r.First; i < r.First+r.Count; i++ {
		f := a.factor[a.index[i]]
		tau := 1.0
		for _, b := range f[1:] {
			if !gone[a.lot.Blockers[b].Tree] {
				tau *= a.lot.Blockers[b].Tau[f[0]]
			}
		}
		sum += r.Unit * a.energy[i] * tau
	}
	return sum
}

// trial is a set of trees gone.
type trial struct {
	name string
	gone []bool
}

func (x trial) ids(st *study.Study) []string {
	var out []string
	for i, g := range x.gone {
		if g {
			out = append(out, st.Site.Trees[i].ID)
		}
	}
	return out
}

// trials are none, each tree alone, the page's named sets (among them every
// plan that only removes), all trees, and sets drawn at random.
func trials(st *study.Study, lot Lot) []trial {
	n := len(st.Site.Trees)
	out := []trial{{"none", make([]bool, n)}}
	for i := range n {
		g := make([]bool, n)
		g[i] = true
		out = append(out, trial{st.Site.Trees[i].ID, g})
	}
	for _, s := range lot.Sets {
		g := make([]bool, n)
		for _, i := range s.Gone {
			g[i] = true
		}
		out = append(out, trial{s.Name, g})
	}
	rng := rand.New(rand.NewPCG(6, 28))
	for k := range 20 {
		g := make([]bool, n)
		for i := range g {
			g[i] = rng.IntN(2) == 0
		}
		out = append(out, trial{fmt.Sprintf("random %d", k), g})
	}
	return out
}

const tolerance = 1e-3 // the page's promise: 0.1 %

func within(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)+1e-9) {
		t.Errorf("%s: page %v, study %v", what, got, want)
	}
}

func TestEmbeddedTermsGiveTheStudysSunForEverySet(t *testing.T) {
	st, html := alderPage(t)
	lot := embedded(t, html)
	a := arithmeticOf(lot)
	worst := 0.0
	for _, x := range trials(st, lot) {
		want := st.Account.Read(st.Account.Without(st.Account.Today(), x.ids(st)...))
		for i, s := range lot.Surfaces {
			heating, rest := a.reach(s.Heating, x.gone), a.reach(s.Rest, x.gone)
			within(t, x.name+" "+s.ID+" heating", heating, want[i].Total(st.Heating...))
			within(t, x.name+" "+s.ID+" year", heating+rest, want[i].Total())
			within(t, s.ID+" open", s.Heating.Open+s.Rest.Open, want[i].OpenTotal())
			if w := want[i].Total(); w > 0 {
				worst = max(worst, math.Abs(heating+rest-w)/w)
			}
		}
		for i, g := range lot.Targets {
			sum := 0.0
			for k, w := range st.Weights(i) {
				sum += w * want[k].Total(st.Targets[i].Months...)
			}
			within(t, x.name+" target "+g.Name, a.reach(g.Sun, x.gone), sum)
		}
	}
	t.Logf("worst difference %.1e of the sun", worst)
}

func TestPlansThatOnlyRemoveAreSetsOfThePage(t *testing.T) {
	st, html := alderPage(t)
	lot := embedded(t, html)
	a := arithmeticOf(lot)
	found := 0
	for _, p := range st.Plans {
		for _, s := range lot.Sets {
			if s.Name != "plan: "+p.Name {
				continue
			}
			found++
			gone := make([]bool, len(lot.Trees))
			cost := 0.0
			for _, i := range s.Gone {
				gone[i] = true
				cost += lot.Trees[i].Cost
			}
			within(t, p.Name+" cost", cost, p.Cost)
			for i := range lot.Surfaces {
				within(t, p.Name+" "+lot.Surfaces[i].ID, a.reach(lot.Surfaces[i].Heating, gone), p.Reached[i].Total(st.Heating...))
			}
		}
	}
	if found != 3 {
		t.Errorf("%d plans of the example only remove; the page should have 3", found)
	}
}

func TestGroupsAreTheStudysSummaries(t *testing.T) {
	st, html := alderPage(t)
	lot := embedded(t, html)
	a := arithmeticOf(lot)
	list := st.Summaries()
	if len(list) != len(lot.Groups) {
		t.Fatalf("%d groups, the study has %d", len(lot.Groups), len(list))
	}
	all := make([]bool, len(lot.Trees))
	for i := range all {
		all[i] = true
	}
	for i, g := range lot.Groups {
		var area, now, none float64
		for _, k := range g.Members {
			s := lot.Surfaces[k]
			area += s.Area
			now += s.Area * a.reach(s.Heating, make([]bool, len(all)))
			none += s.Area * a.reach(s.Heating, all)
		}
		if g.Name != list[i].Name {
			t.Errorf("group %q, the study says %q", g.Name, list[i].Name)
		}
		within(t, g.Name+" now", now/area, list[i].Now)
		within(t, g.Name+" no trees", none/area, list[i].NoTrees)
	}
}

// The cells are cast apart, on fewer days and rows: together they must still
// give their face's sun. Bound: 1 %, what every fifth day costs.
func TestCellsOfAFaceAddUpToIt(t *testing.T) {
	st, html := alderPage(t)
	lot := embedded(t, html)
	a := arithmeticOf(lot)
	for _, m := range lot.Maps {
		if m.Ground {
			continue
		}
		k := st.Scene.SurfaceNamed(m.Name)
		for _, x := range trials(st, lot) {
			var area, sum float64
			for _, c := range m.Cells {
				area += c.Area
				sum += c.Area * a.reach(c.Sun, x.gone)
			}
			want := a.reach(lot.Surfaces[k].Heating, x.gone)
			if got := sum / area; math.Abs(got/want-1) > 0.01 {
				t.Errorf("%s, %s: cells %.1f kWh/m², face %.1f", m.Name, x.name, got, want)
			}
		}
		if face := st.Scene.Surfaces[k].Face.Area; math.Abs(lot.area(m)/face-1) > 0.03 {
			t.Errorf("%s: cells cover %.2f m² of %.2f", m.Name, lot.area(m), face)
		}
	}
}

func (Lot) area(m Map) float64 {
	sum := 0.0
	for _, c := range m.Cells {
		sum += c.Area
	}
	return sum
}

func TestPageIsOneSmallFileThatAsksNoNetwork(t *testing.T) {
	_, html := alderPage(t)
	if len(html) > 3<<20 {
		t.Errorf("the page has %d bytes, more than 3 MB", len(html))
	}
	t.Logf("%d kB", len(html)/1000)
	for _, address := range regexp.MustCompile(`(?i)https?://[^"' <]*`).FindAllString(html, -1) {
		if address != "http://www.w3.org/2000/svg" { // a name, not an address to fetch
			t.Errorf("the page names %s", address)
		}
	}
	for _, word := range []string{"src=", "<link", "@import", "url(http", "fetch(", "XMLHttpRequest", "import("} {
		if strings.Contains(html, word) {
			t.Errorf("the page contains %q", word)
		}
	}
	for _, word := range []string{`lang="en"`, `name="viewport"`, "default-src 'none'", "<noscript>", "line-clearance crews"} {
		if !strings.Contains(html, word) {
			t.Errorf("the page lacks %q", word)
		}
	}
}

func TestWordsOfTheSiteFileCannotBecomeMarkup(t *testing.T) {
	const evil = `</script><img src=x onerror=alert(1)><!--`
	lot := Lot{Name: evil, Source: evil, Trees: []Tree{{ID: evil}}}
	var b bytes.Buffer
	if err := Write(&b, lot); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "<img") || strings.Contains(b.String(), "alert(1)>") {
		t.Error("words of the site file stand in the page as markup")
	}
	if got := embedded(t, b.String()); got.Trees[0].ID != evil {
		t.Errorf("the tree came back as %q", got.Trees[0].ID)
	}
}

func TestLotWithoutSeasonCountsTheYear(t *testing.T) {
	st, _ := alderPage(t)
	warm := *st
	warm.Heating = nil
	lot, entered, err := tables(&warm)
	if err != nil {
		t.Fatal(err)
	}
	entered.pack(&lot)
	a := arithmeticOf(lot)
	for i, s := range lot.Surfaces {
		within(t, s.ID, a.reach(s.Heating, make([]bool, len(lot.Trees))), st.Today[i].Total())
	}
	if lot.Season != "the year" {
		t.Errorf("season %q", lot.Season)
	}
}

// A blocker that only a plan brings must not darken the page.
func TestOnlyWhatStandsTodayIsOnThePage(t *testing.T) {
	st, html := alderPage(t)
	lot := embedded(t, html)
	want := 0
	for _, b := range st.Account.Blockers {
		if b.Variant == "" && (b.Kind == shading.Crown || b.Kind == shading.Trunk) {
			want++
		}
	}
	if len(lot.Blockers) != want {
		t.Errorf("%d crowns and trunks, want %d", len(lot.Blockers), want)
	}
	if len(lot.DayState) != 365 {
		t.Errorf("%d days", len(lot.DayState))
	}
}
