package study

import (
	"encoding/csv"
	"io"
	"strconv"
	"time"

	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// TreesCSV writes one line for every target and tree: what its removal gives.
func (st *Study) TreesCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"target", "season", "tree", "species", "owner", "height_m", "spread_m", "candidate",
		"gain_alone_kwh", "gain_after_all_others_kwh", "fair_share_kwh", "removal_cost_usd", "cost_stated", "cost_per_kwh_fair", "summer_gain_on_windows_kwh",
		"fair_share_p10_kwh", "fair_share_p90_kwh", "gain_alone_p10_kwh", "gain_alone_p90_kwh", "chance_in_best_set", "advice"})
	advice := st.adviceOn()
	for i := range st.Targets {
		t := &st.Targets[i]
		for _, s := range t.Standing {
			tree := st.tree(s.ID)
			out.Write([]string{t.Name, MonthsText(t.Months), s.ID, tree.Species, string(tree.Owner), num(tree.Height, 2), num((tree.SpreadX+tree.SpreadY)/2, 2),
				strconv.FormatBool(s.Allowed), num(s.Alone, 1), num(s.AfterAllOthers, 1), maybe(s.Fair, 1), num(s.Cost, 0), strconv.FormatBool(!s.CostUnknown),
				maybe(s.CostPerKWhFair, 3), num(t.Summer[s.ID], 1), t.fairAt(s.ID, false), t.fairAt(s.ID, true), t.aloneAt(s.ID, false), t.aloneAt(s.ID, true), t.chanceInBest(s.ID), advice[s.ID]})
		}
	}
	out.Flush()
	return out.Error()
}

// AccessCSV writes one line for every surface, state of the lot and month:
// the sun of an open field, the sun that reaches, and the access; then the
// same for the heating season and the year.
func (st *Study) AccessCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"surface", "kind", "area_m2", "state", "month", "open_kwh_m2", "reached_kwh_m2", "access"})
	st.eachState(func(state string, reached []shading.Reached) {
		for i, r := range reached {
			s := &st.Scene.Surfaces[i]
			line := func(month string, months ...time.Month) {
				access := "" // of no sun there is no share
				if r.OpenTotal(months...) > 0 {
					access = num(r.Access(months...), 4)
				}
				out.Write([]string{s.ID, string(s.Kind), num(r.Area, 3), state, month,
					num(r.OpenTotal(months...), 3), num(r.Total(months...), 3), access})
			}
			for m := time.January; m <= time.December; m++ {
				line(m.String(), m)
			}
			line("heating season", st.Heating...)
			line("year")
		}
	})
	out.Flush()
	return out.Error()
}

// HoursCSV writes one line for every surface and hour with the sun up: where
// the sun stands, the share of the beam and of the even sky that reaches the
// surface today and under each plan, and the energy in an open field, today and
// under each plan, which add up to the months of access.csv. Hours begin at the
// stated local standard time.
func (st *Study) HoursCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	head := []string{"surface", "month", "day", "hour_beginning_local_standard_time", "sun_altitude_degrees", "sun_azimuth_degrees", "cos_incidence", "beam_share_today", "sky_share_today"}
	states := []*shading.Shares{st.Account.Shares(st.Ledger, st.Account.Today())}
	for _, p := range st.Plans {
		head = append(head, "beam_share "+p.Name, "sky_share "+p.Name)
		states = append(states, st.Account.Shares(st.Ledger, p.State))
	}
	head = append(head, "open_wh_m2", "reached_wh_m2_today")
	for _, p := range st.Plans {
		head = append(head, "reached_wh_m2 "+p.Name)
	}
	out.Write(head)
	for s := range st.Scene.Surfaces {
		surface := &st.Scene.Surfaces[s]
		for i := range st.Year.Hours {
			h := &st.Year.Hours[i]
			if h.Up <= 0 {
				continue
			}
			month, hour := sun.Month(i)
			altitude, azimuth := sun.Angles(h.Sun)
			row := []string{surface.ID, strconv.Itoa(int(month)), strconv.Itoa(dayOfMonth(i / 24)), strconv.Itoa(hour),
				num(altitude.Degrees(), 2), num(azimuth.Degrees(), 2), num(h.Incidence(surface.Face.N), 4)}
			for _, shares := range states {
				row = append(row, num(shares.Beam(s, i), 4), num(shares.Sky(s, i), 4))
			}
			open := sky.OnPlane(*h, surface.Face.N, st.Sky)
			row = append(row, num(open.Sum(), 1))
			for _, shares := range states {
				reached := (open.Beam+open.Circumsolar)*shares.Beam(s, i) + open.Dome*shares.Sky(s, i) + open.Horizon*shares.Band(s, i) + open.Ground
				row = append(row, num(reached, 1))
			}
			out.Write(row)
		}
	}
	out.Flush()
	return out.Error()
}

// dayOfMonth of a 0-based day of the year.
func dayOfMonth(day int) int {
	for m := time.January; ; m++ {
		if day < sun.DaysIn(m) {
			return day + 1
		}
		day -= sun.DaysIn(m)
	}
}

func num(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }

func maybe(x *float64, decimals int) string {
	if x == nil {
		return ""
	}
	return num(*x, decimals)
}
