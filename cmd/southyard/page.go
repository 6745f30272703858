package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/southyard/southyard/render/page"
	"github.com/urfave/cli/v2"
)

func pageCommand() *cli.Command {
	return &cli.Command{
		Name:      "page",
		Usage:     "one HTML file to play with: trees in and out, sun and cost at once, shadows through the year",
		ArgsUsage: "FILE",
		Description: "Studies the lot and writes a page that opens in any browser, on a phone too, and needs no network.\n\n" +
			"Examples:\n" +
			"   southyard page lot.yaml\n" +
			"   southyard page lot.yaml --out alder-row.html --force",
		Flags: append(computeFlags(),
			&cli.StringFlag{Name: "out", Usage: "write to `FILE`; otherwise the site file's name with .html"},
			&cli.BoolFlag{Name: "force", Usage: "write over a file that is there"},
		),
		Action: func(c *cli.Context) error {
			out := c.String("out")
			if out == "" {
				out = "page.html"
				if name := c.Args().First(); c.NArg() == 1 && name != "-" {
					out = strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)) + ".html"
				}
			}
			if _, err := os.Lstat(out); err == nil && !c.Bool("force") {
				return fmt.Errorf("%s is there already; name another file with --out, or write over it with --force", out)
			} else if err != nil && !errors.Is(err, fs.ErrNotExist) {
				return fmt.Errorf("cannot write %s: %w", out, err)
			}
			show := newProgress()
			st, err := studyOf(c, show)
			if err != nil {
				return err
			}
			show.step("casting the maps of the page")
			lot, err := page.Of(st)
			if err != nil {
				return err
			}
			err = writeWhole(out, func(w io.Writer) error {
				b := bufio.NewWriter(w)
				if err := page.Write(b, lot); err != nil {
					return err
				}
				return b.Flush()
			})
			show.done()
			if err == nil {
				fmt.Fprintf(c.App.Writer, "Wrote %s; open it in a browser\n", out)
			}
			return err
		},
	}
}
