package climate

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"time"
)

// tableExample is shown where a table's heading is wrong.
const tableExample = "# latitude: 41.65, # longitude: -83.54, # elevation: 190 m, # utc offset: -5, # interval: ending"

// readTable reads southyard's own table: lines that begin with # and say
// where and when, one line of column names with their units, then the hours.
func (f *File) readTable(content []byte) error {
	f.Layout = "hourly table"
	t := tableReader{f: f, columns: map[string]int{}}
	lines := bytes.Split(content, []byte("\n"))
	start := 0
	for start < len(lines) {
		text := strings.TrimSpace(string(lines[start]))
		if text != "" && text[0] != '#' {
			break
		}
		if err := t.comment(start+1, text); err != nil {
			return err
		}
		start++
	}
	if err := t.complete(); err != nil {
		return err
	}
	// Blank out the heading so that line numbers stay those of the file.
	rest := append(bytes.Repeat([]byte("\n"), start), bytes.Join(lines[start:], []byte("\n"))...)
	named := false
	err := rows(f.Name, rest, func(line int, fields []string) error {
		if !named {
			named = true
			return t.names(line, fields)
		}
		if strings.HasPrefix(fields[0], "#") {
			return nil
		}
		return t.row(line, fields)
	})
	if err != nil {
		return err
	}
	if t.count == 0 {
		return fault(f.Name, 0, "no hours: want a heading (%s), a line of columns (time, global W/m2, beam W/m2, diffuse W/m2, air C) and 8760 rows", tableExample)
	}
	f.noteLeap(t.leaps)
	return nil
}

type tableReader struct {
	f          *File
	columns    map[string]int // figure name, or "time" → field
	width      int
	fahrenheit bool
	ending     bool
	interval   bool // stated
	offset     bool // stated
	leaps      int
	count      int
}

// comment reads "# key: value"; other comments are only comments.
func (t *tableReader) comment(line int, text string) error {
	key, value, found := strings.Cut(strings.TrimSpace(strings.TrimLeft(text, "# ")), ":")
	if !found {
		return nil
	}
	value = strings.TrimSpace(value)
	var ok bool
	switch strings.ToLower(strings.TrimSpace(key)) {
	case "latitude":
		if t.f.Latitude, ok = number(value); !ok {
			return fault(t.f.Name, line, "latitude %q: write degrees, north positive, such as 41.65", value)
		}
	case "longitude":
		if t.f.Longitude, ok = number(value); !ok {
			return fault(t.f.Name, line, "longitude %q: write degrees, east positive, such as -83.54", value)
		}
	case "elevation":
		factor := 1.0
		if feet, is := strings.CutSuffix(value, "ft"); is {
			value, factor = feet, 0.3048
		}
		v, ok := number(strings.TrimSpace(strings.TrimSuffix(value, "m")))
		if !ok {
			return fault(t.f.Name, line, "elevation %q: write 190 m or 620 ft", value)
		}
		t.f.Elevation = v * factor
	case "utc offset":
		v, ok := number(value)
		if !ok || math.Abs(v) > 15 {
			return fault(t.f.Name, line, "utc offset %q: write the hours of standard time from UTC, such as -5", value)
		}
		t.f.Offset, t.offset = time.Duration(v*float64(time.Hour)), true
	case "interval":
		switch strings.ToLower(value) {
		case "ending":
			t.ending = true
		case "beginning":
		default:
			return fault(t.f.Name, line, "interval %q: write beginning where a row's time begins its hour, ending where it ends it", value)
		}
		t.interval = true
	case "name":
		t.f.Station = value
	}
	return nil
}

func (t *tableReader) complete() error {
	var missing []string
	for _, key := range []struct {
		name   string
		absent bool
	}{
		{"latitude", math.IsNaN(t.f.Latitude)}, {"longitude", math.IsNaN(t.f.Longitude)},
		{"elevation", math.IsNaN(t.f.Elevation)}, {"utc offset", !t.offset}, {"interval", !t.interval},
	} {
		if key.absent {
			missing = append(missing, key.name)
		}
	}
	if len(missing) > 0 {
		return fault(t.f.Name, 0, "neither the TMY3 layout nor a table that says its %s: begin with %s", strings.Join(missing, ", "), tableExample)
	}
	return nil
}

func (t *tableReader) names(line int, fields []string) error {
	t.width = len(fields)
	for i, name := range fields {
		name = strings.Join(strings.Fields(strings.ToLower(name)), " ")
		quantity, unit, _ := strings.Cut(name, " ")
		key := ""
		switch {
		case name == "time" || name == "albedo":
			key = name
		case quantity == "air" && (unit == "c" || unit == "°c" || unit == "f" || unit == "°f"):
			key, t.fahrenheit = "air", strings.HasSuffix(unit, "f")
		case isRadiation(quantity) && (unit == "w/m2" || unit == "w/m²" || unit == "wh/m2" || unit == "wh/m²"):
			key = quantity
		case quantity == "air" || isRadiation(quantity):
			return fault(t.f.Name, line, "column %q: name its unit, %q", name, map[bool]string{true: "air C", false: quantity + " W/m2"}[quantity == "air"])
		default:
			continue // another column, not ours
		}
		if _, twice := t.columns[key]; twice {
			return fault(t.f.Name, line, "two columns of %s: keep one", key)
		}
		t.columns[key] = i
	}
	for _, need := range []string{"time", "global", "air"} {
		if _, ok := t.columns[need]; !ok {
			return fault(t.f.Name, line, "no column of %s: want time, global W/m2, beam W/m2, diffuse W/m2 and air C (or air F); beam or diffuse may be left out, albedo added", need)
		}
	}
	for k, name := range figureNames {
		_, t.f.stated[k] = t.columns[name]
	}
	return nil
}

func isRadiation(name string) bool { return name == "global" || name == "beam" || name == "diffuse" }

func (t *tableReader) row(line int, fields []string) error {
	t.count++
	if len(fields) != t.width {
		return fault(t.f.Name, line, "%d fields, the line of columns has %d", len(fields), t.width)
	}
	month, day, hour, ok := stampParts(fields[t.columns["time"]])
	if !ok {
		return fault(t.f.Name, line, "time %q: write date and full hour, 2023-01-31 14:00 or 01-31 14:00, in local standard time", fields[t.columns["time"]])
	}
	values := [5]float64{}
	for k, name := range figureNames {
		i, has := t.columns[name]
		if !has {
			values[k] = math.NaN()
			continue
		}
		v, ok := figure(fields[i])
		if !ok {
			return fault(t.f.Name, line, "%s: %q is not a number; leave it empty where it is missing", name, fields[i])
		}
		if k == air && t.fahrenheit {
			v = (v - 32) / 1.8
		}
		values[k] = v
	}
	leap, err := t.f.place(line, month, day, hour, t.ending, values)
	if leap {
		t.leaps++
	}
	return err
}

// stampParts reads 2023-01-31 14:00, 2023-01-31T14:00, 01-31 14:00.
func stampParts(text string) (month, day, hour int, ok bool) {
	date, clock, found := strings.Cut(strings.Replace(strings.TrimSpace(text), "T", " ", 1), " ")
	if !found {
		return 0, 0, 0, false
	}
	parts := strings.Split(date, "-")
	if len(parts) == 3 {
		if _, err := strconv.Atoi(parts[0]); err != nil {
			return 0, 0, 0, false
		}
		parts = parts[1:]
	}
	if len(parts) != 2 {
		return 0, 0, 0, false
	}
	month, err := strconv.Atoi(parts[0])
	day, err2 := strconv.Atoi(parts[1])
	hour, ok = fullHour(clock)
	return month, day, hour, ok && err == nil && err2 == nil
}
