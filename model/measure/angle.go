package measure

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/golang/geo/s1"
)

const (
	angleRight       = `38°, 38.5 deg, 38° 30' or, off a clinometer's percent scale, 78 %`
	pitchRight       = "9/12, 36.9° or flat"
	declinationRight = "7° W, 3.5° E or 0"
)

// degreesPattern: degrees with an optional degree word, minutes and seconds.
var degreesPattern = regexp.MustCompile(`^(\d{1,3}(?:\.\d{0,12})?|\.\d{1,12}) ?(?:°|degrees|degree|deg\.?|d)? ?(?:(\d{1,2}(?:\.\d{0,12})?) ?(?:'|minutes|min) ?(?:(\d{1,2}(?:\.\d{0,12})?) ?(?:"|seconds|sec))?)?`)

// degrees reads the angle s begins with and gives back what follows it.
func degrees(s string) (deg float64, rest string, ok bool) {
	m := degreesPattern.FindStringSubmatch(s)
	if m == nil {
		return 0, s, false
	}
	minutes, seconds := atof(m[2]), atof(m[3])
	rest = s[len(m[0]):]
	return atof(m[1]) + minutes/60 + seconds/3600, strings.TrimSpace(rest), minutes < 60 && seconds < 60 && cleanEnd(rest)
}

// ParseAngle reads an angle above (positive) or below the level, from -90° to
// 90°. A percent is a clinometer's: rise over run.
func ParseAngle(s string) (s1.Angle, error) {
	t, err := tidy(s, "an angle", angleRight)
	if err != nil {
		return 0, err
	}
	sg, t := sign(t)
	if v, rest, ok := number(t); ok && (rest == "%" || rest == " %" || rest == " percent") {
		return s1.Angle(sg * math.Atan(v/100)), nil
	}
	deg, rest, ok := degrees(t)
	if !ok || rest != "" {
		return 0, wrong(angleRight, "%q is not an angle", s)
	}
	if deg > 90 {
		return 0, wrong(angleRight, "%q is steeper than straight up", s)
	}
	return s1.Angle(sg*deg) * s1.Degree, nil
}

// ParsePitch reads the slope of a roof from level, 0 up to but not 90°:
// 9/12, 9:12, 9 in 12, 36.9°, flat. A bare number could mean twelfths or
// degrees and is refused.
func ParsePitch(s string) (s1.Angle, error) {
	t, err := tidy(s, "a roof pitch", pitchRight)
	if err != nil {
		return 0, err
	}
	if t == "flat" || t == "level" || t == "0" {
		return 0, nil
	}
	if rise, run, cut := riseAndRun(t); cut {
		a, restA, okA := number(rise)
		b, restB, okB := number(run)
		if !okA || !okB || restA != "" || restB != "" || b == 0 || a > 40*b {
			return 0, wrong(pitchRight, "%q is not a roof pitch", s)
		}
		return s1.Angle(math.Atan(a / b)), nil
	}
	deg, rest, ok := degrees(t)
	if !ok || rest != "" {
		return 0, wrong(pitchRight, "%q is not a roof pitch", s)
	}
	if m, err := ParseNumber(t); err == nil {
		n := Number(m, 4)
		n = strings.TrimRight(strings.TrimRight(n, "0"), ".")
		return 0, wrong(n+"/12 or "+n+"°", "%q could be inches of rise in a foot or degrees", s)
	}
	if deg >= 89 {
		return 0, wrong(pitchRight, "%q is a wall, not a roof", s)
	}
	return s1.Angle(deg) * s1.Degree, nil
}

func riseAndRun(t string) (rise, run string, ok bool) {
	for _, by := range []string{" in ", " on ", "-in-", ":", "/"} {
		if i := strings.LastIndex(t, by); i >= 0 {
			return strings.TrimSpace(t[:i]), strings.TrimSpace(t[i+len(by):]), true
		}
	}
	return "", "", false
}

// FormatPitch writes a slope as rise in twelve and degrees: 9/12 (36.9°).
func FormatPitch(a s1.Angle) string {
	if a.Degrees() < 0.05 {
		return "flat"
	}
	rise := math.Tan(a.Radians()) * 12
	in := Number(rise, 1)
	if math.Abs(rise-math.Round(rise)) < 0.05 {
		in = Number(math.Round(rise), 0)
	}
	return in + "/12 (" + Number(a.Degrees(), 1) + "°)"
}

// FormatAngle writes an angle in degrees with the given decimals.
func FormatAngle(a s1.Angle, decimals int) string { return Number(a.Degrees(), decimals) + "°" }

// ParseDeclination reads how far magnetic north lies from true north, east
// positive, within ±60°: 7° W, 3.5° E, -7. A number without a side or a sign is
// refused: people in the east of North America write 7 and mean 7° W.
func ParseDeclination(s string) (s1.Angle, error) {
	t0, err := tidy(s, "a declination", declinationRight)
	if err != nil {
		return 0, err
	}
	sg, t := sign(t0)
	deg, rest, ok := degrees(t)
	side := map[string]float64{"": 1, "e": 1, "east": 1, "w": -1, "west": -1}[rest]
	if !ok || side == 0 || (sg < 0 && rest != "") {
		return 0, wrong(declinationRight, "%q is not a declination", s)
	}
	if deg > 60 {
		return 0, wrong(declinationRight, "%q is more than any place people build", s)
	}
	if rest == "" && deg != 0 && !strings.ContainsAny(t0[:1], "+-−") {
		n := strconv.FormatFloat(Significant(deg, 4), 'f', -1, 64)
		return 0, wrong(fmt.Sprintf("%s° W or %s° E, as the map of the place says", n, n), "%q could be west or east", s)
	}
	return s1.Angle(sg*side*deg) * s1.Degree, nil
}

// ParseLatitude reads a latitude in degrees, north positive: 41.65,
// 41° 39' N, 33.9 S.
func ParseLatitude(s string) (s1.Angle, error) {
	return geographic(s, "a latitude", "41.65, 41.65 N or 41° 39' N", 90, map[string]float64{"": 1, "n": 1, "north": 1, "s": -1, "south": -1})
}

// ParseLongitude reads a longitude in degrees, east positive: -83.54,
// 83.54 W, 83° 32' W.
func ParseLongitude(s string) (s1.Angle, error) {
	return geographic(s, "a longitude", "-83.54, 83.54 W or 83° 32' W", 180, map[string]float64{"": 1, "e": 1, "east": 1, "w": -1, "west": -1})
}

func geographic(s, what, right string, most float64, sides map[string]float64) (s1.Angle, error) {
	t, err := tidy(s, what, right)
	if err != nil {
		return 0, err
	}
	sg, t := sign(t)
	deg, rest, ok := degrees(t)
	side := sides[rest]
	if !ok || side == 0 || (sg < 0 && rest != "") {
		return 0, wrong(right, "%q is not %s", s, what)
	}
	if deg > most {
		return 0, wrong(right, "%q is beyond %s degrees", s, Number(most, 0))
	}
	return s1.Angle(sg*side*deg) * s1.Degree, nil
}
