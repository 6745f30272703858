package main

import (
	"github.com/southyard/southyard/shading/study"
	"github.com/urfave/cli/v2"
)

func treesCommand() *cli.Command {
	return &cli.Command{
		Name:      "trees",
		Usage:     "which trees stand in the way, for every target",
		ArgsUsage: "FILE",
		Description: "For every target and tree: the sun its removal gives when nothing else is cut (alone), when it is\n" +
			"cut last (after all others), and on average over every order (fair share), with cost, summer\n" +
			"side and how sure that is; then the best set for the budget and the best order of work.\n" +
			"JSON names carry their units. Gains under \"removals\" rest on the full cast; those under\n" +
			"\"crown_work\" end in _thin_cast and compare with each other only (RESULTS.md tells more).\n\n" +
			"Examples:\n" +
			"   southyard trees lot.yaml\n" +
			"   southyard trees lot.yaml --csv > trees.csv",
		Flags: append(decideFlags(), formFlags()...),
		Action: func(c *cli.Context) error {
			return printStudy(c, func(st *study.Study) (forms, error) {
				return forms{st.TreesText, st.TreesCSV, func() any { return st.Results().Targets }}, nil
			})
		},
	}
}
