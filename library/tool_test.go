package library_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
)

const inch = 25.4

func toolNamed(t *testing.T, set library.ToolSet, name string) cutter.Tool {
	t.Helper()
	for _, tool := range set.Tools {
		if tool.Name == name {
			return tool
		}
	}
	t.Fatalf("no tool %q", name)
	return cutter.Tool{}
}

func TestEmbeddedToolsLoad(t *testing.T) {
	for name, units := range map[string]measure.Units{library.InchTools: measure.Inches, library.MetricTools: measure.Millimeters} {
		set, o, err := library.Open("", "").Tools(name)
		require.NoError(t, err)
		require.Equal(t, library.Embedded, o.Where)
		require.Equal(t, units, set.Units)
		require.Equal(t, name, library.DefaultTools(units))
		require.Equal(t, "common practice, no source", set.Source)
		kinds := map[cutter.Kind]bool{}
		for _, tool := range set.Tools {
			require.NoError(t, tool.Validate())
			kinds[tool.Kind] = true
		}
		require.Len(t, kinds, 13, "every kind but the user's own")
	}
}

// The half set of nine pairs runs from a radius of 1/8 in to 1 1/2 in (M. S. Bickford, Mouldings in Practice, as quoted by its publisher); the
// radii between are the commonest modern chart, from memory.
func TestInchPlanesAreAHalfSet(t *testing.T) {
	set, _, err := library.Open("", "").Tools(library.InchTools)
	require.NoError(t, err)
	var hollows, rounds []float64
	for _, tool := range set.Tools {
		switch tool.Kind {
		case cutter.HollowPlane:
			hollows = append(hollows, tool.Radius/inch)
		case cutter.RoundPlane:
			rounds = append(rounds, tool.Radius/inch)
		}
	}
	require.InDeltaSlice(t, []float64{0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 1, 1.25, 1.5}, hollows, 1e-12)
	require.InDeltaSlice(t, hollows, rounds, 1e-12)
	require.Equal(t, 0.5*inch, toolNamed(t, set, "hollow No. 8, R 1/2 in").Radius)
}

// Rim speeds by pi D n: 1 in at 24,000 is 31.9 m/s, 2 in at 18,000 47.9, 2 1/2 in at 16,000 53.2, 3 1/2 in at 12,000 55.9. The speeds by diameter
// were seen at woodworking.about.com (router bit speeds); the rim speeds follow from them by arithmetic.
func TestRimSpeeds(t *testing.T) {
	for _, c := range []struct {
		in  float64
		rpm int
		rim float64
	}{{1, 24000, 31.9}, {2, 18000, 47.9}, {2.5, 16000, 53.2}, {3.5, 12000, 55.9}} {
		require.Equal(t, c.rpm, cutter.SpeedFor(c.in*inch))
		require.InDelta(t, c.rim, cutter.RimSpeed(c.in*inch, c.rpm), 0.05)
	}
	require.Zero(t, cutter.SpeedFor(3.6*inch), "over the table: none is given")
	set, _, err := library.Open("", "").Tools(library.InchTools)
	require.NoError(t, err)
	require.InDelta(t, (0.375+2*0.5)*inch, toolNamed(t, set, "round-over bit R 1/2 in").Across(), 1e-9, "the bearing and a radius to each side")
}

const someTools = `kind: tools
name: mine
units: in
tools:
  - straight: {diameter: 6mm}
  - round-nose: {name: my core box bit, radius: 1/4, length: 3/4, shank: 1/4}
  - saw-blade: {diameter: 10, kerf: 3/32}
  - hollow-plane: {radius: 9/16, number: nine}
  - form: {name: bead, work: plane, points: [{x: -1/4, y: 0}, {x: 1/4, y: 0, through: [0, 1/4]}]}
`

func TestToolsOfOnesOwn(t *testing.T) {
	set, _, err := library.LoadTools("mine.yaml", []byte(someTools))
	require.NoError(t, err)
	require.Equal(t, "mine", set.Name)
	require.Equal(t, 6.0, toolNamed(t, set, "straight bit 15/64 in").Diameter)
	bit := toolNamed(t, set, "my core box bit")
	require.Equal(t, []float64{0.25 * inch, 0.75 * inch, 0.25 * inch, 50, 6}, []float64{bit.Radius, bit.Length, bit.Shank, bit.Reach, bit.PerPass})
	blade := toolNamed(t, set, "saw blade, kerf 3/32 in")
	require.InDelta(t, 3*inch, blade.Reach, 1e-9)
	require.Equal(t, 45*geom.Degree, blade.MaxTilt)
	toolNamed(t, set, "hollow No. nine, R 9/16 in")
	own := toolNamed(t, set, "bead")
	require.Equal(t, cutter.Plane, own.Works())
	require.InDelta(t, math.Pi/4*inch, own.Profile.Length(), 1e-9, "half a circle of 1/4 in")
}

func TestToolMistakes(t *testing.T) {
	_, _, err := library.LoadTools("bad.yaml", []byte(`kind: tools
units: in
tools:
  - strait: {diameter: 1/4}
  - round-nose: {radios: 1/4}
  - round-over: {radius: 1/4}
  - cove: {radius: 1/4, pilot: 3/8, tip: 1/8}
  - vee: {diameter: 1/2, angle: 190deg}
  - saw-blade: {diameter: 10, kerf: -1/8}
  - dovetail: {diameter: 1/4, angle: 40deg, length: 1}
  - form: {work: router}
  - form: {name: back, points: [{x: 1, y: 0}, {x: 0, y: 0}]}
  - straight: {diameter: 1/4}
  - straight: {diameter: 1/4}
  - slot-cutter
  - rabbet-plane: {width: three}
  - straight: {diameter: 1/4, radius: 2}
`))
	var all library.Mistakes
	require.ErrorAs(t, err, &all)
	for _, want := range []string{
		`line 4: unknown tool "strait"; straight?`,
		`line 5: unknown key "radios" in round-nose; radius?`,
		`line 6: pilot or tip of round-over is missing or out of range; give the diameter of the bearing`,
		`line 7: pilot or tip of cove is missing or out of range`,
		`line 8: angle of vee is 190deg; it must be more than 1 and less than 179 degrees`,
		`line 9: kerf of saw-blade is -1/8; it must be more than 0`,
		`line 10: angle of dovetail is missing or out of range; the sides meet the shank`,
		`line 11: form needs points or a profile, one of them`,
		`line 12: profile of form is missing or out of range; the points run from left to right`,
		`line 14: tool 11 has the name of tool 10, "straight bit 1/4 in"; give it a name of its own`,
		`line 15: tool 12, slot-cutter, has no sizes; a tool is its kind with its sizes`,
		`line 16: width of rabbet-plane: "three" is not a length`,
		`line 17: unknown key "radius" in straight`,
	} {
		require.ErrorContains(t, err, want)
	}
	require.Len(t, all, 13, "and no more:\n%v", err)
}

// The user's set comes before the embedded one, and the project's before that.
func TestToolsAreLookedUp(t *testing.T) {
	project, user := t.TempDir(), t.TempDir()
	write(t, user, "inch-tools.yaml", "kind: tools\nunits: in\ntools:\n  - straight: {diameter: 1/2}\n")
	set, o, err := library.Open(project, user).Tools("inch-tools")
	require.NoError(t, err)
	require.Equal(t, library.User, o.Where)
	require.Len(t, set.Tools, 1)
	write(t, project, "shop.yaml", someTools)
	_, o, err = library.Open(project, user).Tools("mine")
	require.NoError(t, err)
	require.Equal(t, library.Project, o.Where)
	_, _, err = library.Open(project, user).Tools("mime")
	require.EqualError(t, err, `no set of tools named "mime"; mine?`)
	list := library.Open(project, user).List(library.KindTool)
	require.Equal(t, "mine", list[0].Name)
	require.Len(t, list, 3)
}

// A form cutter made from a profile leaves that profile: an ovolo of 1/4 in over a fillet gives the edge of a round-over bit of that radius.
func TestFormCutterFromAProfile(t *testing.T) {
	dir := t.TempDir()
	write(t, dir, "edge.yaml", "kind: profile\nunits: in\nground: 1/2\nelements:\n  - ovolo: {height: 1/4, projection: -1/4}\n")
	write(t, dir, "back.yaml", "kind: profile\nunits: in\nground: 1/2\nelements:\n  - astragal: {height: 1/4}\n")
	write(t, dir, "tools.yaml", "kind: tools\nunits: in\ntools:\n  - form: {name: own, profile: edge, tip: 1/8}\n")
	set, _, err := library.Open(dir, "").Tools("tools")
	require.NoError(t, err)
	own := set.Tools[0]
	require.NoError(t, own.Validate())
	b := own.Profile.Bounds()
	require.InDelta(t, -0.375*inch, b.Min.X, 1e-9)
	require.InDelta(t, 0.375*inch, b.Max.X, 1e-9)
	require.InDelta(t, 0, b.Min.Y, 1e-9)
	require.InDelta(t, 0.25*inch, b.Max.Y, 1e-9)
	require.InDelta(t, (0.25+math.Pi/4)*inch, own.Profile.Length(), 1e-9)

	write(t, dir, "tools.yaml", "kind: tools\nunits: in\ntools:\n  - form: {name: own, profile: back, tip: 1/8}\n")
	_, _, err = library.Open(dir, "").Tools("tools")
	require.ErrorContains(t, err, "line 4: profile back cannot be a cutter: its face turns back on itself")
}
