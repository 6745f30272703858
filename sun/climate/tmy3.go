package climate

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"time"
)

// The column names of the TMY3 layout, unit and all (users' manual, table 3-1).
var tmy3Columns = [4]string{"GHI (W/m^2)", "DNI (W/m^2)", "DHI (W/m^2)", "Dry-bulb (C)"}

const tmy3Date, tmy3Time = "Date (MM/DD/YYYY)", "Time (HH:MM)"

func looksTMY3(content []byte) bool {
	_, second, _ := bytes.Cut(content, []byte("\n"))
	return bytes.HasPrefix(bytes.TrimLeft(second, "\" "), []byte("Date"))
}

// readTMY3: a line about the station, a line of column names, then the hours,
// stamped 01:00 to 24:00 at their end in local standard time. Columns are
// found by name, so that editions with more of them are read alike. The
// albedo column is not used: its edition of 2015 marks most of it doubtful.
func (f *File) readTMY3(content []byte) error {
	f.Layout = "TMY3"
	column := map[string]int{}
	leaps, count := 0, 0
	err := rows(f.Name, content, func(line int, fields []string) error {
		count++
		switch count {
		case 1:
			return f.readTMY3Station(line, fields)
		case 2:
			for i, name := range fields {
				column[strings.TrimSpace(name)] = i
			}
			for _, need := range append([]string{tmy3Date, tmy3Time}, tmy3Columns[:]...) {
				if _, ok := column[need]; !ok {
					return fault(f.Name, line, "no column named %q: the TMY3 layout has it", need)
				}
			}
			return nil
		}
		if len(fields) < len(column) {
			return fault(f.Name, line, "%d fields, the column names are %d: is the line cut short?", len(fields), len(column))
		}
		month, day, ok := monthDay(fields[column[tmy3Date]])
		if !ok {
			return fault(f.Name, line, "date %q: write month/day/year, 01/31/1988", fields[column[tmy3Date]])
		}
		hour, ok := fullHour(fields[column[tmy3Time]])
		if !ok {
			return fault(f.Name, line, "time %q: write a full hour, 01:00 to 24:00", fields[column[tmy3Time]])
		}
		values := [5]float64{albedo: math.NaN()}
		for k, name := range tmy3Columns {
			v, ok := figure(fields[column[name]])
			if !ok {
				return fault(f.Name, line, "%s: %q is not a number", name, fields[column[name]])
			}
			values[k] = v
		}
		leap, err := f.place(line, month, day, hour, true, values)
		if leap {
			leaps++
		}
		return err
	})
	if err != nil {
		return err
	}
	if count < 3 {
		return fault(f.Name, 0, "no hours after the two lines of heading")
	}
	f.stated = [5]bool{true, true, true, true, false}
	f.noteLeap(leaps)
	return nil
}

// readTMY3Station: number, name, state, time zone in hours, latitude,
// longitude, elevation in metres.
func (f *File) readTMY3Station(line int, fields []string) error {
	if len(fields) < 7 {
		return fault(f.Name, line, "%d fields about the station, want 7: number, name, state, zone, latitude, longitude, elevation", len(fields))
	}
	f.Station = strings.TrimSpace(strings.TrimSpace(fields[1]) + " " + strings.TrimSpace(fields[2]))
	for i, to := range []*float64{nil, &f.Latitude, &f.Longitude, &f.Elevation} {
		v, ok := number(strings.TrimSpace(fields[3+i]))
		if !ok {
			return fault(f.Name, line, "field %d about the station: %q is not a number", 4+i, fields[3+i])
		}
		if to == nil {
			if math.Abs(v) > 15 {
				return fault(f.Name, line, "time zone %g hours: -12 to 14", v)
			}
			f.Offset = time.Duration(v * float64(time.Hour))
			continue
		}
		*to = v
	}
	return nil
}

func monthDay(text string) (month, day int, ok bool) {
	parts := strings.Split(strings.TrimSpace(text), "/")
	if len(parts) != 3 {
		return 0, 0, false
	}
	month, err := strconv.Atoi(parts[0])
	day, err2 := strconv.Atoi(parts[1])
	_, err3 := strconv.Atoi(parts[2])
	return month, day, err == nil && err2 == nil && err3 == nil
}

// fullHour reads H:MM with no minutes.
func fullHour(text string) (int, bool) {
	h, minutes, found := strings.Cut(strings.TrimSpace(text), ":")
	if !found || strings.Trim(minutes, "0:") != "" {
		return 0, false
	}
	hour, err := strconv.Atoi(h)
	return hour, err == nil
}

// number is a finite number.
func number(text string) (float64, bool) {
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && !math.IsNaN(v) && !math.IsInf(v, 0)
}
