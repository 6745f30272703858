package model

import (
	"encoding/binary"
	"math"
	"testing"

	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// FuzzBuildingNeverBreaks makes buildings out of bytes, sound and unsound:
// Faces and Faults give faults or faces of finite size and never panic.
func FuzzBuildingNeverBreaks(f *testing.F) {
	f.Add([]byte{0, 0, 8, 0, 8, 8, 0, 8}, 1.0, 0.5, 0.3, uint8(2))
	f.Add([]byte{0, 0, 8, 0, 8, 3, 3, 3, 3, 8, 0, 8}, 0.0, 0.7, 0.5, uint8(3))
	f.Add([]byte{0, 0, 8, 8, 8, 0, 0, 8}, 1.0, 0.5, 0.3, uint8(0))
	f.Add([]byte{}, math.NaN(), math.Inf(1), -1.0, uint8(1))
	f.Fuzz(func(t *testing.T, corners []byte, turn, pitch, overhang float64, kind uint8) {
		if len(corners) > 60 {
			return
		}
		var ring orb.Ring
		for i := 0; i+1 < len(corners); i += 2 {
			ring = append(ring, orb.Point{float64(int8(corners[i])) / 4, float64(int8(corners[i+1])) / 4})
		}
		k := []RoofKind{Flat, Shed, Gable, Hip, Plane, "odd"}[kind%6]
		p := Part{Footprint: ring, WallHeight: 3, Roof: Roof{Kind: k, Pitch: s1.Angle(pitch), Overhang: overhang, Ridge: s1.Angle(turn), Down: s1.Angle(turn)}}
		if k == Plane && len(corners) >= 8 {
			h := float64(binary.LittleEndian.Uint16(corners)) / 4096
			var plane []Point3
			for _, c := range ring {
				plane = append(plane, Point3{c[0], c[1], 3 + h + pitch*c[0]})
			}
			p.Roof.Planes = [][]Point3{plane}
		}
		q := p
		q.Footprint = box(1, 1, 6, 5)
		b := Building{Parts: []Part{p, q}, Chimneys: []Chimney{{At: orb.Point{2, 2}, Width: 0.5, Depth: 0.5, Top: 9}}}
		faces, err := b.Faces()
		if err == nil {
			for _, face := range faces {
				if !(face.Area > 0) || math.IsInf(face.Area, 0) || math.IsNaN(face.Origin.Norm()) || face.ID == "" {
					t.Errorf("face %+v", face)
				}
			}
		}
		s := Site{House: b, Lot: ring, Windows: []Window{{ID: "W", Wall: "south", Left: overhang, Sill: 1, Width: 1, Height: 1}},
			Trees: []Tree{{ID: "T", Height: pitch, SpreadX: turn, SpreadY: 1, Shape: Cone, Trunk: overhang, At: orb.Point{turn, pitch}}}}
		for _, fault := range s.Faults() {
			if fault.Field == "" || fault.Wrong == "" || fault.Severity == "" {
				t.Errorf("empty fault %+v", fault)
			}
			if err != nil && fault.Severity == FaultError {
				err = nil
			}
		}
		if err != nil {
			t.Errorf("Faces refuses with %v and Faults finds no error", err)
		}
	})
}
