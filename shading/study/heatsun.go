package study

import (
	"github.com/golang/geo/r3"
	"github.com/southyard/southyard/shading"
	"github.com/southyard/southyard/shading/heat"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/sky"
)

// lightOn is a year of open-field light on surfaces with one normal.
type lightOn struct {
	parts     []sky.Parts
	incidence []float64
}

func (st *Study) lightOn(n r3.Vector) lightOn {
	l := lightOn{make([]sky.Parts, sun.HoursAYear), make([]float64, sun.HoursAYear)}
	for i := range st.Year.Hours {
		h := &st.Year.Hours[i]
		if h.Global <= 0 && h.Beam <= 0 && h.Diffuse <= 0 {
			continue
		}
		l.parts[i] = sky.OnPlane(*h, n, st.Sky)
		l.incidence[i] = min(1, h.Incidence(n))
	}
	return l
}

// receivers are surfaces with all that their hourly sun is made of.
type receivers struct {
	ledger  *shading.YearLedger
	account *shading.Account
	which   []int // numbers in the account
	light   []lightOn
}

// receive makes surfaces of a scene ready; faces with one normal share their
// light.
func (st *Study) receive(sc *shading.Scene, l *shading.YearLedger, a *shading.Account, which []int) receivers {
	r := receivers{ledger: l, account: a, which: which}
	known := map[r3.Vector]lightOn{}
	for _, i := range which {
		n := sc.Surfaces[l.Which[i]].Face.N
		if _, ok := known[n]; !ok {
			known[n] = st.lightOn(n)
		}
		r.light = append(r.light, known[n])
	}
	return r
}

// sun is the hourly sun on each receiver in a state of the lot. Its sum by
// month and hour is what Account.Read gives.
func (r receivers) sun(s shading.State) []heat.Sun {
	if len(r.which) == 0 {
		return nil
	}
	shares := r.account.Shares(r.ledger, s)
	out := make([]heat.Sun, len(r.which))
	for k, i := range r.which {
		one := heat.Sun{Beam: make([]float64, sun.HoursAYear), Diffuse: make([]float64, sun.HoursAYear),
			Ground: make([]float64, sun.HoursAYear), Incidence: r.light[k].incidence}
		for t, p := range r.light[k].parts {
			if direct := p.Beam + p.Circumsolar; direct > 0 {
				one.Beam[t] = direct * shares.Beam(i, t)
			}
			if p.Dome > 0 || p.Horizon > 0 {
				one.Diffuse[t] = p.Dome*shares.Sky(i, t) + p.Horizon*shares.Band(i, t)
			}
			one.Ground[t] = p.Ground
		}
		out[k] = one
	}
	return out
}
