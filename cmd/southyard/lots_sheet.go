package main

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/render/portfolio"
	"github.com/southyard/southyard/shading/lots"
)

// The board's limits: a hundred pages, and dots an inch.
const (
	mostOnBoard  = 1200
	boardDensity = 200
)

// finishLots writes and prints what a run has found. A part is only laid by
// for joining.
func finishLots(c *cli.Context, ask lotsAsk, sheet lots.Sheet) error {
	if ask.split {
		path := filepath.Join(ask.out, sheet.Part.Name()+".json")
		if err := writeWhole(path, func(w io.Writer) error { return encodeLots(w, sheet) }); err != nil {
			return err
		}
		fmt.Fprintf(c.App.Writer, "%s of the list: %s done, %s could not be studied. Join the parts with: southyard lots --merge %s\n",
			strings.ReplaceAll(sheet.Part.Name(), "-", " "), measure.Count(len(sheet.Lots), "lot"), measure.Count(len(sheet.Failed), "file"), ask.out)
		printFaults(c, sheet) // no error: a scheduler would send the task again for a bad file; joining ends with 1
		return nil
	}
	sheet.Order(ask.by)
	if ask.out != "" {
		if err := writeLotsSheet(sheet, ask, []string{ask.out}); err != nil {
			return err
		}
	}
	if err := printLotsSheet(c, sheet, ask); err != nil {
		return err
	}
	return reportFailed(c, sheet)
}

func printLotsSheet(c *cli.Context, sheet lots.Sheet, ask lotsAsk) error {
	w := bufio.NewWriter(c.App.Writer)
	var err error
	switch {
	case c.Bool("csv"):
		err = sheet.CSV(w)
	case c.Bool("json"):
		err = encodeLots(w, sheet)
	default:
		if err = sheet.Text(w, ask.top); err == nil && ask.out != "" {
			fmt.Fprintf(w, "\nThe whole sheet and the board: %s\n", ask.out)
		}
	}
	return errors.Join(err, w.Flush())
}

// reportFailed prints the faults where the table does not, and ends the
// command with 1 if there are any.
func reportFailed(c *cli.Context, sheet lots.Sheet) error {
	if len(sheet.Failed) == 0 {
		return nil
	}
	if c.Bool("csv") || c.Bool("json") {
		printFaults(c, sheet)
	}
	if len(sheet.Lots) == 0 {
		return errors.New("no lot could be studied: mend the files named above (southyard check FILE shows more)")
	}
	return fmt.Errorf("%s of %d could not be studied; the others are whole", measure.Count(len(sheet.Failed), "file"), len(sheet.Lots)+len(sheet.Failed))
}

func printFaults(c *cli.Context, sheet lots.Sheet) {
	for _, f := range sheet.Failed {
		f.Lines(func(line string) { fmt.Fprintln(c.App.ErrWriter, line) })
	}
}

func encodeLots(w io.Writer, sheet lots.Sheet) error {
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	e.SetEscapeHTML(false)
	return e.Encode(sheet)
}

// writeLotsSheet writes the sheet and the board into the folder; the plans come
// from the records in any of the folders.
func writeLotsSheet(sheet lots.Sheet, ask lotsAsk, folders []string) error {
	if err := writeWhole(filepath.Join(ask.out, "lots.csv"), sheet.CSV); err != nil {
		return err
	}
	pages, err := drawLotsBoard(sheet, ask, folders)
	if err != nil {
		return err
	}
	if err := dropBoards(ask.out, pages); err != nil {
		return err
	}
	return writeWhole(filepath.Join(ask.out, "lots.json"), func(w io.Writer) error { return encodeLots(w, sheet) })
}

// drawLotsBoard draws page after page, holding the plans of one page at a time.
func drawLotsBoard(sheet lots.Sheet, ask lotsAsk, folders []string) (pages int, err error) {
	shown := sheet.Lots[:min(ask.board, len(sheet.Lots))]
	of := (len(shown) + portfolio.BoardLots - 1) / portfolio.BoardLots
	for pages = 0; pages < of; pages++ {
		var page []portfolio.BoardLot
		for _, row := range shown[pages*portfolio.BoardLots : min((pages+1)*portfolio.BoardLots, len(shown))] {
			lot := portfolio.BoardLot{Row: row}
			for _, dir := range folders {
				if found, ok := readRecord(dir, row.Key); ok {
					lot.Drawing = found.Drawing
					break
				}
			}
			page = append(page, lot)
		}
		figure := portfolio.Board(sheet, page, pages+1, of).Figure()
		err := writeWhole(filepath.Join(ask.out, boardName(pages+1)), func(w io.Writer) error { return ink.WritePNG(w, figure, boardDensity) })
		if err != nil {
			return pages, err
		}
	}
	return pages, nil
}

func boardName(page int) string { return fmt.Sprintf("board-%02d.png", page) }

// dropBoards removes the pages of a longer board of an earlier run.
func dropBoards(out string, pages int) error {
	for n := pages + 1; ; n++ {
		switch err := os.Remove(filepath.Join(out, boardName(n))); {
		case errors.Is(err, os.ErrNotExist):
			return nil
		case err != nil:
			return fmt.Errorf("cannot remove a page of an earlier board: %w", reason(err))
		}
	}
}

// mergeLots joins the parts found in the folders named.
func mergeLots(c *cli.Context, ask lotsAsk) error {
	var parts []lots.Sheet
	var names []string
	for _, dir := range c.Args().Slice() {
		found, err := filepath.Glob(filepath.Join(globQuoted(dir), "part-*-of-*.json"))
		if err != nil || len(found) == 0 {
			return fmt.Errorf("no part of a list (part-*-of-*.json) in %s; parts are made with southyard lots ... --part I/N --out %s", dir, dir)
		}
		for _, path := range found {
			part, err := readLotsPart(path)
			if err != nil {
				return err
			}
			parts, names = append(parts, part), append(names, path)
		}
	}
	sheet, err := lots.Merge(parts, names)
	if err != nil {
		return err
	}
	if ask.out == "" && c.NArg() == 1 {
		ask.out = c.Args().First()
	}
	if ask.out != "" && ask.out != c.Args().First() {
		if err := lotsFolder(ask.out); err != nil {
			return err
		}
	}
	sheet.Order(ask.by)
	if ask.out != "" {
		if err := writeLotsSheet(sheet, ask, c.Args().Slice()); err != nil {
			return err
		}
	}
	if err := printLotsSheet(c, sheet, ask); err != nil {
		return err
	}
	return reportFailed(c, sheet)
}

func globQuoted(dir string) string {
	return strings.NewReplacer(`\`, `\\`, `*`, `\*`, `?`, `\?`, `[`, `\[`).Replace(dir)
}

func readLotsPart(path string) (lots.Sheet, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return lots.Sheet{}, fmt.Errorf("cannot read the part %s: %w", path, reason(err))
	}
	var part lots.Sheet
	if err := json.Unmarshal(text, &part); err != nil || part.List == "" {
		return lots.Sheet{}, fmt.Errorf("%s is no part of a list of lots; run that part again", path)
	}
	return part, nil
}
