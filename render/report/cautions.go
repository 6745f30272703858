package report

import (
	"strings"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/shading/heat"
)

// caution is what to mind in one kind of work.
type caution struct {
	Topic string
	Lines []string
}

// cautions for the work this study speaks of. What every topic says is said
// once, at the end.
func (r Report) topics() (topics []caution, common []string) {
	seen := map[string]int{}
	for _, name := range heat.CautionTopics() {
		for _, l := range heat.Cautions(name, r.unit()) {
			seen[l]++
		}
	}
	air, water := r.wishes()
	skip := map[string]bool{
		"felling": len(r.Study.Site.Trees) == 0, "digging": len(r.Study.Site.Trees) == 0,
		"wall": !air, "air heater": !air, "roof": !water, "hot water": !water,
		"duct coil": r.Study.Heat == nil || r.Study.Heat.Coil == nil,
	}
	said := map[string]bool{}
	for _, name := range heat.CautionTopics() {
		if skip[name] {
			continue
		}
		c := caution{Topic: name}
		for _, l := range heat.Cautions(name, r.unit()) {
			switch {
			case seen[l] == 1:
				c.Lines = append(c.Lines, l)
			case !said[l]:
				said[l] = true
				common = append(common, l)
			}
		}
		if len(c.Lines) > 0 {
			topics = append(topics, c)
		}
	}
	return topics, common
}

// wishes tells which panels the site file asks for.
func (r Report) wishes() (air, water bool) {
	if r.Study.Heat == nil {
		return false, false
	}
	for _, p := range r.Study.Heat.Collectors {
		air, water = air || p.Air(), water || !p.Air()
	}
	return air, water
}

func (r Report) cautions() section {
	s := section{Name: "cautions", Title: "Before anybody starts work", Whole: true}
	topics, common := r.topics()
	for _, c := range topics {
		s.Blocks = append(s.Blocks, subtitle(strings.ToUpper(c.Topic[:1])+c.Topic[1:]), fine(c.Lines))
	}
	s.Blocks = append(s.Blocks, subtitle("Always"), fine(append(common,
		"The figures rest on crowns measured by hand, to about ±10 % of their size, and on how much light crowns let through, ±10 points in leaf and ±15 bare. Trees grow.")))
	if n := r.othersTrees(); n > 0 {
		s.Blocks = append(s.Blocks, note(counted(n, "tree on this lot's list belongs", "trees on this lot's list belong")+" to a neighbour or the street: nothing may be done to them without the owner's consent in writing."))
	}
	return s
}

func (r Report) othersTrees() (n int) {
	for _, t := range r.Study.Site.Trees {
		if t.Owner != model.OwnerLot {
			n++
		}
	}
	return n
}
