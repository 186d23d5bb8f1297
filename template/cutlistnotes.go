package template

import (
	"fmt"
	"strings"

	"listel/miter"
)

// notes returns what is to be said of the piece.
func (d pieceDrawing) notes() []string {
	var out []string
	if n := d.piece.Notches; len(n) > 0 {
		line := fmt.Sprintf("Notches: measured along the foot from its left end, %s deep", d.st.Lengths.Drawing(n[0].Depth))
		for _, n := range n {
			if n.Side == miter.TopFace {
				line += fmt.Sprintf(", the one at %s %s", d.st.figure(n.At), topEdge)
			}
		}
		out = append(out, line+".")
	}
	for _, n := range d.piece.Notes {
		out = append(out, sentenceStart(strings.TrimSuffix(n, "."))+".")
	}
	return out
}
