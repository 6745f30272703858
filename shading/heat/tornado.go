package heat

import (
	"fmt"
	"math"
	"runtime"
	"sort"
	"sync"
)

// Doubt is an input that may be off: its value as used and the lowest and
// highest it may well be.
type Doubt struct {
	Name    string  `json:"name"`
	Low     float64 `json:"low"`
	Used    float64 `json:"used"`
	High    float64 `json:"high"`
	Unit    string  `json:"unit"`
	Assumed bool    `json:"assumed"`
	Why     string  `json:"why"`
}

// Bar is one bar of the tornado: the result with the input low and high, all
// others as used.
type Bar struct {
	Doubt
	AtLow  float64 `json:"result_at_low"`
	AtHigh float64 `json:"result_at_high"`
	Swing  float64 `json:"swing"`

	BackLow  Payback `json:"payback_at_low"` // of a package: with the input low and high
	BackHigh Payback `json:"payback_at_high"`

	move float64 // of the saving a dollar spent
}

// Tornado asks what moves the package's yearly saving and its payback most.
// sureness is the share by which the sun that trees leave may be off; 0 means
// 0.2 (crown transmissivity ±0.10 in leaf and ±0.15 bare, outlines ±5–10 %).
// Bars come by how far they move the saving a dollar spent, widest first (the
// saving alone where nothing is spent); what moves nothing is left out.
func (p Package) Tornado(sureness float64) (used Return, bars []Bar, err error) {
	if sureness <= 0 {
		sureness = 0.2
	}
	house, err := p.house()
	if err != nil {
		return Return{}, nil, err
	}
	solar := p.solar()
	base, err := p.join(house, solar)
	if err != nil {
		return Return{}, nil, err
	}
	used = p.Economy.ReturnOn(base)
	list := p.doubts(sureness)
	type end struct {
		Return
		err error
	}
	ends := make([][2]end, len(list))
	var all sync.WaitGroup
	gate := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, d := range list {
		for k, x := range []float64{d.Low, d.High} {
			all.Go(func() {
				gate <- struct{}{}
				defer func() { <-gate }()
				e := &ends[i][k]
				e.Return, e.err = p.turned(d, x, house, solar, base)
			})
		}
	}
	all.Wait()
	perDollar := func(r Return) float64 {
		if p.Cost <= 0 {
			return r.Saving
		}
		return r.Saving / r.Cost
	}
	for i, d := range list {
		low, high := ends[i][0], ends[i][1]
		for _, e := range ends[i] {
			if e.err != nil {
				return used, nil, fmt.Errorf("%s: %w", d.Name, e.err)
			}
		}
		b := Bar{Doubt: d.Doubt, AtLow: low.Saving, AtHigh: high.Saving, BackLow: low.Simple, BackHigh: high.Simple}
		b.Swing = max(b.AtLow, b.AtHigh, used.Saving) - min(b.AtLow, b.AtHigh, used.Saving)
		a, z, at := perDollar(low.Return), perDollar(high.Return), perDollar(used)
		if move := max(a, z, at) - min(a, z, at); move > 1e-3*math.Abs(at) {
			b.move = move
			bars = append(bars, b)
		}
	}
	sort.SliceStable(bars, func(i, j int) bool { return bars[i].move > bars[j].move })
	return used, bars, nil
}

// turned is the package's return with one input elsewhere. house, solar and
// base are what the package does as it is.
func (p Package) turned(d doubt, x float64, house housePart, solar float64, base Measure) (Return, error) {
	if p.Water != nil {
		own := *p.Water
		p.Water = &own
	}
	d.turn(&p, x)
	m, err := base, error(nil)
	switch d.moves {
	case moneyAlone:
		m.Cost = p.Cost
		return p.Economy.ReturnOn(m), nil
	case houseAlone:
		house, err = p.house()
	case waterAlone:
		solar = p.solar()
	default:
		solar = p.solar()
		house, err = p.house()
	}
	if err != nil {
		return Return{}, err
	}
	if m, err = p.join(house, solar); err != nil {
		return Return{}, err
	}
	return p.Economy.ReturnOn(m), nil
}
