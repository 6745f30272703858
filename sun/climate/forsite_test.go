package climate

import (
	"errors"
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s1"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

func ohio() model.Place {
	return model.Place{LatLng: at(41.65, -83.54), Elevation: math.NaN(), Zone: "America/New_York"}
}

func TestEveryChoiceOfClimateGivesAYear(t *testing.T) {
	figures := steady(at(41.65, -83.54), 0.45)
	text := tmy3Text(inventYear(t), nil)
	read := func(name string) ([]byte, error) {
		if name != "hours.csv" {
			return nil, errors.New("asked for " + name)
		}
		return []byte(text), nil
	}
	for name, c := range map[string]struct {
		choice model.ClimateChoice
		source string
	}{
		"nearest":  {model.ClimateChoice{}, "blended"},
		"station":  {model.ClimateChoice{Station: "Toledo Express"}, "Toledo"},
		"file":     {model.ClimateChoice{File: "hours.csv"}, "hours.csv"},
		"figures":  {model.ClimateChoice{Monthly: true, Global: figures.Global, Temp: figures.Mean}, "twelve"},
		"figures+": {model.ClimateChoice{Monthly: true, Global: figures.Global, Temp: figures.Mean, Diffuse: &[12]float64{.5, .5, .5, .5, .5, .5, .5, .5, .5, .5, .5, .5}}, "twelve"},
	} {
		y, m, err := ForSite(ohio(), c.choice, read, 1)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(y.Hours) != sun.HoursAYear || !strings.Contains(y.Source, c.source) || y.Offset != -5*time.Hour {
			t.Errorf("%s: %d hours, source %q, offset %v", name, len(y.Hours), y.Source, y.Offset)
		}
		hdd := 0.0
		for i := range 12 {
			hdd += m.HDD[i]
			for what, v := range map[string]float64{"global": m.Global[i], "diffuse": m.Diffuse[i], "mean": m.Mean[i], "high": m.Max[i], "low": m.Min[i], "albedo": m.Albedo[i], "hours' albedo": y.Hours[i*730].Albedo} {
				if math.IsNaN(v) {
					t.Errorf("%s month %d: %s is not a number", name, i+1, what)
				}
			}
		}
		if hdd < 1500 || hdd > 4500 {
			t.Errorf("%s: %.0f degree-days", name, hdd)
		}
	}
}

func TestStatedFiguresAreKept(t *testing.T) {
	figures := steady(at(41.65, -83.54), 0.45)
	albedo := [12]float64{.3, .3, .3, .3, .3, .3, .3, .3, .3, .3, .3, .7}
	y, m, err := ForSite(ohio(), model.ClimateChoice{Monthly: true, Global: figures.Global, Temp: figures.Mean, Albedo: &albedo}, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	made := OfHours(y)
	for i := range 12 {
		if math.Abs(made.Global[i]-figures.Global[i]) > 1e-6 || math.Abs(made.Mean[i]-figures.Mean[i]) > 1e-3 || m.Albedo[i] != albedo[i] {
			t.Errorf("month %d: global %.3f of %.3f, mean %.2f of %.2f, albedo %g", i+1, made.Global[i], figures.Global[i], made.Mean[i], figures.Mean[i], m.Albedo[i])
		}
	}
	if y.Hours[8759].Albedo != 0.7 || y.Hours[0].Albedo != 0.3 {
		t.Errorf("albedo of the hours: %g, %g", y.Hours[0].Albedo, y.Hours[8759].Albedo)
	}
	if !strings.Contains(strings.Join(m.Notes, ";"), "Erbs") {
		t.Errorf("the correlation is not named: %q", m.Notes)
	}
}

// South of the equator and outside the stations' coverage, twelve figures
// work, and the equator-facing wall is the north one.
func TestTwelveFiguresWorkAnywhere(t *testing.T) {
	for name, place := range places {
		figures := steady(place, 0.5)
		y, _, err := ForSite(model.Place{LatLng: place, Elevation: math.NaN()}, model.ClimateChoice{Monthly: true, Global: figures.Global, Temp: figures.Mean}, nil, 1)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		north, south := wallYear(y, 0), wallYear(y, 180)
		switch lat := place.Lat.Degrees(); {
		case lat > 20 && lat < 80 && south < 1.2*north, lat < -20 && lat > -80 && north < 1.2*south, lat == 0 && math.Abs(north/south-1) > 0.12:
			t.Errorf("%s: north wall %.0f, south wall %.0f", name, north, south)
		}
	}
}

func wallYear(y sun.Year, azimuth float64) (sum float64) {
	for _, p := range PlaneSun(y, Normal(90*s1.Degree, s1.Angle(azimuth)*s1.Degree), sky.Anisotropic) {
		sum += p.Sum()
	}
	return sum
}

// Hours are local standard time: a zone with daylight saving and one without
// give the same year.
func TestZoneChangesOnlyTheLabelOfTheHours(t *testing.T) {
	figures := steady(at(34, -112), 0.6)
	choice := model.ClimateChoice{Monthly: true, Global: figures.Global, Temp: figures.Mean}
	sums := map[string]float64{}
	for _, zone := range []string{"America/Phoenix", "America/Denver", ""} {
		y, _, err := ForSite(model.Place{LatLng: at(34, -112), Elevation: 300, Zone: zone}, choice, nil, 1)
		if err != nil {
			t.Fatal(err)
		}
		if y.Offset != -7*time.Hour {
			t.Errorf("zone %q: offset %v", zone, y.Offset)
		}
		sums[zone] = wallYear(y, 180)
	}
	if sums["America/Phoenix"] != sums["America/Denver"] || sums[""] != sums["America/Denver"] {
		t.Errorf("%v", sums)
	}
}

func TestForSiteFaultsSayWhatWouldBeRight(t *testing.T) {
	figures := steady(at(41.65, -83.54), 0.45)
	megajoules := figures.Global
	for i := range megajoules {
		megajoules[i] *= 3.6
	}
	abroad := model.Place{LatLng: at(48, 11), Elevation: 500}
	for name, c := range map[string]struct {
		place  model.Place
		choice model.ClimateChoice
		want   string
	}{
		"abroad":        {abroad, model.ClimateChoice{}, "twelve monthly figures"},
		"no such name":  {ohio(), model.ClimateChoice{Station: "Tolledo"}, "Toledo Express"},
		"two names":     {ohio(), model.ClimateChoice{Station: "san"}, "write one of"},
		"megajoules":    {ohio(), model.ClimateChoice{Monthly: true, Global: megajoules, Temp: figures.Mean}, "MJ/m²"},
		"no zone":       {model.Place{LatLng: at(41, -83), Zone: "Ohio"}, model.ClimateChoice{}, "America/New_York"},
		"east for west": {model.Place{LatLng: at(41, 83), Zone: "America/New_York"}, model.ClimateChoice{}, "west longitude is negative"},
		"file":          {ohio(), model.ClimateChoice{File: "gone.csv"}, "gone.csv"},
	} {
		_, _, err := ForSite(c.place, c.choice, func(name string) ([]byte, error) { return nil, errors.New("open " + name + ": no such file") }, 1)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v; want %q", name, err, c.want)
		}
	}
}

func TestFileFarFromThePlaceIsPointedOut(t *testing.T) {
	text := tmy3Text(inventYear(t), nil)
	y, _, err := ForSite(model.Place{LatLng: at(40, -90), Elevation: 100}, model.ClimateChoice{File: "hours.csv"}, func(string) ([]byte, error) { return []byte(text), nil }, 1)
	if err != nil || !strings.Contains(strings.Join(y.Notes, ";"), "613 km (381 mi) away") || y.Longitude != -83 {
		t.Errorf("%v, notes %q", err, y.Notes)
	}
}

// Notes go to readers of feet and of metres.
func TestNotesNameBothUnits(t *testing.T) {
	metric := regexp.MustCompile(`\d (m|km|°C)\b( \([\d,]+ (ft|mi|°F)\))?`)
	text := tmy3Text(inventYear(t), nil)
	read := func(string) ([]byte, error) { return []byte(text), nil }
	place := func(lat, lng float64) model.Place { return model.Place{LatLng: at(lat, lng), Elevation: math.NaN()} }
	figures := steady(at(48, 11), 0.45)
	for name, c := range map[string]struct {
		place  model.Place
		choice model.ClimateChoice
		want   string
	}{
		"elevation":       {place(41.65, -83.54), model.ClimateChoice{}, "208 m (681 ft)"},
		"a station":       {place(33, -100), model.ClimateChoice{Station: "Toledo Express"}, "km ("},
		"a file":          {model.Place{LatLng: at(40, -90), Elevation: 100}, model.ClimateChoice{File: "hours.csv"}, "km ("},
		"monthly figures": {model.Place{LatLng: at(48, 11), Elevation: 500}, model.ClimateChoice{Monthly: true, Global: figures.Global, Temp: figures.Mean}, "10 °C (18 °F)"},
	} {
		y, _, err := ForSite(c.place, c.choice, read, 1)
		all := strings.Join(y.Notes, "; ")
		if err != nil || !strings.Contains(all, c.want) {
			t.Errorf("%s: %v, notes %q, want %q", name, err, all, c.want)
		}
		for _, m := range metric.FindAllStringSubmatch(all, -1) {
			if m[2] == "" {
				t.Errorf("%s: metres alone in %q", name, all)
			}
		}
	}
}

// A plane that looks up gets the global sun of every month.
func TestLevelPlaneGetsTheGlobalSunOfEveryMonth(t *testing.T) {
	place := at(41.65, -83.54)
	y, err := Synthesize(steady(place, 0.5), place, 0, -5*time.Hour, 1)
	if err != nil {
		t.Fatal(err)
	}
	global := OfHours(y).Global
	for i, p := range PlaneSun(y, Normal(0, 0), sky.Anisotropic) {
		if want := global[i] * days(i); math.Abs(p.Sum()-want) > 1e-6*want {
			t.Errorf("month %d: %.4f, want %.4f", i+1, p.Sum(), want)
		}
	}
	if n := Normal(90*s1.Degree, 90*s1.Degree); math.Abs(n.X-1) > 1e-12 || math.Abs(n.Z) > 1e-12 {
		t.Errorf("an east wall looks to %v", n)
	}
}
