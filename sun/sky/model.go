package sky

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"

	"github.com/southyard/southyard/sun"
)

// Model says how the sky's diffuse light is spread over the sky.
type Model string

// The models. All but Isotropic brighten the sky around the sun; only
// Anisotropic also fits the band above the horizon to measured skies.
const (
	// Anisotropic is Perez, R. et al., Modeling daylight availability and
	// irradiance components from direct and global irradiance, Solar Energy
	// 44 (1990) 271–289, eq. 9 with κ = 1.041 and 7-digit coefficients.
	Anisotropic Model = "anisotropic"
	// Isotropic is Liu & Jordan 1963: the whole sky equally bright. It
	// understates a sunny south wall by some 6 % a year.
	Isotropic Model = "isotropic"
	// HayDavies is Hay & Davies 1980 (Duffie & Beckman eq. 2.16.4).
	HayDavies Model = "hay-davies"
	// HDKR is Hay & Davies with Reindl's horizon brightening: Reindl, Beckman
	// & Duffie, Solar Energy 45 (1990) 9–17 (Duffie & Beckman eq. 2.16.7).
	HDKR Model = "hdkr"
)

// Models in the order they are offered.
func Models() []Model { return []Model{Anisotropic, Isotropic, HayDavies, HDKR} }

// Words say in plain words how bright the sky is taken to be: "brighter near the
// sun and the horizon".
func (m Model) Words() string {
	switch m {
	case Isotropic:
		return "equally bright all over"
	case HayDavies:
		return "brighter near the sun"
	}
	return "brighter near the sun and the horizon"
}

// ParseModel reads a model's name; an empty name is Anisotropic.
func ParseModel(name string) (Model, error) {
	if name == "" {
		return Anisotropic, nil
	}
	for _, m := range Models() {
		if string(m) == name {
			return m, nil
		}
	}
	return "", fmt.Errorf("sky model %q is not known: use %s, %s, %s or %s",
		name, Anisotropic, Isotropic, HayDavies, HDKR)
}

// cos85 keeps the circumsolar ratio finite near sunrise and sunset (Perez et
// al. 1990; the same guard is used for the other models).
var cos85 = math.Cos(85 * math.Pi / 180)

// brightest sky Δ the fit is trusted with. Measured skies stay well below it;
// an hour with a sliver of sun, whose diffuse light is mostly twilight, would
// not. Ours, not of the paper.
const brightest = 1.0

// OnPlane is the energy that hour h brings to a plane with unit normal n
// (x east, y north, z up), Wh/m², with nothing in the way.
//
// The incidence on the plane and the sun's height are both averaged over the
// sun-up part of the hour. While the sun stands below 5° on average, the
// circumsolar share is lowered with it, so that a horizontal plane receives
// exactly Beam × mean sine of the altitude + Diffuse under every model.
// Diffuse light in an hour without sun is spread evenly over the sky. An
// unknown model is taken as Anisotropic.
func OnPlane(h sun.Hour, n r3.Vector, m Model) Parts {
	cosTilt := min(1, max(-1, n.Z))
	view := (1 + cosTilt) / 2 // of the sky from the plane
	p := Parts{Ground: h.Global * h.Albedo * (1 - cosTilt) / 2}
	if h.Up == 0 || h.Diffuse <= 0 && h.Beam <= 0 {
		p.Dome = max(0, h.Diffuse) * view
		return p
	}
	incidence := h.Incidence(n)
	p.Beam = max(0, h.Beam) * incidence
	if h.Diffuse <= 0 {
		return p
	}

	height := h.Incidence(r3.Vector{Z: 1})
	guarded := max(cos85, height)
	around, horizon := spread(h, height, m)
	p.Circumsolar = h.Diffuse * around * incidence / guarded
	dome := h.Diffuse * (1 - around*height/guarded) * view

	sinTilt := math.Sqrt(1 - cosTilt*cosTilt)
	var band float64
	switch m {
	case Isotropic, HayDavies:
	case HDKR:
		half := math.Sqrt((1 - cosTilt) / 2) // sin(β/2)
		band = dome * horizon * half * half * half
	default:
		band = h.Diffuse * horizon * sinTilt
	}
	if band < 0 {
		dome, band = max(0, dome+band), 0
	}
	p.Dome, p.Horizon = dome, band
	return p
}

// spread is the share of the diffuse light that comes from around the sun,
// 0..1, and the strength of the horizon band in the model's own terms.
// Height is the mean sine of the sun's altitude.
func spread(h sun.Hour, height float64, m Model) (around, horizon float64) {
	extra := h.Extra
	if extra <= 0 {
		extra = sun.SolarConstant
	}
	switch m {
	case Isotropic:
		return 0, 0
	case HayDavies, HDKR:
		around = min(1, max(0, h.Beam)/h.Up/extra) // anisotropy index Ai
		if m == HDKR {
			beam := h.Beam * height
			horizon = math.Sqrt(max(0, beam) / (max(0, beam) + h.Diffuse))
		}
		return around, horizon
	}
	zenith := math.Acos(min(1, max(0, h.Sun.Z)))
	brightness := min(brightest, AirMass(h.Sun.Z)*h.Diffuse/h.Up/extra)
	return perez(max(0, h.Beam)/h.Diffuse, zenith, brightness)
}
