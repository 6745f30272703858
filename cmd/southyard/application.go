package main

import (
	"fmt"

	"github.com/urfave/cli/v2"
)

// application lists the commands; each has a file of its own.
func application() *cli.App {
	return &cli.App{
		Name:  "southyard",
		Usage: "how much sun a house gets, which trees stand in the way, and what each removal gives",
		Description: "Measure a lot with tape, compass and clinometer, write it into a site file, and ask:\n\n" +
			"   southyard new lot.yaml                     start a site file\n" +
			"   southyard check lot.yaml                   what was understood, and every fault\n" +
			"   southyard study lot.yaml --out lot-study   the answer, with tables and pictures",
		Commands:       commands(),
		Action:         noSuchCommand,
		Suggest:        true,
		ExitErrHandler: func(*cli.Context, error) {}, // main prints
	}
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

func run(args []string) error {
	app := application()
	for _, c := range app.Commands {
		c.OnUsageError = wrongUse
	}
	return app.Run(flagsFirst(args, app.Commands))
}

// wrongUse answers a flag the command does not have, or a value it cannot read.
func wrongUse(c *cli.Context, err error, _ bool) error {
	return cli.Exit(fmt.Sprintf("%s: %v; southyard %s --help shows what it takes", c.Command.Name, err, c.Command.Name), 2)
}

// noSuchCommand answers what is no command: help to nothing at all, the
// nearest command to a wrong one.
func noSuchCommand(c *cli.Context) error {
	if c.NArg() == 0 {
		return cli.ShowAppHelp(c)
	}
	wrong := c.Args().First()
	return cli.Exit(fmt.Sprintf("there is no command %q. %s southyard --help lists them all", wrong, cli.SuggestCommand(c.App.Commands, wrong)), 2)
}
