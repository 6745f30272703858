package climate

import (
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/model"
)

func TestEveryStationParses(t *testing.T) {
	all, err := parseStations(stationTable)
	if err != nil {
		t.Fatal(err)
	}
	if len(all) != 317 {
		t.Fatalf("%d stations, want 317", len(all))
	}
	for _, s := range all {
		if sun := s.LatLng.Lng.Degrees() / 15; !s.LatLng.IsValid() || math.Abs(s.Offset.Hours()-sun) > 2.5 { // western Alaska keeps time 2.3 h ahead of its sun
			t.Errorf("%s: place %v, offset %v", s.Label(), s.LatLng, s.Offset)
		}
	}
}

// Daily extraterrestrial radiation, Duffie and Beckman eq. 1.10.3, solar
// constant 1361 W/m² (Kopp and Lean 2011), Cooper's declination, summed over
// the month; kWh/m² a day.
func TestGlobalStaysBelowExtraterrestrialAndAboveDiffuse(t *testing.T) {
	first := [13]int{1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335, 366}
	for _, s := range Stations() {
		for m := range 12 {
			sum := 0.0
			for n := first[m]; n < first[m+1]; n++ {
				decl := 23.45 * math.Pi / 180 * math.Sin(2*math.Pi*float64(284+n)/365)
				phi := s.LatLng.Lat.Radians()
				ws := math.Acos(max(-1, min(1, -math.Tan(phi)*math.Tan(decl))))
				sum += 24 / math.Pi * 1.361 * (1 + 0.033*math.Cos(2*math.Pi*float64(n)/365)) *
					(math.Cos(phi)*math.Cos(decl)*math.Sin(ws) + ws*math.Sin(phi)*math.Sin(decl))
			}
			outside := sum / float64(first[m+1]-first[m])
			// The table is rounded to 0.01.
			if g := s.Global[m]; !math.IsNaN(g) && g > outside+0.01 {
				t.Errorf("%s month %d: global %.2f above extraterrestrial %.2f", s.Label(), m+1, g, outside)
			}
			if s.Diffuse[m] > s.Global[m]+0.01 {
				t.Errorf("%s month %d: diffuse %.2f above global %.2f", s.Label(), m+1, s.Diffuse[m], s.Global[m])
			}
			if s.Min[m] > s.Mean[m] || s.Mean[m] > s.Max[m] {
				t.Errorf("%s month %d: min %.1f mean %.1f max %.1f", s.Label(), m+1, s.Min[m], s.Mean[m], s.Max[m])
			}
		}
	}
}

func TestNearestIsTheStationAtItsOwnPlace(t *testing.T) {
	for _, s := range Stations() {
		if got := Nearest(s.LatLng, 1)[0]; got.Distance > 1 {
			t.Errorf("%s: nearest is %s at %.0f m", s.Label(), got.Label(), got.Distance)
		}
	}
}

// One degree along a great circle of the mean earth is 111.195 km.
func TestDistanceCrossesTheDateLine(t *testing.T) {
	got := distance(s2.LatLngFromDegrees(0, 179.5), s2.LatLngFromDegrees(0, -179.5))
	if math.Abs(got-111195) > 1 {
		t.Errorf("distance %.0f m, want 111195", got)
	}
	west := Nearest(s2.LatLngFromDegrees(52, 179), 1)[0]
	east := Nearest(s2.LatLngFromDegrees(52, -179), 1)[0]
	if west.ID != east.ID {
		t.Errorf("nearest changes across the date line: %s, %s", west.Label(), east.Label())
	}
}

func TestFindForgives(t *testing.T) {
	cases := map[string]string{
		"Toledo Express Airport": "725360",
		"toledo":                 "725360",
		"TOLEDO, OH":             "725360",
		"725360":                 "725360",
		"boulder":                "724699",
	}
	for asked, id := range cases {
		got, err := Find(asked)
		if err != nil || len(got) != 1 || got[0].ID != id {
			t.Errorf("Find(%q) = %v, %v; want station %s", asked, got, err, id)
		}
	}
	for asked, hint := range map[string]string{"Tolledo": "Toledo", "": "317"} {
		if _, err := Find(asked); err == nil || !strings.Contains(err.Error(), hint) {
			t.Errorf("Find(%q): %v; want an error naming %s", asked, err, hint)
		}
	}
}

func TestOnlyNamesSpeltAlikeAreSuggested(t *testing.T) {
	for asked, want := range map[string]string{
		"Tolledo":                       `no station is called "Tolledo"; spelt like it: Toledo Express Airport OH`,
		"Toledo, Ohio":                  "spelt like it: Toledo Express Airport OH",
		"Clevland Airport":              "spelt like it: Cleveland Hopkins Intl AP OH",
		"Sprigfeild":                    "spelt like it: Springfield Capital AP IL; Springfield Regional Arpt MO",
		"Zwiebach":                      `no station is called "Zwiebach", or anything spelt like it`,
		"Zwiebach Municipal Airport":    "or anything spelt like it", // every other town has one
		"Zwiebach, CO":                  "in that state: Alamosa San Luis Valley Rgnl CO; Broomfield/Jeffco [Boulder - SURFRAD] CO; ",
		"Zwiebach, TX":                  "; and more",
		"x":                             "or anything spelt like it",
		"é":                             "or anything spelt like it",
		strings.Repeat("tolledo ", 300): "spelt like it", // long, and answered
	} {
		if _, err := Find(asked); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%.30q: %v; want %q", asked, err, want)
		}
	}
}

func TestStationThatIsNotThereNamesThoseNearTheLot(t *testing.T) {
	place := model.Place{LatLng: s2.LatLngFromDegrees(41.65, -83.54), Elevation: 180, Zone: "America/New_York"}
	_, _, err := ForSite(place, model.ClimateChoice{Station: "Zwiebach"}, nil, 1)
	if err == nil || !strings.Contains(err.Error(), "are Toledo Express Airport OH, 2") || !strings.Contains(err.Error(), "or climate: nearest to have them blended") {
		t.Error(err)
	}
}

func TestBadTablesAreRefusedByLine(t *testing.T) {
	lines := strings.SplitN(stationTable, "\n", 3)
	for name, text := range map[string]string{
		"short line": lines[0] + "\n702730,Anchorage",
		"no column":  "id,name\n1,2",
		"bad number": lines[0] + "\n" + strings.Replace(lines[1], "61.18", "north", 1),
	} {
		if _, err := parseStations(text); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
