package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"go.yaml.in/yaml/v3"
)

func TestStoppableReaderGivesAllThatCameAndThenItsEnd(t *testing.T) {
	text := strings.Repeat("a line of an answer\n", 900) // longer than one read
	got, err := io.ReadAll(untilStopped(t.Context(), strings.NewReader(text)))
	if err != nil || string(got) != text {
		t.Errorf("%d of %d bytes, %v", len(got), len(text), err)
	}
	broken := errors.New("the terminal is gone")
	if _, err := io.ReadAll(untilStopped(t.Context(), io.MultiReader(strings.NewReader(text), failing{broken}))); !errors.Is(err, broken) {
		t.Errorf("a failure is not told: %v", err)
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// However many answers were given, they are there, and are YAML.
func TestAnswersGivenBeforeTheStopAreKept(t *testing.T) {
	whole, err := askSite(strings.NewReader(answers), &bytes.Buffer{})
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(answers, "\n")
	for n := 0; n < len(lines)-2; n += 5 {
		ctx, stop := context.WithCancel(t.Context())
		in, keys := io.Pipe()
		go func() {
			for _, line := range lines[:n] {
				if _, err := io.WriteString(keys, line); err != nil {
					return
				}
			}
			stop() // the last answer has been taken; nobody types any more
		}()
		text, err := askSite(untilStopped(ctx, in), &bytes.Buffer{})
		in.Close()
		if !errors.Is(err, errStopped) {
			t.Fatalf("after %d answers: %v", n, err)
		}
		given, _, _ := strings.Cut(string(text), "# The questions ended here")
		if !bytes.HasPrefix(whole, []byte(given)) || n > 3 && !strings.Contains(given, "Test: the lot") {
			t.Fatalf("after %d answers: %s", n, text)
		}
		if err := yaml.Unmarshal(text, new(yaml.Node)); err != nil {
			t.Fatalf("after %d answers the file does not read: %v\n%s", n, err, text)
		}
	}
}

// interview starts new --ask as a program of its own, answers, waits for the
// next question and sends a signal.
func interview(t *testing.T, name, answers, next string, s os.Signal) (said string, code int) {
	t.Helper()
	c, _ := program(t, "new", "--ask", name)
	var faults bytes.Buffer
	c.Stdout, c.Stderr = nil, &faults
	keys, err := c.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	defer keys.Close()
	screen, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Skip("no second process can be started:", err)
	}
	if _, err := io.WriteString(keys, answers); err != nil {
		t.Fatal(err)
	}
	var shown strings.Builder
	for r := bufio.NewReader(screen); !strings.Contains(shown.String(), next); {
		b, err := r.ReadByte()
		if err != nil {
			t.Fatalf("%q was not asked: %v\n%s", next, err, shown.String())
		}
		shown.WriteByte(b)
	}
	if err := c.Process.Signal(s); err != nil {
		t.Fatal(err)
	}
	rest, err := io.ReadAll(screen)
	if err != nil {
		t.Fatal(err)
	}
	var exit *exec.ExitError
	if err := c.Wait(); errors.As(err, &exit) {
		code = exit.ExitCode()
	} else if err != nil {
		t.Fatal(err)
	}
	return string(rest) + faults.String(), code
}

func TestInterruptedInterviewWritesWhatWasAnswered(t *testing.T) {
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		dir := t.TempDir()
		name := filepath.Join(dir, "lot.yaml")
		said, code := interview(t, name, "Stopped lot\nfeet\n41.5\n-83\n", "elevation above the sea: ", s)
		if code != 130 || !strings.Contains(said, "lot.yaml holds the answers given") || !strings.Contains(said, "southyard check "+name) {
			t.Errorf("%v: code %d: %s", s, code, said)
		}
		text, err := os.ReadFile(name)
		if want := "name: Stopped lot\nunits: feet\nplace:\n  latitude: 41.5\n  longitude: -83\n# The questions ended here"; err != nil || !strings.HasPrefix(string(text), want) {
			t.Errorf("%v: %v\n%s", s, err, text)
		}
		if left, _ := os.ReadDir(dir); len(left) != 1 {
			t.Errorf("%v: left behind: %v", s, left)
		}
	}
}

func TestInterviewStoppedBeforeAnAnswerWritesNothing(t *testing.T) {
	dir := t.TempDir()
	said, code := interview(t, filepath.Join(dir, "lot.yaml"), "", "name [My lot]: ", os.Interrupt)
	if code != 130 || !strings.Contains(said, "nothing was written") {
		t.Errorf("code %d: %s", code, said)
	}
	if left, _ := os.ReadDir(dir); len(left) != 0 {
		t.Errorf("left behind: %v", left)
	}
}
