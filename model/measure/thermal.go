package measure

import "strings"

const (
	temperatureRight = "68 °F or 20 °C"
	rvalueRight      = "R-13, RSI 2.3 or U-0.30"
)

// ParseTemperature reads a temperature in °C, -90 to 150. A bare number is
// °F in a feet file and °C in a metres file.
func ParseTemperature(s string, bare Unit) (float64, error) {
	t, err := tidy(s, "a temperature", temperatureRight)
	if err != nil {
		return 0, err
	}
	sg, t := sign(t)
	v, rest, ok := number(t)
	if !ok {
		return 0, wrong(temperatureRight, "%q is not a temperature", s)
	}
	v *= sg
	fahrenheit := bare == Feet
	switch strings.TrimSpace(strings.NewReplacer("°", "", "deg", "").Replace(rest)) {
	case "":
	case "f", "fahrenheit":
		fahrenheit = true
	case "c", "celsius":
		fahrenheit = false
	default:
		return 0, wrong(temperatureRight, "%q is not a temperature", s)
	}
	if fahrenheit {
		v = (v - 32) / 1.8
	}
	if v < -90 || v > 150 {
		return 0, wrong(temperatureRight, "%q is outside any weather or room", s)
	}
	return v, nil
}

// FormatTemperature writes a temperature to the degree.
func FormatTemperature(celsius float64, u Unit) string {
	if u == Metres {
		return Number(celsius, 0) + " °C"
	}
	return Number(celsius*1.8+32, 0) + " °F"
}

// ParseRValue reads a thermal resistance in m²·K/W, above 0: R-13 (US,
// h·ft²·°F/Btu), RSI 2.3, or a U-factor U-0.30 (US) turned over. A bare number
// is US in a feet file and SI in a metres file.
func ParseRValue(s string, bare Unit) (float64, error) {
	t, err := tidy(s, "an R-value", rvalueRight)
	if err != nil {
		return 0, err
	}
	us, turned := bare == Feet, false
	switch {
	case strings.HasPrefix(t, "rsi"):
		us, t = false, t[3:]
	case strings.HasPrefix(t, "r"):
		us, t = true, t[1:]
	case strings.HasPrefix(t, "u"):
		us, turned, t = true, true, strings.TrimPrefix(t, "u-factor")
		t = strings.TrimPrefix(t, "u")
	}
	v, rest, ok := number(strings.TrimLeft(t, "- :"))
	switch strings.TrimSpace(rest) {
	case "":
	case "m2k/w", "m2.k/w", "m2 k/w":
		if turned {
			ok = false
		}
		us = false
	default:
		ok = false
	}
	if !ok {
		return 0, wrong(rvalueRight, "%q is not an R-value", s)
	}
	if v <= 0 || v > 200 {
		return 0, wrong(rvalueRight, "%q is not a resistance a wall can have", s)
	}
	if turned {
		v = 1 / v
	}
	if us {
		v *= rsiPerUSR
	}
	return v, nil
}

// FormatRValue writes a resistance: R-13 or RSI 2.30.
func FormatRValue(rsi float64, u Unit) string {
	if u == Metres {
		return "RSI " + Number(rsi, 2)
	}
	r := rsi / rsiPerUSR
	return "R-" + Number(r, fewer(r < 10, 1, 0))
}
