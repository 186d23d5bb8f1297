package library

// A Paper is a size of paper, upright.
type Paper struct {
	Name          string
	Also          []string // other names
	Width, Height float64  // mm
	Source        string
}

// A Thickness is a rough thickness as lumber is sold.
type Thickness struct {
	Name   string  // as it is sold: 8/4
	Rough  float64 // mm
	S2S    float64 // mm, surfaced on two sides
	S1S    float64 // mm, surfaced on one side; 0 when not known
	Source string  // with how sure it is, where that needs saying
}

// Lumber is what thicknesses and lengths wood is sold in.
type Lumber struct {
	Thicknesses []Thickness
	Lengths     []float64 // mm
	Source      string
}

// LoadPapers reads a file of papers. The error is Mistakes.
func LoadPapers(file string, data []byte) ([]Paper, *Source, error) {
	v, err := open(file, data, "papers")
	if err != nil {
		return nil, nil, err
	}
	var papers []Paper
	v.mapping("file of papers", optional("kind", ignore), optional("units", ignore),
		required("papers", "a list, as in - {name: A4, width: 210mm, height: 297mm}", func(v value) {
			v.list(MaxElements, func(i int) string { return ordinal("paper", i) }, func(_ int, item value) {
				p := Paper{}
				item.mapping("paper",
					required("name", "A4", text(&p.Name)),
					optional("also", listOf(&p.Also, text)),
					required("width", "210mm", length(&p.Width, positive)),
					required("height", "297mm", length(&p.Height, positive)),
					optional("source", text(&p.Source)))
				papers = append(papers, p)
			})
		}))
	return papers, v.d.source, v.d.err()
}

// LoadLumber reads a file of lumber sizes. The error is Mistakes.
func LoadLumber(file string, data []byte) ([]Lumber, *Source, error) {
	v, err := open(file, data, "lumber")
	if err != nil {
		return nil, nil, err
	}
	var l Lumber
	v.mapping("file of lumber", optional("kind", ignore), optional("units", ignore),
		optional("source", text(&l.Source)),
		optional("thicknesses", func(v value) {
			v.list(MaxElements, func(i int) string { return ordinal("thickness", i) }, func(_ int, item value) {
				t := Thickness{}
				item.mapping("thickness",
					required("name", "8/4", text(&t.Name)),
					required("rough", "2in", length(&t.Rough, positive)),
					optional("s2s", length(&t.S2S, positive)),
					optional("s1s", length(&t.S1S, positive)),
					optional("mark", text(&t.Source)))
				l.Thicknesses = append(l.Thicknesses, t)
			})
		}),
		optional("lengths", func(v value) {
			v.list(MaxElements, func(i int) string { return ordinal("length", i) }, func(_ int, item value) {
				var mm float64
				length(&mm, positive)(item)
				l.Lengths = append(l.Lengths, mm)
			})
		}))
	for i, t := range l.Thicknesses {
		if t.Source == "" {
			l.Thicknesses[i].Source = l.Source
		}
	}
	return []Lumber{l}, v.d.source, v.d.err()
}

// found is an entry and where it was found.
type found[T any] struct {
	entry  T
	origin Origin
}

// collect returns the entries of all files of a kind, in the order in which places are looked in.
func collect[T any](l *Library, kind string, load func(string, []byte) ([]T, *Source, error)) ([]found[T], error) {
	var out []found[T]
	add := func(o Origin, data []byte) error {
		entries, _, err := load(o.File, data)
		for _, e := range entries {
			out = append(out, found[T]{e, o})
		}
		return err
	}
	for _, f := range l.folders {
		if f.where == Embedded {
			continue
		}
		for _, file := range f.yamlNames() {
			if data, err := readFile(f.fsys, file); err == nil && HeadOf(data).Kind == kind {
				if err := add(Origin{f.where, f.file(file)}, data); err != nil {
					return nil, err
				}
			}
		}
	}
	file := "data/" + kind + ".yaml"
	data, err := embedded.ReadFile(file)
	if err != nil {
		return nil, err
	}
	return out, add(Origin{Embedded, file}, data)
}

// Papers returns all sizes of paper, the project's before the user's before the embedded.
func (l *Library) Papers() ([]Paper, error) {
	all, err := collect(l, "papers", LoadPapers)
	return entries(all), err
}

// Lumber returns the thicknesses and lengths that wood is sold in: those of the project's or the user's own files if
// they have any, else the embedded.
func (l *Library) Lumber() (Lumber, error) {
	all, err := collect(l, "lumber", LoadLumber)
	if err != nil {
		return Lumber{}, err
	}
	return all[0].entry, nil // the embedded one is always there
}

func entries[T any](all []found[T]) []T {
	out := make([]T, len(all))
	for i, f := range all {
		out[i] = f.entry
	}
	return out
}
