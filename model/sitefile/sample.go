package sitefile

import (
	"fmt"
	"regexp"
	"strconv"

	"github.com/southyard/southyard/model/measure"
)

var (
	sampleLength = regexp.MustCompile(`\b(\d+) ft(?: (\d+) in)?\b|\b(\d+) in\b`)
	samplePoint  = regexp.MustCompile(`\[\d+(?:, \d+)+\]`)
	sampleNumber = regexp.MustCompile(`\d+`)
)

// sample is an example of what to write as a reader of metres would write it,
// where the file is in metres: 17 ft 6 in becomes 5.3 m, 32 in 81 cm, a point
// [8, 38] of feet [2.4, 12]. Examples are written in feet; what a reader wrote
// must not go through here.
func (r *reader) sample(example string) string {
	if r.unit != measure.Metres {
		return example
	}
	example = sampleLength.ReplaceAllStringFunc(example, func(text string) string {
		m, err := measure.ParseLength(text, measure.Feet)
		switch {
		case err != nil:
			return text
		case sampleLength.FindStringSubmatch(text)[3] != "": // inches alone
			return twoDigits(100*m) + " cm"
		}
		return twoDigits(m) + " m"
	})
	return samplePoint.ReplaceAllStringFunc(example, func(point string) string {
		return sampleNumber.ReplaceAllStringFunc(point, func(text string) string {
			feet, err := strconv.ParseFloat(text, 64)
			if err != nil {
				return text
			}
			return twoDigits(measure.FromUnit(feet, measure.Feet))
		})
	})
}

// twoDigits is a number with two digits and no needless zeros.
func twoDigits(x float64) string {
	return fmt.Sprint(measure.Significant(x, 2))
}
