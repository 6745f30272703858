package main

import (
	"fmt"

	"github.com/urfave/cli/v2"
)

const (
	usualDraws = 60
	mostDraws  = 5000
)

// decideFlags are those of the commands that weigh the whole decision.
func decideFlags() []cli.Flag {
	return append(computeFlags(),
		&cli.IntFlag{Name: "draws", Value: usualDraws, Usage: "`N` trials with the errors of measuring, for how sure the answer is; 0 for none"})
}

// decides tells whether a command weighs the whole decision.
func decides(c *cli.Command) bool {
	for _, f := range c.Flags {
		for _, name := range f.Names() {
			if name == "draws" {
				return true
			}
		}
	}
	return false
}

func checkDraws(n int) error {
	if n != 0 && (n < 9 || n > mostDraws) {
		return cli.Exit(fmt.Sprintf("--draws %d gives no range; write 0 for none, or 9 to %d (%d is usual, 200 steadier)", n, mostDraws, usualDraws), 2)
	}
	return nil
}
