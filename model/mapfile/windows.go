package mapfile

// windows writes the windows a map of southyard's own carries; other maps
// have none.
func (m *mapping) windows(w *page) {
	var rows []properties
	var where []string
	for _, p := range m.house.parts {
		for _, row := range rowsOf(p.f, "windows") {
			rows = append(rows, row)
			where = append(where, p.f.where())
		}
	}
	if len(rows) == 0 {
		w.line("  # windows:   # TO BE MEASURED: wall, left (from the wall's left end, seen from outside), sill, width, height")
		w.line("  #   - {id: W1, wall: south, left: 3 ft, sill: 2 ft 6 in, width: 32 in, height: 60 in, glazing: single}")
		w.missing("the windows")
		return
	}
	w.line("  windows:")
	for i, row := range rows {
		id := row.text("id")
		if id == "" {
			id = m.freeID("W")
		} else {
			m.claim(id, where[i])
		}
		w.line("    - id: %s", text(id))
		w.line("      wall: %s", text(row.text("wall")))
		for _, s := range []struct {
			key         string
			least, most float64
		}{{"left", 0, 300}, {"sill", 0, 60}, {"width", 0.1, 15}, {"height", 0.1, 15}, {"reveal", 0, 1}} {
			if v, ok := row.get(s.key); ok {
				if x, err := v.length(s.least, s.most); err == nil {
					w.line("      %s: %s", s.key, w.length(x))
				} else {
					m.fault(where[i], "windows[%s]: %v", short(id), err)
				}
			}
		}
		if g := row.text("glazing"); g != "" {
			w.line("      glazing: %s", text(g))
		}
		if v, ok := row.get("frame"); ok {
			if share, err := v.share(); err == nil {
				w.line("      frame: %s", number(share, 4))
			}
		}
	}
}
