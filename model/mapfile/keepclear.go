package mapfile

// keepClear writes the patches of the house's walls and roof planes that a map
// of southyard's own carries. They are a property of the house and not features:
// what hangs on a wall has no place of its own on a plan.
func (m *mapping) keepClear(w *page) {
	if m.house == nil {
		return
	}
	first := true
	for _, p := range m.house.parts {
		where := p.f.where()
		for _, row := range rowsOf(p.f, "keep clear") {
			if first {
				w.line("keep clear:")
				first = false
			}
			id := row.text("id")
			if id == "" {
				id = m.freeID("clear ")
			} else {
				m.claim(id, where)
			}
			w.line("  - id: %s", text(id))
			if on := row.text("on"); on != "" {
				w.line("    on: %s", text(on))
			} else {
				w.line("    # on:   # TO BE SEEN: the wall or roof plane")
				w.missing("keep clear %s: on which wall or roof plane", id)
			}
			for _, s := range []struct {
				key         string
				least, most float64
				must        bool
			}{{"left", 0, 300, true}, {"up", 0, 300, true}, {"width", 0.005, 30, true}, {"height", 0.005, 30, true}, {"room", 0, 10, false}} {
				switch v, ok := row.get(s.key); {
				case ok:
					if x, err := v.length(s.least, s.most); err == nil {
						w.line("    %s: %s", s.key, w.length(x))
					} else {
						m.fault(where, "keep_clear[%s]: %v", short(id), err)
					}
				case s.must:
					w.line("    # %s:   # TO BE MEASURED", s.key)
					w.missing("keep clear %s: %s", id, s.key)
				}
			}
		}
	}
	if !first {
		w.line("")
	}
}

// rowsOf are the things a feature lists under one of its properties.
func rowsOf(f *feature, name string) []properties {
	var rows []properties
	list, _ := f.properties[name].raw.([]any)
	for _, item := range list {
		if o, ok := item.(map[string]any); ok {
			rows = append(rows, newProperties(o))
		}
	}
	return rows
}
