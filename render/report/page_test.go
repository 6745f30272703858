package report

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/southyard/southyard/render/ink"
)

func TestPageIsWholeAndNeedsNothingFromElsewhere(t *testing.T) {
	for name, r := range everyReport(t) {
		var page bytes.Buffer
		if err := r.HTML(&page, ink.Sheets()[0]); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		checkHTML(t, name, page.Bytes())
	}
}

func checkHTML(t *testing.T, name string, page []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(page))
	d.Entity = xml.HTMLEntity // the page is written as strictly as XML
	ids := map[string]bool{}
	var wanted []string
	style, scripts, tables := false, 0, 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%s: the page does not parse: %v", name, err)
		}
		switch x := token.(type) {
		case xml.StartElement:
			style = x.Name.Local == "style"
			switch x.Name.Local {
			case "script", "link", "iframe", "object", "embed":
				scripts++
			case "table":
				tables++
			}
			for _, a := range x.Attr {
				switch a.Name.Local {
				case "id":
					ids[a.Value] = true
				case "href":
					wanted = append(wanted, a.Value)
				case "src":
					if x.Name.Local != "img" || !strings.HasPrefix(a.Value, "data:image/jpeg;base64,") {
						t.Errorf("%s: %s fetches %.60q", name, x.Name.Local, a.Value)
					}
				case "srcset", "action", "onclick", "onload":
					t.Errorf("%s: %s has %s=%q", name, x.Name.Local, a.Name.Local, a.Value)
				}
			}
		case xml.CharData:
			if style && (bytes.Contains(x, []byte("url(")) || bytes.Contains(x, []byte("@import"))) {
				t.Errorf("%s: the style fetches something", name)
			}
		case xml.EndElement:
			style = false
		}
	}
	if scripts > 0 {
		t.Errorf("%s: %d elements that fetch or run something", name, scripts)
	}
	if tables == 0 {
		t.Errorf("%s: no table", name)
	}
	for _, ref := range wanted {
		if id, inside := strings.CutPrefix(ref, "#"); !inside || !ids[id] {
			t.Errorf("%s: reference %q leads nowhere in the page", name, ref)
		}
	}
}

func TestNamesCannotBreakThePage(t *testing.T) {
	all, err := awkward()
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if err := all["words that look like tags"].HTML(&page, ink.Sheets()[0]); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(page.String(), "<b>") || strings.Contains(page.String(), "</script>") {
		t.Error("a name of the site file became a tag")
	}
	if !strings.Contains(page.String(), "&lt;b&gt;") {
		t.Error("the name is not on the page")
	}
}

func TestPageIsSetForItsPaper(t *testing.T) {
	r := example(t)
	for _, paper := range ink.Sheets() {
		var page bytes.Buffer
		if err := r.HTML(&page, paper); err != nil {
			t.Fatal(err)
		}
		if want := "size: " + paper.Name + " portrait"; !strings.Contains(page.String(), want) {
			t.Errorf("no %q in the page's style", want)
		}
	}
}
