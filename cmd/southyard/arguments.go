package main

import (
	"strings"

	"github.com/urfave/cli/v2"
)

// flagsFirst puts a command's flags before its other words, as the flag
// reader wants them, so that people may write them in any order; a word that
// begins with a minus and a digit (-38.0,145.0) is a word, not a flag.
// args[0] is the program, args[1] the command.
func flagsFirst(args []string, commands []*cli.Command) []string {
	if len(args) < 3 {
		return args
	}
	for _, c := range commands {
		if c.HasName(args[1]) {
			flags, words := sortWords(args[2:], c.Flags)
			out := append(append([]string{}, args[:2]...), flags...)
			if len(words) > 0 {
				out = append(append(out, "--"), words...)
			}
			return out
		}
	}
	return args
}

func sortWords(args []string, known []cli.Flag) (flags, words []string) {
	for i := 0; i < len(args); i++ {
		a := args[i]
		switch {
		case a == "--":
			return flags, append(words, args[i+1:]...)
		case a == "--help" || a == "-help" || a == "-h": // wherever it stands: a word beside it would be taken for a topic
			return []string{"--help"}, nil
		case len(a) < 2 || a[0] != '-' || strings.ContainsRune("0123456789.", rune(a[1])):
			words = append(words, a)
		default:
			flags = append(flags, a)
			if !strings.Contains(a, "=") && takesValue(a, known) {
				if i++; i == len(args) {
					return flags, nil // the flag reader then finds its value missing, not a word in its place
				}
				flags = append(flags, args[i])
			}
		}
	}
	return flags, words
}

func takesValue(word string, known []cli.Flag) bool {
	name := strings.TrimLeft(word, "-")
	for _, f := range known {
		for _, n := range f.Names() {
			if n == name {
				_, isSwitch := f.(*cli.BoolFlag)
				return !isSwitch
			}
		}
	}
	return false
}
