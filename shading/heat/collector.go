package heat

import (
	"fmt"
	"math"

	"github.com/southyard/southyard/model"
)

// AngleModifier is Kθ = 1 − b0(1/cos θ − 1) (Souka & Safwat 1966), the loss
// of a cover at slant light, with the straight fall from 60° to 0 at 90°
// usual for collectors. 0 for cosine ≤ 0.
func AngleModifier(b0, cosine float64) float64 {
	switch {
	case cosine <= 0:
		return 0
	case cosine >= 0.5:
		return 1 - b0*(1/min(1, cosine)-1)
	}
	angle := math.Acos(cosine) * 180 / math.Pi
	return (1 - b0) * (90 - angle) / 30
}

// diffuseModifier is Kθ for sky and ground light, taken as coming at 60°
// (Duffie & Beckman, effective angle for diffuse light, from memory).
func diffuseModifier(b0 float64) float64 { return 1 - b0 }

// Collector is a liquid collector: efficiency η0·Kθ − a1·ΔT/G − a2·ΔT²/G on
// aperture area (ISO 9806).
type Collector struct {
	Kind     string  `json:"kind"`
	Eta0     float64 `json:"eta0"`
	A1       float64 `json:"a1_w_per_m2k"`
	A2       float64 `json:"a2_w_per_m2k2"`
	B0       float64 `json:"b0"`
	IAM      float64 `json:"iam_monthly"`    // the monthly method's one angle figure
	Aperture float64 `json:"aperture_share"` // of gross area
	Source   string  `json:"source"`
}

// CollectorNamed gives the coefficients used for a kind of panel.
func CollectorNamed(kind string) (Collector, error) {
	switch plainName(kind) {
	case "flat plate":
		return Collector{"flat plate", .78, 3.8, .015, .10, .94, .93,
			"glazed selective flat plate, average of certified panels, from memory; ask for the panel's own certificate"}, nil
	case "evacuated tube":
		return Collector{"evacuated tube", .70, 1.5, .008, .05, .97, .65,
			"aperture figures, average of certified panels, from memory; ask for the panel's own certificate"}, nil
	}
	return Collector{}, fmt.Errorf("collector %q is not known; use \"flat plate\" or \"evacuated tube\"", kind)
}

// certified is a wish's kind of panel with the figures of its own certificate
// where the site file gives them.
func certified(wish model.CollectorChoice) (Collector, []Default, error) {
	c, err := CollectorNamed(wish.Kind)
	if err != nil {
		return c, nil, err
	}
	var assumed []Default
	share := 0.0
	if own := wish.Certificate; own != nil {
		c.Eta0, c.A1, c.A2, c.Source, share = own.Eta0, own.A1, own.A2, "the panel's certificate, as the site file gives it", own.Aperture
	} else {
		assumed = append(assumed, Default{wish.Kind + " efficiency", fmt.Sprintf("η0 %.2f, a1 %.1f, a2 %.3f on aperture", c.Eta0, c.A1, c.A2), c.Source})
	}
	fill(&share, c.Aperture, &assumed, wish.Kind+" aperture", fmt.Sprintf("%.0f %% of gross area", c.Aperture*100), "from memory; see the panel's certificate")
	c.Aperture = share
	if !(c.Eta0 > 0 && c.Eta0 <= 1 && c.A1 >= 0 && c.A1 < 50 && c.A2 >= 0 && c.A2 < 1 && c.Aperture <= 1) {
		return c, nil, fmt.Errorf("collector %s: a certificate of η0 %g, a1 %g, a2 %g and an aperture of %g; want η0 to 1, a1 under 50, a2 under 1, aperture to 100 %%", wish.ID, c.Eta0, c.A1, c.A2, c.Aperture)
	}
	return c, assumed, nil
}
