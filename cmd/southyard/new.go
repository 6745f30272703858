package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"syscall"

	"github.com/southyard/southyard/model/sitefile"
	"github.com/urfave/cli/v2"
)

func newCommand() *cli.Command {
	return &cli.Command{
		Name:      "new",
		Usage:     "start a site file",
		ArgsUsage: "FILE",
		Description: "Writes a commented site file to change into yours, asks for the measures one by one,\n" +
			"or takes them from a map (GeoJSON).\n" +
			"A file that is there already is never touched.\n\n" +
			"Examples:\n" +
			"   southyard new lot.yaml\n" +
			"   southyard new --ask lot.yaml\n" +
			"   southyard new --from lot.geojson --trees trees.csv lot.yaml",
		Flags: append([]cli.Flag{
			&cli.BoolFlag{Name: "ask", Usage: "ask for the measures in the terminal"},
		}, fromFlags()...),
		Action: func(c *cli.Context) error {
			if c.NArg() != 1 {
				return cli.Exit("new wants the name of the file to write, such as: southyard new lot.yaml", 2)
			}
			name := c.Args().First()
			if err := absent(name); err != nil {
				return err
			}
			text, err := newSite(c)
			switch {
			case errors.Is(err, errStopped) && len(text) == 0:
				return cli.Exit("stopped before the first answer; nothing was written", 130)
			case err != nil && !(unfinished(err) && len(text) > 0):
				return err
			}
			if err := writeNew(name, text); err != nil {
				return err
			}
			switch rest := fmt.Sprintf("%s holds the answers given: add the rest there (southyard check %s tells what is missing)", name, name); {
			case errors.Is(err, errStopped):
				return cli.Exit("stopped before the last question; "+rest, 130)
			case err != nil:
				return fmt.Errorf("%w; %s", err, rest)
			}
			fmt.Fprintf(c.App.Writer, "Wrote %s. Next: southyard check %s\n", name, name)
			return nil
		},
	}
}

// newSite makes the text of a new site file the way the flags ask for.
func newSite(c *cli.Context) ([]byte, error) {
	if c.String("from") != "" {
		return siteFrom(c)
	}
	if c.String("trees") != "" || c.Bool("metres") {
		return nil, cli.Exit("--trees and --metres go with --from, the map of the lot", 2)
	}
	if c.Bool("ask") {
		ctx, stop := signal.NotifyContext(c.Context, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP) // the last as a closed window sends it
		defer stop()
		return askSite(untilStopped(ctx, c.App.Reader), c.App.Writer)
	}
	return sitefile.Starter(), nil
}

// absent refuses a name that is taken, before any question is asked.
func absent(name string) error {
	switch _, err := os.Lstat(name); {
	case err == nil:
		return taken(name)
	case errors.Is(err, fs.ErrNotExist):
		return nil
	default:
		return fmt.Errorf("cannot write %s: %w", name, reason(err))
	}
}

func taken(name string) error {
	return fmt.Errorf("%s is there already and is left as it is; choose another name", name)
}

// writeNew writes a file that must not exist. The text goes to a temporary
// name first and is then linked to its own name, which fails where the name
// was taken meanwhile; so nobody ever finds half a file or loses one.
func writeNew(name string, text []byte) error {
	f, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+"-*.tmp")
	if err != nil {
		return noRoomFor(name, err)
	}
	defer os.Remove(f.Name())
	_, err = f.Write(text)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, reason(err))
	}
	switch err := os.Link(f.Name(), name); {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return taken(name)
	}
	return writeExclusive(name, text) // a disk without links
}

func writeExclusive(name string, text []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return taken(name)
	}
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", name, reason(err))
	}
	_, err = f.Write(text)
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		os.Remove(name)
		return fmt.Errorf("cannot write %s: %w", name, reason(err))
	}
	return nil
}
