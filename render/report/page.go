package report

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"

	"github.com/southyard/southyard/render/ink"
)

//go:embed page.html
var pageText string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// What the template reads: every block as one of these, named by Kind.
type shownBlock struct {
	Kind  string
	Text  string
	Items []string
	Table *shownTable
	SVG   template.HTML

	Photos []shownPhoto
}

type shownPhoto struct {
	Caption string
	Source  template.URL // the picture itself
}

type shownTable struct {
	Small bool
	Tight bool
	Heads []column
	Rows  []shownRow
}

type shownRow struct {
	Strong bool
	Cells  []shownCell
}

type shownCell struct {
	Text  string
	Words bool
	First bool
}

type shownSection struct {
	Name, Title string
	Own         bool
	Blocks      []shownBlock
}

// HTML writes the report as a web page in one file: no script, nothing from
// elsewhere, pictures inside. The paper's size is for whoever prints it.
func (r Report) HTML(w io.Writer, paper ink.Sheet) error {
	view := struct {
		Title, Where, Paper string
		Sections            []shownSection
	}{Title: r.title(), Where: r.where(), Paper: paper.Name}
	for _, s := range r.sections() {
		out := shownSection{Name: s.Name, Title: s.Title, Own: s.Own}
		for _, b := range s.Blocks {
			shown, err := show(b)
			if err != nil {
				return fmt.Errorf("report, %s: %w", s.Title, err)
			}
			out.Blocks = append(out.Blocks, shown)
		}
		view.Sections = append(view.Sections, out)
	}
	var page bytes.Buffer // so that a fault leaves nothing half-written
	if err := pageTemplate.Execute(&page, view); err != nil {
		return fmt.Errorf("report: %w", err)
	}
	_, err := page.WriteTo(w)
	return err
}

func show(b block) (shownBlock, error) {
	switch b := b.(type) {
	case lead:
		return shownBlock{Kind: "lead", Text: string(b)}, nil
	case subtitle:
		return shownBlock{Kind: "subtitle", Text: string(b)}, nil
	case paragraph:
		return shownBlock{Kind: "paragraph", Text: string(b)}, nil
	case note:
		return shownBlock{Kind: "note", Text: string(b)}, nil
	case list:
		return shownBlock{Kind: "list", Items: b}, nil
	case fine:
		return shownBlock{Kind: "fine", Items: b}, nil
	case blanks:
		return shownBlock{Kind: "blanks", Items: b}, nil
	case listing:
		return shownBlock{Kind: "listing", Items: b}, nil
	case picture:
		var svg bytes.Buffer
		if err := ink.WriteSVG(&svg, b.Figure); err != nil {
			return shownBlock{}, err
		}
		return shownBlock{Kind: "picture", Text: b.Title, SVG: template.HTML(svg.String())}, nil // our own drawing; its words are escaped there
	case gallery:
		out := shownBlock{Kind: "gallery"}
		for _, p := range b {
			out.Photos = append(out.Photos, shownPhoto{p.Caption, template.URL("data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(p.JPEG))}) // our own encoding of it
		}
		return out, nil
	case *table:
		return shownBlock{Kind: "table", Table: showTable(b)}, nil
	}
	return shownBlock{}, fmt.Errorf("no way to write a %T on a web page", b)
}

func showTable(t *table) *shownTable {
	out := &shownTable{Small: t.Small, Tight: t.Tight, Heads: t.Columns}
	for i, row := range t.Rows {
		shown := shownRow{Strong: t.Strong[i]}
		for j, text := range row {
			shown.Cells = append(shown.Cells, shownCell{Text: text, Words: t.Columns[j].Words, First: j == 0})
		}
		out.Rows = append(out.Rows, shown)
	}
	return out
}
