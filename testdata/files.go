// Package testdata holds the figures of others that tests compare ours with.
// README.md says where each file comes from.
package testdata

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
)

// Files are the reference figures: CSV with '#' lines above the header.
//
//go:embed *.csv
var Files embed.FS

// Sites are the lots of the benchmarks, as site files.
//
//go:embed reference-*.yaml
var Sites embed.FS

// Row of a reference file by column name.
type Row map[string]string

// Number in a column. A missing or malformed number is an error in the
// committed file, so it panics.
func (r Row) Number(column string) float64 {
	v, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		panic(fmt.Sprintf("column %q: %v", column, err))
	}
	return v
}

// Read the rows of a reference file.
func Read(name string) ([]Row, error) {
	file, err := Files.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	lines, err := reader.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	rows := make([]Row, len(lines)-1)
	for i, line := range lines[1:] {
		rows[i] = Row{}
		for j, column := range lines[0] {
			rows[i][column] = line[j]
		}
	}
	return rows, nil
}
