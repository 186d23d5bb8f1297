package library

import (
	"bytes"
	"embed"
	"fmt"

	"listel/profile/measure"
)

//go:embed starters/*.yaml
var starters embed.FS

// Starter returns the text of a small working file of kind "profile" or "case" under a name of its own, to be changed by the user.
func Starter(kind, name string, units measure.Units) ([]byte, error) {
	data, err := starters.ReadFile(fmt.Sprintf("starters/%s-%s.yaml", kind, units))
	if err != nil {
		return nil, fmt.Errorf("no file of kind %s can be started", kind)
	}
	return bytes.ReplaceAll(data, []byte("NAME"), []byte(name)), nil
}
