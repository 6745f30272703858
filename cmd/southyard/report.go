package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/render/portfolio"
	"github.com/southyard/southyard/render/report"
	"github.com/urfave/cli/v2"
)

func reportCommand() *cli.Command {
	return &cli.Command{
		Name:      "report",
		Usage:     "the study as documents: web page, PDF, and one page for a committee",
		ArgsUsage: "FILE",
		Description: "Writes into the folder DIR:\n" +
			"   report.html     answer, facts, method, tables, pictures, cautions, the site file; one file, opens anywhere\n" +
			"   report.pdf      the same on paper\n" +
			"   committee.pdf   the answer on one page\n" +
			"Other files in the folder are left alone.\n\n" +
			"Examples:\n" +
			"   southyard report lot.yaml --out lot-report\n" +
			"   southyard report lot.yaml --out lot-report --photos lot-photos\n" +
			"   southyard report lot.yaml --out lot-report --paper a4 --full",
		Flags: append(decideFlags(),
			&cli.StringFlag{Name: "out", Usage: "write the documents into the folder `DIR`"},
			paperFlag(),
			&cli.StringFlag{Name: "photos", Usage: "set the photographs in the folder `DIR` (JPEG or PNG, at most 12) into the report, each under its file's name"},
			&cli.BoolFlag{Name: "full", Usage: "every picture and table; otherwise those a committee needs"},
		),
		Action: func(c *cli.Context) error {
			out := c.String("out")
			if out == "" {
				return cli.Exit("report wants a folder to write into, such as: southyard report lot.yaml --out lot-report", 2)
			}
			paper, err := ink.ParseSheet(c.String("paper"))
			if err != nil {
				return cli.Exit(err.Error(), 2)
			}
			if err := roomIn(out); err != nil {
				return err
			}
			show := newProgress()
			r, err := reportOf(c, show)
			if err != nil {
				return err
			}
			if err := os.MkdirAll(out, 0o755); err != nil {
				return fmt.Errorf("cannot make the folder %s: %w; name another with --out", out, reason(err))
			}
			for _, f := range []struct {
				name  string
				write func(io.Writer, ink.Sheet) error
			}{{"report.html", r.HTML}, {"report.pdf", r.PDF}, {"committee.pdf", r.Committee}} {
				show.step("writing " + f.name)
				if err := writeWhole(filepath.Join(out, f.name), func(w io.Writer) error { return f.write(w, paper) }); err != nil {
					return err
				}
			}
			show.done()
			fmt.Fprintf(c.App.Writer, "Wrote report.html, report.pdf and committee.pdf into %s\n", out)
			return nil
		},
	}
}

func paperFlag() cli.Flag {
	return &cli.StringFlag{Name: "paper", Value: "letter", Usage: "`SIZE` of the paper: letter or a4"}
}

// reportOf studies the one file named on the command line and keeps its text
// for the appendix.
func reportOf(c *cli.Context, show *progress) (report.Report, error) {
	if c.NArg() == 1 && c.Args().First() == "-" {
		return report.Report{}, errors.New("report wants a site file with a name: its text goes into the report")
	}
	photos, err := photosIn(c.String("photos")) // first: a bad one should not cost a study
	if err != nil {
		return report.Report{}, err
	}
	st, err := studyOf(c, show)
	if err != nil {
		return report.Report{}, err
	}
	name := c.Args().First()
	text, err := os.ReadFile(name)
	if err != nil {
		return report.Report{}, fmt.Errorf("cannot read the site file again: %w", reason(err))
	}
	show.step("drawing")
	return report.Report{Study: st, Pictures: portfolio.Of(st, portfolio.Moment{}), Photos: photos, Full: c.Bool("full"), File: filepath.Base(name), Text: text}, nil
}
