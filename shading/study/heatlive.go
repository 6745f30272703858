package study

import (
	"time"

	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/sun"
)

// HeatOf is what a state of the lot does for the heat of the house as mended,
// against the lot as it stands. Heat must have been studied.
func (st *Study) HeatOf(name string, state shading.State) (Worth, error) {
	w := st.Heat.work
	r := w.run(name, w.out.After, state)
	if r.err != nil {
		return Worth{}, r.err
	}
	return w.worth(name, w.rehab, r), nil
}

// Lit is a surface on which light falls, with what each part of the light would
// bring in every hour of the year, Wh, if nothing stood in the way. The part
// Ground is never shaded.
type Lit struct {
	Surface                  int // number in the account
	Normal                   r3.Vector
	Diffuse                  float64 // what 1 Wh/m² of diffuse light counts for
	Beam, Dome, Band, Ground []float64
}

// HeatParts are what the heat of any state is made of: whoever has them can work
// out anew what HeatOf gives, save for the duct coil.
type HeatParts struct {
	Air          []float64   // °C, by hour
	MonthlyAir   heat.Months // °C
	Conductance  float64     // of the mended house, W/K
	Windows      []Lit       // in the study's account: heat indoors
	Panels       *shading.Account
	PanelsLedger *shading.YearLedger
	Heaters      []Lit            // in Panels: what an air heater takes in, before its losses
	Units        []heat.AirHeater // their figures, in the same order
	Water        *WaterParts
}

// WaterParts are the hot-water panels' monthly method: X and Y of its
// correlation are fixed, and in proportion to the sun on the panels.
type WaterParts struct {
	Weights []float64   // by surface of Panels: what 1 kWh/m² there counts for
	Area    float64     // aperture, m²
	Load    heat.Months // kWh
	X       heat.Months
	YPerSun heat.Months // Y of 1 kWh/m² on the panels in the month
	Pump    float64     // kWh of power a kWh of hot water
}

// HeatParts takes the heat apart. Heat must have been studied.
func (st *Study) HeatParts() (HeatParts, error) {
	w := st.Heat.work
	out := HeatParts{Air: w.air, MonthlyAir: w.monthlyAir(), Conductance: w.rehab.column.Conductance.Total,
		Panels: w.panels.account, PanelsLedger: w.panels.ledger}
	for k, g := range w.glass(w.windows, make([]heat.Sun, len(w.windows.which))) {
		pass, err := g.PassIn(w.out.After)
		if err != nil {
			return out, err
		}
		out.Windows = append(out.Windows, w.windows.lit(k, w.Scene.Surfaces[w.windows.which[k]].Face.N, pass.Beam, pass.Diffuse))
	}
	for k, n := range w.owner {
		if !w.out.Collectors[n].Air() {
			continue
		}
		surface := &w.scene.Surfaces[w.panels.which[k]]
		unit, _ := heat.DefaultAirHeater(surface.ID, surface.Face.Area, heat.Sun{})
		out.Units = append(out.Units, unit)
		out.Heaters = append(out.Heaters, w.panels.lit(k, surface.Face.N, unit.TakenOfBeam, unit.TakenOfDiffuse()))
	}
	if w.out.Water != nil {
		out.Water = w.waterParts()
	}
	return out, nil
}

// lit is receiver k with what 1 Wh/m² of beam at an incidence, and of diffuse
// light, counts for.
func (r receivers) lit(k int, normal r3.Vector, beam func(cosine float64) float64, diffuse float64) Lit {
	n := sun.HoursAYear
	out := Lit{r.which[k], normal, diffuse, make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)}
	light := r.light[k]
	for t, p := range light.parts {
		if direct := p.Beam + p.Circumsolar; direct > 0 {
			out.Beam[t] = direct * beam(light.incidence[t])
		}
		out.Dome[t], out.Band[t], out.Ground[t] = p.Dome*diffuse, p.Horizon*diffuse, p.Ground*diffuse
	}
	return out
}

func (w *heatStudy) monthlyAir() (out heat.Months) {
	for m := range out {
		out[m] = w.meanAir(m)
	}
	return out
}

func (w *heatStudy) waterParts() *WaterParts {
	areas, total := w.waterAreas()
	out := &WaterParts{Weights: make([]float64, len(w.panels.which)), Area: w.out.Water.Area}
	for k := range w.panels.which {
		out.Weights[k] = areas[w.owner[k]] / total
	}
	for m, b := range w.base.Months {
		hours := 24 * float64(sun.DaysIn(time.Month(m+1)))
		one := heat.WaterMonth{Load: b.Demand, Sun: 1000 / hours, Air: w.meanAir(m), Cold: b.Cold, Hours: hours}
		out.Load[m] = b.Demand
		_, out.X[m], out.YPerSun[m] = one.Solar(w.out.Water.Collector, w.out.Water.Area, w.out.Water.Tank)
	}
	if w.out.WaterHeat.Solar > 0 {
		out.Pump = w.out.WaterHeat.Pump / w.out.WaterHeat.Solar
	}
	return out
}
