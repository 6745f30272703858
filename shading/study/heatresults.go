package study

import (
	"encoding/json"
	"strconv"

	"github.com/southyard/southyard/shading/heat"
)

// HeatResult is the heat and money part of results.json. Heat is kWh a year
// and useful unless a name says otherwise, money dollars, R-values m²·K/W.
// Figures carry five digits; the answer is good to two.
type HeatResult struct {
	House      heat.House          `json:"house"`
	Before     heat.Shell          `json:"shell_as_found"`
	After      heat.Shell          `json:"shell_after_rehab"`
	Economy    heat.Economy        `json:"economy"`
	Columns    []ColumnResult      `json:"columns"`
	Trees      []TreeWorth         `json:"tree_gone_alone_after_rehab"`
	Collectors []Placed            `json:"collectors"`
	AirHeat    *heat.AirHeat       `json:"air_heaters_after_best_set"`
	Water      *heat.WaterSystem   `json:"hot_water_system"`
	WaterHeat  *heat.WaterHeat     `json:"hot_water_after_best_set"`
	Coil       *heat.CoilHeat      `json:"surplus_to_house_after_best_set,omitempty"`
	Returns    []heat.Return       `json:"returns"` // of each part, all together last
	Unpriced   []string            `json:"collectors_without_a_stated_cost"`
	Tornado    []heat.Bar          `json:"saving_of_all_together_by_doubt_dollars_a_year"`
	Verdict    heat.Verdict        `json:"verdict"`
	Cautions   map[string][]string `json:"cautions"`
	Assumed    []heat.Default      `json:"assumed"`
}

// ColumnResult is one condition of the house and the lot. The worth of its
// trees is against "after the rehab", today's trees.
type ColumnResult struct {
	heat.Column
	FuelCost  float64    `json:"fuel_cost_dollars_a_year"`
	CO2       float64    `json:"co2_kg_a_year"`
	Worth     heat.Worth `json:"worth_through_windows"`
	Air       float64    `json:"air_heaters_kwh"`
	AirMore   float64    `json:"air_heaters_more_kwh"`
	Water     float64    `json:"hot_water_kwh"`
	WaterMore float64    `json:"hot_water_more_kwh"`
	Coil      float64    `json:"surplus_to_house_kwh,omitempty"`
	CoilMore  float64    `json:"surplus_to_house_more_kwh,omitempty"`
	Saving    float64    `json:"worth_dollars_a_year"` // windows and panels, power for fans and pumps taken off
}

// Result shapes the heat of a lot for its file.
func (h *Heat) Result() HeatResult {
	out := HeatResult{
		House: h.House, Before: h.Before, After: h.After, Economy: h.Economy, Trees: listed(h.Trees), Collectors: listed(h.Collectors),
		AirHeat: h.AirHeat, Water: h.Water, WaterHeat: h.WaterHeat, Coil: h.Coil, Returns: listed(h.Returns), Unpriced: listed(h.CostsMissing()),
		Tornado: listed(h.Tornado), Verdict: h.Verdict, Assumed: h.Assumed, Cautions: map[string][]string{},
	}
	v := &out.Verdict
	v.Reasons, v.WouldChange, v.MeasureFirst = listed(v.Reasons), listed(v.WouldChange), listed(v.MeasureFirst)
	for i, c := range h.Columns {
		s := h.States[i]
		out.Columns = append(out.Columns, ColumnResult{
			Column: c, FuelCost: c.Need * h.Economy.Fuel.PerKWh(), CO2: h.Economy.Fuel.CO2Saved(c.Need), Worth: s.Windows,
			Air: s.Air, AirMore: s.AirMore, Water: s.Water, WaterMore: s.WaterMore, Coil: s.Coil, CoilMore: s.CoilMore, Saving: s.Saving,
		})
	}
	for _, topic := range h.topics() {
		out.Cautions[topic] = heat.Cautions(topic, h.unit)
	}
	return out
}

// topics are the works this lot's answer speaks of, in their order.
func (h *Heat) topics() []string {
	has := map[string]bool{"tightening": true, "windows": true, "felling": len(h.Trees) > 0, "digging": h.BestName != ""}
	for _, p := range h.Collectors {
		if p.Air() {
			has["air heater"], has["wall"] = true, true
		} else {
			has["hot water"], has["roof"] = true, true
		}
	}
	has["duct coil"] = h.Coil != nil
	var out []string
	for _, topic := range heat.CautionTopics() {
		if has[topic] {
			out = append(out, topic)
		}
	}
	return out
}

// MarshalJSON writes the result without false digits.
func (r HeatResult) MarshalJSON() ([]byte, error) {
	type plain HeatResult
	data, err := json.Marshal(plain(r))
	if err != nil {
		return nil, err
	}
	return fewDigits(data, 5), nil
}

// fewDigits rounds every number with a fraction in JSON text to so many
// significant digits.
func fewDigits(data []byte, digits int) []byte {
	out := make([]byte, 0, len(data))
	inText := false
	for i := 0; i < len(data); i++ {
		c := data[i]
		switch {
		case inText:
			out = append(out, c)
			if c == '\\' {
				i++
				out = append(out, data[i])
			} else if c == '"' {
				inText = false
			}
		case c == '-' || c >= '0' && c <= '9':
			end := i
			fraction := false
			for end < len(data) && (data[end] >= '0' && data[end] <= '9' || data[end] == '.' || data[end] == '-' || data[end] == '+' || data[end] == 'e' || data[end] == 'E') {
				fraction = fraction || data[end] == '.' || data[end] == 'e'
				end++
			}
			if x, err := strconv.ParseFloat(string(data[i:end]), 64); err == nil && fraction {
				rounded, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
				text, _ := json.Marshal(rounded)
				out = append(out, text...)
			} else {
				out = append(out, data[i:end]...)
			}
			i = end - 1
		default:
			inText = c == '"'
			out = append(out, c)
		}
	}
	return out
}
