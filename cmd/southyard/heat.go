package main

import (
	"bufio"
	"encoding/json"

	"github.com/urfave/cli/v2"
)

func heatCommand() *cli.Command {
	return &cli.Command{
		Name:      "heat",
		Usage:     "what the sun is worth: house heat, air heaters, hot water, where they hang, money",
		ArgsUsage: "FILE",
		Description: "The house as found, after the rehab and after the best set to remove, side by side; the worth of\n" +
			"every plan and tree in heat and dollars a year; places for collectors as a tape reads them; money and\n" +
			"what it hangs on; cautions beside the work they belong to.\n\n" +
			"Examples:\n" +
			"   southyard heat lot.yaml\n" +
			"   southyard heat lot.yaml --json > heat.json",
		Flags: append(computeFlags(), &cli.BoolFlag{Name: "json", Usage: "print JSON"}),
		Action: func(c *cli.Context) error {
			show := newProgress()
			st, err := studyOf(c, show)
			if err != nil {
				return err
			}
			show.done()
			if c.Bool("json") {
				return json.NewEncoder(c.App.Writer).Encode(st.Heat.Result())
			}
			w := bufio.NewWriter(c.App.Writer)
			st.HeatText(w)
			return w.Flush()
		},
	}
}
