package lots

import (
	"strings"
	"testing"
)

func TestEveryItemIsInExactlyOnePart(t *testing.T) {
	for _, n := range []int{1, 2, 3, 7, 16} {
		sizes := make([]int, n)
		for item := range 100 {
			in := 0
			for i := 1; i <= n; i++ {
				if (Part{i, n}).Has(item) {
					in++
					sizes[i-1]++
				}
			}
			if in != 1 {
				t.Fatalf("item %d is in %d of %d parts", item, in, n)
			}
		}
		for i, size := range sizes {
			if size < 100/n || size > 100/n+1 {
				t.Errorf("part %d of %d has %d of 100 items", i+1, n, size)
			}
		}
	}
}

func TestPartsAreReadAndNamed(t *testing.T) {
	p, err := ParsePart(" 3/16 ")
	if err != nil || p != (Part{3, 16}) || p.Name() != "part-03-of-16" {
		t.Errorf("%v %v %s", p, err, p.Name())
	}
	for _, bad := range []string{"", "3", "0/4", "5/4", "-1/4", "1/0", "a/b", "1/2/3", "1/999999999", "99999999999999999999/2"} {
		if p, err := ParsePart(bad); err == nil {
			t.Errorf("%q was read as %v", bad, p)
		}
	}
}

// The variables are those of the Slurm manual (sbatch, job array support:
// indexes such as 0-31, 1-7:2 and 1,3,5,7) and of the Kubernetes documentation
// of Indexed Jobs (completions numbered from 0).
func TestArrayJobsSayWhichPart(t *testing.T) {
	slurm := func(id, least, most, step, count string) map[string]string {
		return map[string]string{"SLURM_ARRAY_TASK_ID": id, "SLURM_ARRAY_TASK_MIN": least, "SLURM_ARRAY_TASK_MAX": most, "SLURM_ARRAY_TASK_STEP": step, "SLURM_ARRAY_TASK_COUNT": count}
	}
	for _, c := range []struct {
		name      string
		variables map[string]string
		parts     int
		want      Part
		fault     string
	}{
		{"slurm 0-31, first", slurm("0", "0", "31", "1", "32"), 0, Part{1, 32}, ""},
		{"slurm 0-31, last", slurm("31", "0", "31", "1", "32"), 0, Part{32, 32}, ""},
		{"slurm 1-7:2", slurm("5", "1", "7", "2", "4"), 0, Part{3, 4}, ""},
		{"slurm without max and step", slurm("4", "1", "", "", "16"), 0, Part{4, 16}, ""},
		{"slurm 1,3,5,7 as it may be told, with step 1", slurm("5", "1", "7", "1", "4"), 0, Part{}, "gaps"},
		{"slurm 3,7 sent again of 16", slurm("7", "3", "7", "1", "2"), 16, Part{7, 16}, ""},
		{"slurm from 0 with parts", slurm("0", "0", "15", "1", "16"), 16, Part{}, "--array=1-16"},
		{"slurm past the parts", slurm("17", "1", "17", "1", "17"), 16, Part{}, "--array=1-16"},
		{"slurm without count", slurm("3", "1", "", "", ""), 0, Part{}, "--parts"},
		{"slurm id outside its range", slurm("9", "1", "4", "1", "4"), 0, Part{}, "gaps"},
		{"slurm nonsense", slurm("x", "1", "4", "1", "4"), 0, Part{}, "no task number"},
		{"kubernetes, first of 8", map[string]string{"JOB_COMPLETION_INDEX": "0"}, 8, Part{1, 8}, ""},
		{"kubernetes, last of 8", map[string]string{"JOB_COMPLETION_INDEX": "7"}, 8, Part{8, 8}, ""},
		{"kubernetes past the parts", map[string]string{"JOB_COMPLETION_INDEX": "8"}, 8, Part{}, "completions"},
		{"kubernetes without parts", map[string]string{"JOB_COMPLETION_INDEX": "3"}, 0, Part{}, "--parts"},
		{"no array job", nil, 8, Part{}, "no array job"},
		{"parts below nothing", map[string]string{"JOB_COMPLETION_INDEX": "0"}, -2, Part{}, "--parts"},
	} {
		got, err := ArrayPart(func(name string) string { return c.variables[name] }, c.parts)
		if c.fault == "" && (err != nil || got != c.want) {
			t.Errorf("%s: %v, %v; want %v", c.name, got, err, c.want)
		}
		if c.fault != "" && (err == nil || !strings.Contains(err.Error(), c.fault)) {
			t.Errorf("%s: %v, %v; want a fault about %s", c.name, got, err, c.fault)
		}
	}
}

func FuzzParsePart(f *testing.F) {
	for _, s := range []string{"3/16", "1/1", "0/0", "-1/2", "1/", "/"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if p, err := ParsePart(text); err == nil && (p.I < 1 || p.I > p.N || p.N > mostParts) {
			t.Errorf("%q gives %v", text, p)
		}
	})
}
