package shading

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/southyard/southyard/sun"
)

// A wall whose middle is cut out from end to end, as by a porch roof, is two
// pieces; the strips between them are on no piece and must not shift the rest.
func TestFaceInTwoPiecesKeepsItsRowsInPlace(t *testing.T) {
	wall := southWall(0, 0, 10, 6, 0)
	wall.Outline = append(rectangle(0, 0, 10, 1), rectangle(0, 5, 10, 6)...)
	wall.Area = 20
	sc := receiver(wall)
	sc.screen("overhang", flat(-far, -0.5, far, 0, 6))
	near(t, "shaded area", sc.shaded(beforeWall(45, 0)), 10*0.5, 10*(2*halfRow+inFront))
	sc = receiver(wall)
	sc.screen("beam", southWall(-far, 5.5, far, 6.5, -1))
	near(t, "shaded by a beam in front", sc.shaded(beforeWall(45, 0)), 10*0.5, 10*2*halfRow)
}

func TestLowSurfaceHasEightRows(t *testing.T) {
	sc := receiver(southWall(0, 0, 4, 0.4, 0))
	sc.screen("overhang", flat(-far, -1, far, 0, 0.4))
	// The shadow is 0.105 m deep, a quarter of the height: three rows of 6 inches
	// could tell a third at best.
	l := sc.one(beforeWall(6, 0), SixInches)
	near(t, "open share", openShare(l), 1-math.Tan(6*math.Pi/180)/0.4, 0.5/fewestRows+1e-9)
}

// everyTenthDay is a year with nine days of ten struck out.
func everyTenthDay(year *sun.Year) *sun.Year {
	out := *year
	out.Hours = slices.Clone(year.Hours)
	for i := range out.Hours {
		if i/24%10 != 5 {
			out.Hours[i] = sun.Hour{}
		}
	}
	return &out
}

// In one hour a level edge (an eave's shadow on a wall) is found to a row only.
// Over a year the sun moves it up and down through the rows, the rows take turns
// in five places, and the errors cancel: this measures what is left of them.
func TestSixInchRowsTellYearlyAccessAsWellAsFineOnes(t *testing.T) {
	year := everyTenthDay(testYear(42))
	var apart []float64
	worst, worstOf := 0.0, ""
	for seed := range uint64(5) {
		sc, err := NewScene(randomLot(rand.New(rand.NewPCG(seed, 9))))
		if err != nil {
			t.Fatal(err)
		}
		read := func(row float64) []Reached {
			a := sc.NewAccount(sc.CastYear(lightOf(year), nil, Casting{Row: row}), lightOf(year))
			return a.Read(a.Today())
		}
		coarse, fine := read(SixInches), read(0.01)
		for i := range coarse {
			if coarse[i].Area < 0.5 {
				continue
			}
			d := math.Abs(coarse[i].Access() - fine[i].Access())
			apart = append(apart, d)
			if d > worst {
				worst, worstOf = d, coarse[i].ID
			}
		}
	}
	slices.Sort(apart)
	t.Logf("yearly access in 6-inch rows against 1 cm rows, %d surfaces: half within %.5f, 95 %% within %.5f, worst %.5f (%s)",
		len(apart), apart[len(apart)/2], apart[len(apart)*95/100], worst, worstOf)
	if !(worst < 0.005) {
		t.Errorf("%s: yearly access %.4f apart", worstOf, worst)
	}
}
