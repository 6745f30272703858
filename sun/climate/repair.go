package climate

import (
	"fmt"
	"math"
	"path"
	"path/filepath"
	"time"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// Our own rules for what may be repaired in a file.
const (
	longestGap  = 6   // hours in a row that are filled
	mostFaults  = 48  // impossible hours that are repaired; more mean a wrong file
	nightLight  = 20  // W/m² with the sun down that passes for twilight or an instrument's zero
	poorClosure = 0.2 // of the year's global that beam and diffuse may miss by
	fairClosure = 0.05
)

// Year puts the file's weather under the sun of its own place. What is
// missing or impossible is repaired and counted in Notes, or refused:
//
//   - figures beyond what is physically possible (Long & Dutton, BSRN Global
//     Network recommended QC tests V2.0, 2002, from memory) count as missing,
//     up to 48 hours; light while the sun is down is put to 0;
//   - up to six missing hours in a row are filled, the sun from the same hour
//     of the days before and after, the air on a line;
//   - a missing column of beam or diffuse follows from the other two figures;
//     with global alone the hourly split of Erbs et al. 1982 is used;
//   - columns that only close (global = beam × sine of the altitude +
//     diffuse) in another order are refused, with the order that closes.
func (f File) Year() (sun.Year, error) {
	y := sun.NewYear(f.Latitude, f.Longitude, f.Elevation, f.Offset, typicalCalendar)
	y.Source = "hourly file " + path.Base(filepath.ToSlash(f.Name))
	if f.Station != "" {
		y.Source += " (" + f.Station + ")"
	}
	y.Notes = append([]string(nil), f.Notes...)
	r := repair{file: &f, year: &y}
	for _, step := range []func() error{r.order, r.limits, r.night, r.gaps, r.split} {
		if err := step(); err != nil {
			return sun.Year{}, err
		}
	}
	r.clock()
	return y, nil
}

// repair works on its own copy of the file's hours.
type repair struct {
	file *File
	year *sun.Year
}

func (r repair) note(format string, args ...any) {
	r.year.Notes = append(r.year.Notes, fmt.Sprintf(format, args...))
}

// when names an hour of the year for people.
func when(i int) string {
	m, hour := sun.Month(i)
	first := 0
	for k := time.January; k < m; k++ {
		first += sun.DaysIn(k)
	}
	return fmt.Sprintf("%d %s %d:00", i/24-first+1, m, hour)
}

// limits counts what cannot be as missing.
func (r repair) limits() error {
	first, n, capped := 0, 0, 0
	for i := range r.file.hours {
		h := r.year.Hours[i]
		v := &r.file.hours[i].values
		height := h.Incidence(up)
		most := [5]float64{
			global:  1.5*h.Extra*math.Pow(height, 1.2) + 100,
			beam:    h.Extra,
			diffuse: 0.95*h.Extra*math.Pow(height, 1.2) + 50,
			air:     60, albedo: 1,
		}
		least := [5]float64{-nightLight, -nightLight, -nightLight, -80, 0}
		if h.Up == 0 {
			most[global], most[diffuse], most[beam] = math.Inf(1), math.Inf(1), math.Inf(1) // night's turn
		}
		bad := false
		for k := range v {
			if v[k] < least[k] || v[k] > most[k] {
				v[k], bad = math.NaN(), true
			}
			if k <= diffuse && v[k] < 0 {
				v[k] = 0
			}
		}
		if limit := h.Extra * h.Up; h.Up > 0 && v[beam] > limit {
			v[beam] = limit
			capped++
		}
		if bad {
			if n == 0 {
				first = i
			}
			n++
		}
	}
	if n > mostFaults {
		return fault(r.file.Name, r.file.hours[first].line, "%s holds a figure that cannot be (sun above what arrives, air beyond -80..60 °C, albedo beyond 0..1), as do %d hours in all: check the units and the columns", when(first), n)
	}
	if n > 0 {
		r.note("%d hours held figures that cannot be, the first at %s: taken as missing", n, when(first))
	}
	if capped > 0 {
		r.note("%d hours at sunrise or sunset: beam held to what the sun-up minutes can bring", capped)
	}
	return nil
}

// night puts light to 0 while the sun is down.
func (r repair) night() error {
	first, faint, bright := -1, 0, 0
	for i := range r.file.hours {
		if r.year.Hours[i].Up > 0 {
			continue
		}
		v := &r.file.hours[i].values
		light := 0.0
		for k := range 3 {
			light = max(light, v[k])
			if r.file.stated[k] {
				v[k] = 0
			}
		}
		switch {
		case light > nightLight:
			bright++
			if first < 0 {
				first = i
			}
		case light > 0:
			faint++
		}
	}
	if bright > mostFaults {
		return fault(r.file.Name, r.file.hours[first].line, "light at %s with the sun down, as in %d hours: check the UTC offset, the longitude, whether times begin or end their hour, and that they are standard time without daylight saving", when(first), bright)
	}
	if bright > 0 {
		r.note("%d hours with light while the sun is down, the first at %s: put to 0", bright, when(first))
	}
	if faint > 0 {
		r.note("%d hours of twilight or instrument zero (up to %d W/m²) with the sun down: put to 0", faint, nightLight)
	}
	return nil
}

// split works out a figure without a column and hands the hours over.
func (r repair) split() error {
	s := r.file.stated
	for i := range r.year.Hours {
		h := &r.year.Hours[i]
		v := r.file.hours[i].values
		h.Air = v[air]
		if s[albedo] {
			h.Albedo = v[albedo]
		}
		if h.Up == 0 {
			continue
		}
		height := h.Incidence(up)
		most := h.Extra * h.Up
		h.Global = v[global]
		switch {
		case s[beam] && s[diffuse]:
			h.Beam, h.Diffuse = v[beam], v[diffuse]
		case s[beam]:
			h.Beam = min(v[beam], most)
			h.Diffuse = max(0, h.Global-h.Beam*height)
		case s[diffuse]:
			h.Diffuse = min(v[diffuse], h.Global)
			h.Beam = min(most, (h.Global-h.Diffuse)/height)
		default:
			share := sky.HourlyDiffuseShare(h.Global / outside(*h))
			h.Beam = min(most, h.Global*(1-share)/height)
			h.Diffuse = max(0, h.Global-h.Beam*height)
		}
	}
	switch {
	case s[beam] && s[diffuse]:
	case s[beam]:
		r.note("no column of diffuse: global less beam")
	case s[diffuse]:
		r.note("no column of beam: from global less diffuse")
	default:
		r.note("neither beam nor diffuse: split from global after Erbs, Klein & Duffie 1982")
	}
	return nil
}

// clock notes a file whose light is shifted against the sun.
func (r repair) clock() {
	var light, sunTime, ours, lightTime float64
	for i, h := range r.year.Hours {
		if m, _ := sun.Month(i); h.Up == 0 || m < time.March || m > time.October {
			continue
		}
		o, at := outside(h), float64(i%24)
		light += h.Global
		lightTime += h.Global * at
		ours += o
		sunTime += o * at
	}
	if light == 0 || ours == 0 {
		return
	}
	if shift := lightTime/light - sunTime/ours; math.Abs(shift) > 0.4 {
		r.note("the file's light comes %.1f hours %s than the sun of its place: its clock may be wrong", math.Abs(shift), map[bool]string{true: "later", false: "earlier"}[shift > 0])
	}
}
