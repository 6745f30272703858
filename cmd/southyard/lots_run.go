package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/southyard/southyard/model/sitefile"
	"github.com/southyard/southyard/shading/lots"
)

// recordsFolder holds one file a lot, named by its key.
const recordsFolder = "records"

// mostFileBytes is read of a site file; more is no site file.
const mostFileBytes = 8 << 20

// lotsRun studies the files of one part of a list.
type lotsRun struct {
	ask     lotsAsk
	program string
	paths   []string
	labels  []string
	years   lotYears
}

// all studies the part's files, as many at a time as there are processors,
// and enters them on the sheet in the order of the list, whoever was done
// first. When ctx ends, the lots under way are finished and kept, and done is
// less than total. Only a folder that cannot be written to is an error.
func (r *lotsRun) all(ctx context.Context, sheet *lots.Sheet, show *progress) (done, total int, err error) {
	var mine []int
	for i := range r.paths {
		if r.ask.part.Has(i) {
			mine = append(mine, i)
		}
	}
	if r.ask.out != "" {
		sweepLeftovers(filepath.Join(r.ask.out, recordsFolder))
	}
	type answer struct {
		row    *lots.Row
		failed *lots.Failure
	}
	answers := make([]answer, len(mine))
	ctx, halt := context.WithCancelCause(ctx)
	defer halt(nil)
	var next, finished int
	var lock sync.Mutex
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(mine)) {
		all.Go(func() {
			for {
				lock.Lock()
				k := next
				next++
				lock.Unlock()
				if k >= len(mine) || ctx.Err() != nil {
					return
				}
				row, failed, err := r.one(mine[k])
				if err != nil {
					halt(err)
					return
				}
				lock.Lock()
				answers[k] = answer{row, failed}
				finished++
				show.step(fmt.Sprintf("%d of %d lots", finished, len(mine)))
				lock.Unlock()
			}
		})
	}
	all.Wait()
	for _, a := range answers {
		if a.row != nil {
			sheet.Lots = append(sheet.Lots, *a.row)
		}
		if a.failed != nil {
			sheet.Failed = append(sheet.Failed, *a.failed)
		}
	}
	if cause := context.Cause(ctx); cause != nil && !errors.Is(cause, context.Canceled) {
		return finished, len(mine), fmt.Errorf("%w\n%d of %d lots are done; once there is room to write, give the same command again to go on", cause, finished, len(mine))
	}
	return finished, len(mine), nil
}

// one studies one file, or takes its record from an earlier run. A fault of
// the lot's is a failure; an error is the folder's.
func (r *lotsRun) one(i int) (row *lots.Row, failed *lots.Failure, err error) {
	label := r.labels[i]
	fail := func(faults ...string) (*lots.Row, *lots.Failure, error) {
		f := lots.Failed(label, faults...)
		return nil, &f, nil
	}
	defer func() { // one lot's trouble must not cost the others theirs
		if x := recover(); x != nil {
			f := lots.Failed(label, fmt.Sprintf("%s: the program has a fault that this file brings out (%v); please report it with the file", label, x))
			row, failed, err = nil, &f, nil
		}
	}()
	data, err := readSome(r.paths[i])
	if err != nil {
		return fail(fmt.Sprintf("%s: cannot be read: %v", label, reason(err)))
	}
	site, faults := sitefile.Read(label, data)
	var wrong []string
	for _, f := range faults {
		if !f.Warning {
			wrong = append(wrong, f.String())
		}
	}
	if len(wrong) > 0 {
		return fail(wrong...)
	}
	var hourly []byte
	if name := site.Climate.File; name != "" {
		if !filepath.IsAbs(name) {
			name = filepath.Join(filepath.Dir(r.paths[i]), name)
		}
		if hourly, err = os.ReadFile(name); err != nil {
			return fail(fmt.Sprintf("%s: the hourly file %s cannot be read: %v", label, site.Climate.File, reason(err)))
		}
	}
	key := lots.Key(r.program, r.ask.options, data, hourly)
	if lot, ok := readRecord(r.ask.out, key); ok {
		return &lots.Row{File: label, Key: key, Record: lot.Record}, nil, nil
	}
	year, monthly, err := r.years.of(site.Place, site.Climate, r.ask.options.Seed, hourly)
	if err != nil {
		return fail(label + ": " + err.Error())
	}
	lot, err := lots.Study(site, year, monthly, r.ask.options)
	if err != nil {
		return fail(label + ": " + err.Error())
	}
	lot.Key = key
	if r.ask.out != "" {
		text, err := json.Marshal(lot)
		if err != nil {
			return fail(label + ": " + err.Error())
		}
		if err := writeWhole(recordPath(r.ask.out, key), func(w io.Writer) error {
			_, err := w.Write(append(text, '\n'))
			return err
		}); err != nil {
			return nil, nil, err
		}
	}
	return &lots.Row{File: label, Key: key, Record: lot.Record}, nil, nil
}

// readSome reads a file of a site file's size, and a little more of a bigger
// one, which the reader of site files then refuses.
func readSome(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, mostFileBytes))
}

// reason is an error without the paths, which have been named.
func reason(err error) error {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		return p.Err
	case errors.As(err, &l):
		return l.Err
	}
	return err
}

func recordPath(out, key string) string { return filepath.Join(out, recordsFolder, key+".json") }

// readRecord takes a lot from an earlier run. A record that is not whole, or
// not the one its name promises, counts as none.
func readRecord(out, key string) (lot lots.Lot, ok bool) {
	if out == "" {
		return lot, false
	}
	text, err := os.ReadFile(recordPath(out, key))
	if err != nil {
		return lot, false
	}
	d := json.NewDecoder(bytes.NewReader(text))
	if d.Decode(&lot) != nil || lot.Key != key || lot.Version != lots.Version {
		return lots.Lot{}, false
	}
	return lot, true
}

// sweepLeftovers removes temporary files of runs that were killed. Young ones
// may belong to a run that goes on beside this one.
func sweepLeftovers(dir string) {
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		name := e.Name()
		if !strings.HasPrefix(name, ".") || !strings.HasSuffix(name, ".tmp") {
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > time.Hour {
			os.Remove(filepath.Join(dir, name)) // a leftover that stays does no harm
		}
	}
}

// walkSites finds the site files of a folder, leaving hidden folders and the
// folder for results out.
func walkSites(dir, out string, add func(string)) error {
	results, _ := filepath.Abs(out)
	return filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return fmt.Errorf("cannot look through %s: %w", path, reason(err))
		}
		if d.IsDir() {
			here, _ := filepath.Abs(path)
			if path != dir && strings.HasPrefix(d.Name(), ".") || out != "" && here == results && path != dir {
				return filepath.SkipDir
			}
			return nil
		}
		kind := strings.ToLower(filepath.Ext(path))
		if (kind == ".yaml" || kind == ".yml") && !strings.HasPrefix(d.Name(), ".") {
			add(path)
		}
		return nil
	})
}

func sortPaths(paths []string) { slices.Sort(paths) }
