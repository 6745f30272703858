package main

import (
	"fmt"
	"sync"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
)

// lotYears keeps the last few years of sun, since lots of one street often
// state one place. A year made from an hourly file is not kept.
type lotYears struct {
	lock sync.Mutex
	kept []lotYear // the latest first
}

type lotYear struct {
	key     string
	year    *sun.Year
	monthly climate.Monthly
}

// mostYears are kept, about a megabyte each.
const mostYears = 4

func (y *lotYears) of(place model.Place, choice model.ClimateChoice, seed uint64, hourly []byte) (*sun.Year, climate.Monthly, error) {
	plain := choice.File == "" && choice.Albedo == nil && choice.Diffuse == nil
	key := fmt.Sprint(place, choice, seed)
	if plain {
		y.lock.Lock()
		for _, k := range y.kept {
			if k.key == key {
				y.lock.Unlock()
				return k.year, k.monthly, nil
			}
		}
		y.lock.Unlock()
	}
	year, monthly, err := climate.ForSite(place, choice, func(string) ([]byte, error) { return hourly, nil }, seed)
	if err != nil {
		return nil, climate.Monthly{}, err
	}
	if plain {
		y.lock.Lock()
		defer y.lock.Unlock()
		y.kept = append([]lotYear{{key, &year, monthly}}, y.kept[:min(len(y.kept), mostYears-1)]...)
	}
	return &year, monthly, nil
}
