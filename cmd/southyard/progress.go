package main

import (
	"fmt"
	"io"
	"os"
	"time"

	"golang.org/x/term"
)

// progress tells a person at a terminal what is being done once the work has
// taken more than a second. It is silent in a pipe.
type progress struct {
	out   io.Writer
	start time.Time
	shown bool
}

func newProgress() *progress {
	p := &progress{start: time.Now()}
	if term.IsTerminal(int(os.Stderr.Fd())) {
		p.out = os.Stderr
	}
	return p
}

func (p *progress) step(what string) {
	if p.out == nil || time.Since(p.start) < time.Second {
		return
	}
	fmt.Fprintf(p.out, "\r\033[K%s …", what)
	p.shown = true
}

func (p *progress) done() {
	if p.shown {
		fmt.Fprint(p.out, "\r\033[K")
	}
}
