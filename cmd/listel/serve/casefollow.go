package serve

import (
	"fmt"
	"math"
	"regexp"
	"strconv"

	"listel/library"
	"listel/profile/measure"
)

// stageSize is a size of a stage that others can follow.
var stageSize = regexp.MustCompile(`^stages\[(\d+)\]\.(plan\.width|plan\.depth|height)$`)

// sameSpot is the difference of two places that counts as none, mm.
const sameSpot = 0.05

// followers returns the changes that go with a new size of a stage, in the order to make them: the other stages grow in width or depth by as
// much, so that one still seats in the other; with a height the moldings and openings at the top of the stage rise, and all that is on the stages over it.
// Keys that are written so that their lengths cannot be told are left alone. None for any other key.
func followers(text string, c caseChange) []caseChange {
	m := stageSize.FindStringSubmatch(c.Path)
	keys, err := library.ReadKeyed([]byte(text))
	if m == nil || err != nil {
		return nil
	}
	f := following{keys: keys, units: unitsOf(text)}
	old, ok := f.length(c.Path)
	size, err := measure.ParseLength(c.Value, f.units)
	if !ok || err != nil || size == old {
		return nil
	}
	f.by = size - old
	stage, _ := strconv.Atoi(m[1])
	if m[2] != "height" {
		for i := range keys.Len("stages") {
			if i != stage {
				f.move(fmt.Sprintf("stages[%d].%s", i, m[2]))
			}
		}
		return f.out
	}
	f.rise(stage, old)
	return f.out
}

// following gathers changes by one difference.
type following struct {
	keys  library.Keyed
	units measure.Units
	by    float64 // mm
	out   []caseChange
}

// length returns the length that a key says, mm.
func (f *following) length(path string) (float64, bool) {
	text, ok := f.keys.Text(path)
	if !ok {
		return 0, false
	}
	mm, err := measure.ParseLength(text, f.units)
	return mm, err == nil
}

// move adds the change of one key by the difference, as a file says it.
func (f *following) move(path string) {
	if mm, ok := f.length(path); ok {
		f.out = append(f.out, caseChange{Path: path, Value: measure.Format{Units: f.units, Fraction: 64}.Entry(mm + f.by)})
	}
}

// rise moves what is at the top of a stage, and over it, up.
func (f *following) rise(stage int, height float64) {
	floor := 0.0
	for i := range stage {
		mm, ok := f.length(fmt.Sprintf("stages[%d].height", i))
		if !ok {
			return
		}
		floor += mm
	}
	order := map[string]int{}
	for i := range f.keys.Len("stages") {
		name, _ := f.keys.Text(fmt.Sprintf("stages[%d].name", i))
		order[name] = i
	}
	over := func(on string, z float64) bool {
		i, known := order[on]
		return i > stage || known && i == stage && math.Abs(z-floor-height) < math.Abs(z-floor)-sameSpot
	}
	for i := range f.keys.Len("moldings") {
		on, _ := f.keys.Text(fmt.Sprintf("moldings[%d].on", i))
		path := fmt.Sprintf("moldings[%d].at", i)
		if z, ok := f.length(path); ok && over(on, z) {
			f.move(path)
		}
	}
	on, given := f.keys.Text("openings.on")
	if !given && len(order) > 0 {
		on, _ = f.keys.Text("stages[0].name")
	}
	for _, key := range []string{"openings.area.bottom", "openings.area.top"} {
		if z, ok := f.length(key); ok && over(on, z) {
			f.move(key)
		}
	}
}
