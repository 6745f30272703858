package main

import (
	"bytes"
	"fmt"
	"io"

	"github.com/southyard/southyard/render/fieldsheet"
	"github.com/southyard/southyard/render/ink"
	"github.com/urfave/cli/v2"
)

func sheetCommand() *cli.Command {
	return &cli.Command{
		Name:  "sheet",
		Usage: "a form to print and take to the lot",
		Description: "Writes two pages: what to measure, how to take a tree's height, a grid for the sketch,\n" +
			"and tables for trees, windows and what collectors keep clear of; heads are the site file's keys.\n\n" +
			"Examples:\n" +
			"   southyard sheet\n" +
			"   southyard sheet --out alder-row.pdf --paper a4",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "out", Value: "sheet.pdf", Usage: "write into `FILE`"},
			paperFlag(),
			&cli.BoolFlag{Name: "force", Usage: "write over a file that is there"},
		},
		Action: func(c *cli.Context) error {
			if c.NArg() > 0 {
				return cli.Exit("sheet reads no file; name the one to write with --out", 2)
			}
			paper, err := ink.ParseSheet(c.String("paper"))
			if err != nil {
				return cli.Exit(err.Error(), 2)
			}
			out := c.String("out")
			if err := writeSheet(out, paper, c.Bool("force")); err != nil {
				return err
			}
			fmt.Fprintf(c.App.Writer, "Wrote %s; print it on both sides of one sheet\n", out)
			return nil
		},
	}
}

// writeSheet writes the form, over a file that is there only if forced.
func writeSheet(name string, paper ink.Sheet, force bool) error {
	write := func(w io.Writer) error { return ink.WritePDF(w, fieldsheet.Title, fieldsheet.Pages(paper)...) }
	if force {
		return writeWhole(name, write)
	}
	if err := absent(name); err != nil {
		return fmt.Errorf("%w, or say --force", err)
	}
	var text bytes.Buffer
	if err := write(&text); err != nil {
		return err
	}
	return writeNew(name, text.Bytes())
}
