package scraper

// Without returns the plan without the blades for which drop holds: those that are left are marked anew, from A on, and nothing speaks of the others.
func (p Plan) Without(drop func(Blade) bool) Plan {
	marks := map[string]string{}
	var blades []Blade
	for _, b := range p.Blades {
		if drop(b) {
			continue
		}
		marks[b.Mark] = markOf(len(blades))
		b.Mark = marks[b.Mark]
		blades = append(blades, b)
	}
	for i := range blades {
		blades[i].Rubs = marked(blades[i].Rubs, marks)
	}
	p.Blades, p.Missed, p.Left = blades, marked(p.Missed, marks), marked(p.Left, marks)
	return p
}

// marked returns places with the blades that scrape them by their new marks.
func marked(places []Place, marks map[string]string) []Place {
	var out []Place
	for _, q := range places {
		var given []string
		for _, old := range q.Given {
			if mark := marks[old]; mark != "" {
				given = append(given, mark)
			}
		}
		q.Given = given
		out = append(out, q)
	}
	return out
}
