package shading

import "github.com/southyard/southyard/model"

// farthestLand is how far the land goes on beyond the outermost spot heights,
// metres: a bank 10 ft above the eye that far off stands 0.2° high.
const farthestLand = 1000.0

// landBefore is the land that can stand between a receiver and the sun: the
// pieces that reach above the receiver's lowest point. None stand before a
// level plane that is cast in the ground's stead: the land may lie above it.
func (sc *Scene) landBefore(s *Surface, p *plate) []model.Face {
	if len(sc.land) == 0 || s.Kind == model.GroundFace && !s.land {
		return nil
	}
	lowest := p.face.At(0, p.vMin).Z
	var out []model.Face
	for _, f := range sc.land {
		if f.Highest() > lowest+1e-6 {
			out = append(out, f)
		}
	}
	return out
}
