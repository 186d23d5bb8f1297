package job_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/template/sheet"
	"listel/template/sheet/sheettest"
)

// Two moldings share a sprung profile, one of them from the flat blank by the file, the other as its set-ups come out better: whichever comes first, the
// packet buys for both blanks and shows the set-ups of both, each with its blank in the title. The case is invented.
func TestTwoBlanksOfOneProfile(t *testing.T) {
	moldings := []string{"{name: a, on: lower, profile: press-cornice, at: 30}", "{name: b, on: lower, profile: press-cornice, at: 10, blank: flat}"}
	for range 2 {
		slices.Reverse(moldings)
		text := fmt.Sprintf(`kind: case
name: two
units: in
stages:
  - {name: lower, plan: {width: 42, depth: 18}, height: 38}
wood: black cherry
moldings:
  - %s
  - %s
shop: {kerf: 1/8, rough: 1}
stock:
  - {wood: black cherry, thickness: 4/4, width: 6, length: 8ft, price: 30}
  - {wood: black cherry, thickness: 12/4, width: 6, length: 8ft, price: 96}
`, moldings[0], moldings[1])
		lib := library.Open("", "")
		c, err := job.LoadCase(lib, "two.yaml", text)
		require.NoError(t, err)
		tools, err := job.Tools(lib, "", c.Case.Units)
		require.NoError(t, err)
		lengths, err := job.Lengths("", 64, c.Case.Units)
		require.NoError(t, err)
		style, err := job.Paper{}.Style(lib, "", lengths, "two.yaml")
		require.NoError(t, err)
		doc, _, err := c.Packet(t.Context(), job.Packet{Style: style, Setups: true, Planning: job.Planning{Shop: job.Shop{Work: "machine", Effort: "quick"}, Tools: tools}})
		require.NoError(t, err)
		words := strings.Join(titles(t, doc), "\n")
		require.Contains(t, words, "Cornice of the low press, sprung, upright blank: before the first cut")
		require.Contains(t, words, "Cornice of the low press, sprung, flat blank: before the first cut")
		var b bytes.Buffer
		require.NoError(t, sheet.WritePDF(&b, doc))
		read, err := sheettest.ReadPDF(b.Bytes())
		require.NoError(t, err)
		bought := ""
		for i, p := range doc.Pages {
			if p.Frame.Title == "What to buy" {
				bought += read.Pages[i].Words()
			}
		}
		require.Contains(t, bought, "12/4 black cherry", "the upright blank is 2 3/8 in thick and more")
		require.Contains(t, bought, "4/4 black cherry", "the flat one is 51/64 in")
	}
}

func titles(t *testing.T, doc sheet.Document) []string {
	t.Helper()
	var out []string
	for _, p := range doc.Pages {
		out = append(out, p.Frame.Title)
	}
	return out
}
