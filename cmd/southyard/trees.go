package main

import (
	"encoding/json"

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
		Flags: append(decideFlags(),
			&cli.BoolFlag{Name: "csv", Usage: "print comma-separated values"},
			&cli.BoolFlag{Name: "json", Usage: "print the targets as JSON"},
		),
		Action: func(c *cli.Context) error {
			show := newProgress()
			st, err := studyOf(c, show)
			if err != nil {
				return err
			}
			show.done()
			switch {
			case c.Bool("csv"):
				return st.TreesCSV(c.App.Writer)
			case c.Bool("json"):
				return json.NewEncoder(c.App.Writer).Encode(st.Results().Targets)
			}
			st.TreesText(c.App.Writer)
			return nil
		},
	}
}
