package sitefile

import (
	"strings"
	"testing"
)

// whole is a file whose every length has its unit.
var whole = strings.NewReplacer("units: feet\n", "", "[40, 0]", "[40 ft, 0]", "[40, 115], [0, 115]", "[40 ft, 115 ft], [0, 115 ft]", "{peg: [20, 0]}", "{peg: [20 ft, 0]}",
	"[[8, 46], [31, 46], [31, 74], [8, 74]]", "[[8 ft, 46 ft], [31 ft, 46 ft], [31 ft, 74 ft], [8 ft, 74 ft]]", "[18, 14]", "[18 ft, 14 ft]", "[28, 20]", "[28 ft, 20 ft]").Replace(sound)

func TestFeetTakenForWantOfUnitsAreToldOnceWhereTheyMatterFirst(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		at   int // line of the notice; 0: none
	}{
		"feet stated":               {sound, 0},
		"every length has its unit": {whole, 0},
		"bare points":               {strings.Replace(sound, "units: feet\n", "", 1), 4},
		"a bare sill":               {strings.Replace(whole, "sill: 3 ft, width: 32 in, height: 60 in}\ntrees", "sill: 3, width: 32 in, height: 60 in}\ntrees", 1), 12},
		"inches after feet":         {strings.Replace(whole, "13 ft 6 in", "13' 6", 1), 0},
		"a bare R-value":            {whole + "heat: {before: {wall: 4}}\n", 18},
		"an R-value with its R":     {whole + "heat: {before: {wall: R-4, air changes: 1.2}, persons: 3}\n", 0},
		"a bare setpoint":           {whole + "heat: {setpoint: 68}\n", 18},
		"a bare tank":               {whole + "heat: {hot water: {tank: 80}}\n", 18},
		"a misspelt units line":     {whole + "unts: metres\npoints: {}", 0},
		"units of no kind":          {strings.Replace(sound, "units: feet", "units: cubits", 1), 0},
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := Read("site.yaml", []byte(c.text))
			var told []int
			for _, f := range faults {
				if strings.Contains(f.Wrong, "no units line") {
					if told = append(told, f.Line); !f.Warning || !strings.Contains(f.String(), "taken as feet, temperatures as °F; write units: feet, or units: metres") {
						t.Error(f)
					}
				}
			}
			if c.at == 0 && len(told) > 0 || c.at > 0 && (len(told) != 1 || told[0] != c.at) {
				t.Errorf("told on lines %v, want %d: %v\n%s", told, c.at, faults, c.text)
			}
		})
	}
}

func TestAHouseOutOfSizeThatIsRightInTheOtherUnitIsToldOnceAtTheUnitsLine(t *testing.T) {
	starter := string(Starter())
	metric := strings.Replace(starter, "units: feet ", "units: metres ", 1)
	inMetres := func(text, footprint string) string { // of the sound file
		return strings.Replace(text, "[[8, 46], [31, 46], [31, 74], [8, 74]]", footprint, 1)
	}
	for name, c := range map[string]struct {
		text, says string
		at         int
	}{
		"the starter file":                {starter, "", 0},
		"the starter file under metres":   {metric, "look again: units: read in metres the house covers 644.0 m²; in feet it would be 644 sq ft, as houses are; write units: feet, if", 12},
		"7 by 9 m under feet":             {inMetres(sound, "[[8, 46], [15, 46], [15, 55], [8, 55]]"), "look again: units: read in feet the house covers 63.0 sq ft; in metres it would be 63.0 m², as houses are; write units: metres, if", 18},
		"7 by 9 m without a units line":   {inMetres(strings.Replace(sound, "units: feet", "", 1), "[[8, 46], [15, 46], [15, 55], [8, 55]]"), "in metres it would be 63.0 m²", 7},
		"7 by 9 m under metres":           {strings.Replace(inMetres(sound, "[[8, 46], [15, 46], [15, 55], [8, 55]]"), "units: feet", "units: metres", 1), "", 0},
		"a cabin of 12 by 14 ft":          {inMetres(sound, "[[8, 46], [20, 46], [20, 60], [8, 60]]"), "", 0},
		"a hall of 100 by 120 m":          {strings.Replace(inMetres(sound, "[[0, 0], [100, 0], [100, 120], [0, 120]]"), "units: feet", "units: metres", 1), "", 0},
		"a corner that cannot be read":    {inMetres(sound, "[[8, 46], [15, 46], [15, x], [8, 55]]"), "", 0},
		"a footprint that crosses itself": {inMetres(sound, "[[8, 46], [15, 55], [15, 46], [8, 55]]"), "", 0},
	} {
		t.Run(name, func(t *testing.T) {
			_, faults := Read("site.yaml", []byte(c.text))
			var told []Fault
			for _, f := range faults {
				if strings.Contains(f.Wrong, "as houses are") {
					told = append(told, f)
				}
			}
			if c.says == "" && len(told) == 0 {
				return
			}
			if len(told) != 1 || c.says == "" || told[0].Line != c.at || !strings.Contains(told[0].String(), c.says) {
				t.Errorf("told %v, want %q on line %d", told, c.says, c.at)
			}
		})
	}
}
