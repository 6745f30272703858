package main

import (
	"github.com/southyard/southyard/shading/study"
	"github.com/urfave/cli/v2"
)

func crewCommand() *cli.Command {
	return &cli.Command{
		Name:      "crew",
		Usage:     "the work list of a plan: where each tree stands, its hazards, who must agree",
		ArgsUsage: "FILE",
		Description: "For every tree of the plan: tape distances from two house corners, size, hazards\n" +
			"noted, who must agree, whom to call, and which ones are not for trainees.\n\n" +
			"Examples:\n" +
			"   southyard crew lot.yaml                       the best set within the budget\n" +
			"   southyard crew lot.yaml --plan \"front pair\"\n" +
			"   southyard crew lot.yaml --csv > crew.csv",
		Flags: append(append(computeFlags(), &cli.StringFlag{Name: "plan", Usage: "the plan `NAME` from the site file; without it the best set"}), formFlags()...),
		Action: func(c *cli.Context) error {
			return printStudy(c, func(st *study.Study) (forms, error) {
				list, err := st.CrewList(c.String("plan"))
				if err != nil {
					return forms{}, cli.Exit(err.Error(), 2)
				}
				return forms{list.Text, list.CSV, func() any { return list }}, nil
			})
		},
	}
}
