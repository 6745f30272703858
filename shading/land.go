package shading

import "github.com/southyard/southyard/model"

// farthestLand is how far the land goes on beyond the outermost spot heights,
// metres: a bank 10 ft above the eye that far off stands 0.2° high.
const farthestLand = 1000.0

// landBefore is the land that can stand between a receiver and the sun: the
// pieces that reach above the receiver's lowest point. One slope shades nothing
// that stands on it, but covers the foot of a wall it rises over. None stand
// before a level plane that is cast in the ground's stead: the land may lie
// above it.
func (sc *Scene) landBefore(s *Surface, p *plate) []model.Face {
	if s.Kind == model.GroundFace && !s.land {
		return nil
	}
	land := sc.land
	if len(land) == 0 && s.Kind != model.GroundFace && !sc.ground.Level() {
		land = sc.ground.Pieces(farthestLand)
	}
	lowest := p.face.At(0, p.vMin).Z
	var out []model.Face
	for _, f := range land {
		if f.Highest() > lowest+1e-6 {
			out = append(out, f)
		}
	}
	return out
}
