package page

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun"
)

// open starts a headless browser on the example's page.
func open(t *testing.T) (context.Context, *study.Study) {
	t.Helper()
	program := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			program = found
			break
		}
	}
	if program == "" {
		t.Skip("no chromium, chromium-browser or google-chrome is installed to open the page in")
	}
	st, html := alderPage(t)
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(html), 0o644); err != nil {
		t.Fatal(err)
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program),
		chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun, chromedp.WindowSize(1280, 900),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true))
	allocated, end := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(end)
	page, end := chromedp.NewContext(allocated) // with a new folder for its data, removed again
	t.Cleanup(end)
	page, end = context.WithTimeout(page, time.Minute)
	t.Cleanup(end)
	address := url.URL{Scheme: "file", Path: file}
	do(t, page, chromedp.Navigate(address.String()), chromedp.WaitReady("#sums tbody tr", chromedp.ByQuery))
	return page, st
}

func do(t *testing.T, page context.Context, actions ...chromedp.Action) {
	t.Helper()
	if err := chromedp.Run(page, actions...); err != nil {
		t.Fatal(err)
	}
}

func value[T any](t *testing.T, page context.Context, script string) T {
	t.Helper()
	var out T
	do(t, page, chromedp.Evaluate(script, &out))
	return out
}

// asShown compares every figure the page shows with the study, for the trees
// gone.
func asShown(t *testing.T, page context.Context, st *study.Study, gone ...string) {
	t.Helper()
	what := "gone: " + strings.Join(gone, " ")
	want := st.Account.Read(st.Account.Without(st.Account.Today(), gone...))
	shown := value[[][]float64](t, page, `[...document.querySelectorAll("#all tbody tr")].map(r => [...r.cells].slice(1).map(c => Number(c.dataset.value)))`)
	if len(shown) != len(want) {
		t.Fatalf("%s: %d surfaces shown, want %d", what, len(shown), len(want))
	}
	for i, row := range shown {
		r := want[i]
		for k, x := range []float64{r.OpenTotal(st.Heating...), st.Today[i].Total(st.Heating...), r.Total(st.Heating...),
			r.Total(st.Heating...) - st.Today[i].Total(st.Heating...), r.Access(st.Heating...), r.Total(), r.Access()} {
			if k == 3 { // a difference: against the sun it is a part of
				if math.Abs(row[k]-x) > tolerance*r.Total(st.Heating...) {
					t.Errorf("%s: %s change %v, want %v", what, r.ID, row[k], x)
				}
				continue
			}
			within(t, fmt.Sprintf("%s: %s column %d", what, r.ID, k), row[k], x)
		}
	}
	cost := 0.0
	for _, id := range gone {
		for _, tree := range st.Site.Trees {
			if tree.ID == id {
				cost += tree.Cost
			}
		}
	}
	within(t, what+": cost", value[float64](t, page, `Number(document.getElementById("cost").dataset.value)`), cost)
	sum := 0.0
	for k, w := range st.Weights(0) {
		sum += w * want[k].Total(st.Targets[0].Months...)
	}
	within(t, what+": aim", value[float64](t, page, `Number(document.getElementById("rank-words").dataset.value)`), sum)
}

func TestBrowserShowsTheStudysFiguresAfterEveryTick(t *testing.T) {
	page, st := open(t)
	asShown(t, page, st)
	number := func(id string) int {
		for i, tree := range st.Site.Trees {
			if tree.ID == id {
				return i
			}
		}
		t.Fatalf("no tree %s", id)
		return -1
	}
	tick := func(id string) string { return fmt.Sprintf("#tree-%d", number(id)) }
	wall := `Number([...document.querySelectorAll("#maps figure rect")].reduce((s, r) => s + Number(r.dataset.value), 0))`
	before := value[float64](t, page, wall)

	// By click on a box, by keyboard, by a tap on a crown.
	do(t, page, chromedp.Click(tick("T2"), chromedp.ByQuery))
	asShown(t, page, st, "T2")
	do(t, page, chromedp.Focus(tick("T7"), chromedp.ByQuery), chromedp.KeyEvent(" "))
	asShown(t, page, st, "T2", "T7")
	if after := value[float64](t, page, wall); after < before*1.05 {
		t.Errorf("the maps did not brighten: %v, before %v", after, before)
	}
	s1 := value[[]float64](t, page, fmt.Sprintf(`(() => { plan.scrollIntoView(); const r = document.querySelector('#crowns g[data-tree="%d"] circle').getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; })()`, number("S1")))
	do(t, page, chromedp.MouseClickXY(s1[0], s1[1]))
	asShown(t, page, st, "T2", "T7", "S1")
	if words := value[string](t, page, `document.getElementById("cost").textContent`); !strings.Contains(words, "not yours to remove (S1)") {
		t.Errorf("cost says %q", words)
	}
	if box := value[bool](t, page, `document.querySelector("`+tick("S1")+`").checked`); box {
		t.Error("the box of a tree tapped away is still ticked")
	}
	// Back again by keyboard, and the plans by their buttons.
	do(t, page, chromedp.Focus(tick("S1"), chromedp.ByQuery), chromedp.KeyEvent(" "))
	asShown(t, page, st, "T2", "T7")
	for _, p := range st.Plans {
		ids, ok := onlyRemoves(p)
		if !ok {
			continue
		}
		do(t, page, chromedp.Evaluate(fmt.Sprintf(`[...document.querySelectorAll("#sets button")].find(b => b.textContent === %q).focus()`, "plan: "+p.Name), nil), chromedp.KeyEvent(kb.Enter))
		asShown(t, page, st, ids...)
	}
	if hash := value[string](t, page, "location.hash"); !strings.HasPrefix(hash, "#gone=T") {
		t.Errorf("the address does not keep the set: %q", hash)
	}
	// The first rank is the tree whose removal next adds most.
	do(t, page, chromedp.Click("#sets button", chromedp.ByQuery))
	best, most := "", 0.0
	for _, s := range st.Targets[0].Standing {
		if s.Alone > most {
			best, most = s.ID, s.Alone
		}
	}
	if got := value[string](t, page, `[...document.querySelectorAll("#trees tbody tr")].find(r => r.cells[2].textContent === "1").cells[1].querySelector("b").textContent`); got != best {
		t.Errorf("rank 1 is %s, the study says %s", got, best)
	}
}

func TestBrowserFindsTheSunWithinTwoHundredthsOfADegree(t *testing.T) {
	page, st := open(t)
	places := value[[][]float64](t, page, `(() => { const out = []; for (let d = 1; d <= 365; d += 7) for (let h = 0.5; h < 24; h += 1.5) { const s = sunAt(d, h); out.push([d, h, s.x, s.y, s.z]); } return out; })()`)
	zone := time.FixedZone("", int(st.Year.Offset.Seconds()))
	worst := 0.0
	for _, p := range places {
		at := time.Date(st.Year.Calendar, time.January, int(p[0]), 0, int(math.Round(p[1]*60)), 0, 0, zone)
		v := sun.At(at, st.Site.Place.LatLng, 0).Vector()
		off := math.Hypot(math.Hypot(v.X-p[2], v.Y-p[3]), v.Z-p[4]) * 180 / math.Pi
		worst = max(worst, off)
	}
	t.Logf("%d moments, worst %.4f°", len(places), worst)
	if worst > 0.02 {
		t.Errorf("the page's sun is up to %.3f° off", worst)
	}
}

func TestBrowserLaysCrownsShadowsWhereTheStudyDoes(t *testing.T) {
	page, st := open(t)
	for _, at := range []struct {
		day   int
		hour  float64
		month time.Month
		date  int
	}{{355, 11, time.December, 21}, {80, 15.5, time.March, 21}, {172, 9, time.June, 21}} {
		do(t, page, chromedp.Evaluate(fmt.Sprintf(`document.getElementById("day").value = %d; document.getElementById("hour").value = %g; document.getElementById("hour").dispatchEvent(new Event("input"))`, at.day, at.hour), nil))
		zone := time.FixedZone("", int(st.Year.Offset.Seconds()))
		v := sun.At(time.Date(st.Year.Calendar, at.month, at.date, 0, int(at.hour*60), 0, 0, zone), st.Site.Place.LatLng, 0).Vector()
		for _, shade := range st.Scene.Shadows(v) {
			if shade.Kind != "crown" || len(shade.Outlines) != 1 {
				continue
			}
			var d string
			do(t, page, chromedp.Evaluate(fmt.Sprintf(`document.querySelector('#shadows path[data-tree="%s"]').getAttribute("d")`, shade.Thing), &d))
			var ring orb.Ring
			for _, word := range strings.Split(strings.Trim(d, "MZ"), "L") {
				var p orb.Point
				if _, err := fmt.Sscanf(word, "%f %f", &p[0], &p[1]); err != nil {
					t.Fatal(err)
				}
				p[1] = -p[1]
				ring = append(ring, p)
			}
			ring = append(ring, ring[0])
			want := shade.Outlines[0]
			got, area := math.Abs(planar.Area(ring)), math.Abs(planar.Area(want))
			a, _ := planar.CentroidArea(ring)
			b, _ := planar.CentroidArea(want)
			if math.Abs(got/area-1) > 0.03 || planar.Distance(a, b) > 0.02*math.Sqrt(area)+0.02 {
				t.Errorf("%s on day %d: shadow of %.1f m² about %.2f, the study's %.1f m² about %.2f", shade.Thing, at.day, got, a, area, b)
			}
		}
	}
}

func TestBrowserPageFitsAPhone(t *testing.T) {
	page, _ := open(t)
	do(t, page, chromedp.EmulateViewport(360, 740, chromedp.EmulateMobile, chromedp.EmulateTouch), chromedp.Reload(), chromedp.WaitReady("#sums tbody tr", chromedp.ByQuery))
	if wide := value[float64](t, page, "document.documentElement.scrollWidth"); wide > 360 {
		t.Errorf("the page is %g points wide on a phone of 360", wide)
	}
	small := value[[]string](t, page, `[...document.querySelectorAll("button, select, summary, label.tick, .choice label, input[type=range]")].filter(e => { const r = e.getBoundingClientRect(); return r.height > 0 && (r.height < 43.9 || r.width < 43.9); }).map(e => e.outerHTML.slice(0, 80))`)
	if len(small) > 0 {
		t.Errorf("too small to touch: %q", small)
	}
	unnamed := value[[]string](t, page, `[...document.querySelectorAll("input, select, button, svg[role=img]")].filter(e => !(e.getAttribute("aria-label") || e.getAttribute("aria-labelledby") || e.textContent.trim() || (e.labels && e.labels.length))).map(e => e.outerHTML.slice(0, 80))`)
	if len(unnamed) > 0 {
		t.Errorf("without a name for those who cannot see: %q", unnamed)
	}
}

// The page's promise, 0.1 %, holds for every change of heat and money itself.
func TestBrowserWorksOutHeatOfAnySet(t *testing.T) {
	page, st := open(t)
	lot := embedded(t, mustPage(t))
	h := st.Heat
	rehab := h.Columns[study.Rehab]
	today := h.States[study.Rehab]
	worst := 0.0
	for _, x := range trials(st, lot) {
		want, err := st.HeatOf(x.name, st.Account.Without(st.Account.Today(), x.ids(st)...))
		if err != nil {
			t.Fatal(err)
		}
		var got struct{ Windows, Air, Water, Heat, Dollars, Summer float64 }
		gone, err := json.Marshal(x.gone)
		if err != nil {
			t.Fatal(err)
		}
		do(t, page, chromedp.Evaluate(fmt.Sprintf("heatOf(%s)", gone), &got))
		for _, c := range []struct {
			what             string
			got, want, whole float64
		}{
			{"windows", got.Windows, want.Windows.Saved, rehab.Need},
			{"air heaters", got.Air, want.AirMore, today.Air + want.Air},
			{"hot water", got.Water, want.WaterMore, today.Water + want.Water},
			{"summer", got.Summer, want.Windows.SummerGain, rehab.SummerSolar},
			{"dollars", got.Dollars, want.Saving, h.Economy.Worth(rehab.Need+today.Air, today.Water, 0)},
		} {
			if c.want != 0 {
				worst = max(worst, math.Abs(c.got-c.want)/max(math.Abs(c.want), 0.02))
			}
			// A small change of a large sum carries the sum's rounding.
			if !(math.Abs(c.got-c.want) <= tolerance*math.Abs(c.want)+1e-6*c.whole) {
				t.Errorf("%s, %s: page %v, study %v", x.name, c.what, c.got, c.want)
			}
		}
	}
	t.Logf("worst %.1e of the change", worst)
	// What is shown is what is worked out.
	do(t, page, chromedp.Click("#tree-0", chromedp.ByQuery))
	want, err := st.HeatOf("", st.Account.Without(st.Account.Today(), st.Site.Trees[0].ID))
	if err != nil {
		t.Fatal(err)
	}
	if got := value[float64](t, page, `Number(document.getElementById("heat").dataset.dollars)`); math.Abs(got-want.Saving) > 0.05 {
		t.Errorf("shown $%v a year, the study says %v", got, want.Saving)
	}
	words := value[string](t, page, `document.getElementById("heat").textContent`)
	if say := ". " + heat.Dollars(want.Saving) + " a year less"; !strings.Contains(words, say) || !strings.Contains(words, " "+heat.MMBtu(want.Windows.Saved)+" million Btu") {
		t.Errorf("the page says %q, the study %q and %s", words, say, heat.MMBtu(want.Windows.Saved))
	}
	for _, x := range []float64{0.05, 0.7, 5.36, 12.4, 99.6, 137, 2652} {
		if got := value[string](t, page, fmt.Sprintf("estimate(%v)", x)); got != heat.Dollars(x) {
			t.Errorf("$%v: page %s, study %s", x, got, heat.Dollars(x))
		}
	}
	for _, x := range []float64{1, 4, 14, 107, 290, 567, 9800, 29250, 31600} {
		if got := value[string](t, page, fmt.Sprintf("heatFigure(%v)", x)); got != heat.MMBtu(x) {
			t.Errorf("%v kWh: page %s, study %s", x, got, heat.MMBtu(x))
		}
	}
	if took := value[float64](t, page, `(() => { const t0 = performance.now(); change(); return performance.now() - t0; })()`); took > 0 {
		t.Logf("a tick takes %.0f ms", took)
	}
}

func mustPage(t *testing.T) string {
	_, html := alderPage(t)
	return html
}
