package climate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"github.com/golang/geo/s1"
	"github.com/golang/geo/s2"

	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// typicalCalendar is the common year whose sun positions a typical year uses:
// half-way between leap years, where dates and declination agree best with
// the long-term mean.
const typicalCalendar = 2026

// mostMonthly is the highest clearness a month can have; measured ones end
// near 0.75.
const mostMonthly = 0.85

// Synthesize makes the hours of a typical year from monthly figures: days of
// differing clearness (dailyClearness) in a seeded order, hours within the
// day (spreadDay), the diffuse part (splitMonth) and the air's temperature
// (fillAir). The same seed gives the same year. Each month's global energy,
// and diffuse energy where stated, are met exactly; beam and global stay
// below a very clean clear sky wherever the month's sum allows it; no sun
// comes while the sun is down.
//
// Elevation in metres, NaN for the one the figures hold for. The error says
// which month has figures that no sky can give.
func Synthesize(m Monthly, place s2.LatLng, elevation float64, offset time.Duration, seed uint64) (sun.Year, error) {
	if math.IsNaN(elevation) {
		elevation = m.Elevation
	}
	if math.IsNaN(elevation) {
		elevation = 0
	}
	if !place.IsValid() {
		return sun.Year{}, fmt.Errorf("place %v is not on the earth: latitude runs from -90 to 90, longitude from -180 to 180", place)
	}
	y := sun.NewYear(place.Lat.Degrees(), place.Lng.Degrees(), elevation, offset, typicalCalendar)
	y.Source = m.Source
	y.Notes = append([]string(nil), m.Notes...)
	above := extraterrestrial(y)
	if err := plausible(m, above); err != nil {
		return sun.Year{}, err
	}
	random := rand.New(rand.NewPCG(seed, 0x50A7))
	order := weatherOrder(random)
	first := 0
	for month := range 12 {
		n := int(days(month))
		hours := y.Hours[first*24 : (first+n)*24]
		w := monthMaker{hours: hours, order: order[first : first+n], elevation: elevation, random: random}
		if note := w.fill(m.Global[month], m.Diffuse[month], above[month]); note != "" {
			y.Notes = append(y.Notes, time.Month(month+1).String()+": "+note)
		}
		for i := range hours {
			hours[i].Albedo = m.Albedo[month]
		}
		first += n
	}
	fillAir(&y, m)
	return y, nil
}

// plausible refuses figures no sky can give. Above is the extraterrestrial
// energy by month, kWh/m² a day.
func plausible(m Monthly, above [12]float64) error {
	for i := range 12 {
		month := time.Month(i + 1)
		g, d := m.Global[i], m.Diffuse[i]
		switch {
		case math.IsNaN(g) || g < 0 || math.IsInf(g, 0):
			return fmt.Errorf("%s: global sun %g kWh/m² a day is not a figure of sun: give twelve numbers from 0 to about 9", month, g)
		case g > max(mostMonthly*above[i], above[i]*0.5+0.3):
			return fmt.Errorf("%s: global sun %.2f kWh/m² a day is more than any sky lets through: %.2f arrive above the air at this latitude; are the figures MJ/m² (divide by 3.6), or of another hemisphere?", month, g, above[i])
		case d < 0 || d > g+0.005:
			return fmt.Errorf("%s: diffuse sun %.2f must lie between 0 and the global sun, %.2f kWh/m² a day", month, d, g)
		case math.IsNaN(m.Mean[i]) || m.Mean[i] < -70 || m.Mean[i] > 50:
			return fmt.Errorf("%s: mean temperature %g °C is not a monthly mean on earth: between -70 and 50 °C; are the figures °F?", month, m.Mean[i])
		case !(m.Max[i] >= m.Mean[i] && m.Min[i] <= m.Mean[i]):
			return fmt.Errorf("%s: the mean temperature %.1f °C must lie between the mean lowest %.1f and the mean highest %.1f", month, m.Mean[i], m.Min[i], m.Max[i])
		case !(m.Albedo[i] >= 0 && m.Albedo[i] <= 1):
			return fmt.Errorf("%s: albedo %g must lie between 0 and 1; grass is 0.2, snow 0.4 to 0.7", month, m.Albedo[i])
		}
	}
	return nil
}

// monthMaker fills the hours of one month.
type monthMaker struct {
	hours     []sun.Hour
	order     []int // each day's rank of clearness
	elevation float64
	random    *rand.Rand
}

// fill takes and gives kWh/m² a day; the note says what could not be met.
func (w monthMaker) fill(global, diffuse, above float64) (note string) {
	n := len(w.order)
	target := global * 1000 * float64(n)
	globalLimits, beamLimits := make([]float64, n*24), make([]float64, n*24)
	dayLimits, dayAbove := make([]float64, n), make([]float64, n)
	clear := 0.0
	for i, h := range w.hours {
		beamLimits[i], _, globalLimits[i] = sky.ClearSky(h, w.elevation, cleanAir)
		globalLimits[i] = min(globalLimits[i], outside(h)) // the model runs over with the sun on the horizon
		dayLimits[i/24] += globalLimits[i]
		dayAbove[i/24] += outside(h)
		clear += globalLimits[i]
	}
	if clear == 0 {
		if global > 0.005 {
			note = fmt.Sprintf("%.2f kWh/m² a day stated, but the sun is down all month: left out", global)
		}
		return note
	}
	if target > clear { // brighter than the cleanest sky: raise the limit evenly, to the sun above the air at most
		for i, h := range w.hours {
			globalLimits[i] = min(outside(h), globalLimits[i]*target/clear*1.02)
		}
		clear = 0
		for d := range dayLimits {
			dayLimits[d] = 0
			for i := d * 24; i < d*24+24; i++ {
				dayLimits[d] += globalLimits[i]
			}
			clear += dayLimits[d]
		}
		if target > clear {
			note = fmt.Sprintf("%.2f kWh/m² a day stated, but only %.2f can come: the sun barely rises", global, clear/1000/float64(n))
			target = clear
		}
	}
	clearness := dailyClearness(target/(above*1000*float64(n)), n)
	energies := make([]float64, n)
	for d, rank := range w.order {
		energies[d] = clearness[rank] * dayAbove[d]
	}
	fitSum(energies, dayLimits, target)
	light := w.spread(energies, clearness, globalLimits)
	want := diffuse * 1000 * float64(n)
	if math.IsNaN(diffuse) {
		want = target * min(1, sky.MonthlyDiffuseShare(target/(above*1000*float64(n)), s1.Angle(7.5*light/float64(n))*s1.Degree))
	}
	want = min(want, target)
	got := splitMonth(w.hours, beamLimits, want)
	if math.Abs(got-want) > max(0.001*target, 20*float64(n)) { // 0.02 kWh/m² a day
		if note != "" {
			note += "; "
		}
		note += fmt.Sprintf("diffuse %.2f kWh/m² a day stated, %.2f reached: no sky is so clear", want/1000/float64(n), got/1000/float64(n))
	}
	return note
}

// spread shares each day's energy, Wh/m², among its hours and counts the
// sun-up hours. Days next to each other in clearness share their deviates,
// the second turned round noon.
func (w monthMaker) spread(energies, clearness, limits []float64) (light float64) {
	n := len(w.order)
	dayOf := make([]int, n)
	for d, rank := range w.order {
		dayOf[rank] = d
	}
	var z [24]float64
	for rank, d := range dayOf {
		day := w.hours[d*24 : d*24+24]
		if rank%2 == 0 {
			z = hourlyDeviates(clearness[rank], w.random)
		} else {
			_, noon, _ := shapeOf(day)
			z = mirrored(z, noon)
		}
		spreadDay(day, limits[d*24:d*24+24], energies[d], z)
		for _, h := range day {
			light += h.Up
		}
	}
	return light
}
