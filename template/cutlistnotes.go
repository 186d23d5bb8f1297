package template

import (
	"fmt"
	"strings"
)

// notes returns what is to be said of the piece.
func (d pieceDrawing) notes() []string {
	var out []string
	if d.meets != "" {
		line := sentenceStart(d.meets)
		switch n := len(d.piece.Notches); n {
		case 0:
		case 1:
			line += "; one notch, see " + notchTitle
		default:
			line += fmt.Sprintf("; %d notches, see %s", n, notchTitle)
		}
		out = append(out, line+".")
	}
	for _, n := range d.piece.Notes {
		out = append(out, sentenceStart(strings.TrimSuffix(n, "."))+".")
	}
	return out
}
