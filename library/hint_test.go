package library

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// What could be written is told in the units of the file.
func TestHintsAreInTheUnitsOfTheFile(t *testing.T) {
	_, _, err := LoadProfile("p.yaml", []byte("kind: profile\nunits: mm\nelements:\n  - quirk: {height: 4}\n"))
	require.ErrorContains(t, err, "write ground: 16")
	require.ErrorContains(t, err, "write depth: 2")
	_, _, err = LoadCase("c.yaml", []byte("kind: case\nunits: mm\nplan: {width: 900, depth: 400}\nmoldings: [{profile: a, joint: {spline: {depth: 9}}}]\n"))
	require.ErrorContains(t, err, "write at: 970")
	require.ErrorContains(t, err, "write height: 970")
	require.ErrorContains(t, err, "write thickness: 3")
	_, _, err = LoadCase("c.yaml", []byte("kind: case\nunits: mm\nopenings: {area: {left: 1, right: 1, top: 34}}\n"))
	require.ErrorContains(t, err, "write stages: [{name: lower, plan: {width: 1070, depth: 460}, height: 970}]")
	require.ErrorContains(t, err, "write graduate: {rows: 4, ratio: 0.88}")
	require.ErrorContains(t, err, "write bottom: 100")
	_, _, err = LoadCase("c.yaml", []byte("kind: case\nunits: in\nplan: {width: 900, depth: 400}\nmoldings: [{profile: a}]\n"))
	require.ErrorContains(t, err, "write at: 38")

	d := &decoder{metric: true}
	require.Equal(t, "- {mark: rail, length: 570, count: 4}", d.example("- {mark: rail, length: 22 1/2, count: 4}"))
	require.Equal(t, "thickness: 8/4", d.example("thickness: 8/4"))
}

// A saw kerf is that of a saw.
func TestKerfHasALimit(t *testing.T) {
	body := "kind: case\nunits: mm\nplan: {width: 900, depth: 400}\nheight: 900\nshop: {kerf: "
	_, _, err := LoadCase("c.yaml", []byte(body+"300}\n"))
	require.ErrorContains(t, err, "line 5: kerf of shop is 300; at most 12.7 mm")
	c, _, err := LoadCase("c.yaml", []byte(body+"12}\n"))
	require.NoError(t, err)
	require.Equal(t, 12.0, c.Shop.Kerf)
	_, _, err = LoadCase("c.yaml", []byte("kind: case\nunits: in\nplan: {width: 36, depth: 16}\nheight: 36\nshop: {kerf: 3}\n"))
	require.ErrorContains(t, err, "kerf of shop is 3; at most 1/2 in")
	_, _, err = LoadPieces("p.yaml", []byte("kind: pieces\nunits: mm\nshop: {kerf: 300}\n"))
	require.ErrorContains(t, err, "kerf of shop is 300; at most 12.7 mm")
}
