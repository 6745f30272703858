package study

import (
	"encoding/csv"
	"io"
	"strconv"
	"time"

	"github.com/southyard/southyard/shading"
)

// AccessHoursCSV writes solar access by month and hour of the day (hours begin
// at the stated local standard time) for every surface and state of the lot;
// hours without sun are left out.
func (st *Study) AccessHoursCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"surface", "state", "month", "hour_beginning_local_standard_time", "open_kwh_m2", "reached_kwh_m2", "access"})
	st.eachState(func(state string, reached []shading.Reached) {
		for i, r := range reached {
			for m := range r.Open {
				for h, open := range r.Open[m] {
					if open <= 1e-6 {
						continue
					}
					out.Write([]string{st.Scene.Surfaces[i].ID, state, time.Month(m + 1).String(), strconv.Itoa(h),
						num(open, 4), num(r.Sun[m][h], 4), num(min(1, r.Sun[m][h]/open), 4)})
				}
			}
		}
	})
	out.Flush()
	return out.Error()
}

// eachState visits the lot today, with each tree gone, under each plan, and
// without trees.
func (st *Study) eachState(visit func(state string, reached []shading.Reached)) {
	visit("today", st.Today)
	for _, t := range st.Site.Trees {
		visit("without "+t.ID, st.Account.Read(st.Account.Without(st.Account.Today(), t.ID)))
	}
	for _, p := range st.Plans {
		visit("plan "+p.Name, p.Reached)
	}
	visit("no trees", st.NoTrees)
}
