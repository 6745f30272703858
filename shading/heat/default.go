package heat

import "strings"

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
