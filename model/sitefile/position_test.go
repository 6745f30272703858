package sitefile

import (
	"math"
	"strings"
	"testing"

	"github.com/southyard/southyard/model"
)

// Tangent method by hand: 20 m away, 35° up and 4.5° down is 15.578 m.
func TestHeightsFromAngles(t *testing.T) {
	for text, want := range map[string]float64{
		"{distance: 20 m, top angle: 35°, base angle: 4.5°}":         15.578,
		"{distance: 20 m, top angle: 35°, base angle: 4.5° down}":    15.578,
		"{distance: 20 m, top angle: 35°, base angle: 4.5° up}":      20*math.Tan(35*math.Pi/180) - 1.574,
		"{distance: 60 ft, top angle: 100 %, eye height: 5 ft 4 in}": (60 + 64.0/12) * ft,
		"{distance: 60 ft, top angle: 45°}":                          (60 + 64.0/12) * ft,
	} {
		tree := readSound(t, with("height: 52 ft", "height: "+text)).Trees[0]
		if math.Abs(tree.Height-want) > 0.002 {
			t.Errorf("%s: %.3f m, want %.3f", text, tree.Height, want)
		}
		if m := tree.Measured[model.QHeight]; m.Method != "clinometer" || m.SD < 0.04*want || m.SD > 0.12*want {
			t.Errorf("%s: tolerance %v", text, m)
		}
	}
}

func TestPositionsFromBearingAndDistance(t *testing.T) {
	for text, want := range map[string][2]float64{
		"bearing: north, distance: 10, from: peg":                      {20, 10},
		"bearing: S 90 E, distance: 10 ft, from: Peg":                  {30, 0},
		"bearing: south, distance: 20 ft, from: house south-east":      {31, 26},
		"bearing: west, distance: 3, from: south-west corner of lot":   {-3, 0},
		"bearing: west, distance: 3, from: NE corner of the house":     {28, 74},
		"bearing: 180, distance: 3, from: T1":                          {18, 11},
		"bearing: S 45 W, distance: 10, from: house south-west corner": {8 - 10*math.Sqrt2/2, 46 - 10*math.Sqrt2/2},
	} {
		at := readSound(t, with("at: [28, 20]", text)).Trees[1].At
		if math.Hypot(at[0]/ft-want[0], at[1]/ft-want[1]) > 1e-9 {
			t.Errorf("%s: %v ft, want %v", text, [2]float64{at[0] / ft, at[1] / ft}, want)
		}
	}
}

// A sketch whose up reads N 11° E by a compass with declination 7° W points
// 4° east of true north: a point 100 ft up the sketch lies 100 sin 4° east.
func TestTheSketchIsTurnedToTrueNorth(t *testing.T) {
	for _, text := range []string{
		"{up points: N 11° E, measured: magnetic, declination: 7° W}",
		"up is 11° east of magnetic north, declination 7° W",
		"up is 4° east of true north",
		"{up points: N 4° E}",
	} {
		s := readSound(t, with("north: up is true north", "north: "+text))
		peg := s.Points["peg"]
		if math.Abs(s.Turn.Degrees()-4) > 1e-9 || math.Abs(peg[0]/ft-20*math.Cos(4*math.Pi/180)) > 1e-9 || math.Abs(peg[1]/ft+20*math.Sin(4*math.Pi/180)) > 1e-9 {
			t.Errorf("%s: turn %v, peg %v", text, s.Turn.Degrees(), peg)
		}
		if ridge := s.House.Parts[0].Roof.Ridge.Degrees(); math.Abs(ridge-94) > 1e-9 {
			t.Errorf("%s: the ridge drawn east-west runs %v°", text, ridge)
		}
		faces, err := s.House.Faces()
		if err != nil {
			t.Fatal(err)
		}
		wall, err := model.FindWall(faces, "south")
		if err != nil || math.Abs(wall.Azimuth().Degrees()-184) > 1e-6 {
			t.Errorf("%s: the south wall looks to %v (%v)", text, wall.Azimuth().Degrees(), err)
		}
	}
}

func TestCompassReadingsFollowTheStatedNorth(t *testing.T) {
	north := "north: {up points: N 7° E, measured: magnetic, declination: 7° W}" // up is true north
	for text, want := range map[string]float64{"N 7 E": 0, "7": 0, "north true": 0, "N 0 E true": 0, "7° mag": 0, "south": 173} {
		s := readSound(t, strings.Replace(with("at: [28, 20]", "bearing: "+text+", distance: 10 ft, from: peg"), "north: up is true north", north, 1))
		at, peg := s.Trees[1].At, s.Points["peg"]
		got := math.Mod(math.Atan2(at[0]-peg[0], at[1]-peg[1])*180/math.Pi+360, 360)
		if d := math.Abs(math.Remainder(got-want, 360)); d > 1e-6 {
			t.Errorf("%s: %v° true, want %v", text, got, want)
		}
	}
}
