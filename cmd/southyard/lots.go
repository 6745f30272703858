package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/urfave/cli/v2"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/shading/lots"
	"github.com/southyard/southyard/sun/sky"
)

func lotsCommand() *cli.Command {
	return &cli.Command{
		Name:      "lots",
		Usage:     "many candidate lots on one sheet, ranked by winter sun",
		ArgsUsage: "DIR | FILES...",
		Description: `Studies every site file (*.yaml, *.yml) in a folder and the folders in it, or
the files named, and ranks the lots: winter sun now, after the best plan the
budget buys, its cost, and a verdict. A file that cannot be used is reported
and does not stop the rest. Into the folder DIR of --out go:

   lots.csv, lots.json     the sheet
   board-01.png ...        the first lots as small plans, twelve a page
   records/                one small file a lot

A run that was stopped goes on where it stopped when given the same command
again. LOTS.md tells about long lists, array jobs and joining parts.

Examples:
   southyard lots candidates --budget 4500 --out screening
   southyard lots lot-a.yaml lot-b.yaml --for roof
   southyard lots candidates --part 3/16 --out screening
   southyard lots --merge screening`,
		Flags: append(computeFlags(),
			&cli.StringFlag{Name: "out", Usage: "write the sheet and the pictures into the folder `DIR`, and remember finished lots there"},
			&cli.StringFlag{Name: "budget", Usage: "`MONEY` for one lot's trees, over what the files say; 0 takes every limit away, as a file without a budget line does"},
			&cli.StringFlag{Name: "for", Value: lots.ForWall, Usage: "rank for `WHAT`: wall (sun-side walls and windows), windows or roof"},
			&cli.StringFlag{Name: "by", Value: lots.ByAfter, Usage: "order by sun `WHEN`: after the best plan, or now"},
			&cli.StringFlag{Name: "row", Usage: "cast the sun on rows of this `HEIGHT`; left out: 6 in; 1 ft is quicker and coarser"},
			&cli.IntFlag{Name: "top", Value: 40, Usage: "print the first `N` lots; 0 for all"},
			&cli.IntFlag{Name: "board", Value: 24, Usage: "draw the first `N` lots; 0 for none"},
			&cli.StringFlag{Name: "part", Usage: "study one part of the list only: `I/N`, or array inside an array job"},
			&cli.IntFlag{Name: "parts", Usage: "with --part array: the `NUMBER` of parts, where the scheduler does not say"},
			&cli.BoolFlag{Name: "merge", Usage: "join the parts found in the folders named into one ranked sheet"},
			&cli.BoolFlag{Name: "csv", Usage: "print comma-separated values"},
			&cli.BoolFlag{Name: "json", Usage: "print JSON"},
		),
		Action: runLots,
	}
}

func runLots(c *cli.Context) error {
	ask, err := readLotsAsk(c)
	if err != nil {
		return cli.Exit(err.Error(), 2)
	}
	if c.Bool("merge") {
		return mergeLots(c, ask)
	}
	paths, labels, err := siteFiles(c.Args().Slice(), ask.out)
	if err != nil {
		return err
	}
	if os.Getenv("SLURM_ARRAY_TASK_ID")+os.Getenv("JOB_COMPLETION_INDEX") != "" && c.String("part") == "" && c.Int("parts") == 0 {
		fmt.Fprintln(c.App.ErrWriter, "note: this is a task of an array job and studies the whole list; add --part array to share the list out")
	}
	if ask.out != "" {
		if err := lotsFolder(ask.out); err != nil {
			return err
		}
	}
	sheet := lots.Sheet{Version: lots.Version, Program: programStamp(), Options: ask.options, Part: ask.part, Files: len(paths), List: lots.ListHash(labels)}
	ctx, stop := signal.NotifyContext(c.Context, os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second Ctrl-C ends at once
	run := lotsRun{ask: ask, program: sheet.Program, paths: paths, labels: labels}
	show := newProgress()
	done, total, err := run.all(ctx, &sheet, show)
	show.done()
	if err != nil {
		return err
	}
	if done < total {
		return cli.Exit(stopped(done, total, ask.out), 130)
	}
	return finishLots(c, ask, sheet)
}

func stopped(done, total int, out string) string {
	if out == "" {
		return fmt.Sprintf("stopped after %d of %d lots; with --out DIR a run can be stopped and taken up again", done, total)
	}
	return fmt.Sprintf("stopped after %d of %d lots; give the same command again to go on", done, total)
}

// lotsAsk is the command line, understood.
type lotsAsk struct {
	options lots.Options
	by      string
	out     string
	part    lots.Part
	split   bool // part is one of several, asked for as such
	top     int
	board   int
}

func readLotsAsk(c *cli.Context) (lotsAsk, error) {
	ask := lotsAsk{
		options: lots.Options{For: c.String("for"), Seed: c.Uint64("seed")},
		by:      c.String("by"), out: c.String("out"), part: lots.Whole, top: c.Int("top"), board: c.Int("board"),
	}
	if c.NArg() == 0 {
		return ask, errors.New("lots wants a folder of site files, or the files: southyard lots candidates --out screening")
	}
	light, err := sky.ParseModel(c.String("sky"))
	if err != nil {
		return ask, fmt.Errorf("--sky: %w", err)
	}
	ask.options.Sky = string(light)
	if text := c.String("budget"); text != "" {
		money, err := measure.ParseMoney(text)
		if err != nil {
			return ask, fmt.Errorf("--budget: %w", err)
		}
		ask.options.Budget = &money
	}
	if text := c.String("row"); text != "" {
		if ask.options.Row, err = measure.ParseLength(text, measure.Feet); err != nil {
			return ask, fmt.Errorf("--row: %w", err)
		}
	}
	if ask.board < 0 || ask.board > mostOnBoard {
		return ask, fmt.Errorf("--board %d: 0 to %d lots can be drawn", ask.board, mostOnBoard)
	}
	if err := errors.Join(ask.options.Check(), lots.CheckOrder(ask.by)); err != nil {
		return ask, err
	}
	return ask, ask.readPart(c.String("part"), c.Int("parts"))
}

func (a *lotsAsk) readPart(text string, parts int) (err error) {
	switch {
	case text == "" && parts == 0:
		return nil
	case text == "" || text == "array":
		a.part, err = lots.ArrayPart(os.Getenv, parts)
	default:
		a.part, err = lots.ParsePart(text)
	}
	if err != nil {
		return err
	}
	a.split = true
	if a.out == "" {
		return errors.New("a part of a list needs --out DIR, from which the parts are joined afterwards with southyard lots --merge DIR")
	}
	return nil
}

// programStamp tells one build of the program from another: by its version,
// and where that does not say all (a build with changes of one's own) by its
// bytes too.
func programStamp() string {
	version := "southyard"
	info, ok := debug.ReadBuildInfo()
	if ok && info.Main.Version != "" {
		version += " " + info.Main.Version
		if info.Main.Version != "(devel)" && !strings.HasSuffix(version, "+dirty") {
			return version
		}
	}
	path, err := os.Executable()
	if err != nil {
		return version
	}
	f, err := os.Open(path)
	if err != nil {
		return version
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f); err != nil {
		return version
	}
	return version + " " + hex.EncodeToString(sum.Sum(nil)[:6])
}

// lotsFolder makes the folder for a screening ready. One that holds anything
// else is left alone.
func lotsFolder(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%s cannot be used as the folder for results: %w; name a new folder with --out", dir, reason(err))
	}
	ours := len(entries) == 0
	for _, e := range entries {
		ours = ours || e.IsDir() && e.Name() == recordsFolder
	}
	if !ours {
		return fmt.Errorf("the folder %s holds other things and no earlier screening; name a new folder with --out so that nothing is overwritten", dir)
	}
	if err := os.MkdirAll(filepath.Join(dir, recordsFolder), 0o755); err != nil {
		return fmt.Errorf("cannot make the folder %s: %w; name a folder you may write to with --out", dir, reason(err))
	}
	return nil
}

// siteFiles lists the site files named or found in the folders named, each
// once, in the order of their names. Labels are what the sheet calls them:
// within one folder the path inside it, so that the list is the same wherever
// the folder is mounted.
func siteFiles(args []string, out string) (paths, labels []string, err error) {
	base := ""
	if len(args) == 1 {
		if info, err := os.Stat(args[0]); err == nil && info.IsDir() {
			base = args[0]
		}
	}
	seen := map[string]bool{}
	add := func(path string) {
		if path = filepath.Clean(path); !seen[path] {
			seen[path] = true
			paths = append(paths, path)
		}
	}
	for _, arg := range args {
		info, err := os.Stat(arg)
		if err != nil || !info.IsDir() {
			add(arg) // one that cannot be read is reported with the rest
			continue
		}
		if err := walkSites(arg, out, add); err != nil {
			return nil, nil, err
		}
	}
	if len(paths) == 0 {
		return nil, nil, fmt.Errorf("no site file (*.yaml, *.yml) in %s", strings.Join(args, ", "))
	}
	sortPaths(paths)
	for _, p := range paths {
		label := p
		if base != "" {
			if rel, err := filepath.Rel(base, p); err == nil {
				label = rel
			}
		}
		labels = append(labels, filepath.ToSlash(label))
	}
	return paths, labels, nil
}
