package job

import (
	"errors"
	"fmt"
	"strings"

	"listel/library"
)

// strangeWoods tells of the woods in a case's stock that are neither its own nor in the library, each once, with the wood that may have
// been meant. Yards sell more woods than the library lists, so that none of them is wrong; but nothing of the case is cut from them.
func (c Case) strangeWoods() []string {
	var out []string
	own := woodName(c.Case.Wood)
	said := map[string]bool{"": true, own: true}
	for _, it := range c.Case.Stock {
		name := woodName(it.Wood)
		if said[name] {
			continue
		}
		said[name] = true
		_, err := c.Lib.Wood(it.Wood)
		var none *library.NotFoundError
		if !errors.As(err, &none) {
			continue
		}
		near := library.Near(it.Wood, []string{c.Case.Wood})
		if own == "" || near == "" {
			near = none.Near
		}
		note := fmt.Sprintf("stock: %q is not a wood of the library", it.Wood)
		if own != "" {
			note = fmt.Sprintf("stock: %q is neither the wood of the case, %s, nor in the library, and nothing is cut from it", it.Wood, c.Case.Wood)
		}
		if near != "" {
			note += "; " + near + "?"
		}
		out = append(out, note)
	}
	return out
}

// woodName returns the name of a wood as it is compared.
func woodName(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }
