package serve

import (
	"fmt"

	"listel/cmd/listel/job"
	"listel/library"
)

// A fieldGroup is a number of keys of a case that belong together.
type fieldGroup struct {
	Title   string      `json:"title"`
	Molding string      `json:"molding,omitempty"` // they are a molding's
	Fields  []caseField `json:"fields"`
	Begin   string      `json:"begin,omitempty"` // the key of what the case has none of yet, or may have more of
	Words   string      `json:"words,omitempty"` // what is then added
}

// A caseField is one key of a case, as its file says it.
type caseField struct {
	Path    string     `json:"path"`
	Label   string     `json:"label"`
	Text    string     `json:"text"` // "" for a key that the file does not give
	Can     string     `json:"can"`  // what it takes, in words
	Words   bool       `json:"words,omitempty"`
	Options []string   `json:"options,omitempty"` // nil where anything may be written
	Shown   []string   `json:"shown,omitempty"`   // the options in words, nil where they are plain
	List    string     `json:"list,omitempty"`    // the kind of library entries that are proposed
	Edges   []caseEdge `json:"edges,omitempty"`   // of the plan, to tick
	Fixed   bool       `json:"fixed,omitempty"`   // it cannot be changed here: it stands over several lines
}

// fielding gathers the fields of a case.
type fielding struct {
	keys  library.Keyed
	edges map[string][]string // of the stages, by their names
	out   []fieldGroup
}

const (
	aLength = "a length, such as 1 1/2"
	aPlace  = "a height over the floor, such as 30"
)

// caseFields returns the common keys of a case in groups, those that its file gives and those that are often added.
func caseFields(keys library.Keyed, c job.Case) []fieldGroup {
	f := &fielding{keys: keys, edges: stageEdges(c.Case)}
	f.whole()
	f.stages()
	for i := range keys.Len("moldings") {
		f.molding(i, c)
	}
	f.openings()
	f.stock()
	f.shop()
	return f.out
}

func (f *fielding) group(title, molding string) {
	f.out = append(f.out, fieldGroup{Title: title, Molding: molding, Fields: []caseField{}})
}

// add adds a field to the last group. One that stands over several lines is shown, but left to the text.
func (f *fielding) add(x caseField) {
	text, ok := f.keys.Text(x.Path)
	x.Text, x.Fixed = text, !ok && f.keys.Has(x.Path)
	last := &f.out[len(f.out)-1]
	last.Fields = append(last.Fields, x)
}

func (f *fielding) length(path, label, can string) {
	f.add(caseField{Path: path, Label: label, Can: can})
}

// given adds a length only when the file gives it.
func (f *fielding) given(path, label, can string) {
	if f.keys.Has(path) {
		f.length(path, label, can)
	}
}

func (f *fielding) whole() {
	f.group("Case", "")
	f.add(caseField{Path: "title", Label: "Title", Can: "what the sheets call it", Words: true})
	f.add(caseField{Path: "name", Label: "Name", Can: "what its files are named after: letters, digits, hyphens", Words: true})
	f.add(caseField{Path: "units", Label: "Units", Options: []string{"in", "mm"}, Shown: []string{"inches", "millimeters"}, Can: "what a number without a unit means in this file"})
	f.add(caseField{Path: "wood", Label: "Wood", Can: "a wood of the library", List: string(library.KindWood), Words: true})
	f.add(caseField{Path: "room.humidity[0]", Label: "Driest air, %", Can: "the least humidity of the room in a year, in per cent, such as 30", Words: true})
	f.add(caseField{Path: "room.humidity[1]", Label: "Dampest air, %", Can: "the greatest humidity of the room in a year, in per cent, such as 65", Words: true})
	f.add(caseField{Path: "side.build", Label: "Sides", Options: []string{"solid", "framed"}, Shown: []string{"solid boards", "frame and panel"},
		Can: "solid sides move with the seasons, framed ones hardly"})
	f.add(caseField{Path: "side.cut", Label: "Sides sawn", Options: []string{"flat", "quarter"}, Shown: []string{"flat", "quartered"}, Can: "how the growth rings lie in them"})
	f.length("side.thickness", "Sides, thickness", "how thick they are, for the sheets to say how long a screw may be, "+aLength)
}

func (f *fielding) stages() {
	n := f.keys.Len("stages")
	if n == 0 && !f.keys.Has("plan") {
		return
	}
	for i := range max(n, 1) {
		at := func(key string) string { return stageKey(f.keys, i, key) }
		title := "Case"
		if name, ok := f.keys.Text(at("name")); ok && n > 1 {
			title = "Stage " + name
		}
		f.group(title+", its sizes", "")
		f.given(at("plan.width"), "Width", aLength)
		f.given(at("plan.depth"), "Depth", aLength)
		f.length(at("height"), "Height", aLength)
		f.given(at("plan.canted.setback"), "Setback of the cants", aLength)
		f.given(at("plan.breakfront.width"), "Width of the breakfront", aLength)
		f.given(at("plan.breakfront.step"), "Step of the breakfront", aLength)
		f.given(at("plan.octagon.across"), "Across the flats", aLength)
		f.given(at("plan.half-octagon.width"), "Width of the half octagon", aLength)
		f.given(at("offset"), "Offset", "right and back from the plan below, such as [2, 0]")
	}
}

func (f *fielding) molding(i int, c job.Case) {
	path := func(key string) string { return fmt.Sprintf("moldings[%d].%s", i, key) }
	name, _ := f.keys.Text(path("name"))
	f.group("Molding "+name, name)
	var stages, seats []string
	for k := range f.keys.Len("stages") {
		if s, ok := f.keys.Text(fmt.Sprintf("stages[%d].name", k)); ok {
			stages = append(stages, s)
		}
	}
	f.add(caseField{Path: path("name"), Label: "Name", Can: "what the sheets call it: base, cornice, belt", Words: true})
	f.add(caseField{Path: path("profile"), Label: "Section", Can: "the name of a section of the folder or the library", List: string(library.KindProfile), Words: true})
	if len(stages) > 1 {
		f.add(caseField{Path: path("on"), Label: "On stage", Options: stages})
		seats = append([]string{""}, stages[1:]...)
	}
	f.add(caseField{Path: path("at"), Label: "Foot at", Can: aPlace})
	f.length(path("inset"), "Set in", "how far in from the face of the case its back lies, "+aLength)
	f.along(path(""))
	if i < len(c.Case.Moldings) && c.Case.Moldings[i].Inside != "" || f.keys.Has(path("inside")) {
		f.add(caseField{Path: path("inside"), Label: "Inside corners", Options: []string{"miter", "cope"}, Shown: []string{"mitered", "coped"}})
	}
	if len(seats) > 1 {
		f.add(caseField{Path: path("seats"), Label: "Carries", Options: seats, Shown: append([]string{"no stage"}, stages[1:]...), Can: "the stage that stands in its rabbet"})
		f.length(path("clearance"), "Clearance", "of the stage in the rabbet, "+aLength)
	}
	f.length(path("reach.left"), "Left reach", "where its left run is to stand out less than the section does, for a wall or a door near by, "+aLength)
	f.length(path("reach.right"), "Right reach", "the same on the right, "+aLength)
	f.length(path("joint.spline.thickness"), "Spline, thickness", "of a spline in the miters, such as 1/8; left empty, there is none")
	f.given(path("joint.spline.depth"), "Spline, depth", "how deep it goes into each piece, such as 3/8")
	if f.keys.Has(path("joint.spline")) {
		f.add(caseField{Path: path("joint.spline.stopped"), Label: "Spline runs", Options: []string{"", "true"}, Shown: []string{"through", "stopped"}, Can: "stopped, it does not show"})
	}
	f.length(path("joint.pin.diameter"), "Pin, diameter", "of a pin across the miters, such as 1/4; left empty, there is none")
	f.given(path("joint.pin.depth"), "Pin, depth", "how deep it goes into each piece, such as 3/4")
	f.given(path("frame.back-rail.width"), "Back rail, width", aLength)
	f.given(path("frame.back-rail.tenon"), "Back rail, tenon", "how long its tenons are, "+aLength)
	f.given(path("rake.pitch"), "Pitch", "an angle, such as 20")
	profile, _ := f.keys.Text(path("profile"))
	if f.keys.Has(path("blank")) || c.Profiles[profile].Profile.Back.Spring != nil {
		f.add(caseField{Path: path("blank"), Label: "Blank", Options: []string{"", "flat", "upright"}, Shown: []string{"flat if safe", "flat", "upright"}, Can: "of a sprung molding: flat lies along its leaning back, upright takes more wood; nothing said, it is flat unless only upright is safe and takes no more set-ups"})
	}
}

// along adds where a molding runs, the edges of its stage's plan to be ticked, and how it ends; what the file says otherwise is a choice too. at is
// the path of the molding with its dot.
func (f *fielding) along(at string) {
	runs, ends := at+"runs", at+"ends"
	stage, _ := f.keys.Text(at + "on")
	if stage == "" {
		stage, _ = f.keys.Text("stages[0].name")
	}
	said, _ := f.keys.Text(runs)
	along := caseField{Path: runs, Label: "Runs along", Can: "the edges of the case that it goes along"}
	if names := f.edges[stage]; len(names) > 0 {
		along.Edges = alongEdges(names, said)
	}
	f.add(along)
	f.add(caseField{Path: ends, Label: "Its ends", Options: []string{"wall", "return", "open", "{left: return, right: wall}", "{left: wall, right: return}"},
		Shown: []string{"against the wall", "returned", "cut square", "left returned", "right returned"}, Can: "how it ends where it meets no other run"})
}

func (f *fielding) openings() {
	f.group("Drawers", "")
	if !f.keys.Has("openings") {
		f.begin("openings", "Add drawers")
		return
	}
	for _, side := range []string{"left", "right"} {
		f.length("openings.area."+side, "In from the "+side, aLength)
	}
	f.length("openings.area.bottom", "From", aPlace)
	f.length("openings.area.top", "Up to", aPlace)
	f.length("openings.divider", "Divider", aLength)
	f.length("openings.graduate.rows", "Rows", "how many rows of drawers, such as 3")
	if graduate := "openings.graduate."; f.keys.Len(graduate+"rows") == 0 {
		f.given(graduate+"ratio", "Each to the one below", "how high a row is to the one below it, such as 0.9; 1 for equal rows")
		f.given(graduate+"step", "Lower by", "how much lower a row is than the one below it, "+aLength)
		f.given(graduate+"bottom", "Bottom row", "how high it is, "+aLength)
		f.given(graduate+"top", "Top row", "how high it is, "+aLength)
	}
	f.length("openings.top-row", "Drawers in the top row", "a number")
	f.add(caseField{Path: "beads.profile", Label: "Bead", Can: "the name of a section of the folder or the library; left empty, there are no beads", List: string(library.KindProfile)})
	if f.keys.Has("beads") {
		f.length("beads.inset", "Bead, let in", "how deep into the front; left empty, it lies on it, "+aLength)
	}
}

// begin offers to add what the last group is about.
func (f *fielding) begin(key, words string) {
	last := &f.out[len(f.out)-1]
	last.Begin, last.Words = key, words
}

// stock adds what can be bought or lies on the rack.
func (f *fielding) stock() {
	n := f.keys.Len("stock")
	if n == 0 && f.keys.Has("stock") {
		return
	}
	f.group("Wood to buy", "")
	for i := range n {
		key := func(k string) string { return fmt.Sprintf("stock[%d].%s", i, k) }
		label := func(s string) string { return fmt.Sprintf("Board %d, %s", i+1, s) }
		f.add(caseField{Path: key("wood"), Label: label("wood"), Can: "a wood of the library", List: string(library.KindWood), Words: true})
		f.length(key("thickness"), label("thickness"), "rough, in quarters such as 8/4, or "+aLength)
		f.length(key("width"), label("width"), aLength)
		f.length(key("length"), label("length"), "such as 8ft")
		f.length(key("price"), label("price"), "of one, a number; left empty, it costs by its size")
		f.length(key("have"), label("at hand"), "how many lie on the rack, a number")
	}
	f.begin("stock", "Add a board")
}

func (f *fielding) shop() {
	f.group("Shop", "")
	f.length("shop.kerf", "Kerf", "what the saw takes, "+aLength)
	f.length("shop.rough", "Extra at each end", "left on each piece until it is cut to its marks, "+aLength)
	f.length("shop.test", "Test pieces", "how long a piece to try each set-up on, "+aLength)
	f.length("shop.spare", "Spare", "how much more to buy, a per cent, such as 15%")
	f.length("shop.safe", "Shortest piece", "the shortest that is safe to machine, "+aLength)
}
