package main

import (
	"fmt"
	"path/filepath"

	"github.com/southyard/southyard/model/mapfile"
	"github.com/urfave/cli/v2"
)

func fromFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "from", Usage: "start from the GeoJSON map `MAP`: lot, buildings, trees"},
		&cli.StringFlag{Name: "trees", Usage: "with --from: add the trees of the CSV list `LIST`"},
		&cli.BoolFlag{Name: "metres", Usage: "with --from: write metres in place of feet"},
	}
}

// siteFrom makes the text of a site file from a map and a list of trees, and
// prints what was assumed and what is to be measured.
func siteFrom(c *cli.Context) ([]byte, error) {
	if c.Bool("ask") {
		return nil, cli.Exit("--ask and --from are two ways to start; choose one", 2)
	}
	from, err := readSource(c.String("from"))
	if err != nil {
		return nil, err
	}
	var trees *mapfile.Source
	if name := c.String("trees"); name != "" {
		list, err := readSource(name)
		if err != nil {
			return nil, err
		}
		trees = &list
	}
	text, notes, err := mapfile.Site(from, trees, mapfile.Options{Metric: c.Bool("metres")})
	if err != nil {
		return nil, err
	}
	for _, n := range notes {
		fmt.Fprintln(c.App.Writer, "-", n)
	}
	return text, nil
}

// readSource reads a file of at most 32 MB; what is longer is refused before
// it takes memory.
func readSource(name string) (mapfile.Source, error) {
	const most = 32 << 20
	data, err := readUpTo(most+1, name, "a map is drawn in any mapping program and saved as GeoJSON", "name the file in it")
	if err != nil {
		return mapfile.Source{}, err
	}
	if len(data) > most {
		return mapfile.Source{}, fmt.Errorf("%s is longer than 32 MB; cut it down to the block the lot is in", name)
	}
	return mapfile.Source{Name: filepath.Base(name), Data: data}, nil
}
