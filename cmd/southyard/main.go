// Command southyard tells a builder how much sun a lot gets, what stands in
// the way, and what each tree's removal would give.
package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/urfave/cli/v2"
)

func main() {
	err := run(os.Args)
	if err == nil {
		return
	}
	fmt.Fprintln(os.Stderr, "southyard:", err)
	var coded cli.ExitCoder
	if errors.As(err, &coded) {
		os.Exit(coded.ExitCode())
	}
	os.Exit(1)
}
