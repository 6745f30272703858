package report

import (
	"fmt"

	"github.com/southyard/southyard/sun/sky"
)

// method is half a page on how the figures come about, with sources.
func (r Report) method() section {
	st := r.Study
	s := section{Name: "method", Title: "How it was worked out"}
	diffuse := "an evenly bright sky (Liu & Jordan 1963), which understates sunny walls"
	switch st.Sky {
	case sky.Anisotropic:
		diffuse = "a sky brighter round the sun and at the horizon (Perez et al., Solar Energy 44, 1990)"
	case sky.HayDavies, sky.HDKR:
		diffuse = "a sky brighter round the sun (Hay & Davies 1980; Reindl et al. 1990)"
	}
	items := list{
		"Sun. The position of the sun is worked out for every hour of a typical year (Reda & Andreas 2008). Weather: " + st.Year.Source + ". Sun on a tilted plane by " + diffuse + ".",
		"Shade. House, neighbours, fences, porches and trees are solids measured on the lot. At two moments of every hour, and for every patch of sky, the program notes which of them stand before each wall, window and roof plane, and over what share of it.",
		"Crowns let part of the light through, more when bare; leaf dates and shares come from the species table or the site file. Where several crowns stand in one line the shares multiply. What a removal gives is therefore read from the whole, not added up tree by tree.",
		"Ranking. Fair shares are Shapley values (Shapley 1953): a tree's gain averaged over every order of removal. The best set within the budget is searched exactly and proven where it can be.",
	}
	if st.Heat != nil {
		items = append(items, "Heat. Monthly balance with a utilisation factor (ISO 13790:2008), so that sun the house cannot use is not counted; windows by layers and glass (ASHRAE, from memory).")
		air, water := r.wishes()
		if air {
			items = append(items, "Air heaters: collector curves in the form of ISO 9806, hour by hour, with the house's need.")
		}
		if water {
			items = append(items, "Hot water: monthly method of EN 15316-4-3, beside two others as a check (Klein, Beckman & Duffie 1976; a UK yearly procedure).")
		}
		items = append(items, "Money: today's prices for payback; present worth with the stated price rise and discount.")
	}
	s.Blocks = append(s.Blocks, items)
	if len(st.Year.Notes) > 0 {
		s.Blocks = append(s.Blocks, subtitle("Notes on the weather"), list(st.Year.Notes))
	}
	limits := "Limits. Crowns are smooth solids of even density; the ground reflects evenly; the house is one heated zone. Trees are as measured, without growth"
	if len(st.Growth) > 0 {
		limits += ", save in the tables of years"
	}
	limits += "."
	if n := len(st.Site.Assumed); n > 0 {
		limits += fmt.Sprintf(" %s assumed (listed above).", counted(n, "value is", "values are"))
	}
	s.Blocks = append(s.Blocks, paragraph(limits))
	return s
}
