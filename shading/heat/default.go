package heat

import (
	"fmt"
	"math"
	"strings"

	"github.com/southyard/southyard/model/measure"
)

// Default is a value the site file did not give and that was assumed.
type Default struct {
	Name   string `json:"name"`
	Value  string `json:"value"`
	Source string `json:"source"`
}

// Marks for sources, as the report prints them.
const (
	commonPractice = "common practice, no source"
	ownAssumption  = "our own assumption"
)

// fill sets *at to value where it is not positive and notes that as assumed.
func fill(at *float64, value float64, list *[]Default, name, text, source string) {
	if *at > 0 {
		return
	}
	*at = value
	*list = append(*list, Default{Name: name, Value: text, Source: source})
}

// plainName is a name as people type it, without case or stray spaces.
func plainName(s string) string {
	return strings.Join(strings.Fields(strings.ToLower(s)), " ")
}

// TypicalCost is what a collector of a kind and gross area (m²) costs
// installed where nobody named a price: dollars to the nearest 50, with the
// tank's share in the panels. Planning figures, common practice, no source.
func TypicalCost(kind string, grossArea float64) (float64, Default) {
	perFoot, name := 80.0, kind+" panels"
	switch plainName(kind) {
	case "air heater":
		perFoot, name = 28, "air heaters, built on the site"
	case "evacuated tube":
		perFoot = 100
	}
	feet := grossArea / (metresPerFoot * metresPerFoot)
	return math.Round(perFoot*feet/50) * 50, Default{"cost of " + name, both(fmt.Sprintf("$%.0f a ft²", perFoot), fmt.Sprintf("$%.0f a m²", measure.Significant(perFoot/(metresPerFoot*metresPerFoot), 2))) + ", installed", commonPractice + "; ask for a quote"}
}

// TypicalCoilCost is that of a coil in the duct with its pump and control.
func TypicalCoilCost() (float64, Default) {
	return 900, Default{"cost of the duct coil", "$900, with pump and control", commonPractice + "; ask for a quote"}
}
