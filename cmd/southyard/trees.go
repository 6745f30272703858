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
		Description: "Examples:\n" +
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
