package climate

import (
	"slices"
	"testing"
	"time"
)

func TestHeatingSeasonRunsThroughWinterInBothHemispheres(t *testing.T) {
	toledo, err := Find("Toledo Express Airport")
	if err != nil {
		t.Fatal(err)
	}
	north := HeatingSeason(toledo[0].HDD)
	want := []time.Month{time.October, time.November, time.December, time.January, time.February, time.March, time.April}
	if !slices.Equal(north, want) {
		t.Errorf("Toledo: %v, want %v", north, want)
	}
	var turned [12]float64
	for m, v := range toledo[0].HDD {
		turned[(m+6)%12] = v
	}
	south := HeatingSeason(turned)
	if len(south) != len(north) || south[0] != time.April || south[len(south)-1] != time.October {
		t.Errorf("half a year turned: %v", south)
	}
}

func TestSeasonsAtTheEdges(t *testing.T) {
	if got := HeatingSeason([12]float64{}); got != nil {
		t.Errorf("no heating: %v", got)
	}
	var even [12]float64
	for m := range even {
		even[m] = 100
	}
	if got := HeatingSeason(even); len(got) != 12 {
		t.Errorf("even heating: %v, want all twelve", got)
	}
	if got := HeatingSeason([12]float64{6: 10}); !slices.Equal(got, []time.Month{time.July}) {
		t.Errorf("July alone: %v", got)
	}
	if got := CoolingSeason([12]float64{18.3, 18.4}); !slices.Equal(got, []time.Month{time.February}) {
		t.Errorf("cooling: %v", got)
	}
}
