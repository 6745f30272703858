package main

import (
	"context"
	"errors"
	"io"
)

// errStopped ends a read that was waiting when the run was stopped by hand.
var errStopped = errors.New("stopped")

// stoppable is a reader whose reads end with errStopped once ctx is done, even
// one that waits for a person to type.
type stoppable struct {
	ctx context.Context
	got <-chan chunk
	now chunk // what is left of the last read
}

type chunk struct {
	text []byte
	err  error
}

// untilStopped reads from in until ctx is done. The read under way then stays
// behind; it takes no more than one line, of nobody's.
func untilStopped(ctx context.Context, in io.Reader) io.Reader {
	got := make(chan chunk)
	go func() {
		for {
			text := make([]byte, 4096)
			n, err := in.Read(text)
			select {
			case got <- chunk{text[:n], err}:
			case <-ctx.Done():
				return
			}
			if err != nil {
				return
			}
		}
	}()
	return &stoppable{ctx: ctx, got: got}
}

func (s *stoppable) Read(p []byte) (int, error) {
	for len(s.now.text) == 0 {
		if s.now.err != nil {
			return 0, s.now.err
		}
		select {
		case <-s.ctx.Done():
			s.now.err = errStopped
		case s.now = <-s.got:
		}
	}
	n := copy(p, s.now.text)
	s.now.text = s.now.text[n:]
	return n, nil
}
