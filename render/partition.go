package render

import "github.com/golang/geo/r3"

// branch is a binary space partition (H. Fuchs, Z. Kedem and B. Naylor, "On
// visible surface generation by a priori tree structures", 1980): from any
// eye it gives the pieces from far to near.
type branch struct {
	n           r3.Vector
	at          float64
	here        []piece
	front, back *branch
}

const flush = 0.01 // metres within which a corner lies in a plane

func partition(list []piece) *branch {
	if len(list) == 0 {
		return nil
	}
	b := &branch{n: normal(list[0].ring).Normalize()}
	b.at = list[0].ring[0].Dot(b.n)
	var front, back []piece
	for i, p := range list {
		lo, hi := 0.0, 0.0
		for _, v := range p.ring {
			d := v.Dot(b.n) - b.at
			lo, hi = min(lo, d), max(hi, d)
		}
		switch {
		case i == 0 || lo > -flush && hi < flush:
			b.here = append(b.here, p)
		case lo > -flush:
			front = append(front, p)
		case hi < flush:
			back = append(back, p)
		default:
			f, r := p.cut(b.n, b.at)
			if len(f.ring) > 2 {
				front = append(front, f)
			}
			if len(r.ring) > 2 {
				back = append(back, r)
			}
		}
	}
	b.front, b.back = partition(front), partition(back)
	return b
}

// walk gives the pieces from far to near.
func (b *branch) walk(eye r3.Vector, draw func(piece)) {
	if b == nil {
		return
	}
	far, near := b.back, b.front
	if eye.Dot(b.n) < b.at {
		far, near = near, far
	}
	far.walk(eye, draw)
	for _, p := range b.here {
		draw(p)
	}
	near.walk(eye, draw)
}
