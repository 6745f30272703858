package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// asProgram turns the test's own binary into southyard; its words are
// separated by line ends.
const asProgram = "SOUTHYARD_TEST_WORDS"

func TestProgram(t *testing.T) {
	words := os.Getenv(asProgram)
	if words == "" {
		t.Skip("only run by the tests of stopped runs")
	}
	os.Args = append([]string{"southyard"}, strings.Split(words, "\n")...)
	main()
	os.Exit(0)
}

func program(t *testing.T, words ...string) (*exec.Cmd, *bytes.Buffer) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Skip("the test cannot find itself:", err)
	}
	c := exec.Command(self, "-test.run=^TestProgram$")
	c.Env = append(os.Environ(), asProgram+"="+strings.Join(words, "\n"))
	var out bytes.Buffer
	c.Stdout, c.Stderr = &out, &out
	return c, &out
}

// records counts the finished lots in a folder.
func records(out string) int {
	found, _ := filepath.Glob(filepath.Join(out, recordsFolder, "*.json"))
	return len(found)
}

// stopAfter starts a run over lots, sends a signal once some are finished and
// waits for the end.
func stopAfter(t *testing.T, in, out string, finished int, s os.Signal) (said string, err error) {
	t.Helper()
	c, text := program(t, "lots", in, "--out", out)
	if err := c.Start(); err != nil {
		t.Skip("no second process can be started:", err)
	}
	for records(out) < finished && c.ProcessState == nil {
		time.Sleep(2 * time.Millisecond)
	}
	if err := c.Process.Signal(s); err != nil {
		t.Fatal(err)
	}
	err = c.Wait()
	return text.String(), err
}

func TestKilledRunGoesOnToTheSameBytes(t *testing.T) {
	dir := t.TempDir()
	in, out, whole := filepath.Join(dir, "in"), filepath.Join(dir, "out"), filepath.Join(dir, "whole")
	writeLots(t, in, 16)
	if c, text := program(t, "lots", in, "--out", whole); c.Run() != nil {
		t.Fatal(text)
	}
	want := folder(t, whole)
	for _, after := range []int{1, 5} {
		if _, err := stopAfter(t, in, out, after, os.Kill); err == nil {
			t.Skip("the run was over before it could be killed")
		}
		for name, text := range folder(t, out) { // what stands is whole
			if want[name] != text { // on a busy machine the kill may come as late as the sheet
				t.Errorf("a killed run left a broken %s", name)
			}
		}
	}
	done := records(out)
	if c, text := program(t, "lots", in, "--out", out); c.Run() != nil {
		t.Fatal(text)
	}
	t.Logf("%d of 16 lots were finished when it was killed", done)
	sameFiles(t, folder(t, out), want)
}

func TestInterruptedRunFinishesItsLotAndSaysHowToGoOn(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in"), filepath.Join(dir, "out")
	writeLots(t, in, 40)
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM} { // the second as batch schedulers send it
		before := records(out)
		said, err := stopAfter(t, in, out, before+2, s)
		var exit *exec.ExitError
		if err == nil {
			t.Skip("the run was over before it could be interrupted")
		}
		if !errors.As(err, &exit) || exit.ExitCode() != 130 || !strings.Contains(said, "same command again") {
			t.Errorf("%v: %v, %s", s, err, said)
		}
		for name := range folder(t, out) {
			if !strings.HasPrefix(name, recordsFolder) {
				t.Errorf("an interrupted run left %s", name)
			}
		}
		left, _ := filepath.Glob(filepath.Join(out, recordsFolder, ".*"))
		if len(left) > 0 {
			t.Errorf("an interrupted run left %v", left)
		}
	}
}

// studyLot writes a lot to be studied alone.
func studyLot(t *testing.T, dir string) string {
	t.Helper()
	path := filepath.Join(dir, "lot.yaml")
	if err := os.WriteFile(path, []byte(tinyLot(1)), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestSameLotGivesTheSameBytes(t *testing.T) {
	dir := t.TempDir()
	lot := studyLot(t, dir)
	a, b := filepath.Join(dir, "a"), filepath.Join(dir, "b")
	outA, faults, code := typed("study", lot, "--out", a, "--hours", "--no-pictures", "--draws", "9")
	if code != 0 {
		t.Fatal(faults)
	}
	outB, _, _ := typed("study", lot, "--out", b, "--hours", "--no-pictures", "--draws", "9")
	if strings.ReplaceAll(outA, a, b) != outB {
		t.Error("two runs say different things")
	}
	want := folder(t, a)
	if len(want["results.json"]) < 100 || len(want["hours.csv"]) < 1000 {
		t.Error("files are missing")
	}
	sameFiles(t, folder(t, b), want)
}

// A writer that fails half-way leaves neither the file nor a piece of it, and
// an earlier file stands as it was.
func TestFileThatCannotBeWrittenWholeIsNotWritten(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "sheet.csv")
	half := func(w io.Writer) error {
		io.WriteString(w, "first half")
		return syscall.ENOSPC
	}
	for _, before := range []string{"", "the earlier sheet"} {
		if before != "" {
			os.WriteFile(path, []byte(before), 0o644)
		}
		if err := writeWhole(path, half); !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "sheet.csv") {
			t.Errorf("%v", err)
		}
		text, _ := os.ReadFile(path)
		entries, _ := os.ReadDir(dir)
		if string(text) != before || len(entries) != min(1, len(before)) {
			t.Errorf("%q and %d files are there", text, len(entries))
		}
	}
}

func TestStudyThatWasKilledMayBeRunAgainIntoItsFolder(t *testing.T) {
	dir := t.TempDir()
	lot := studyLot(t, dir)
	out := filepath.Join(dir, "out")
	if _, faults, code := typed("study", lot, "--out", out, "--no-pictures", "--draws", "9"); code != 0 {
		t.Fatal(faults)
	}
	want := folder(t, out)
	os.Remove(filepath.Join(out, "results.json"))
	os.WriteFile(filepath.Join(out, ".access.csv-1.tmp"), []byte("half"), 0o600)
	if _, faults, code := typed("study", lot, "--out", out, "--no-pictures", "--draws", "9"); code != 0 {
		t.Fatal(faults)
	}
	sameFiles(t, folder(t, out), want)
	mine := filepath.Join(dir, "mine")
	os.Mkdir(mine, 0o755)
	os.WriteFile(filepath.Join(mine, "trees.csv"), []byte("kind,where\noak,front\n"), 0o644)
	if _, faults, code := typed("study", lot, "--out", mine, "--no-pictures", "--draws", "9"); code != 1 || !strings.Contains(faults, "other things") {
		t.Errorf("somebody's own list of trees was taken for a study: %s", faults)
	}
}

// A picture of a plan that the site file no longer has would be taken for the
// lot's as it is now.
func TestWhatAnEarlierStudyLeftInTheFolderIsTold(t *testing.T) {
	dir := t.TempDir()
	lot := studyLot(t, dir)
	out := filepath.Join(dir, "out")
	said, faults, code := typed("study", lot, "--out", out, "--no-pictures", "--draws", "0", "--hours")
	if code != 0 || strings.Contains(said, "not of this run") {
		t.Fatal(said, faults)
	}
	os.WriteFile(filepath.Join(out, "plan-2-given-up-south.png"), []byte("old"), 0o644)
	said, _, _ = typed("study", lot, "--out", out, "--no-pictures", "--draws", "0")
	if !strings.Contains(said, "not of this run: access_hours.csv, hours.csv, plan-2-given-up-south.png. Delete") {
		t.Error(said)
	}
	if _, err := os.Stat(filepath.Join(out, "plan-2-given-up-south.png")); err != nil {
		t.Error("it is told, not taken away:", err)
	}
}

// What is written lies under its own name; a folder of that name is in the way.
func TestNameThatIsTakenByAFolderIsSaid(t *testing.T) {
	dir := t.TempDir()
	os.MkdirAll(filepath.Join(dir, "sheet.csv", "in the way"), 0o755)
	err := writeWhole(filepath.Join(dir, "sheet.csv"), func(w io.Writer) error { _, err := io.WriteString(w, "all"); return err })
	if err == nil || !strings.Contains(err.Error(), "sheet.csv") || strings.Contains(err.Error(), ".tmp") {
		t.Errorf("%v", err)
	}
	if entries, _ := os.ReadDir(dir); len(entries) != 1 {
		t.Error("a piece was left")
	}
}
