package template_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// libraryNames are profiles of every shape that the sheets must hold: tall, small, sprung, wide with a rabbet, with many
// members, with dentils, with ellipses.
var libraryNames = []string{
	"astragal-with-fillets", "attic-base", "attic-base-modern", "base-cap", "bed-mold", "bolection", "corinthian-architrave",
	"corinthian-cornice", "corona-and-cove", "cove-and-bead", "crown-cove-and-cyma", "dentil-cornice", "edge-bead",
	"ionic-archivolt", "ionic-base", "ionic-impost", "ionic-pedestal-base", "ionic-pedestal-cap", "ogee-base",
	"ovolo-with-fillets", "press-base", "press-cornice", "press-shelf-bead", "press-waist", "quirked-bead", "three-flutes",
	"three-reeds", "thumb-edge", "tuscan-base", "tuscan-base-with-listel", "tuscan-cornice",
}

func libraryProfile(t testing.TB, name string, k float64) (profile.Profile, profile.Section) {
	t.Helper()
	lib := library.Open("", "")
	p, _, err := lib.Profile(name)
	require.NoError(t, err)
	p = p.Scaled(k)
	s, err := p.Section(lib.Lookup)
	require.NoError(t, err)
	return p, s
}

func style(t testing.TB, paper string, units measure.Units) template.Style {
	t.Helper()
	p, err := sheet.PaperNamed(paper)
	require.NoError(t, err)
	return template.Style{Lengths: measure.Format{Units: units}, Paper: p, Source: "herb-press.yaml"}
}
