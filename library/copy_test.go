package library_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
)

// TestEveryProfileCopies: a copy under another name, half as high again, loads as the original in that height and keeps its comments.
func TestEveryProfileCopies(t *testing.T) {
	l := library.Open("", "")
	for _, e := range l.List(library.KindProfile) {
		c, err := l.Copy(e.Name, "my-own")
		require.NoError(t, err, e.Name)
		require.Equal(t, library.KindProfile, c.Kind)
		p, _, err := library.LoadProfile("my-own.yaml", c.Text)
		require.NoError(t, err, e.Name)
		require.Equal(t, "my-own", p.Name)
		if p.Parts == 0 {
			continue // its sizes are in inches: only its rest would follow
		}
		high, err := l.WithHeight(c, 1.5*e.Height)
		require.NoError(t, err, e.Name)
		p, _, err = library.LoadProfile("my-own.yaml", high.Text)
		require.NoError(t, err, e.Name)
		s, err := p.Section(l.Lookup)
		require.NoError(t, err, e.Name)
		require.InDelta(t, 1.5*e.Height, s.Height, 1e-6, e.Name)
		require.InDelta(t, 1.5*e.Projection, s.Projection, 1e-6, e.Name)
	}
	c, err := l.Copy("ionic-impost", "")
	require.NoError(t, err)
	require.Contains(t, string(c.Text), "# projection 8 = 2 + 3 + 3.")
}

func TestCopyOfOtherKinds(t *testing.T) {
	l := library.Open("", "")
	for name, kind := range map[string]library.Kind{"inch-tools": "tools", "herb-press": library.KindCase, "woods": "woods", "papers": "papers", "lumber": "lumber"} {
		c, err := l.Copy(name, "")
		require.NoError(t, err, name)
		require.Equal(t, kind, c.Kind, name)
		require.NotEmpty(t, c.Text, name)
	}
	_, err := l.Copy("ionic-impots", "")
	require.EqualError(t, err, `no file named "ionic-impots"; ionic-impost?`)
	_, err = l.Copy("ionic-impost", "../out")
	require.ErrorContains(t, err, "it is no path")
	for _, name := range []string{"con", "Nul", "aux.old", "com1", "LPT9", "base."} { // Microsoft, Naming Files, Paths, and Namespaces; from memory
		_, err = l.Copy("ionic-impost", name)
		require.ErrorContains(t, err, "Windows takes no file of that name", name)
	}
	for _, name := range []string{"conge", "com", "com10", "lpt0", "console", "base.2"} {
		_, err = l.Copy("ionic-impost", name)
		require.NoError(t, err, name)
	}
	c, err := l.Copy("inch-tools", "mine")
	require.NoError(t, err)
	_, err = l.WithHeight(c, 50)
	require.Error(t, err)
	c, err = l.Copy("quirked-bead", "")
	require.NoError(t, err)
	_, err = l.WithHeight(c, 50)
	require.ErrorContains(t, err, "the height cannot be changed")
}

// A name with a comma in it is written in quotes where the comma would end it: in a copy, in the braces of a stack, in those of a proposed molding.
func TestNamesWithACommaAreQuoted(t *testing.T) {
	const name = "one, two"
	c, err := library.Open("", "").Copy("ionic-impost", name)
	require.NoError(t, err)
	p, _, err := library.LoadProfile("x.yaml", c.Text)
	require.NoError(t, err)
	require.Equal(t, name, p.Name)

	text, err := library.MarshalProfile(profile.Profile{Name: "a", Ground: profile.MM(5), Elements: []profile.Entry{{Kind: profile.KindStack, Profile: name}}})
	require.NoError(t, err)
	require.Contains(t, string(text), "- stack: {profile: 'one, two'}")

	text, profiles, err := library.Propose(library.Proposal{Name: name, Rule: library.Rules()[0], Height: 1600})
	require.NoError(t, err)
	k, _, err := library.LoadCase("x.yaml", text)
	require.NoError(t, err)
	require.Len(t, k.Moldings, len(profiles))
	for i, m := range k.Moldings {
		require.Equal(t, profiles[i].Name, m.Profile)
	}
}

// So is a name that would begin a comment in a file that is started under it.
func TestStartersSayTheirNames(t *testing.T) {
	for _, name := range []string{"press", "press #2", "one, two"} {
		for _, kind := range []string{"profile", "case", "trace"} {
			text, err := library.Starter(kind, name, measure.Inches)
			require.NoError(t, err)
			require.Equal(t, name, library.HeadOf(text).Name)
			require.NotContains(t, string(text), "NAME")
		}
		text, err := library.Starter("trace", name, measure.Inches)
		require.NoError(t, err)
		p, _, err := library.LoadTrace("x.yaml", text)
		require.NoError(t, err)
		require.Equal(t, name+".png", p.Image)
		require.Equal(t, name+"-cornice", p.Sections[0].Name)
	}
}
