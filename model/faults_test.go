package model

import (
	"math"
	"strings"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"
	"github.com/paulmach/orb"
)

const ft = 0.3048

// soundSite is a small lot in feet with nothing wrong.
func soundSite() *Site {
	house := gable(box(8*ft, 38*ft, 30*ft, 66*ft), 90, 36.87, 14*ft/12)
	house.WallHeight = 17.5 * ft
	tree := func(id string, x, y float64) Tree {
		return Tree{ID: id, At: orb.Point{x * ft, y * ft}, Height: 52 * ft, SpreadX: 36 * ft, SpreadY: 36 * ft, CrownBase: 9 * ft,
			Shape: Ellipsoid, Trunk: 0.5, InLeaf: 0.2, Bare: 0.6, Owner: OwnerLot, Removable: true}
	}
	return &Site{
		Place: Place{LatLng: s2.LatLngFromDegrees(41.65, -83.54)},
		Lot:   box(0, 0, 40*ft, 115*ft),
		House: Building{ID: "house", Parts: []Part{house}},
		Windows: []Window{
			{ID: "W1", Wall: "south", Left: 3 * ft, Sill: 2.5 * ft, Width: 32 * ft / 12, Height: 5 * ft, Frame: 0.2},
			{ID: "W2", Wall: "south", Left: 12 * ft, Sill: 2.5 * ft, Width: 32 * ft / 12, Height: 5 * ft},
		},
		Trees:  []Tree{tree("T1", 18, 14), tree("T2", 30, 20)},
		Fences: []Fence{{ID: "F1", Line: orb.LineString{{0, 0}, {0, 30 * ft}}, Height: 6 * ft}},
		Plans: []Plan{
			{Name: "front", Steps: []Step{{Kind: Remove, Tree: "T1"}}},
			{Name: "both", On: "front", Steps: []Step{{Kind: Raise, Tree: "T2", Height: 15 * ft}}},
		},
	}
}

func TestSoundSiteHasNoFaults(t *testing.T) {
	if f := soundSite().Faults(); len(f) > 0 {
		t.Errorf("faults: %v", f)
	}
}

func TestClockwiseRingsAreNoFault(t *testing.T) {
	s := soundSite()
	s.Lot = reversed(s.Lot)
	s.House.Parts[0].Footprint = reversed(s.House.Parts[0].Footprint)
	if f := s.Faults(); len(f) > 0 {
		t.Errorf("faults: %v", f)
	}
}

func TestEachFaultIsFoundWhereItStands(t *testing.T) {
	for name, c := range map[string]struct {
		spoil    func(*Site)
		field    string
		says     string // in Wrong or Right
		severity Severity
	}{
		"lot crosses itself": {func(s *Site) { s.Lot = orb.Ring{{0, 0}, {10, 0}, {0, 10}, {10, 10}, {0, 0}} },
			"lot", "crosses or touches itself near [16 ft 5 in, 16 ft 5 in]", FaultError},
		"footprint crosses itself on a turned sketch": {func(s *Site) {
			s.Turn = 90 * s1.Degree // sketch east is true south
			s.House.Parts[0].Footprint = orb.Ring{{2, 0}, {12, 0}, {2, -10}, {12, -10}, {2, 0}}
		}, "house.parts[0].footprint", "[16 ft 5 in, 23 ft]", ""},
		"two corners": {func(s *Site) { s.House.Parts[0].Footprint = orb.Ring{{0, 0}, {9, 0}, {0, 0}} }, "house.parts[0].footprint", "2 corners", FaultError},
		"no area":     {func(s *Site) { s.Lot = orb.Ring{{0, 0}, {9, 0}, {5, 0}, {0, 0}} }, "lot", "", FaultError},
		"gable over L": {func(s *Site) {
			s.House.Parts[0].Footprint = orb.Ring{{3, 12}, {9, 12}, {9, 16}, {6, 16}, {6, 20}, {3, 20}, {3, 12}}
		}, "house.parts[0].footprint", "an L is two", FaultError},
		"pitch":     {func(s *Site) { s.House.Parts[0].Roof.Pitch = 95 * s1.Degree }, "house.parts[0].roof.pitch", "95°", FaultError},
		"no pitch":  {func(s *Site) { s.House.Parts[0].Roof.Pitch = 0 }, "house.parts[0].roof.pitch", "kind: flat", FaultWarning},
		"roof kind": {func(s *Site) { s.House.Parts[0].Roof.Kind = "dome" }, "house.parts[0].roof.kind", "gable, hip", FaultError},
		"no parts":  {func(s *Site) { s.House.Parts = nil }, "house.parts", "at least one", FaultError},
		"house over the lot line": {func(s *Site) { s.Lot = box(0, 0, 40*ft, 60*ft) },
			"house.parts[0].footprint", "21 % of this part's footprint lies outside the lot", FaultWarning},
		"house beside the lot": {func(s *Site) { s.Lot = box(50*ft, 0, 90*ft, 60*ft) },
			"house.parts[0].footprint", "wholly outside the lot", FaultError},
		"wall in metres in a feet file": {func(s *Site) { s.House.Parts[0].WallHeight = 5 * ft; s.Windows = nil },
			"house.parts[0].wall height", "is this in metres? 5 m would be usual", FaultWarning},
		"wall of nothing": {func(s *Site) { s.House.Parts[0].WallHeight = 0; s.Windows = nil }, "house.parts[0].wall height", "", FaultError},
		"window off the right end": {func(s *Site) { s.Windows[1].Left = 20 * ft },
			"house.windows[1].left", "8 in past the right end of wall south, which is 22 ft long", FaultError},
		"window over the eave":  {func(s *Site) { s.Windows[1].Sill = 15 * ft }, "house.windows[1].height", "2 ft 6 in above the highest point", FaultError},
		"window off the gable":  {func(s *Site) { s.Windows[1].Wall, s.Windows[1].Left, s.Windows[1].Sill = "east", 0, 16*ft }, "house.windows[1].sill", "above its roof line", FaultError},
		"windows overlap":       {func(s *Site) { s.Windows[1].Left = 4 * ft }, "house.windows[1]", "window W2 overlaps window W1 by 1 ft 8 in across", FaultError},
		"window copied":         {func(s *Site) { s.Windows[1].Left = 3 * ft }, "house.windows[1]", "window W2 lies in the place of window W1", FaultError},
		"unknown wall":          {func(s *Site) { s.Windows[0].Wall = "sout" }, "house.windows[0].wall", "the walls are east, north, south, west", FaultError},
		"window named as wall":  {func(s *Site) { s.Windows[0].ID = "South" }, "house.windows[0].id", "same id", FaultError},
		"tree in the house":     {func(s *Site) { s.Trees[1].At = orb.Point{5, 15} }, "trees[1].at", "inside the house", FaultError},
		"40 m in a feet file":   {func(s *Site) { s.Trees[1].Height = 40 }, "trees[1].height", "is this in metres? 131 ft 3 in is 40 m, and 40 ft would be usual", FaultWarning},
		"36 ft window":          {func(s *Site) { s.Windows[1].Width = 36 * ft }, "house.windows[1].width", "is this in inches? 36 in would be usual", ""},
		"24 ft trunk":           {func(s *Site) { s.Trees[1].Trunk = 24 * ft }, "trees[1].trunk", "is this in inches? 24 in would be usual", ""},
		"60 m in a metric file": {func(s *Site) { s.Metric = true; s.Trees[1].Height = 60 }, "trees[1].height", "is this in feet? 60 ft would be usual", FaultWarning},
		"400 m tree":            {func(s *Site) { s.Trees[1].Height = 400 }, "trees[1].height", "between", FaultError},
		"negative height":       {func(s *Site) { s.Trees[1].Height = -3 }, "trees[1].height", "", FaultError},
		"height no number":      {func(s *Site) { s.Trees[1].Height = math.NaN() }, "trees[1].height", "not a number", FaultError},
		"crown base at the top": {func(s *Site) { s.Trees[0].CrownBase = 60 * ft }, "trees[0].crown base", "less than the tree's height, 52 ft", FaultError},
		"percent for a share":   {func(s *Site) { s.Trees[0].InLeaf = 20 }, "trees[0].in leaf", "20 % is 0.2", FaultError},
		"bare and leaf swapped": {func(s *Site) { s.Trees[0].InLeaf, s.Trees[0].Bare = 0.6, 0.2 }, "trees[0].bare", "swapped", FaultWarning},
		"tree twice":            {func(s *Site) { s.Trees[1].ID = "t1" }, "trees[1].id", "same id as trees[0]", FaultError},
		"trees in one place":    {func(s *Site) { s.Trees[1].At = s.Trees[0].At }, "trees[1].at", "where tree T1 stands", FaultWarning},
		"tree far away":         {func(s *Site) { s.Trees[1].At[0] = 6000 }, "trees[1].at", "16,404 ft 2 in from the origin", ""},
		"tree off the lot":      {func(s *Site) { s.Trees[1].At = orb.Point{-4, 2} }, "trees[1].owner", "outside it", FaultWarning},
		"crown shape":           {func(s *Site) { s.Trees[0].Shape = "ball" }, "trees[0].shape", "ellipsoid", FaultError},
		"fence share":           {func(s *Site) { s.Fences[0].Transmissivity = -0.1 }, "fences[0].transmissivity", "", FaultError},
		"fence of one point":    {func(s *Site) { s.Fences[0].Line = s.Fences[0].Line[:1] }, "fences[0].line", "no length", FaultError},
		"plan names no tree":    {func(s *Site) { s.Plans[0].Steps = append(s.Plans[0].Steps, Step{Kind: Remove, Tree: "T9"}) }, "plans[0].remove[1]", "one of T1, T2", FaultError},
		"plan on no plan":       {func(s *Site) { s.Plans[1].On = "back" }, "plans[1].on", "one of front, both", FaultError},
		"plans in a circle":     {func(s *Site) { s.Plans[0].On = "both" }, "plans[1].on", "builds on itself: both on front on both", FaultError},
		"plan on itself":        {func(s *Site) { s.Plans[0].On = "front" }, "plans[0].on", "front on front", FaultError},
		"felled before":         {func(s *Site) { s.Plans[1].Steps[0].Tree = "T1" }, "plans[1].raise[0]", "removed by an earlier step", FaultWarning},
		"street tree felled":    {func(s *Site) { s.Trees[0].Owner = OwnerStreet }, "plans[0].remove[0]", "consent", FaultWarning},
		"raised past the top":   {func(s *Site) { s.Plans[1].Steps[0].Height = 60 * ft }, "plans[1].raise[0].height", "52 ft", FaultError},
		"thinned to 40":         {func(s *Site) { s.Plans[1].Steps[0] = Step{Kind: Thin, Tree: "T2", InLeaf: 40} }, "plans[1].thin[0].in leaf", "", FaultError},
		"planted under a known id": {func(s *Site) {
			s.Plans[0].Steps = []Step{{Kind: Plant, NewTree: &s.Trees[0]}}
		}, "plans[0].plant[0].id", "already", FaultError},
		"demolish nothing": {func(s *Site) { s.Plans[0].Steps = []Step{{Kind: Demolish, Structure: "shed"}} }, "plans[0].demolish[0]", "one of F1", FaultError},
		"plan twice":       {func(s *Site) { s.Plans[1].Name = "Front" }, "plans[1].name", "same id", FaultError},
		"latitude":         {func(s *Site) { s.Place.LatLng.Lat = 95 * s1.Degree }, "place.latitude", "", FaultError},
		"chimney too low": {func(s *Site) {
			s.House.Chimneys = []Chimney{{At: orb.Point{5, 15}, Width: 0.6, Depth: 0.6, Top: 5}}
		}, "house.chimneys[0].top", "under the roof", FaultWarning},
		"chimney far off": {func(s *Site) {
			s.House.Chimneys = []Chimney{{ID: "C1", At: orb.Point{40 * ft, 50 * ft}, Width: 2 * ft, Depth: 2 * ft, Top: 30 * ft}}
		}, "house.chimneys[0].at", "C1 stands 7 ft 10 in beyond the eaves, at [40 ft, 50 ft]", FaultError},
		"neighbour through the house": {func(s *Site) {
			b := gable(box(20*ft, 30*ft, 50*ft, 60*ft), 90, 30, 0)
			b.WallHeight = 5
			s.Neighbours = []Building{{ID: "N1", Parts: []Part{b}}}
		}, "neighbours[0].parts[0].footprint", "N1 covers 220 sq ft of the house's ground", FaultError},
		"neighbour a foot into the house": {func(s *Site) {
			b := gable(box(29*ft, 30*ft, 50*ft, 60*ft), 90, 30, 0)
			b.WallHeight = 5
			s.Neighbours = []Building{{ID: "N1", Parts: []Part{b}}}
		}, "neighbours[0].parts[0].footprint", "22.0 sq ft", FaultWarning},
		"hidden part": {func(s *Site) {
			p := gable(box(4, 14, 7, 17), 0, 20, 0)
			p.ID, p.WallHeight = "core", 2.5
			s.House.Parts = append(s.House.Parts, p)
		}, "house.parts[1]", "inside the others", FaultWarning},
		"too many trees": {func(s *Site) { s.Trees = make([]Tree, 6000) }, "trees", "at most 5000", FaultError},
		"collector on nothing": {func(s *Site) {
			s.Collectors = []CollectorChoice{{On: "roof-up", Width: 1, Height: 2}}
		}, "collectors[0].on", "roof-south", FaultError},
		"collector of no size": {func(s *Site) { s.Collectors = []CollectorChoice{{Height: 2}} }, "collectors[0]", "such as 4 ft and 8 ft", FaultError},
		"collector of no size in metres": {func(s *Site) { s.Metric = true; s.Collectors = []CollectorChoice{{Height: 2}} },
			"collectors[0]", "such as 1.22 m and 2.44 m", FaultError},
		"vent on no plane": {func(s *Site) {
			s.KeepClear = []KeepClear{{ID: "vent", On: "roof-up", Left: 1, Up: 1, Width: 0.1, Height: 0.1}}
		}, "keep clear[0].on", "the roof planes are roof-north, roof-south", FaultError},
		"door on no wall": {func(s *Site) {
			s.KeepClear = []KeepClear{{ID: "door", On: "sowth", Left: 1, Width: 1, Height: 2}}
		}, "keep clear[0].on", "the walls are east, north, south, west; the roof planes are", FaultError},
		"skylight off the end": {func(s *Site) {
			s.KeepClear = []KeepClear{{ID: "skylight", On: "Roof South", Left: 23 * ft, Up: 1, Width: 3 * ft, Height: 1}}
		}, "keep clear[0].left", "past the right end of roof-south", FaultError},
		"vent over the ridge": {func(s *Site) {
			s.KeepClear = []KeepClear{{ID: "vent", On: "roof-south", Left: 1, Up: 30 * ft, Width: 0.1, Height: 0.1}}
		}, "keep clear[0].up", "above the top of roof-south", FaultError},
		"patch of no size": {func(s *Site) {
			s.KeepClear = []KeepClear{{ID: "vent", On: "south", Left: math.NaN(), Up: 1, Width: 0.1, Height: 0.1}}
		}, "keep clear[0]", "left and up from 0", FaultError},
	} {
		t.Run(name, func(t *testing.T) {
			s := soundSite()
			c.spoil(s)
			faults := s.Faults()
			for _, f := range faults {
				if f.Field == c.field && (c.severity == "" || f.Severity == c.severity) && strings.Contains(f.Error(), c.says) {
					return
				}
			}
			t.Errorf("want %s at %s saying %q, got %q", c.severity, c.field, c.says, faults)
		})
	}
}

func TestWhatTouchesTheHouseIsNoFault(t *testing.T) {
	s := soundSite()
	next := gable(box(30*ft, 38*ft, 50*ft, 66*ft), 90, 36.87, 0) // shares the east wall
	next.WallHeight = 17.5 * ft
	porch := Part{Footprint: box(10*ft, 34*ft, 20*ft, 42*ft), Open: true, WallHeight: 9 * ft, Roof: Roof{Kind: Flat}}
	s.Neighbours = []Building{{ID: "N1", Parts: []Part{next}}}
	s.Porches = []Building{{ID: "porch", Parts: []Part{porch}}}
	s.House.Chimneys = []Chimney{{At: orb.Point{7 * ft, 50 * ft}, Width: 2 * ft, Depth: 2 * ft, Top: 30 * ft}} // against the west wall
	if f := s.Faults(); len(f) > 0 {
		t.Errorf("faults: %v", f)
	}
}

func TestOneFaultIsToldOnce(t *testing.T) {
	s := soundSite()
	s.Trees[1].At = orb.Point{5, 15}
	if f := s.Faults(); len(f) != 1 {
		t.Errorf("%d faults, want 1: %q", len(f), f)
	}
	s = soundSite()
	s.House.Parts[0].Footprint = orb.Ring{{2, 12}, {9, 12}, {2, 20}, {9, 20}, {2, 12}}
	if f := s.Faults(); len(f) != 1 {
		t.Errorf("%d faults, want 1: %q", len(f), f)
	}
}

func TestAllFaultsComeAtOnce(t *testing.T) {
	s := soundSite()
	s.Trees[0].Height = -1
	s.Trees[1].InLeaf = 3
	s.Windows[0].Wall = "up"
	s.Plans[0].Steps[0].Tree = "T7"
	s.Lot = orb.Ring{{0, 0}, {10, 0}, {0, 10}, {10, 10}, {0, 0}}
	fields := map[string]bool{}
	for _, f := range s.Faults() {
		fields[f.Field] = true
	}
	for _, want := range []string{"trees[0].height", "trees[1].in leaf", "house.windows[0].wall", "plans[0].remove[0]", "lot"} {
		if !fields[want] {
			t.Errorf("no fault at %s among %v", want, fields)
		}
	}
}

func TestEmptySiteHasFaultsAndNoPanic(t *testing.T) {
	if len((&Site{}).Faults()) == 0 {
		t.Error("a site without a house should have a fault")
	}
}

// A hill of which only the top was read stands all round; one read down to
// level on both sides does not, nor does low land or land read every so often.
func TestLandNobodyReadIsAskedAbout(t *testing.T) {
	reading := func(azimuth, altitude float64) SkylinePoint {
		return SkylinePoint{Azimuth: s1.Angle(azimuth) * s1.Degree, Altitude: s1.Angle(altitude) * s1.Degree}
	}
	for name, c := range map[string]struct {
		skyline []SkylinePoint
		asked   int
	}{
		"the top alone":             {[]SkylinePoint{reading(120, 15)}, 1},
		"two tops":                  {[]SkylinePoint{reading(120, 15), reading(200, 9)}, 1},
		"down to level on a side":   {[]SkylinePoint{reading(100, 0), reading(120, 15)}, 1},
		"down to level":             {[]SkylinePoint{reading(100, 0), reading(120, 15), reading(140, 0)}, 0},
		"low land":                  {[]SkylinePoint{reading(120, 1), reading(240, 2)}, 0},
		"a bowl read all round":     {[]SkylinePoint{reading(45, 8), reading(135, 8), reading(225, 8), reading(315, 8)}, 0},
		"a bowl with a side unread": {[]SkylinePoint{reading(45, 8), reading(135, 8), reading(225, 8)}, 1},
	} {
		site := soundSite()
		site.Terrain.Skyline = c.skyline
		asked := 0
		for _, f := range site.Faults() {
			if strings.HasPrefix(f.Field, "terrain.skyline") {
				asked++
			}
		}
		if asked != c.asked {
			t.Errorf("%s: asked about %d times, want %d", name, asked, c.asked)
		}
	}
}
