package heat

// Case is one column of the comparison: a condition of the house with the sun
// its windows get then.
type Case struct {
	Name    string
	Shell   Shell
	Windows []Glass
}

// WindowGain is the sun one window turns to heat, kWh.
type WindowGain struct {
	ID     string  `json:"id"`
	Year   float64 `json:"year_kwh"`
	Season float64 `json:"heating_season_kwh"`
	Summer float64 `json:"summer_kwh"`
}

// Column is the answer for one case, kWh a year unless said.
type Column struct {
	Name         string           `json:"name"`
	Conductance  Conductance      `json:"conductance"`
	TimeConstant float64          `json:"time_constant_h"`
	Months       [12]MonthBalance `json:"months"`
	Need         float64          `json:"need_kwh"`
	Solar        float64          `json:"solar_gain_kwh"`
	SolarUseful  float64          `json:"solar_useful_kwh"`      // need without any sun less need with it
	SeasonUnused float64          `json:"unused_in_season_kwh"`  // sun and internal gain the season cannot use
	SummerSolar  float64          `json:"summer_solar_gain_kwh"` // sun let in outside the heating season: the price
	Windows      []WindowGain     `json:"windows"`
	Hourly       HourlyRun        `json:"hourly_check"`
	HourlyDiffer float64          `json:"hourly_differs_by_share"` // (hourly − monthly need)/monthly need

	solar Months    // kWh
	gains []float64 // Wh each hour
}

// Balance works out one case. air is the hourly air temperature, °C.
func (h House) Balance(c Case, air []float64) (Column, error) {
	if err := h.check(); err != nil {
		return Column{}, err
	}
	if err := checkAir(air); err != nil {
		return Column{}, err
	}
	for _, w := range c.Windows {
		if err := w.check(); err != nil {
			return Column{}, err
		}
	}
	conductance, err := h.Conductance(c.Shell, c.Windows)
	if err != nil {
		return Column{}, err
	}
	col := Column{Name: c.Name, Conductance: conductance, gains: make([]float64, len(air)),
		TimeConstant: TimeConstant(h.Capacity, conductance.Total)}
	perWindow := make([]Months, len(c.Windows))
	for i, w := range c.Windows {
		glazing, err := w.glazingIn(c.Shell)
		if err != nil {
			return Column{}, err
		}
		gain := w.Gain(glazing)
		perWindow[i] = byMonth(gain)
		for t, g := range gain {
			col.gains[t] += g
		}
		for m := range col.solar {
			perWindow[i][m] /= 1000
			col.solar[m] += perWindow[i][m]
		}
	}
	mean := monthlyMean(air)
	col.Months = h.MonthlyBalance(conductance.Total, mean, col.solar)
	dark := h.MonthlyBalance(conductance.Total, mean, Months{})
	for m, b := range col.Months {
		col.Need += b.Need
		col.Solar += b.Solar
		col.SolarUseful += dark[m].Need - b.Need
		if b.Summer {
			col.SummerSolar += b.Solar
		} else {
			col.SeasonUnused += b.Unused
		}
	}
	for i, w := range c.Windows {
		g := WindowGain{ID: w.ID, Year: perWindow[i].Sum()}
		for m, b := range col.Months {
			if b.Summer {
				g.Summer += perWindow[i][m]
			} else {
				g.Season += perWindow[i][m]
			}
		}
		col.Windows = append(col.Windows, g)
	}
	col.Hourly = h.Hourly(conductance.Total, air, col.gains, nil, 0)
	if col.Need > 0 {
		col.HourlyDiffer = (col.Hourly.Need - col.Need) / col.Need
	}
	return col, nil
}

// Worth is what one case saves against another: the difference of two needs,
// never a gain times one factor.
type Worth struct {
	From       string  `json:"from"`
	To         string  `json:"to"`
	Saved      float64 `json:"heat_saved_kwh"` // negative: the change costs heat
	AddedGain  float64 `json:"added_solar_gain_kwh"`
	UsedShare  float64 `json:"used_share"` // Saved over AddedGain; 0 where no sun was added
	SummerGain float64 `json:"added_summer_gain_kwh"`
}

// WorthOf a change from one column to another with the same shell.
func WorthOf(from, to Column) Worth {
	w := Worth{From: from.Name, To: to.Name, Saved: from.Need - to.Need, AddedGain: to.Solar - from.Solar,
		SummerGain: to.SummerSolar - from.SummerSolar}
	if w.AddedGain > 0 {
		w.UsedShare = w.Saved / w.AddedGain
	}
	return w
}

// HourlyGains is the sun let in by the windows, Wh each hour.
func (c Column) HourlyGains() []float64 { return c.gains }
