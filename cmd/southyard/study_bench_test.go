package main

import (
	"fmt"
	"path/filepath"
	"runtime"
	"testing"
)

// BenchmarkStudy is the whole "study" command with its tables and pictures, as a
// person runs it. MB-asked is the most memory asked from the system; run one
// alone to read it.
func BenchmarkStudy(b *testing.B) {
	lots := map[string]string{"alder-row": filepath.Join("..", "..", "examples", "alder-row", "site.yaml")}
	for _, trees := range []int{6, 24} {
		lots[fmt.Sprintf("reference-%d", trees)] = filepath.Join("..", "..", "testdata", fmt.Sprintf("reference-%03d.yaml", trees))
	}
	for name, lot := range lots {
		b.Run(name, func(b *testing.B) {
			out := filepath.Join(b.TempDir(), "out")
			for b.Loop() {
				if _, faults, code := typed("study", lot, "--out", out); code != 0 {
					b.Fatal(faults)
				}
			}
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			b.ReportMetric(float64(m.Sys)/1e6, "MB-asked")
		})
	}
}
