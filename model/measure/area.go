package measure

import "strings"

const areaRight = "1,200 sq ft or 111 m²"

var areaUnits = map[string]float64{
	"sq ft": m2PerSqFoot, "sqft": m2PerSqFoot, "sf": m2PerSqFoot, "ft2": m2PerSqFoot, "square feet": m2PerSqFoot, "square foot": m2PerSqFoot, "sq. ft.": m2PerSqFoot, "sq feet": m2PerSqFoot,
	"m2": 1, "sq m": 1, "sqm": 1, "square metres": 1, "square meters": 1, "square metre": 1, "square meter": 1,
	"acre": m2PerAcre, "acres": m2PerAcre, "ac": m2PerAcre,
}

const volumeRight = "9,600 cu ft or 270 m³"

var volumeUnits = map[string]float64{
	"cu ft": m3PerCuFoot, "cuft": m3PerCuFoot, "cf": m3PerCuFoot, "ft3": m3PerCuFoot, "cubic feet": m3PerCuFoot, "cu. ft.": m3PerCuFoot,
	"m3": 1, "cu m": 1, "cubic metres": 1, "cubic meters": 1,
}

// ParseArea reads an area, never negative, in square metres. A number without
// a unit is in square feet or square metres as bare says.
func ParseArea(s string, bare Unit) (float64, error) {
	size := m2PerSqFoot
	if bare == Metres {
		size = 1
	}
	return oneUnit(s, "an area", areaRight, areaUnits, size, 1e12)
}

// ParseVolume reads a volume, never negative, in cubic metres.
func ParseVolume(s string, bare Unit) (float64, error) {
	size := m3PerCuFoot
	if bare == Metres {
		size = 1
	}
	return oneUnit(s, "a volume", volumeRight, volumeUnits, size, 1e12)
}

// oneUnit reads a number and one unit out of a table.
func oneUnit(s, what, right string, units map[string]float64, bare, most float64) (float64, error) {
	t, err := tidy(s, what, right)
	if err != nil {
		return 0, err
	}
	v, rest, ok := number(t)
	if !ok {
		return 0, wrong(right, "%q is not %s", s, what)
	}
	size, unit := bare, strings.TrimSpace(rest)
	if unit != "" {
		if size, ok = units[unit]; !ok {
			return 0, wrong(right, "%q has an unknown unit %q", s, unit)
		}
	}
	if v*size > most {
		return 0, wrong(right, "%q is far too much", s)
	}
	return v * size, nil
}

// FormatArea writes an area to the square foot or the tenth of a square
// metre, and small areas (windows) one digit finer.
func FormatArea(m2 float64, u Unit) string {
	if u == Metres {
		return Number(m2, fewer(m2 < 10, 2, 1)) + " m²"
	}
	ft := m2 / m2PerSqFoot
	return Number(ft, fewer(ft < 100, 1, 0)) + " sq ft"
}

func fewer(small bool, a, b int) int {
	if small {
		return a
	}
	return b
}
