package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/render/portfolio"
	"github.com/southyard/southyard/shading/study"
	"github.com/southyard/southyard/sun"
	"github.com/southyard/southyard/sun/climate"
	"github.com/southyard/southyard/sun/sky"
	"github.com/urfave/cli/v2"
)

func studyCommand() *cli.Command {
	return &cli.Command{
		Name:      "study",
		Usage:     "the whole answer for a lot: first screen, tables and pictures",
		ArgsUsage: "FILE",
		Description: "Casts the sun over the lot for every hour of a typical year and writes into the folder DIR:\n" +
			"   results.json   everything, with units in the names\n" +
			"   trees.csv      what each tree's removal gives, for each target, and how sure that is\n" +
			"   work.csv       removing, raising or reducing each tree, side by side\n" +
			"   plans.csv      the plans side by side\n" +
			"   growth.csv     sun as the trees grow, for each plan\n" +
			"   summer.csv     what each removal and plan lets onto walls and windows in summer\n" +
			"   access.csv     sun and solar access of every surface by month, for today, each tree gone, each plan\n" +
			"   hours.csv      with --hours: hour by hour; access_hours.csv: by month and hour of the day\n" +
			"   *.png          the pictures, 300 dpi\n\n" +
			"Examples:\n" +
			"   southyard study lot.yaml\n" +
			"   southyard study lot.yaml --out lot-study --hours",
		Flags: append(decideFlags(),
			&cli.StringFlag{Name: "out", Usage: "write tables and pictures into the folder `DIR`"},
			&cli.BoolFlag{Name: "hours", Usage: "write hours.csv and access_hours.csv too"},
			&cli.StringFlag{Name: "shadows", Usage: "`MOMENT` of the shadow plan in standard time, as in \"21 Dec 14:30\"; left out: midwinter noon"},
			&cli.BoolFlag{Name: "svg", Usage: "draw the pictures as SVG in place of PNG"},
			&cli.StringFlag{Name: "paper", Usage: "each picture on a sheet to itself; `SIZE` letter or a4 (a width of 6½ in, which fits both, unless told)"},
			&cli.BoolFlag{Name: "landscape", Usage: "with --paper: the sheet turned"},
			&cli.BoolFlag{Name: "no-pictures", Usage: "leave the pictures out"},
		),
		Action: func(c *cli.Context) error {
			shadows, err := readMoment(c.String("shadows"))
			if err != nil {
				return err
			}
			size, err := pictureSize(c.String("paper"), c.Bool("landscape"))
			if err != nil {
				return err
			}
			if out := c.String("out"); out != "" {
				err := roomIn(out)
				if _, missing := os.Stat(out); err == nil && missing == nil {
					err = outFolder(out)
				}
				if err != nil {
					return err
				}
			}
			show := newProgress()
			st, err := studyOf(c, show)
			if err != nil {
				return err
			}
			var left []string
			if out := c.String("out"); out != "" {
				if left, err = writeStudy(c, st, out, shadows, size, show); err != nil {
					return err
				}
			}
			show.done()
			w := bufio.NewWriter(c.App.Writer)
			st.Answer(w)
			if out := c.String("out"); out != "" {
				fmt.Fprintf(w, "Tables and pictures: %s\n", out)
				if len(left) > 0 {
					fmt.Fprintf(w, "Also there, and not of this run: %s. Delete what an earlier run drew.\n", someOf(left))
				}
			}
			return w.Flush()
		},
	}
}

func skyFlag() cli.Flag {
	return &cli.StringFlag{Name: "sky", Value: string(sky.Anisotropic), Usage: "`MODEL` of the sky's light: anisotropic, isotropic, hay-davies or hdkr"}
}

func computeFlags() []cli.Flag {
	return []cli.Flag{
		skyFlag(),
		&cli.Uint64Flag{Name: "seed", Value: 1, Usage: "`NUMBER` for what is drawn by lot: the days' order in a year made from stations or monthly figures, the trials' errors"},
	}
}

// yearOf makes the year of sun a site asks for; an hourly file is looked for
// beside the site file.
func yearOf(file string, site *model.Site, seed uint64) (sun.Year, climate.Monthly, error) {
	return climate.ForSite(site.Place, site.Climate, func(name string) ([]byte, error) {
		if !filepath.IsAbs(name) {
			name = filepath.Join(filepath.Dir(file), name)
		}
		return os.ReadFile(name)
	}, seed)
}

// readSite reads a site file; "-" is standard input. Faults are printed, all
// of them, and end the command.
func readSite(name string, faults io.Writer) (*model.Site, error) {
	data, err := siteText(name)
	if err != nil {
		return nil, err
	}
	site, found := sitefile.Read(name, data)
	for _, f := range found {
		fmt.Fprintln(faults, f)
	}
	if wrong := sitefile.Wrong(found); wrong > 0 {
		them := "them"
		if wrong == 1 {
			them = "it"
		}
		return nil, fmt.Errorf("%s has %s; mend %s and run again (southyard check shows what was understood)", name, measure.Count(wrong, "fault"), them)
	}
	return site, nil
}

// writeStudy writes a study's files and tells which tables and pictures were
// in the folder and are not of this run.
func writeStudy(c *cli.Context, st *study.Study, dir string, shadows portfolio.Moment, size func(render.Picture) ink.Figure, show *progress) (left []string, err error) {
	if err := outFolder(dir); err != nil {
		return nil, err
	}
	files := []struct {
		name  string
		write func(io.Writer) error
	}{
		{"trees.csv", st.TreesCSV},
		{"work.csv", st.WorkCSV},
		{"plans.csv", st.PlanTable().CSV},
		{"growth.csv", st.Growth.CSV},
		{"summer.csv", st.SummerCSV},
		{"access.csv", st.AccessCSV},
	}
	if c.Bool("hours") {
		files = append(files, struct {
			name  string
			write func(io.Writer) error
		}{"hours.csv", st.HoursCSV}, struct {
			name  string
			write func(io.Writer) error
		}{"access_hours.csv", st.AccessHoursCSV})
	}
	var written []string
	for _, f := range files {
		show.step("writing " + f.name)
		if err := writeWhole(filepath.Join(dir, f.name), f.write); err != nil {
			return nil, err
		}
		written = append(written, f.name)
	}
	if !c.Bool("no-pictures") {
		show.step("drawing")
		drawn, err := drawStudy(st, dir, shadows, c.Bool("svg"), size)
		if err != nil {
			return nil, err
		}
		written = append(written, drawn...)
	}
	return leftThere(dir, written), writeWhole(filepath.Join(dir, "results.json"), func(w io.Writer) error {
		e := json.NewEncoder(w)
		e.SetIndent("", " ")
		return e.Encode(st.Results())
	})
}
