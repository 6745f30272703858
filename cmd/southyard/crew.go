package main

import (
	"bufio"
	"encoding/json"

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
		Flags: append(computeFlags(),
			&cli.StringFlag{Name: "plan", Usage: "the plan `NAME` from the site file; without it the best set"},
			&cli.BoolFlag{Name: "csv", Usage: "print comma-separated values"},
			&cli.BoolFlag{Name: "json", Usage: "print JSON"},
		),
		Action: func(c *cli.Context) error {
			show := newProgress()
			st, err := studyOf(c, show)
			if err != nil {
				return err
			}
			list, err := st.CrewList(c.String("plan"))
			if err != nil {
				return cli.Exit(err.Error(), 2)
			}
			show.done()
			switch {
			case c.Bool("csv"):
				return list.CSV(c.App.Writer)
			case c.Bool("json"):
				e := json.NewEncoder(c.App.Writer)
				e.SetIndent("", " ")
				return e.Encode(list)
			}
			w := bufio.NewWriter(c.App.Writer)
			list.Text(w)
			return w.Flush()
		},
	}
}
