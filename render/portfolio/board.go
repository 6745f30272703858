package portfolio

import (
	"fmt"

	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/board"
	"github.com/southyard/southyard/shading/lots"
)

// BoardLots is how many lots a page of the board holds.
const BoardLots = board.Columns * board.Rows

// BoardLot is a lot on the board.
type BoardLot struct {
	lots.Row
	Drawing lots.Drawing
}

// Board is one page of the board of a sheet, its lots in the sheet's order.
func Board(sheet lots.Sheet, page []BoardLot, number, of int) board.Page {
	var d board.Page
	d.Title = "Candidate lots by winter sun"
	if of > 1 {
		d.Title += fmt.Sprintf(", page %d of %d", number, of)
	}
	d.Caption = fmt.Sprintf("Share of an open field's heating-season sun on the %s. Bar: black now, hatched what the plan adds; the stroke across is the lot with no trees at all. "+
		"Plans: north up, each at its own scale; house in heavy line, neighbours hatched, lot line long and short dashes; toothed crowns are evergreen, dashed and crossed ones come out under the plan. "+
		"Budget: %s. * price partly assumed. Screening from the site files as they stand; walk and study a lot before deciding.", lots.JudgedWords(sheet.Options.For), sheet.BudgetWords())
	for _, lot := range page {
		c := board.Card{
			Rank: fmt.Sprint(lot.Rank), Name: lot.Name, Under: lot.File, Verdict: lot.Verdict,
			Now: lot.ShareNow, After: lot.ShareAfter, Bare: lot.ShareFree, NotDrawn: lot.Drawing.LeftTrees, Plan: boardPlan(lot.Drawing),
		}
		c.Lines = append(c.Lines, fmt.Sprintf("%.0f, then %.0f kWh/m², %s", lot.Now, lot.After, lot.Season))
		if lot.RoofNow >= 0 && sheet.Options.For != lots.ForRoof {
			c.Lines = append(c.Lines, fmt.Sprintf("roof %.0f %% now, %.0f %% after", 100*lot.RoofNow, 100*lot.RoofAfter))
		}
		switch {
		case lot.Plan != "":
			c.Lines = append(c.Lines, lot.CostText()+": "+lot.Plan)
		case lot.Trees == 0:
			c.Lines = append(c.Lines, "no trees")
		default:
			c.Lines = append(c.Lines, "no affordable removal adds sun")
		}
		d.Cards = append(d.Cards, c)
	}
	d.Alt = d.Title + ". " + d.Caption
	return d
}

func boardPlan(d lots.Drawing) render.LotPlan {
	p := render.LotPlan{Lot: d.Lot, PlainTrees: true, NoLegend: true}
	p.Buildings = []render.PlanBuilding{
		{Kind: render.House, Walls: d.House}, {Kind: render.Neighbour, Walls: d.Others}, {Kind: render.Porch, Walls: d.Porches},
	}
	for _, t := range d.Trees {
		p.Trees = append(p.Trees, render.PlanTree{
			At: t.At, SpreadX: t.SpreadX, SpreadY: t.SpreadY, Twist: t.Twist, Evergreen: t.Evergreen, Owner: t.Owner, Removed: t.Removed, Planted: t.Planted,
		})
	}
	return p
}
