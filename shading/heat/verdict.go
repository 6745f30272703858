package heat

import (
	"fmt"
	"strings"

	"github.com/southyard/southyard/model/measure"
)

// Access is the share of the heating season's sun that reaches a surface: as
// it is, after the best affordable plan, and with no trees at all. Negative:
// there is no such surface.
type Access struct {
	Now, Plan, NoTrees float64
}

// Facts are what the verdict is drawn from.
type Facts struct {
	Season              string // in words, such as "October to April"
	Side                string // the side that looks toward the equator; empty: south
	Wall, Windows, Roof Access
	RoofPlanes          int     // how many planes Roof takes together; 0 counts as one
	RoofTurn            float64 // share of the best plane's yearly sun that the roof's tilt and turn leave, 0..1; 0: not known
	PlanName            string  // empty: no plan
	PlanCost            float64
	Collectors          float64 // cost of panels and heaters, installed
	PlanHeat            float64 // useful heat the plan saves through windows, kWh a year
	CollectorHeat       float64 // useful heat of panels and heaters after the plan, kWh a year
	Return              Return  // of plan and collectors together
	Years               int     // over which money is counted
	SummerGain          float64 // sun the plan lets into the house outside the season, kWh a year
	NeighbourShare      float64 // share of the wall's and roof's season sun held back by trees that are not the owner's
	Tornado             []Bar
}

// Thresholds of the verdict.
const (
	// AccessGood is the share of the season's sun, 0..1, from which a surface is
	// called good: a public-purpose body in Oregon asked for a total solar resource
	// fraction of at least 75 % (2016 rule, as quoted in a trade notice). Its
	// figure is yearly and includes tilt and turn; used here for the season.
	AccessGood = 0.75
	// accessClear: a state programme in Wisconsin asks for under 10 % yearly loss to
	// obstructions (programme help page).
	accessClear = 0.90
	// accessPoor: below half of the season's sun (our own).
	accessPoor = 0.50
	// planWorth: a change under this share of season sun is not worth felling for
	// (our own).
	planWorth = 0.05
)

// Verdict is the answer of the first screen.
type Verdict struct {
	Level        string   `json:"level"` // "good", "good after work", "mixed", "fair", "poor"
	Headline     string   `json:"headline"`
	Reasons      []string `json:"reasons"`
	WouldChange  []string `json:"would_change"`
	MeasureFirst []string `json:"measure_first"`
	Thresholds   []string `json:"thresholds"`

	Beside []string `json:"-"` // the reasons that tables of sun and money beside the verdict do not show
}

// Judge draws the verdict.
func Judge(f Facts) Verdict {
	surfaces := f.surfaces()
	v, free := f.headline(surfaces)
	if free.NoTrees < 0 { // no surface to judge
		return v
	}
	for _, s := range surfaces {
		if s.Now >= 0 {
			v.Reasons = append(v.Reasons, reach(s.name, s.Access, f))
		}
	}
	parts, rest := moneyReasons(f)
	v.Reasons = append(v.Reasons, append(parts, rest...)...)
	tabled := len(v.Reasons) - len(rest)
	if f.RoofTurn > 0 && f.RoofTurn < AccessGood {
		v.Reasons = append(v.Reasons, fmt.Sprintf("The roof's tilt and turn leave %s of what the best plane gets in a year.", percent(f.RoofTurn)))
	}
	if f.SummerGain >= 0.5 {
		v.Reasons = append(v.Reasons, fmt.Sprintf("The price in summer: %s more heat through the windows outside the heating season.", heatWords(f.SummerGain)))
	}
	v.Beside = v.Reasons[tabled:]
	v.WouldChange = f.wouldChange(v.Level, free)
	for _, b := range f.Tornado[:min(3, len(f.Tornado))] { // those that move the answer most
		v.WouldChange = append(v.WouldChange, b.words(f.Return))
		if b.Assumed {
			v.MeasureFirst = append(v.MeasureFirst, b.Name+" ("+b.Why+")")
		}
	}
	v.Thresholds = []string{
		"good: 75 % or more, the share a public-purpose body in Oregon asked for (2016; yearly and with tilt and turn, used here for the season)",
		"clear: 90 % or more, after a state programme in Wisconsin (under 10 % yearly loss)",
		"poor: under 50 % (our own line)",
	}
	return v
}

// surface is one of those the verdict weighs.
type surface struct {
	name string
	Access
}

// bestYet is the access after the plan, or now where that is more.
func (a Access) bestYet() float64 { return max(a.Plan, a.Now) }

func (f Facts) surfaces() []surface {
	side := f.Side
	if side == "" {
		side = "south"
	}
	roof := "roof"
	if f.RoofPlanes > 1 { // a single plane may differ, such as the one the panels lie on
		roof = fmt.Sprintf("%d sun-side roof planes", f.RoofPlanes)
	}
	return []surface{{side + " wall", f.Wall}, {"windows", f.Windows}, {roof, f.Roof}}
}

// headline gives level and headline, and the surface whose sun without any
// trees says whether trees decide, with that share as its NoTrees; negative
// where there is no surface at all.
func (f Facts) headline(surfaces []surface) (v Verdict, free surface) {
	best := func(of func(Access) float64) (string, float64) {
		name, high := "", -1.0
		for _, s := range surfaces {
			if x := of(s.Access); x > high {
				name, high = s.name, x
			}
		}
		return name, high
	}
	nowName, now := best(func(a Access) float64 { return a.Now })
	planName, plan := best(Access.bestYet)
	free.name, free.NoTrees = best(func(a Access) float64 { return max(a.NoTrees, a.bestYet()) })
	switch {
	case now < 0:
		v.Level, v.Headline = "poor", "No sunny surface to judge: the house has no "+surfaces[0].name+", window or roof plane in the study."
		return v, surface{Access: Access{NoTrees: -1}}
	case now >= AccessGood:
		v.Level = "good"
		v.Headline = fmt.Sprintf("This house gets sun as it stands: %s of the season's sun reaches the %s.", percent(now), nowName)
		if now >= accessClear {
			v.Headline = fmt.Sprintf("This house stands clear: %s of the season's sun reaches the %s.", percent(now), nowName)
		}
	case plan >= AccessGood:
		v.Level = "good after work"
		v.Headline = fmt.Sprintf("This house can get sun: %s of the season's sun would reach the %s after %s (%s on the best surface now).",
			percent(plan), planName, planned(f.PlanName), percent(now))
	case plan >= accessPoor:
		v.Level = "fair"
		v.Headline = fmt.Sprintf("Some sun, not a good solar lot: %s of the season's sun on the %s at best with what can be afforded.", percent(plan), planName)
	default:
		v.Level = "poor"
		v.Headline = fmt.Sprintf("Do not count on sun here: %s of the season's sun on the %s at best with what can be afforded.", percent(plan), planName)
	}
	// The best surface must not hide the worst: a sunny roof over dark windows
	// is no sunny house.
	top, low := surfaces[0], surfaces[0]
	for _, s := range surfaces {
		if s.Now < 0 {
			continue
		}
		if s.bestYet() > top.bestYet() {
			top = s
		}
		if low.Now < 0 || s.bestYet() < low.bestYet() {
			low = s
		}
	}
	darkest := low.bestYet()
	if plan < AccessGood || darkest >= AccessGood {
		return v, free
	}
	v.Headline += fmt.Sprintf(" The %s %s %s.", low.name, verb(low.name), low.course(f.PlanName))
	if darkest < accessPoor {
		v.Level = "mixed"
		v.Headline = fmt.Sprintf("Sun on the %s, not on the %s. Of the season's sun the %s %s %s; the %s %s.", top.name, low.name,
			top.name, verb(top.name), top.course(f.PlanName), low.name, low.course(f.PlanName))
		free.name, free.NoTrees = low.name, max(low.NoTrees, darkest)
	}
	return v, free
}

// wouldChange says what else could change the answer: trees, neighbours, money.
func (f Facts) wouldChange(level string, free surface) (out []string) {
	switch {
	case level == "good":
	case free.NoTrees >= AccessGood:
		out = append(out, fmt.Sprintf("Trees decide: with none at all the %s would get %s.", free.name, percent(free.NoTrees)))
	default:
		out = append(out, fmt.Sprintf("Trees are not the only obstacle: even with none the %s %s %s. Buildings, the turn of the house, the land or the skyline take the rest.", free.name, verb(free.name), percent(free.NoTrees)))
	}
	if f.NeighbourShare >= planWorth {
		out = append(out, fmt.Sprintf("Trees that are not yours hold back %s of the sun: a talk with the neighbour or the city comes before money.", percent(f.NeighbourShare)))
	}
	if r := f.Return; r.Cost > 0 && !r.Simple.Never && r.Simple.Years > float64(f.Years) {
		out = append(out, fmt.Sprintf("Money: at a cost below %s it would pay back within %s at today's prices.", Dollars(r.Saving*float64(f.Years)), measure.Count(f.Years, "year")))
	}
	return out
}

// words say what a doubt does to the saving of all together or, where it
// moves the cost alone, to the payback.
func (b Bar) words(r Return) string {
	low, high := min(b.AtLow, b.AtHigh), max(b.AtLow, b.AtHigh)
	if b.Swing <= 0 && r.Cost > 0 && !b.BackLow.Never && !b.BackHigh.Never {
		soon, late := years(min(b.BackLow.Years, b.BackHigh.Years)), years(max(b.BackLow.Years, b.BackHigh.Years))
		if soon == late {
			return fmt.Sprintf("%s: at its low figure as at its high one it is paid back in %s.", capital(b.Name), soon)
		}
		return fmt.Sprintf("%s: between its low and high figure it is paid back in %s to %s.", capital(b.Name), strings.TrimSuffix(soon, " years"), late)
	}
	return fmt.Sprintf("%s: between its low and high figure all together saves %s to %s a year.", capital(b.Name), Dollars(low), Dollars(high))
}

// verb for a surface by name.
func verb(name string) string {
	if strings.HasSuffix(name, "s") {
		return "get"
	}
	return "gets"
}

// course of the access: now, and after the plan where that changes it.
func (a Access) course(plan string) string {
	now, then := percent(a.Now), percent(a.Plan)
	if plan == "" || a.Plan < 0 || now == then {
		return now + " now"
	}
	return fmt.Sprintf("%s now and %s after %s", now, then, planned(plan))
}

func reach(name string, a Access, f Facts) string {
	season := f.Season
	if season == "" {
		season = "the heating season"
	}
	s := fmt.Sprintf("The %s %s %s of the sun of %s now", name, verb(name), percent(a.Now), season)
	if f.PlanName != "" && a.Plan >= 0 {
		s += fmt.Sprintf(", %s after %s", percent(a.Plan), planned(f.PlanName))
	}
	if a.NoTrees >= 0 {
		s += fmt.Sprintf(", %s with no trees at all", percent(a.NoTrees))
	}
	return s + "."
}

// moneyReasons are what each part costs and gives, and what it comes to.
func moneyReasons(f Facts) (parts, together []string) {
	if f.PlanName != "" {
		parts = append(parts, fmt.Sprintf("%s costs %s and saves about %s of heat a year through the windows.", capital(planned(f.PlanName)), measure.FormatMoney(f.PlanCost), heatWords(f.PlanHeat)))
	}
	if f.CollectorHeat > 0 {
		parts = append(parts, fmt.Sprintf("Panels and heaters cost %s and give about %s of useful heat a year.", measure.FormatMoney(f.Collectors), heatWords(f.CollectorHeat)))
	}
	r := f.Return
	if r.Cost <= 0 {
		return parts, together
	}
	if r.Simple.Never {
		return parts, append(together, "It saves no money: the cost never comes back.")
	}
	s := fmt.Sprintf("Together %s a year at today's prices: paid back in %s", Dollars(r.Saving), years(r.Simple.Years))
	if !r.Rising.Never && r.Rising.Years < 0.97*r.Simple.Years && years(r.Rising.Years) != years(r.Simple.Years) {
		s += fmt.Sprintf(" (%s if the fuel price rises as assumed)", years(r.Rising.Years))
	}
	if r.Guess {
		s += "; part of the cost is assumed"
	}
	together = append(together, s+".")
	if f.Years > 0 && r.Simple.Years > float64(f.Years) {
		together = append(together, fmt.Sprintf("That is longer than the %s counted: the reason to do it is not the money.", measure.Count(f.Years, "year")))
	}
	return parts, together
}

func planned(name string) string {
	if name == "" {
		return "no work"
	}
	if strings.HasPrefix(name, "best set") {
		return "the " + name
	}
	return fmt.Sprintf("the plan “%s”", name)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
