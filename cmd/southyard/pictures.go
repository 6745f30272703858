package main

import (
	"errors"
	"io"
	"path/filepath"
	"runtime"
	"sync"

	"github.com/southyard/southyard/render/ink"
	"github.com/southyard/southyard/render/portfolio"
	"github.com/southyard/southyard/shading/study"
)

// printDensity is the pictures' resolution, dots per inch.
const printDensity = 300

// drawStudy writes the set of pictures, several at a time.
func drawStudy(st *study.Study, dir string) error {
	pictures := portfolio.Of(st)
	faults := make([]error, len(pictures))
	var all sync.WaitGroup
	places := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, p := range pictures {
		all.Go(func() {
			places <- struct{}{}
			defer func() { <-places }()
			faults[i] = writeWhole(filepath.Join(dir, p.Name+".png"), func(w io.Writer) error {
				return ink.WritePNG(w, p.Figure(), printDensity)
			})
		})
	}
	all.Wait()
	return errors.Join(faults...)
}
