package library

import (
	"embed"
	"fmt"
	"regexp"
	"strings"

	"listel/profile/measure"
)

//go:embed starters/*.yaml starters/plate.png
var starters embed.FS

// Starter returns the text of a small working file of kind "profile", "case" or "trace" under a name of its own, to be changed by the
// user. That of a trace is about the picture of StarterPlate, NAME.png beside it.
func Starter(kind, name string, units measure.Units) ([]byte, error) {
	data, err := starters.ReadFile(fmt.Sprintf("starters/%s-%s.yaml", kind, units))
	if err != nil {
		return nil, fmt.Errorf("no file of kind %s can be started", kind)
	}
	return starterName.ReplaceAllFunc(data, func(word []byte) []byte {
		return []byte(Scalar(strings.Replace(string(word), "NAME", name, 1)))
	}), nil
}

// starterName finds the words of a starter that begin with the name it is to have.
var starterName = regexp.MustCompile(`NAME\S*`)

// StarterPlate returns a picture to learn tracing on: a PNG file of a plate with moldings on two scales, drawn for listel.
func StarterPlate() []byte {
	data, err := starters.ReadFile("starters/plate.png")
	if err != nil {
		panic(err) // the embedded tree always holds it
	}
	return data
}
