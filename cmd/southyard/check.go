package main

import (
	"bufio"
	"fmt"
	"io"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/shading/study"
	"github.com/urfave/cli/v2"
)

func checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "what was understood of a site file, and every fault in it",
		ArgsUsage: "FILE",
		Description: "Prints areas, walls, windows, tree heights and every value that was assumed, then all\n" +
			"faults at once, each with its line and column. Ends with 1 where there are faults, else\n" +
			"with 0; lines that begin with \"look again\" are not faults. FILE may be - for standard input.\n\n" +
			"Examples:\n" +
			"   southyard check lot.yaml\n" +
			"   southyard check lot.yaml --metric",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "metric", Usage: "show metres, whatever the file is written in"},
			&cli.BoolFlag{Name: "feet", Usage: "show feet and inches"},
		},
		Action: func(c *cli.Context) error {
			if c.NArg() != 1 {
				return cli.Exit("check wants one site file, such as: southyard check lot.yaml", 2)
			}
			if c.Bool("metric") && c.Bool("feet") {
				return cli.Exit("--metric and --feet exclude each other", 2)
			}
			name := c.Args().First()
			data, err := siteText(name)
			if err != nil {
				return err
			}
			site, faults := sitefile.Read(name, data)
			unit := measure.Feet
			if (site.Metric || c.Bool("metric")) && !c.Bool("feet") {
				unit = measure.Metres
			}
			w := bufio.NewWriter(c.App.Writer)
			understood{w, site, unit}.write()
			if site.Name != "" || len(site.House.Parts) > 0 { // something was
				fmt.Fprintln(w)
			}
			wrong := writeFaults(w, faults)
			if err := w.Flush(); err != nil {
				return fmt.Errorf("cannot print: %w", err)
			}
			if wrong > 0 {
				return fmt.Errorf("%s has %s", name, measure.Count(wrong, "fault"))
			}
			_, monthly, err := yearOf(name, site, 1)
			if err == nil {
				err = study.Ready(site, monthly)
			}
			if err != nil {
				return fmt.Errorf("%s reads well, but cannot be studied: %w", name, err)
			}
			return nil
		},
	}
}

func writeFaults(w io.Writer, faults []sitefile.Fault) (wrong int) {
	wrong = sitefile.Wrong(faults)
	switch looks := len(faults) - wrong; {
	case len(faults) == 0:
		fmt.Fprintln(w, "No faults.")
	case wrong == 0:
		fmt.Fprintf(w, "No faults; %s worth a second look:\n", measure.Count(looks, "place"))
	default:
		fmt.Fprintf(w, "%s:\n", measure.Count(wrong, "fault"))
	}
	for _, f := range faults {
		fmt.Fprintln(w, "  "+f.String())
	}
	return wrong
}
