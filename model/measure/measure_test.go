package measure

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/golang/geo/s1"
)

func TestLengthsAsPeopleWriteThem(t *testing.T) {
	const in = 0.0254
	cases := []struct {
		text string
		want float64 // metres
	}{
		{"17 ft 6 in", 210 * in}, {`17'6"`, 210 * in}, {`17' 6 1/2"`, 210.5 * in}, {"17′ 6″", 210 * in},
		{`17'-6"`, 210 * in}, {"17' 6", 210 * in}, {"17'6", 210 * in}, {"17ft6in", 210 * in}, {"17 feet, 6 inches", 210 * in},
		{"32 in", 32 * in}, {"6 1/2 in", 6.5 * in}, {`3-1/2"`, 3.5 * in}, {"3½ in", 3.5 * in}, {`5/8"`, 0.625 * in},
		{"5.3 m", 5.3}, {"530 cm", 5.3}, {"5300 mm", 5.3}, {"1,900 ft", 1900 * 0.3048},
		{"40", 40 * 0.3048}, {"-12", -12 * 0.3048}, {"- 3 ft", -3 * 0.3048}, {"−3 ft", -3 * 0.3048}, {".5", 0.5 * 0.3048},
		{"2 yd", 6 * 0.3048}, {"17 FT 6 IN.", 210 * in}, {"5 m 30 cm", 5.3}, {"0", 0}, {"17''", 17 * in},
	}
	for _, c := range cases {
		got, err := ParseLength(c.text, Feet)
		if err != nil || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%q = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	if got, _ := ParseLength("12.5", Metres); got != 12.5 {
		t.Errorf("a bare number in a metres file = %v", got)
	}
}

func TestWhatIsNotALengthIsRefusedWithAnExample(t *testing.T) {
	for _, s := range []string{"", " ", "abc", "17 fot", "5,3 m", "1,90", "17 in 6 ft", `17' 13"`, "17 6", "1e3", "nan", ".inf", "5.3.2", "6 3/2 in", "1/0", "$40", "40 lb", strings.Repeat("9", 500), "999999999 m", "5 m 3 m", "17'6'"} {
		v, err := ParseLength(s, Feet)
		if err == nil {
			t.Errorf("%q was read as %v m", s, v)
			continue
		}
		if !strings.Contains(err.Error(), "write ") {
			t.Errorf("%q: %v gives no example", s, err)
		}
	}
}

func TestLengthsRoundTripThroughTheirPrintedForm(t *testing.T) {
	for q := range 4000 { // every quarter inch to 83 ft, then metres by the centimetre
		m := float64(q) / 4 * 0.0254
		got, err := ParseLength(FormatTape(m, Feet), Metres)
		if err != nil || math.Abs(got-m) > 1e-9 {
			t.Fatalf("%s read as %v (%v), want %v", FormatTape(m, Feet), got, err, m)
		}
		c := float64(q) / 100
		if got, err := ParseLength(FormatLength(-c, Metres), Feet); err != nil || math.Abs(got+c) > 1e-9 {
			t.Fatalf("%s read as %v (%v)", FormatLength(-c, Metres), got, err)
		}
	}
}

func TestLengthsAreWrittenForPeople(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{FormatLength(210*0.0254, Feet), "17 ft 6 in"},
		{FormatLength(9*0.0254, Feet), "9 in"},
		{FormatLength(12*0.0254, Feet), "1 ft"},
		{FormatLength(11.6*0.0254, Feet), "1 ft"},
		{FormatLength(0, Feet), "0 in"},
		{FormatLength(-0.001, Feet), "0 in"},
		{FormatLength(5.334, Metres), "5.33 m"},
		{FormatTape(38.25*0.0254, Feet), "3 ft 2 1/4 in"},
		{FormatTape(38.5*0.0254, Feet), "3 ft 2 1/2 in"},
		{FormatTape(0.25*0.0254, Feet), "1/4 in"},
		{FormatFeet(15.85, Feet, 0), "52 ft"},
		{FormatLength(math.NaN(), Feet), "–"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func TestAreasAndVolumes(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
	}{{"1,200 sq ft", 111.483648}, {"100", 9.290304}, {"111 m²", 111}, {"2 m2", 2}, {"1 acre", 4046.8564224}} {
		if got, err := ParseArea(c.text, Feet); err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%q = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	if got, err := ParseVolume("100 cu ft", Metres); err != nil || math.Abs(got-2.8316846592) > 1e-9 {
		t.Errorf("100 cu ft = %v, %v", got, err)
	}
	if _, err := ParseArea("12 ft", Feet); err == nil {
		t.Error("12 ft was read as an area")
	}
}

// Trade tables print these pitch angles; 9/12 is 36.87° by tan⁻¹ 0.75.
func TestPitches(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
	}{{"9/12", 36.8699}, {"9:12", 36.8699}, {"9 in 12", 36.8699}, {"12/12", 45}, {"4 1/2 / 12", 20.5560}, {"36.9°", 36.9}, {"36.9 deg", 36.9}, {"flat", 0}, {"0", 0}, {"1/4 in 12", 1.1935}} {
		got, err := ParsePitch(c.text)
		if err != nil || math.Abs(got.Degrees()-c.want) > 1e-4 {
			t.Errorf("%q = %v, %v; want %v", c.text, got.Degrees(), err, c.want)
		}
	}
	for _, s := range []string{"9", "95°", "9/0", "x/12", "-4/12", "steep"} {
		if v, err := ParsePitch(s); err == nil {
			t.Errorf("%q was read as %v", s, v)
		}
	}
	if s := FormatPitch(s1.Angle(math.Atan(0.75))); s != "9/12 (36.9°)" {
		t.Error(s)
	}
}

func TestAngles(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
	}{{"38°", 38}, {"38", 38}, {"38.5 deg", 38.5}, {"38° 30'", 38.5}, {"-4°", -4}, {"100 %", 45}, {"-100%", -45}} {
		got, err := ParseAngle(c.text)
		if err != nil || math.Abs(got.Degrees()-c.want) > 1e-9 {
			t.Errorf("%q = %v, %v; want %v", c.text, got.Degrees(), err, c.want)
		}
	}
	for _, s := range []string{"91", "38° 75'", "up", "38 ft", ""} {
		if v, err := ParseAngle(s); err == nil {
			t.Errorf("%q was read as %v", s, v)
		}
	}
	for _, c := range []struct {
		text string
		want float64
	}{{"7° W", -7}, {"3.5 E", 3.5}, {"-7", -7}, {"0", 0}, {"7° 30' W", -7.5}} {
		got, err := ParseDeclination(c.text)
		if err != nil || math.Abs(got.Degrees()-c.want) > 1e-9 {
			t.Errorf("declination %q = %v, %v; want %v", c.text, got.Degrees(), err, c.want)
		}
	}
	if v, err := ParseDeclination("7"); err == nil || !strings.Contains(err.Error(), "7° W or 7° E") {
		t.Errorf("a declination without a side was read as %v, %v", v, err)
	}
	if lon, err := ParseLongitude("83° 30' W"); err != nil || math.Abs(lon.Degrees()+83.5) > 1e-9 {
		t.Error(lon, err)
	}
	if _, err := ParseLatitude("-95"); err == nil {
		t.Error("latitude -95 was read")
	}
}

func TestBearings(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64
		from North
	}{
		{"S 20° W", 200, ""}, {"N 45 E", 45, ""}, {"200°", 200, ""}, {"200° true", 200, True}, {"200° magnetic", 200, Magnetic}, {"200 mag", 200, Magnetic},
		{"magnetic S 20° W", 200, Magnetic}, {"south", 180, ""}, {"due south", 180, ""}, {"north-north-west", 337.5, ""}, {"NNW", 337.5, ""}, {"north west", 315, ""},
		{"s20w", 200, ""}, {"N 0 E", 0, ""}, {"360", 0, ""}, {"S 20° 30' W", 200.5, ""}, {"N 10 W", 350, ""}, {"south-east true", 135, True}, {"200°M", 200, Magnetic},
	} {
		got, err := ParseBearing(c.text)
		if err != nil || math.Abs(got.Angle.Degrees()-c.want) > 1e-9 || got.From != c.from {
			t.Errorf("%q = %v %q, %v; want %v %q", c.text, got.Angle.Degrees(), got.From, err, c.want, c.from)
		}
	}
	for _, s := range []string{"S 120 W", "361", "W 20 N", "southish", "-20", "north by east", "20 ft"} {
		if v, err := ParseBearing(s); err == nil {
			t.Errorf("%q was read as %v", s, v)
		}
	}
	b, _ := ParseBearing("N 2 E mag")
	if az := b.Azimuth(True, -7*s1.Degree); math.Abs(az.Degrees()-355) > 1e-9 {
		t.Errorf("N 2° E magnetic with declination 7° W is %v true, want 355", az.Degrees())
	}
}

func TestBearingsRoundTripThroughTheirPrintedForm(t *testing.T) {
	for d := range 360 {
		got, err := ParseBearing(FormatBearing(s1.Angle(d) * s1.Degree))
		if err != nil || math.Abs(got.Angle.Degrees()-float64(d)) > 1e-9 {
			t.Fatalf("%d°: %s read as %v, %v", d, FormatBearing(s1.Angle(d)*s1.Degree), got.Angle.Degrees(), err)
		}
	}
	if s := FormatAzimuth(359.9*s1.Degree, 0); s != "0°" {
		t.Error(s)
	}
}

func TestMoneySharesAndRates(t *testing.T) {
	for s, want := range map[string]float64{"$1,900": 1900, "1900": 1900, "$ 1,900.50": 1900.5, "1.9k": 1900, "1900 dollars": 1900, "USD 25": 25} {
		if got, err := ParseMoney(s); err != nil || got != want {
			t.Errorf("%q = %v, %v", s, got, err)
		}
	}
	for _, s := range []string{"$1,90", "free", "-5", "$", "1e9", "$1 900"} {
		if v, err := ParseMoney(s); err == nil {
			t.Errorf("%q was read as %v", s, v)
		}
	}
	for x, want := range map[float64]string{1234: "$1,234", -1234: "-$1,234", 0: "$0", 12.5: "$12.50", 98765.4: "$98,765", 999.6: "$1,000", 123.4: "$123"} {
		if got := FormatMoney(x); got != want {
			t.Errorf("FormatMoney(%v) = %s, want %s", x, got, want)
		}
	}
	for s, want := range map[string]float64{"35%": 0.35, "35 percent": 0.35, "0.35": 0.35, "1": 1, "0": 0} {
		if got, err := ParseShare(s); err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%q = %v, %v", s, got, err)
		}
	}
	for _, s := range []string{"35", "-5%", "120%", "half"} {
		if v, err := ParseShare(s); err == nil {
			t.Errorf("%q was read as %v", s, v)
		}
	}
	if r, err := ParseRate("-1 %"); err != nil || r != -0.01 {
		t.Error(r, err)
	}
}

// R-13 is RSI 2.29: 1 h·ft²·°F/Btu = 0.17611 m²·K/W (NIST SP 811, from memory).
func TestTemperaturesAndResistances(t *testing.T) {
	for s, want := range map[string]float64{"68 °F": 20, "68": 20, "20 C": 20, "-40F": -40, "32°F": 0} {
		if got, err := ParseTemperature(s, Feet); err != nil || math.Abs(got-want) > 1e-9 {
			t.Errorf("%q = %v, %v", s, got, err)
		}
	}
	for s, want := range map[string]float64{"R-13": 2.2894, "r13": 2.2894, "13": 2.2894, "RSI 2.3": 2.3, "2.3 m²K/W": 2.3, "U-0.50": 0.3522, "U 0.5": 0.3522} {
		if got, err := ParseRValue(s, Feet); err != nil || math.Abs(got-want) > 1e-3 {
			t.Errorf("%q = %v, %v; want %v", s, got, err, want)
		}
	}
	for _, s := range []string{"R-0", "R", "U 0", "R 13 in", "400 F"} {
		if v, err := ParseRValue(s, Feet); err == nil {
			t.Errorf("%q was read as %v", s, v)
		}
	}
}

func TestDates(t *testing.T) {
	for _, s := range []string{"20 Apr", "April 20", "apr 20", "04-20", "20th of April", "Apr. 20th"} {
		if d, err := ParseDate(s); err != nil || d != 110 {
			t.Errorf("%q = %v, %v; want 110", s, d, err)
		}
	}
	for d := 1; d <= 365; d++ {
		if got, err := ParseDate(FormatDate(d)); err != nil || got != d {
			t.Fatalf("day %d: %s read as %d, %v", d, FormatDate(d), got, err)
		}
	}
	for _, s := range []string{"31 Apr", "0 May", "13-01", "20", "Smarch 3", "99-99"} {
		if d, err := ParseDate(s); err == nil {
			t.Errorf("%q was read as %d", s, d)
		}
	}
	m, err := ParseMonths("Oct to Apr")
	if err != nil || fmt.Sprint(m) != fmt.Sprint([]time.Month{10, 11, 12, 1, 2, 3, 4}) {
		t.Error(m, err)
	}
}

func TestOneOfAThingIsNoPlural(t *testing.T) {
	for n, want := range map[int]string{0: "0 corners", 1: "1 corner", 2: "2 corners", 1234: "1,234 corners"} {
		if got := Count(n, "corner"); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

func TestNumbersShowNoFalseDigits(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Number(1234567.891, 1), "1,234,567.9"}, {Number(-0.001, 2), "0.00"}, {Number(-1234, 0), "-1,234"}, {Number(math.Inf(1), 0), "–"}, {Number(999, 0), "999"},
		{FormatSignificant(1234, 3), "1,230"}, {FormatSignificant(0.12345, 2), "0.12"}, {FormatSignificant(9.996, 3), "10.0"}, {FormatSignificant(0, 3), "0"},
		{FormatPercent(0.354, 0), "35 %"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

func FuzzMeasures(f *testing.F) {
	for _, s := range []string{`17'6"`, "3-1/2 in", "5.3 m", "S 20° W", "9/12", "$1,900", "35 %", "R-13", "68°F", "20 Apr", "Oct to Apr", "38° 30'", "7° W", "1,200 sq ft", "½ in", "--", "9/", "nnw"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		check := func(v float64, err error) {
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Fatalf("%q gave %v", s, v)
			}
			if err != nil && len(s) > Longest && len(err.Error()) > 400 {
				t.Fatalf("the fault of a %d-byte text is %d bytes", len(s), len(err.Error()))
			}
		}
		angle := func(a s1.Angle, err error) { check(a.Radians(), err) }
		check(ParseLength(s, Feet))
		check(ParseArea(s, Metres))
		check(ParseVolume(s, Feet))
		check(ParseMoney(s))
		check(ParseShare(s))
		check(ParseRate(s))
		check(ParseNumber(s))
		check(ParseTemperature(s, Feet))
		check(ParseRValue(s, Feet))
		angle(ParseAngle(s))
		angle(ParsePitch(s))
		angle(ParseDeclination(s))
		angle(ParseLatitude(s))
		angle(ParseLongitude(s))
		if b, err := ParseBearing(s); err == nil && (b.Angle < 0 || b.Angle >= 2*math.Pi || math.IsNaN(b.Angle.Radians())) {
			t.Fatalf("%q points to %v", s, b.Angle)
		}
		if d, err := ParseDate(s); err == nil && (d < 1 || d > 365) {
			t.Fatalf("%q is day %d", s, d)
		}
		if m, err := ParseMonths(s); err == nil && (len(m) < 1 || len(m) > 12) {
			t.Fatalf("%q is %d months", s, len(m))
		}
	})
}
