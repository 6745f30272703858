package sitefile

import (
	"strings"
	"testing"
)

// Zones and longitudes from memory: the farthest that clocks stand from the
// sun in the lower 48 states and the provinces, and places beyond.
func TestATimeZoneFarFromTheSunsHoursIsAskedAboutAndNeverRefused(t *testing.T) {
	for name, c := range map[string]struct{ longitude, zone, says string }{
		"Ohio":                            {"-83", "America/New_York", ""},
		"upper Michigan, on eastern time": {"-89.3", "America/New_York", ""},
		"Presidio, on central time":       {"-104.4", "America/Chicago", ""},
		"eastern Maine":                   {"-67", "America/New_York", ""},
		"Lloydminster, on central time":   {"-110", "America/Regina", ""},
		"St. John's, half an hour":        {"-52.7", "America/St_Johns", ""},
		"Ohio in a fixed zone":            {"-83", "Etc/GMT+5", ""},
		"both sides of the date line":     {"179.9", "Pacific/Auckland", ""},
		"Ohio on the time of Los Angeles": {"-83", "America/Los_Angeles", "standard time in America/Los_Angeles is 2.5 hours behind the sun at this longitude (the longitude suggests UTC-6 or UTC-5; right as it is only"},
		"Ohio on the time of Denver":      {"-83", "America/Denver", "1.5 hours behind"},
		"Oregon on the time of Chicago":   {"-121", "America/Chicago", "2.1 hours ahead of the sun at this longitude (the longitude suggests UTC-8; right"},
		"Nome, right and asked about":     {"-165.4", "America/Nome", "2.0 hours ahead"},
		"Kashgar, right and asked about":  {"76", "Asia/Shanghai", "2.9 hours ahead of the sun at this longitude (the longitude suggests UTC+5; right"},
		"London on the time of Greenland": {"-0.1", "America/Nuuk", "(the longitude suggests UTC+0; right"},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.NewReplacer("longitude: -83", "longitude: "+c.longitude, "America/New_York", c.zone, "units: feet", "units: metres").Replace(sound)
			_, faults := Read("site.yaml", []byte(text))
			var told []string
			for _, f := range faults {
				if f.Path == "place.time zone" {
					told = append(told, f.String())
					if !f.Warning || f.Line != 2 {
						t.Error(f)
					}
				}
			}
			if c.says == "" && len(told) > 0 || c.says != "" && (len(told) != 1 || !strings.Contains(told[0], c.says)) {
				t.Errorf("told %q, want %q", told, c.says)
			}
		})
	}
}
