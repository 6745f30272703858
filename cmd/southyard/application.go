package main

import (
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"

	"github.com/urfave/cli/v2"
)

// application lists the commands; each has a file of its own.
func application() *cli.App {
	app := &cli.App{
		Name:  "southyard",
		Usage: "how much sun a house gets, which trees stand in the way, and what each removal gives",
		Description: "Measure a lot with tape, compass and clinometer, write it into a site file, and ask:\n\n" +
			"   southyard new lot.yaml                     start a site file\n" +
			"   southyard check lot.yaml                   what was understood, and every fault\n" +
			"   southyard study lot.yaml --out lot-study   the answer, with tables and pictures\n\n" +
			"Ends with 0 when all went well, with 1 where a file, a place or the disk is at fault, with 2\n" +
			"where the command line cannot be understood, with 130 when it was stopped by hand.",
		Commands:       commands(),
		Action:         noSuchCommand,
		Suggest:        true,
		OnUsageError:   wrongUse,
		ExitErrHandler: func(*cli.Context, error) {}, // main prints
	}
	for _, c := range app.Commands {
		c.OnUsageError = wrongUse
		for _, f := range c.Flags {
			if yes, ok := f.(*cli.BoolFlag); ok {
				yes.DisableDefaultText = true // no is what a switch means that is not there
			}
		}
	}
	return app
}

func commands() []*cli.Command {
	return []*cli.Command{
		newCommand(),
		checkCommand(),
		studyCommand(),
		pageCommand(),
		treesCommand(),
		plansCommand(),
		reportCommand(),
		sheetCommand(),
		crewCommand(),
		heatCommand(),
		lotsCommand(),
		exportCommand(),
		climateCommand(),
		sunCommand(),
	}
}

func run(args []string) error { return runTo(os.Stdout, args) }

// runTo runs a command line. Whatever the command, print that does not reach
// its end, as on a full disk, is a fault.
func runTo(out io.Writer, args []string) error {
	app := application()
	to := &watched{to: out}
	app.Writer = to
	err := app.Run(flagsFirst(args, app.Commands))
	if to.failed != nil {
		return fmt.Errorf("cannot print: %w", reason(to.failed))
	}
	return err
}

// watched is a writer that remembers its first failure.
type watched struct {
	to     io.Writer
	failed error
}

func (w *watched) Write(p []byte) (int, error) {
	n, err := w.to.Write(p)
	if w.failed == nil {
		w.failed = err
	}
	return n, err
}

// wrongUse answers a flag the command does not have, or a value it cannot read.
func wrongUse(c *cli.Context, err error, _ bool) error {
	name := "southyard"
	if c.Command.Name != "" && c.Command.Name != c.App.Name {
		name += " " + c.Command.Name
	}
	return cli.Exit(fmt.Sprintf("%s; %s --help shows what it takes", plainUse(err.Error()), name), 2)
}

// plainUse says in plain words what the reader of flags says in its own.
func plainUse(text string) string {
	if name, cut := strings.CutPrefix(text, "flag provided but not defined: -"); cut {
		return "there is no flag --" + strings.TrimLeft(name, "-")
	}
	if name, cut := strings.CutPrefix(text, "flag needs an argument: -"); cut {
		return "--" + strings.TrimLeft(name, "-") + " wants a value behind it"
	}
	if m := wrongValue.FindStringSubmatch(text); m != nil {
		return fmt.Sprintf("--%s cannot be %s", m[2], m[1])
	}
	return text
}

var wrongValue = regexp.MustCompile(`^invalid (?:boolean )?value (".*") for (?:flag )?-+([\w-]+):`)

// noSuchCommand answers what is no command: help to nothing at all, the
// nearest command to a wrong one.
func noSuchCommand(c *cli.Context) error {
	if c.NArg() == 0 {
		return cli.ShowAppHelp(c)
	}
	wrong := c.Args().First()
	return cli.Exit(fmt.Sprintf("there is no command %q. %s southyard --help lists them all", wrong, cli.SuggestCommand(c.App.Commands, wrong)), 2)
}
