package portfolio

import (
	"testing"

	"github.com/paulmach/orb"
)

// A picture of a field takes no more cells than one of a garden can show.
func TestCellsOfTheLotGrowWithIt(t *testing.T) {
	s := ofExample(t, "foundry-lane")
	garden := s.lotSun().Sun
	if garden.Cell < 0.35 || garden.Cell > 0.45 {
		t.Errorf("cells of %.2f m on a garden", garden.Cell)
	}
	lot := s.st.Site.Lot
	defer func() { s.st.Site.Lot = lot }() // other tests share the study
	s.st.Site.Lot = orb.Ring{{-400, -200}, {400, -200}, {400, 200}, {-400, 200}, {-400, -200}}
	field := s.lotSun().Sun
	if field.Cols > groundCells || field.Rows > groundCells || field.Cols < groundCells/2 {
		t.Errorf("%d × %d cells on a field", field.Cols, field.Rows)
	}
}
