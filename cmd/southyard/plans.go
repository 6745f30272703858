package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/southyard/southyard/shading/study"
	"github.com/urfave/cli/v2"
)

func plansCommand() *cli.Command {
	return &cli.Command{
		Name:      "plans",
		Usage:     "the plans side by side, with the lot as it is and without trees",
		ArgsUsage: "FILE",
		Description: "For every target: sun, access (the share of an open field's sun), gain and its range, cost and\n" +
			"summer side under each plan, then the same as the trees grow.\n\n" +
			"Examples:\n" +
			"   southyard plans lot.yaml\n" +
			"   southyard plans lot.yaml --csv > plans.csv\n" +
			"   southyard plans lot.yaml --growth --csv > growth.csv",
		Flags: append(append(decideFlags(), &cli.BoolFlag{Name: "growth", Usage: "only the years of growth"}), formFlags()...),
		Action: func(c *cli.Context) error {
			return printStudy(c, func(st *study.Study) (forms, error) {
				head := func(w io.Writer) { fmt.Fprintln(w, strings.ToUpper(st.Site.Name)+"   plans side by side") }
				if c.Bool("growth") {
					text := func(w io.Writer) {
						head(w)
						st.Growth.Text(w)
					}
					return forms{text, st.Growth.CSV, func() any { return st.Growth }}, nil
				}
				rows := st.PlanTable()
				text := func(w io.Writer) {
					head(w)
					rows.Text(w)
					st.Growth.Text(w)
				}
				return forms{text, rows.CSV, func() any { return rows }}, nil
			})
		},
	}
}
