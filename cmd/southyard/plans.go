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
			"   southyard plans lot.yaml --csv > plans.csv\n" +
			"   southyard plans lot.yaml --growth --csv > growth.csv",
		Flags: append(decideFlags(),
			&cli.BoolFlag{Name: "growth", Usage: "only the years of growth"},
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
			case c.Bool("growth") && c.Bool("csv"):
				return st.Growth.CSV(c.App.Writer)
			case c.Bool("growth") && c.Bool("json"):
				return json.NewEncoder(c.App.Writer).Encode(st.Growth)
			case c.Bool("growth"):
				st.Growth.Text(c.App.Writer)
				return nil
			case c.Bool("csv"):
				return rows.CSV(c.App.Writer)
			case c.Bool("json"):
				return json.NewEncoder(c.App.Writer).Encode(rows)
			}
			rows.Text(c.App.Writer)
			st.Growth.Text(c.App.Writer)
			return nil
		},
	}
}
