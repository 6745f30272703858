package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"time"

	"github.com/southyard/southyard/model"
	"github.com/southyard/southyard/model/mapfile"
	"github.com/southyard/southyard/render/gltf"
	"github.com/urfave/cli/v2"
)

func exportCommand() *cli.Command {
	return &cli.Command{
		Name:      "export",
		Usage:     "the lot as a map (GeoJSON) or a 3D scene (glTF) for other programs",
		ArgsUsage: "FILE",
		Description: "geojson: the map of the lot with every size as a property; new --from reads it back.\n" +
			"gltf:    a 3D scene in one file (.glb) for any viewer or ray tracer: metres, y up;\n" +
			"         every wall, window, roof plane, crown and trunk is a node with a name, and its\n" +
			"         extras say what it lets through and whose it is; --at sets a sun light.\n" +
			"A file that is there already is left alone unless --force is given.\n\n" +
			"Examples:\n" +
			"   southyard export lot.yaml --to geojson --out lot.geojson\n" +
			"   southyard export lot.yaml --to gltf --at 2026-12-21T12:00:00-05:00 --out lot.glb",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "to", Usage: "`KIND` of file: geojson or gltf"},
			&cli.StringFlag{Name: "out", Usage: "write the file `PATH`"},
			&cli.StringFlag{Name: "at", Usage: "with gltf: `MOMENT` of the sun light, such as 2026-12-21T12:00:00-05:00"},
			&cli.BoolFlag{Name: "force", Usage: "write over a file that is there"},
		},
		Action: export,
	}
}

func export(c *cli.Context) error {
	if c.NArg() != 1 {
		return cli.Exit("export wants one site file, such as: southyard export lot.yaml --to geojson --out lot.geojson", 2)
	}
	path := c.String("out")
	if path == "" {
		return cli.Exit("export wants the file to write: --out lot.geojson or --out lot.glb", 2)
	}
	kind := strings.ToLower(c.String("to"))
	if kind == "" {
		return cli.Exit("export wants the kind of file: --to geojson or --to gltf", 2)
	}
	if kind != "geojson" && kind != "gltf" {
		return cli.Exit(fmt.Sprintf("--to %s: geojson and gltf can be written", kind), 2)
	}
	var at time.Time
	if text := c.String("at"); text != "" {
		var err error
		if at, err = time.Parse(time.RFC3339, text); err != nil || at.Year() < 1901 || at.Year() > 2149 {
			return cli.Exit(fmt.Sprintf("--at %s: give a moment of 1901 to 2149 with its offset from UTC, such as 2026-12-21T12:00:00-05:00", text), 2)
		}
		if kind != "gltf" {
			return cli.Exit("--at sets a sun light, which only --to gltf can hold", 2)
		}
	}
	if !c.Bool("force") {
		if err := free(path); err != nil {
			return err
		}
	}
	site, err := readSite(c.Args().First(), c.App.ErrWriter)
	if err != nil {
		return err
	}
	text, notes, err := exported(site, kind, at)
	if err != nil {
		return err
	}
	if c.Bool("force") {
		err = writeWhole(path, func(w io.Writer) error { _, err := w.Write(text); return err })
	} else {
		err = writeNew(path, text)
	}
	if err != nil {
		return err
	}
	for _, n := range notes {
		fmt.Fprintln(c.App.Writer, "-", n)
	}
	fmt.Fprintf(c.App.Writer, "Wrote %s.\n", path)
	return nil
}

// exported makes the bytes of a map or a scene.
func exported(site *model.Site, kind string, at time.Time) ([]byte, []string, error) {
	if kind == "geojson" {
		return mapfile.GeoJSON(site)
	}
	var scene bytes.Buffer
	err := gltf.Write(&scene, site, gltf.Options{At: at})
	return scene.Bytes(), nil, err
}

// free refuses the name of a file that is there.
func free(path string) error {
	switch _, err := os.Lstat(path); {
	case err == nil:
		return fmt.Errorf("%s is there already and is left as it is; choose another name, or --force to write over it", path)
	case errors.Is(err, fs.ErrNotExist):
		return nil
	default:
		return fmt.Errorf("cannot write %s: %w", path, reason(err))
	}
}
