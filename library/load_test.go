package library

import (
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
)

func TestUnknownKeyAsInTheDesign(t *testing.T) {
	_, _, err := LoadProfile("press-cornice.yaml", []byte(`kind: profile
name: press-cornice
title: Cornice for a low press
source: invented
units: in
ground: 5/8
elements:
  - fillet: {height: 1/4}
  - cove: {hieght: 5/8, height: 3}
`))
	var ms Mistakes
	require.ErrorAs(t, err, &ms)
	require.Len(t, ms, 1)
	require.Equal(t, `line 9: unknown key "hieght" in cove; height?`, ms[0].Message())
	require.Equal(t, 12, ms[0].Column)
}

// The loader's keys are those that package profile documents.
func TestKeysAreTheProfilesKeys(t *testing.T) {
	for _, k := range profile.Kinds() {
		e := profile.Entry{Kind: k}
		require.ElementsMatch(t, k.Keys(), keysOf(elementFields(&e)), k)
	}
}
