package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"

	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun/sky"
	"github.com/urfave/cli/v2"
)

// forms are the ways a command can print what it found: for people, as
// comma-separated values, as JSON.
type forms struct {
	text func(io.Writer)
	csv  func(io.Writer) error
	json func() any
}

// formFlags choose among the forms.
func formFlags() []cli.Flag {
	return []cli.Flag{
		&cli.BoolFlag{Name: "csv", Usage: "print comma-separated values"},
		&cli.BoolFlag{Name: "json", Usage: "print JSON"},
	}
}

// printStudy studies the one file named on the command line and prints what
// the command makes of it in the form the flags ask for.
func printStudy(c *cli.Context, of func(*study.Study) (forms, error)) error {
	if c.Bool("csv") && c.Bool("json") {
		return cli.Exit("--csv and --json exclude each other", 2)
	}
	show := newProgress()
	defer show.done()
	st, err := studyOf(c, show)
	if err != nil {
		return err
	}
	f, err := of(st)
	if err != nil {
		return err
	}
	show.done()
	return printed(c.App.Writer, func(w io.Writer) error {
		switch {
		case c.Bool("csv"):
			return f.csv(w)
		case c.Bool("json"):
			return printJSON(w, f.json())
		}
		f.text(w)
		return nil
	})
}

// printed prints through a buffer, so that a full disk or a closed pipe is
// noticed whatever part of the text meets it.
func printed(out io.Writer, write func(io.Writer) error) error {
	w := bufio.NewWriter(out)
	if err := errors.Join(write(w), w.Flush()); err != nil {
		return fmt.Errorf("cannot print: %w", reason(err))
	}
	return nil
}

// studyOf reads the one file named on the command line and studies it.
func studyOf(c *cli.Context, show *progress) (*study.Study, error) {
	if c.NArg() != 1 {
		return nil, cli.Exit(fmt.Sprintf("%s wants one site file, such as: southyard %s lot.yaml", c.Command.Name, c.Command.Name), 2)
	}
	model, err := sky.ParseModel(c.String("sky"))
	if err != nil {
		return nil, cli.Exit("--sky: "+err.Error(), 2)
	}
	draws := c.Int("draws")
	if err := checkDraws(draws); err != nil {
		return nil, err
	}
	site, err := readSite(c.Args().First(), c.App.ErrWriter)
	if err != nil {
		return nil, err
	}
	show.step("making the year of sun")
	year, monthly, err := yearOf(c.Args().First(), site, c.Uint64("seed"))
	if err != nil {
		return nil, err
	}
	show.step("casting the sun over the lot")
	return study.Run(site, &year, monthly, study.Options{Sky: model, Draws: draws, Seed: c.Uint64("seed"), Decide: decides(c.Command)})
}
