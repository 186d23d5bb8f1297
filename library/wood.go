package library

import (
	"slices"
	"strings"

	"listel/miter"
)

// A Wood is a species with what is known of how it moves.
type Wood struct {
	Name      string
	Also      []string   // other names
	Shrinkage *Shrinkage // nil when not known
	Change    *Change    // nil when not known
}

// Shrinkage is how much a wood shrinks from green to ovendry, in per cent of the green size.
type Shrinkage struct {
	Radial, Tangential, Volumetric float64
	Table                          string // where it was published
	Mark                           string // how sure it is: seen, from memory, ...
}

// Change is the part of its size by which a wood changes for each per cent of moisture content, between 6 and 14 per cent.
type Change struct {
	Radial, Tangential float64 // 1 / per cent
	Table              string  // where it was published
	Mark               string  // how sure it is
}

// source returns where the numbers of a wood come from.
func (w Wood) source() string {
	var out []string
	if w.Shrinkage != nil {
		out = append(out, "shrinkage: "+w.Shrinkage.Table+" ("+w.Shrinkage.Mark+")")
	}
	if w.Change != nil {
		out = append(out, "change: "+w.Change.Table+" ("+w.Change.Mark+")")
	}
	return strings.Join(out, "; ")
}

// named reports whether the wood goes by this name; capitals do not matter.
func (w Wood) named(name string) bool {
	return strings.EqualFold(w.Name, name) || slices.ContainsFunc(w.Also, func(a string) bool { return strings.EqualFold(a, name) })
}

// LoadWoods reads a file of woods. The error is Mistakes: all that is wrong, at once.
func LoadWoods(file string, data []byte) ([]Wood, *Source, error) {
	v, err := open(file, data, "woods")
	if err != nil {
		return nil, nil, err
	}
	var woods []Wood
	v.mapping("file of woods",
		optional("kind", ignore),
		required("woods", "a list, as in - {name: pear, change: {...}}", func(v value) {
			v.list(MaxElements, func(i int) string { return ordinal("wood", i) }, func(_ int, item value) {
				w := Wood{}
				item.mapping("wood",
					required("name", "black cherry", text(&w.Name)),
					optional("also", listOf(&w.Also, text)),
					optional("shrinkage", shrinkage(&w)),
					optional("change", change(&w)))
				woods = append(woods, w)
			})
		}))
	return woods, v.d.source, v.d.err()
}

func shrinkage(w *Wood) func(value) {
	return func(v value) {
		s := &Shrinkage{}
		w.Shrinkage = s
		v.mapping("shrinkage",
			required("radial", "3.7", number(&s.Radial, 0, 50)),
			required("tangential", "7.1", number(&s.Tangential, 0, 50)),
			optional("volumetric", number(&s.Volumetric, 0, 100)),
			required("table", "where the numbers were published", text(&s.Table)),
			required("mark", "how sure they are", text(&s.Mark)))
	}
}

func change(w *Wood) func(value) {
	return func(v value) {
		c := &Change{}
		w.Change = c
		v.mapping("change",
			required("radial", "0.00126", number(&c.Radial, 0, 0.02)),
			required("tangential", "0.00248", number(&c.Tangential, 0, 0.02)),
			required("table", "where the numbers were published", text(&c.Table)),
			required("mark", "how sure they are", text(&c.Mark)))
	}
}

// WoodSource returns the wood of this name, or of which it is another name, and where it was found. Capitals do not matter. The
// error is a *NotFoundError when there is none.
func (l *Library) WoodSource(name string) (Wood, Origin, error) {
	found, err := collect(l, "woods", LoadWoods)
	if err != nil {
		return Wood{}, Origin{}, err
	}
	var names []string
	for _, f := range found {
		if f.entry.named(name) {
			return f.entry, f.origin, nil
		}
		names = append(append(names, f.entry.Name), f.entry.Also...)
	}
	return Wood{}, Origin{}, &NotFoundError{"wood", name, nearWood(name, names)}
}

// nearWood returns the one of names that a wood most likely was meant to be: one spelled nearly so, or one that has a word of it, as cherrywood has cherry.
func nearWood(name string, names []string) string {
	if n := Near(name, names); n != "" {
		return n
	}
	const shortest = 3 // letters of a word that tells a wood
	for _, n := range names {
		words := strings.FieldsFunc(plainName(n), func(r rune) bool { return r == '-' })
		if len(words) > 0 && len(words[len(words)-1]) >= shortest && strings.Contains(plainName(name), words[len(words)-1]) {
			return n
		}
	}
	return ""
}

// Wood returns how the named wood moves: it is the look-up that miter.Fit takes.
func (l *Library) Wood(name string) (miter.Wood, error) {
	w, _, err := l.WoodSource(name)
	if err != nil {
		return miter.Wood{}, err
	}
	m := miter.Wood{Name: w.Name, Source: w.source()}
	if w.Shrinkage != nil {
		m.Radial, m.Tangential = w.Shrinkage.Radial, w.Shrinkage.Tangential
	}
	if w.Change != nil {
		m.CoefRadial, m.CoefTangential = w.Change.Radial, w.Change.Tangential
	}
	return m, nil
}
