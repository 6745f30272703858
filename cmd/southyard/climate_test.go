package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

// runWords runs one command as a person types it; code is the exit code.
func runWords(words ...string) (out string, code int, err error) {
	var b bytes.Buffer
	commands := []*cli.Command{climateCommand(), sunCommand()}
	app := &cli.App{Name: "southyard", Commands: commands, Writer: &b, ErrWriter: &b, ExitErrHandler: func(*cli.Context, error) {}}
	err = app.Run(flagsFirst(append([]string{"southyard"}, words...), commands))
	var coded cli.ExitCoder
	if errors.As(err, &coded) {
		code = coded.ExitCode()
	} else if err != nil {
		code = 1
	}
	return b.String(), code, err
}

func TestClimateOfAPlaceListsStationsAndMonths(t *testing.T) {
	out, code, err := runWords("climate", "41.65,-83.54")
	if err != nil || code != 0 {
		t.Fatal(err)
	}
	for _, want := range []string{"Toledo", "mi away", "January", "December", "heating season October to April", "degree-days", "ft lower"} {
		if !strings.Contains(out, want) && !(want == "ft lower" && strings.Contains(out, "ft higher")) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if strings.Contains(out, "NaN") {
		t.Errorf("NaN in\n%s", out)
	}
}

func TestClimateByNameAndNumberAgree(t *testing.T) {
	a, _, err := runWords("climate", "toledo")
	if err != nil {
		t.Fatal(err)
	}
	if b, _, _ := runWords("climate", "725360"); a != b {
		t.Errorf("name and number differ:\n%s\n%s", a, b)
	}
}

func TestPlaceMayBeWrittenWithABlank(t *testing.T) {
	want, _, err := runWords("climate", "41.65,-83.54")
	if err != nil {
		t.Fatal(err)
	}
	for _, place := range []string{"41.65 -83.54", "41.65, -83.54"} {
		if got, _, err := runWords("climate", place); err != nil || got != want {
			t.Errorf("%q: %v\n%s", place, err, got)
		}
	}
}

func TestPlaneJSONAddsUp(t *testing.T) {
	out, _, err := runWords("climate", "41.65,-83.54", "--plane", "90,180", "--json")
	if err != nil {
		t.Fatal(err)
	}
	var r climateReport
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	if r.Plane == nil || len(r.Plane.Months) != 12 || r.Plane.Tilt != 90 || r.Plane.Azimuth != 180 || r.Plane.Sky != "anisotropic" {
		t.Fatalf("plane %+v", r.Plane)
	}
	sum := 0.0
	for _, m := range r.Plane.Months {
		sum += m.Total
		if math.Abs(m.Beam+m.Diffuse+m.Ground-m.Total) > 1e-9 || m.AroundSun > m.Diffuse {
			t.Errorf("%+v", m)
		}
	}
	if math.Abs(sum-r.Plane.Year.Total) > 1e-6 || sum < 700 || sum > 1300 {
		t.Errorf("months add up to %.1f, year %.1f", sum, r.Plane.Year.Total)
	}
}

// A level plane gets the global sun, whatever the sky; a brighter ground adds
// in proportion on a wall.
func TestLevelPlaneGetsTheGlobalSun(t *testing.T) {
	for _, model := range []string{"isotropic", "anisotropic"} {
		out, _, err := runWords("climate", "--plane=0,0", "41.65,-83.54", "--sky", model, "--json")
		if err != nil {
			t.Fatal(err)
		}
		var r climateReport
		if err := json.Unmarshal([]byte(out), &r); err != nil {
			t.Fatal(err)
		}
		if math.Abs(r.Plane.Year.Total-r.Global) > 0.5 || r.Plane.Year.Ground != 0 {
			t.Errorf("%s: plane %.2f, global %.2f", model, r.Plane.Year.Total, r.Global)
		}
	}
	ground := func(albedo string) float64 {
		out, _, err := runWords("climate", "toledo", "--plane", "90,0", "--albedo", albedo, "--json")
		var r climateReport
		if err != nil || json.Unmarshal([]byte(out), &r) != nil {
			t.Fatal(err)
		}
		return r.Plane.Year.Ground
	}
	if a, b := ground("0.2"), ground("0.4"); math.Abs(b/a-2) > 1e-9 {
		t.Errorf("ground %.2f at 0.2, %.2f at 0.4", a, b)
	}
}

func TestClimateFaultsSayWhatWouldBeRight(t *testing.T) {
	for _, c := range []struct {
		words []string
		code  int
		want  string
	}{
		{[]string{"climate"}, 2, "41.65,-83.54"},
		{[]string{"climate", "91,0"}, 2, "latitude runs from -90 to 90"},
		{[]string{"climate", "-38.0,145.0"}, 1, "twelve monthly figures"},
		{[]string{"climate", "Tolledo"}, 2, "Toledo"},
		{[]string{"climate", "Zwiebach"}, 2, "give its latitude,longitude off a map"},
		{[]string{"climate", "."}, 1, "folder"},
		{[]string{"climate", "toledo.csv"}, 1, "no such file"},
		{[]string{"climate", "toledo.hrs"}, 1, "no such file; give an hourly file (see southyard climate --help), a place"},
		{[]string{"climate", "41.655"}, 2, "no station"},
		{[]string{"climate", "lots/year"}, 1, "no such file"},
		{[]string{"climate", "toledo", "--plane", "south"}, 2, "90,180"},
		{[]string{"climate", "toledo", "--plane", "NaN,180"}, 2, "90,180"},
		{[]string{"climate", "toledo", "--sky", "blue"}, 2, "anisotropic"},
		{[]string{"climate", "toledo", "--albedo", "20"}, 2, "0 to 1"},
		{[]string{"climate", "toledo", "--elevation", "high"}, 2, "--elevation"},
		{[]string{"climate", "41.65,83.54", "--zone", "America/New_York"}, 1, "west longitude is negative"},
		{[]string{"climate", "41.65,-83.54", "--zone", "Ohio"}, 1, "America/New_York"},
	} {
		out, code, err := runWords(c.words...)
		if err == nil || code != c.code || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v: code %d, %v\n%s", c.words, code, err, out)
		}
	}
}
