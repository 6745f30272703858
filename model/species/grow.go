package species

import (
	"math"

	"github.com/southyard/southyard/model"
)

// rate is k of the growth curve H(t) = A·(1 − e^(−kt)), a year⁻¹: Mitscherlich
// 1909, the Chapman–Richards form with exponent 1. A is the kind's mature
// height, and k makes a 20-year-old tree's mean growth the table's (median of
// trees 10 to 30 years old). Kinds whose table growth would bring them past
// nine tenths of their height in 20 years are held there.
func (s Species) rate() float64 {
	return -math.Log(1-min(0.9, 20*s.Growth/s.Height)) / 20
}

// HeightAt is the usual height in metres of a tree of this kind so many years
// after planting.
func (s Species) HeightAt(years float64) float64 {
	return s.Height * (1 - math.Exp(-s.rate()*max(0, years)))
}

// Grow is the tree so many years on. Height nears the kind's mature height
// along the curve of HeightAt and never passes it; a tree already taller
// stays as it is. The crown widens with the trunk as the table's fits go,
// never beyond the kind's mature width. The crown base stays where it is:
// limbs do not climb.
func (s Species) Grow(t model.Tree, years float64) model.Tree {
	if years <= 0 || t.Height <= 0 {
		return t
	}
	before := t.Height
	if t.Height < s.Height {
		t.Height = s.Height - (s.Height-t.Height)*math.Exp(-s.rate()*years)
	}
	wider := s.usualWidth(t.Height) / s.usualWidth(before)
	t.SpreadX = grownWidth(t.SpreadX, wider, s.Width)
	t.SpreadY = grownWidth(t.SpreadY, wider, s.Width)
	if thicker := s.Trunk(t.Height) / s.Trunk(before); t.Trunk > 0 && thicker > 1 {
		t.Trunk *= thicker
	}
	if t.Age > 0 {
		t.Age += years
	}
	return t
}

func grownWidth(now, wider, most float64) float64 {
	if now >= most || wider <= 1 {
		return now
	}
	return min(most, now*wider)
}

// thickest trunk the fits are followed to, cm.
const thickest = 150

// Trunk is the usual trunk diameter at breast height in metres of a tree of
// this kind and height, by the table's fit height = slope·ln(diameter cm) +
// intercept; kinds without a fit have 2.2 cm of trunk a metre (common
// practice, no source). It rises with height and lies in 0.02..1.5.
func (s Species) Trunk(height float64) float64 {
	cm := 2.2 * height
	if s.height.slope > 0 {
		cm = math.Exp((height - s.height.intercept) / s.height.slope)
	}
	return max(2, min(cm, thickest)) / 100
}

// usualWidth is the crown width of a tree of this height by the table's fits,
// in metres; in proportion to height where there is no fit.
func (s Species) usualWidth(height float64) float64 {
	if s.width.slope > 0 && s.height.slope > 0 {
		if w := s.width.slope*s.Trunk(height)*100 + s.width.intercept; w > 0 {
			// The fit holds for trunks over 5 cm; a whip is little wider than
			// in proportion to the grown tree.
			return min(w, height*s.Width/s.Height*1.25)
		}
	}
	return max(0.1, height*s.Width/s.Height)
}

// WidthAt is the usual crown width in metres of a tree of this kind and
// height, never beyond its mature width.
func (s Species) WidthAt(height float64) float64 { return min(s.Width, s.usualWidth(height)) }
