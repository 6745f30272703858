package ink

import (
	"bytes"
	"testing"
)

func TestAUsedPressGivesTheSameBytesAsANewOne(t *testing.T) {
	large, small := sample(), sample()
	small.Width, small.Height = 110, 60
	var used Press
	for _, f := range []Figure{large, small, large, small} {
		var a, b bytes.Buffer
		if err := used.WritePNG(&a, f, 200); err != nil {
			t.Fatal(err)
		}
		if err := WritePNG(&b, f, 200); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%g × %g pt: a used press gives other bytes", f.Width, f.Height)
		}
	}
}

func BenchmarkPNG(b *testing.B) {
	f := sample()
	f.Width, f.Height = 468, 400
	var p Press
	for b.Loop() {
		if err := p.WritePNG(&bytes.Buffer{}, f, 300); err != nil {
			b.Fatal(err)
		}
	}
}
