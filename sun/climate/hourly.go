package climate

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"github.com/southyard/southyard/sun"
)

// mostBytes of an hourly file: a year of hours is under 3 MB.
const mostBytes = 64 << 20

// File is an hourly weather file as read: every figure where it belongs in
// the year, none repaired yet.
type File struct {
	Name                string // as opened, for messages
	Station             string // the name inside the file
	Layout              string // "TMY3" or "hourly table"
	Latitude, Longitude float64
	Elevation           float64 // m
	Offset              time.Duration
	Notes               []string // what was left out while reading

	hours  [sun.HoursAYear]reading
	stated [5]bool // which figures have a column
}

// reading is one hour of a file, in the order of figureNames; NaN is missing.
type reading struct {
	line   int // in the file; 0 where no row was met
	values [5]float64
}

// The figures of a reading.
const (
	global  = iota // horizontal, W/m²
	beam           // normal, W/m²
	diffuse        // horizontal, W/m²
	air            // °C
	albedo         // 0..1
)

var figureNames = [5]string{"global", "beam", "diffuse", "air", "albedo"}

// fault is an error in a file: its name, the line, what is wrong and what
// would be right.
func fault(name string, line int, format string, args ...any) error {
	if line > 0 {
		return fmt.Errorf("%s line %d: %s", name, line, fmt.Sprintf(format, args...))
	}
	return fmt.Errorf("%s: %s", name, fmt.Sprintf(format, args...))
}

// ReadHourly reads a typical year in the TMY3 layout (Wilcox & Marion, Users
// Manual for TMY3 Data Sets, NREL/TP-581-43156, 2008; 68 or 71 columns) or in
// southyard's own table (see the package's README). Which of the two is told
// by the second line. Errors carry the name, the line, what is wrong and what
// would be right.
func ReadHourly(name string, r io.Reader) (File, error) {
	content, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return File{}, fmt.Errorf("%s: %w", name, err)
	}
	if len(content) > mostBytes {
		return File{}, fault(name, 0, "larger than %d MB: an hourly year is under 3 MB", mostBytes>>20)
	}
	content = bytes.TrimPrefix(content, []byte("\xef\xbb\xbf"))
	f := File{Name: name, Elevation: math.NaN(), Latitude: math.NaN(), Longitude: math.NaN()}
	for i := range f.hours {
		for k := range f.hours[i].values {
			f.hours[i].values[k] = math.NaN()
		}
	}
	if looksTMY3(content) {
		err = f.readTMY3(content)
	} else {
		err = f.readTable(content)
	}
	if err != nil {
		return File{}, err
	}
	return f, f.checkPlace()
}

func (f *File) checkPlace() error {
	switch {
	case !(math.Abs(f.Latitude) <= 90):
		return fault(f.Name, 0, "latitude %g: -90 to 90, north positive", f.Latitude)
	case !(math.Abs(f.Longitude) <= 180):
		return fault(f.Name, 0, "longitude %g: -180 to 180, east positive", f.Longitude)
	case !(f.Elevation >= -500 && f.Elevation <= 9000):
		return fault(f.Name, 0, "elevation %g m: -500 to 9000", f.Elevation)
	case !(math.Abs(math.Remainder(f.Offset.Hours()-f.Longitude/15, 24)) <= 4):
		return fault(f.Name, 0, "standard time %s is over 4 hours from the sun's time at longitude %.2f: check both, west longitudes are negative", utc(f.Offset), f.Longitude)
	}
	return nil
}

// place puts a reading where its month, day and hour say. The hour runs 0..24
// as stamped; where the stamp ends its interval, 0:00 is 24:00 of the day
// before. A 29 February is left out and counted by the caller.
func (f *File) place(line, month, day, hour int, ending bool, values [5]float64) (leap bool, err error) {
	leap = month == 2 && day == 29
	if month < 1 || month > 12 || day < 1 || day > sun.DaysIn(time.Month(month)) && !leap {
		return false, fault(f.Name, line, "month %d day %d is no date of the year", month, day)
	}
	if hour < 0 || hour > 24 || hour == 24 && !ending {
		return false, fault(f.Name, line, "hour %d: stamps run from 1:00 to 24:00 where they end the hour, from 0:00 to 23:00 where they begin it", hour)
	}
	first := day - 1
	for m := 1; m < month; m++ {
		first += sun.DaysIn(time.Month(m))
	}
	index := first*24 + hour
	if ending {
		index--
	}
	if leap && (hour != 0 || !ending) {
		return true, nil
	}
	if month == 3 && day == 1 && hour == 0 && ending && f.sawLeap() {
		return true, nil // the last hour of 29 February
	}
	index = (index + sun.HoursAYear) % sun.HoursAYear
	if leap { // 0:00 of 29 February ends 28 February
		index = (31+28)*24 - 1
	}
	if old := f.hours[index].line; old > 0 {
		return false, fault(f.Name, line, "a second row for month %d day %d hour %d (first in line %d): a typical year has every hour once", month, day, hour, old)
	}
	f.hours[index] = reading{line, values}
	return false, nil
}

// sawLeap: the last hour of 28 February is already filled, so that an hour
// ending 1 March 0:00 can only be of 29 February.
func (f *File) sawLeap() bool { return f.hours[(31+28)*24-1].line > 0 }

func (f *File) noteLeap(n int) {
	if n > 0 {
		f.Notes = append(f.Notes, fmt.Sprintf("29 February: %d hours left out, a typical year has 365 days", n))
	}
}

// rows goes through the lines of comma-separated text with their numbers.
func rows(name string, content []byte, each func(line int, fields []string) error) error {
	r := csv.NewReader(bytes.NewReader(content))
	r.FieldsPerRecord = -1
	r.TrimLeadingSpace = true
	r.ReuseRecord = true
	for {
		fields, err := r.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			var wrong *csv.ParseError
			if errors.As(err, &wrong) {
				return fault(name, wrong.Line, "not comma-separated text: %v", wrong.Err)
			}
			return fmt.Errorf("%s: %w", name, err)
		}
		line, _ := r.FieldPos(0)
		if err := each(line, fields); err != nil {
			return err
		}
	}
}

// figure reads a number; what stands for a missing one is NaN.
func figure(text string) (float64, bool) {
	text = strings.TrimSpace(text)
	switch strings.ToLower(text) {
	case "", "-", "nan", "na", "-9900", "-9900.0", "-9999", "-9999.0", "-999", "-99999":
		return math.NaN(), true
	}
	v, ok := number(text)
	return v, ok && math.Abs(v) < 1e6
}
