package lots

import (
	"fmt"
	"strconv"
	"strings"
)

// Part is one of N equal parts of a list, numbered from 1.
type Part struct {
	I int `json:"part"`
	N int `json:"of"`
}

// Whole is a list that is not split.
var Whole = Part{1, 1}

const mostParts = 100_000

// Has tells whether the part holds the list's item number i, from 0. Items go
// to the parts in turn, so that every part gets its share of each street.
func (p Part) Has(i int) bool { return i%p.N == p.I-1 }

// Name of the part in a file's name: part-03-of-16.
func (p Part) Name() string {
	width := len(strconv.Itoa(p.N))
	return fmt.Sprintf("part-%0*d-of-%d", width, p.I, p.N)
}

func (p Part) check() error {
	if p.N < 1 || p.N > mostParts || p.I < 1 || p.I > p.N {
		return fmt.Errorf("part %d of %d: parts are numbered from 1 to their number, as in 3/16", p.I, p.N)
	}
	return nil
}

// ParsePart reads 3/16.
func ParsePart(text string) (Part, error) {
	a, b, _ := strings.Cut(text, "/")
	i, err1 := strconv.Atoi(strings.TrimSpace(a))
	n, err2 := strconv.Atoi(strings.TrimSpace(b))
	if err1 != nil || err2 != nil {
		return Part{}, fmt.Errorf("part %q: write which part of how many, as in 3/16, or \"array\" inside an array job", text)
	}
	p := Part{i, n}
	return p, p.check()
}

// ArrayPart reads the part from the variables a batch scheduler sets for the
// tasks of an array job; parts is their number where the command line says it,
// else 0.
//
// Slurm (sbatch manual, "OUTPUT ENVIRONMENT VARIABLES"): SLURM_ARRAY_TASK_ID
// with _MIN, _MAX, _STEP and _COUNT. Where parts is given the id itself is the
// part's number from 1, so that single tasks may be sent again.
//
// Kubernetes Indexed Job (Job documentation, "Completion mode"):
// JOB_COMPLETION_INDEX from 0; it does not tell the number of parts.
func ArrayPart(variable func(string) string, parts int) (Part, error) {
	if parts < 0 || parts > mostParts {
		return Part{}, fmt.Errorf("--parts %d: a list is split into 1 to %d parts", parts, mostParts)
	}
	if text := variable("SLURM_ARRAY_TASK_ID"); text != "" {
		return slurmPart(variable, parts)
	}
	text := variable("JOB_COMPLETION_INDEX")
	if text == "" {
		return Part{}, fmt.Errorf("no array job here: neither SLURM_ARRAY_TASK_ID nor JOB_COMPLETION_INDEX is set; name the part yourself, as in --part 3/16")
	}
	index, err := number("JOB_COMPLETION_INDEX", text)
	if err != nil {
		return Part{}, err
	}
	if parts == 0 {
		return Part{}, fmt.Errorf("JOB_COMPLETION_INDEX is %d, of how many is not said: add --parts with the job's completions", index)
	}
	if index >= parts {
		return Part{}, fmt.Errorf("JOB_COMPLETION_INDEX is %d but --parts says %d: the indexes run from 0 to %d; make --parts the job's completions", index, parts, parts-1)
	}
	return Part{index + 1, parts}, nil
}

func slurmPart(variable func(string) string, parts int) (Part, error) {
	value := map[string]int{}
	for _, name := range []string{"ID", "MIN", "MAX", "STEP", "COUNT"} {
		full := "SLURM_ARRAY_TASK_" + name
		text := variable(full)
		if text == "" && name != "ID" {
			continue
		}
		x, err := number(full, text)
		if err != nil {
			return Part{}, err
		}
		value[name] = x
	}
	id := value["ID"]
	if parts > 0 {
		if id < 1 || id > parts {
			return Part{}, fmt.Errorf("SLURM_ARRAY_TASK_ID is %d but --parts says %d: number the array from 1, as in --array=1-%d", id, parts, parts)
		}
		return Part{id, parts}, nil
	}
	step := max(1, value["STEP"])
	least, known := value["MIN"]
	count := value["COUNT"]
	if !known || count < 1 {
		return Part{}, fmt.Errorf("SLURM_ARRAY_TASK_MIN and SLURM_ARRAY_TASK_COUNT are not set beside SLURM_ARRAY_TASK_ID: say --parts with the number of tasks and number the array from 1")
	}
	if most, ok := value["MAX"]; ok && (most-least)/step+1 != count || (id-least)%step != 0 || (id-least)/step >= count || id < least {
		return Part{}, fmt.Errorf("the array's task numbers have gaps (%d tasks from %d): say --parts with the number of parts and number the array from 1", count, least)
	}
	p := Part{(id-least)/step + 1, count}
	return p, p.check()
}

func number(name, text string) (int, error) {
	x, err := strconv.Atoi(text)
	if err != nil || x < 0 || x > 1<<30 {
		return 0, fmt.Errorf("%s is %q, which is no task number", name, text)
	}
	return x, nil
}
