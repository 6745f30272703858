package main

import (
	"encoding/json"

	"github.com/urfave/cli/v2"
)

func plansCommand() *cli.Command {
	return &cli.Command{
		Name:      "plans",
		Usage:     "the plans side by side, with the lot as it is and without trees",
		ArgsUsage: "FILE",
		Description: "Examples:\n" +
			"   southyard plans lot.yaml\n" +
			"   southyard plans lot.yaml --csv > plans.csv",
		Flags: append(computeFlags(),
			&cli.BoolFlag{Name: "csv", Usage: "print comma-separated values"},
			&cli.BoolFlag{Name: "json", Usage: "print JSON"},
		),
		Action: func(c *cli.Context) error {
			show := newProgress()
			st, err := studyOf(c, show)
			if err != nil {
				return err
			}
			show.done()
			rows := st.PlanTable()
			switch {
			case c.Bool("csv"):
				return rows.CSV(c.App.Writer)
			case c.Bool("json"):
				return json.NewEncoder(c.App.Writer).Encode(rows)
			}
			rows.Text(c.App.Writer)
			return nil
		},
	}
}
