package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/golang/geo/s1"
	"github.com/paulmach/orb"
)

// The horizon against a walk away from the eye that asks the ground's height
// at every step and keeps the steepest sight.
func TestHorizonIsTheSteepestSightOfTheGround(t *testing.T) {
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 9))
		var points []r3.Vector
		for range 3 + r.IntN(12) {
			points = append(points, r3.Vector{X: 60*r.Float64() - 30, Y: 60*r.Float64() - 30, Z: 5 * r.Float64()})
		}
		g := groundBetween(points, nil)
		eye := orb.Point{4*r.Float64() - 2, 4*r.Float64() - 2}
		from := r3.Vector{X: eye[0], Y: eye[1], Z: g.At(eye) + 0.5}
		horizon := g.Horizon(from)
		for range 30 {
			azimuth := s1.Angle(2 * math.Pi * r.Float64())
			want := 0.0
			for far := 0.05; far < 300; far += 0.02 + far/500 {
				sin, cos := math.Sincos(azimuth.Radians())
				want = max(want, (g.At(orb.Point{eye[0] + far*sin, eye[1] + far*cos})-from.Z)/far)
			}
			if got := horizon(azimuth); math.Abs(math.Tan(got.Radians())-want) > 0.004 || math.Tan(got.Radians()) < want-1e-9 {
				t.Errorf("seed %d, %v: the ground stands %v high, by the walk %.4f a metre", seed, azimuth, got, want)
			}
		}
	}
}

func TestHorizonOfASlopeIsTheSlope(t *testing.T) {
	s := houseSite()
	s.Terrain.SlopeRise, s.Terrain.SlopeUphill = 0.1, 180*s1.Degree
	h := s.Ground().Horizon(r3.Vector{Z: 2})
	for azimuth, want := range map[float64]float64{180: math.Atan(0.1), 120: math.Atan(0.05), 0: 0} {
		if got := h(s1.Angle(azimuth) * s1.Degree).Radians(); math.Abs(got-want) > 1e-12 {
			t.Errorf("toward %v° the slope stands %v high, not %v", azimuth, got, want)
		}
	}
	if got := (Ground{}).Horizon(r3.Vector{Z: 1})(1); got != 0 {
		t.Errorf("level ground stands %v high", got)
	}
}
