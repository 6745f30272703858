package lots

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"
)

func row(name string, now, after, cost float64) Row {
	return Row{File: name + ".yaml", Key: name, Record: Record{Name: name, Now: now, After: after, Cost: cost, Plan: "remove T1"}}
}

func TestMostSunComesFirstAndOfEqualsTheCheaper(t *testing.T) {
	s := Sheet{Lots: []Row{row("c", 100, 300, 900), row("a", 250, 400, 100), row("b", 100, 300, 500), row("d", 100, 300, 500)}}
	names := func() (out string) {
		for i, r := range s.Lots {
			if r.Rank != i+1 {
				t.Errorf("rank %d at place %d", r.Rank, i+1)
			}
			out += r.Name
		}
		return out
	}
	s.Order(ByAfter)
	if names() != "abdc" {
		t.Errorf("after: %s", names())
	}
	s.Lots[3].Now = 260
	s.Order(ByNow)
	if names() != "cabd" {
		t.Errorf("now: %s", names())
	}
}

func parts(n int) ([]Sheet, []string) {
	var sheets []Sheet
	var names []string
	for i := 1; i <= n; i++ {
		p := Sheet{Version: Version, Program: "southyard v1", Options: Options{For: ForWall, Seed: 1}, Part: Part{i, n}, Files: n + 1, List: "abc", Lots: []Row{row(fmt.Sprint("lot", i), 100, float64(100+i), 0)}}
		sheets, names = append(sheets, p), append(names, p.Name()+".json")
	}
	sheets[0].Failed = []Failure{Failed("bad.yaml", "bad.yaml:1:1: wrong")}
	return sheets, names
}

func TestJoinedPartsAreTheWholeList(t *testing.T) {
	sheets, names := parts(4)
	s, err := Merge(sheets, names)
	if err != nil {
		t.Fatal(err)
	}
	s.Order(ByAfter)
	if len(s.Lots) != 4 || s.Lots[0].Name != "lot4" || s.Lots[3].Name != "lot1" || len(s.Failed) != 1 || s.Part != Whole {
		t.Errorf("%+v", s)
	}
}

func TestPartsThatDoNotBelongTogetherAreNotJoined(t *testing.T) {
	budget := 4500.0
	for _, c := range []struct {
		name  string
		spoil func(p []Sheet) []Sheet
		fault string
	}{
		{"two missing", func(p []Sheet) []Sheet { return append(p[:1:1], p[2]) }, "missing: 2, 4"},
		{"another budget", func(p []Sheet) []Sheet { p[2].Options.Budget = &budget; return p }, "--budget (4500 and each file's own)"},
		{"ranked for something else", func(p []Sheet) []Sheet { p[1].Options.For = ForRoof; return p }, "--for (roof and wall)"},
		{"another sky", func(p []Sheet) []Sheet { p[1].Options.Sky = "isotropic"; return p }, "--sky"},
		{"coarser rows", func(p []Sheet) []Sheet { p[1].Options.Row = 0.3; return p }, "--row"},
		{"another seed", func(p []Sheet) []Sheet { p[3].Options.Seed = 2; return p }, "--seed"},
		{"another build", func(p []Sheet) []Sheet { p[3].Program = "southyard v2"; return p }, "another build"},
		{"another version", func(p []Sheet) []Sheet { p[3].Version = 99; return p }, "version 99"},
		{"another list", func(p []Sheet) []Sheet { p[3].List = "xyz"; return p }, "another list"},
		{"of five", func(p []Sheet) []Sheet { p[3].N = 5; return p }, "one of 5"},
		{"twice", func(p []Sheet) []Sheet { p[3].I = 1; return p }, "both part 1"},
		{"a lot lost", func(p []Sheet) []Sheet { p[3].Lots = nil; return p }, "hold 4 files, the list had 5"},
		{"none", func(p []Sheet) []Sheet { return nil }, "no parts"},
	} {
		sheets, names := parts(4)
		_, err := Merge(c.spoil(sheets), names)
		if err == nil || !strings.Contains(err.Error(), c.fault) {
			t.Errorf("%s: %v; want a fault about %q", c.name, err, c.fault)
		}
	}
}

func TestKeyChangesWithEverythingTheRecordComesFrom(t *testing.T) {
	budget := 0.0
	o := Options{For: ForWall, Sky: "anisotropic", Seed: 1}
	keys := map[string]string{}
	add := func(what, key string) {
		if was, ok := keys[key]; ok {
			t.Errorf("%s has the key of %s", what, was)
		}
		keys[key] = what
	}
	add("as it is", Key("p", o, []byte("site"), nil))
	add("another program", Key("q", o, []byte("site"), nil))
	add("another site", Key("p", o, []byte("sitf"), nil))
	add("with hours", Key("p", o, []byte("site"), []byte("h")))
	add("bytes moved over", Key("p", o, []byte("siteh"), nil))
	add("bytes moved between", Key("p", o, []byte("sit"), []byte("eh")))
	for name, change := range map[string]func(*Options){
		"for": func(o *Options) { o.For = ForRoof }, "budget": func(o *Options) { o.Budget = &budget }, "sky": func(o *Options) { o.Sky = "isotropic" },
		"seed": func(o *Options) { o.Seed = 2 }, "row": func(o *Options) { o.Row = 0.3 },
	} {
		p := o
		change(&p)
		add(name, Key("p", p, []byte("site"), nil))
		if p.Differs(o) == "" {
			t.Errorf("another %s goes unseen", name)
		}
	}
	if _, known := keys[Key("p", o, []byte("site"), nil)]; !known {
		t.Error("a key is not the same twice")
	}
}

func TestSheetAsTableAndAsCSV(t *testing.T) {
	s := Sheet{Options: Options{For: ForWall}, Lots: []Row{row("first, with a comma", 100, 400, 4500), row("second", 100, 300, 0)}}
	s.Lots[1].Plan, s.Lots[1].Trees, s.Lots[1].RoofNow = "", 3, -1
	s.Failed = []Failure{Failed("bad.yaml", "bad.yaml:1:1: a", "bad.yaml:2:1: b", "bad.yaml:3:1: c")}
	s.Order(ByAfter)
	var text, table bytes.Buffer
	if err := s.Text(&text, 1); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"2 lots", "$4,500", "remove T1", "… and 1 more", "bad.yaml:1:1: a", "2 more faults"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("the table lacks %q:\n%s", want, text.String())
		}
	}
	if strings.Contains(text.String(), "second") {
		t.Error("more lots than asked for")
	}
	if err := s.CSV(&table); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&table).ReadAll() // every row as long as the first
	if err != nil || len(rows) != 4 || rows[1][1] != "first, with a comma" || rows[2][15] != "" || rows[3][26] != "bad.yaml:1:1: a" {
		t.Errorf("%v %v", rows, err)
	}
	if err := s.Text(full{}, 0); err == nil {
		t.Error("a full disk went unseen")
	}
	if err := s.CSV(full{}); err == nil {
		t.Error("a full disk went unseen")
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, fmt.Errorf("no space left on device") }

func TestOnlyTheFirstFaultsAreKept(t *testing.T) {
	var many []string
	for i := range 100 {
		many = append(many, fmt.Sprint("fault ", i))
	}
	f := Failed("a.yaml", many...)
	if len(f.Faults) != mostFaults || f.More != 100-mostFaults {
		t.Errorf("%d kept, %d more", len(f.Faults), f.More)
	}
	lines := 0
	f.brief().Lines(func(string) { lines++ })
	if lines != 2 || f.brief().More != 99 {
		t.Errorf("%d lines, %d more", lines, f.brief().More)
	}
}
