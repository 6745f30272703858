package measure

import (
	"math"
	"regexp"
	"strings"

	"github.com/golang/geo/s1"
)

// North is the north a bearing was measured from.
type North string

// The norths a bearing may name.
const (
	Unstated North = ""
	True     North = "true"
	Magnetic North = "magnetic"
)

// Bearing is a direction as it was written: clockwise from its north, in
// [0, 2π).
type Bearing struct {
	Angle s1.Angle
	From  North
	Word  bool // a compass word such as south, not a reading
}

// Azimuth is the bearing from true north, in [0, 2π): a magnetic bearing
// plus the declination (east positive). Where the bearing does not say its
// north, unstated decides.
func (b Bearing) Azimuth(unstated North, declination s1.Angle) s1.Angle {
	from := b.From
	if from == Unstated {
		from = unstated
	}
	if from == Magnetic {
		return Turn(b.Angle + declination)
	}
	return Turn(b.Angle)
}

// Turn brings an angle into [0, 2π).
func Turn(a s1.Angle) s1.Angle {
	t := math.Mod(a.Radians(), 2*math.Pi)
	if t < 0 {
		t += 2 * math.Pi
	}
	if t >= 2*math.Pi { // a tiny negative angle rounds up to a full turn
		t = 0
	}
	return s1.Angle(t)
}

const bearingRight = "S 20° W, N 45 E, 200°, 200° magnetic or south-south-west"

var points = []string{"n", "nne", "ne", "ene", "e", "ese", "se", "sse", "s", "ssw", "sw", "wsw", "w", "wnw", "nw", "nnw"}

var (
	spelledOut      = strings.NewReplacer("north", "n", "south", "s", "east", "e", "west", "w", "-", "", " ", "", "by", "?")
	quadrantPattern = regexp.MustCompile(`^(n|s|north|south) ?(.*?) ?(e|w|east|west)$`)
	northPattern    = regexp.MustCompile(`^(?:(true|magnetic|mag)\.? )?(.*?)(?: ?\(?(true|magnetic|mag\.?)\)?|[ °]([tm]))?$`)
)

// ParseBearing reads a direction on the ground: an azimuth (200°), a quadrant
// bearing (S 20° W) or a compass word, each with or without true or magnetic.
func ParseBearing(s string) (Bearing, error) {
	t, err := tidy(s, "a bearing", bearingRight)
	if err != nil {
		return Bearing{}, err
	}
	m := northPattern.FindStringSubmatch(t)
	from := Unstated
	for _, word := range []string{m[1], m[3], m[4]} {
		switch {
		case strings.HasPrefix(word, "m"):
			from = Magnetic
		case strings.HasPrefix(word, "t"):
			from = True
		}
	}
	t = strings.TrimSpace(strings.TrimPrefix(m[2], "due "))
	letters := spelledOut.Replace(t)
	for i, p := range points {
		if letters == p {
			return Bearing{s1.Angle(i) * 22.5 * s1.Degree, from, true}, nil
		}
	}
	if q := quadrantPattern.FindStringSubmatch(t); q != nil {
		deg, rest, ok := degrees(strings.ReplaceAll(q[2], "-", ""))
		if !ok || rest != "" {
			return Bearing{}, wrong(bearingRight, "%q is not a bearing", s)
		}
		if deg > 90 {
			return Bearing{}, wrong("an angle from 0 to 90 between the letters, such as S 20° W, or a whole-circle bearing such as 200°", "%q turns more than a quarter", s)
		}
		if q[3][0] == 'w' {
			deg = -deg
		}
		if q[1][0] == 's' {
			deg = 180 - deg
		}
		return Bearing{Turn(s1.Angle(deg) * s1.Degree), from, false}, nil
	}
	deg, rest, ok := degrees(t)
	if !ok || rest != "" {
		return Bearing{}, wrong(bearingRight, "%q is not a bearing", s)
	}
	if deg > 360 {
		return Bearing{}, wrong(bearingRight, "%q is more than a full turn", s)
	}
	return Bearing{Turn(s1.Angle(deg) * s1.Degree), from, false}, nil
}

// FormatBearing writes an azimuth as a quadrant bearing to the degree:
// S 20° W, and the four cardinal ones as words.
func FormatBearing(azimuth s1.Angle) string {
	deg := int(math.Round(Turn(azimuth).Degrees())) % 360
	switch {
	case deg == 0:
		return "north"
	case deg == 90:
		return "east"
	case deg == 180:
		return "south"
	case deg == 270:
		return "west"
	case deg < 90:
		return "N " + Number(float64(deg), 0) + "° E"
	case deg < 180:
		return "S " + Number(float64(180-deg), 0) + "° E"
	case deg < 270:
		return "S " + Number(float64(deg-180), 0) + "° W"
	}
	return "N " + Number(float64(360-deg), 0) + "° W"
}

// FormatAzimuth writes an azimuth as a whole-circle bearing: 200°.
func FormatAzimuth(azimuth s1.Angle, decimals int) string {
	scale := math.Pow(10, float64(decimals))
	deg := math.Mod(math.Round(Turn(azimuth).Degrees()*scale)/scale, 360)
	return Number(deg, decimals) + "°"
}

// CompassWord is the nearest of the eight compass words: south-west.
func CompassWord(azimuth s1.Angle) string {
	words := []string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}
	return words[int(math.Round(Turn(azimuth).Degrees()/45))%8]
}
