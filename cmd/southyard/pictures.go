package main

import (
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/southyard/southyard/model/measure"
	"github.com/southyard/southyard/render"
	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/render/portfolio"
	"github.com/southyard/southyard/shading/study"
	"github.com/urfave/cli/v2"
)

// printDensity is the pictures' resolution, dots per inch.
const printDensity = 300

// drawStudy writes the set of pictures, several at a time, and gives their
// files' names. After one that cannot be written no other is begun.
func drawStudy(st *study.Study, dir string, shadows portfolio.Moment, vector bool, size func(render.Picture) ink.Figure) ([]string, error) {
	pictures := portfolio.Of(st, shadows)
	names := make([]string, len(pictures))
	faults := make([]error, len(pictures))
	var begun atomic.Int64
	var failed atomic.Bool
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			var press ink.Press
			for !failed.Load() {
				i := int(begun.Add(1)) - 1
				if i >= len(pictures) {
					return
				}
				p := pictures[i]
				ending, draw := ".png", func(w io.Writer) error { return press.WritePNG(w, size(p.Picture), printDensity) }
				if vector {
					ending, draw = ".svg", func(w io.Writer) error { return ink.WriteSVG(w, size(p.Picture)) }
				}
				names[i] = p.Name + ending
				if faults[i] = writeWhole(filepath.Join(dir, names[i]), draw); faults[i] != nil {
					failed.Store(true)
				}
			}
		})
	}
	all.Wait()
	for _, fault := range faults {
		if fault != nil {
			return nil, fault
		}
	}
	return names, nil
}

// pictureSize reads how large pictures are to be: a sheet of paper each, or the
// usual width, which fits either paper.
func pictureSize(paper string, turned bool) (func(render.Picture) ink.Figure, error) {
	if paper == "" {
		if turned {
			return nil, cli.Exit("--landscape turns the paper; say which with --paper letter or --paper a4", 2)
		}
		return render.Picture.Figure, nil
	}
	sheet, err := ink.ParseSheet(paper)
	if err != nil {
		return nil, cli.Exit(err.Error(), 2)
	}
	return func(p render.Picture) ink.Figure { return render.OnSheet(p, sheet, turned) }, nil
}

// readMoment reads a day and a local standard time such as "21 Dec 14:30".
// Nothing said stands for midwinter noon.
func readMoment(text string) (portfolio.Moment, error) {
	if text == "" {
		return portfolio.Moment{}, nil
	}
	wrong := cli.Exit(fmt.Sprintf("%q is no moment for shadows; write a day and a local standard time, such as \"21 Dec 14:30\"", text), 2)
	at := strings.LastIndexByte(text, ' ')
	if at < 0 {
		return portfolio.Moment{}, wrong
	}
	day, err := measure.ParseDate(text[:at])
	if err != nil {
		return portfolio.Moment{}, wrong
	}
	clock, err := time.Parse("15:04", text[at+1:])
	if err != nil {
		return portfolio.Moment{}, wrong
	}
	date := time.Date(2025, time.January, day, 0, 0, 0, 0, time.UTC)
	return portfolio.Moment{Month: date.Month(), Day: date.Day(), Minutes: clock.Hour()*60 + clock.Minute()}, nil
}
