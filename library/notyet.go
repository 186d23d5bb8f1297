package library

import (
	"slices"
	"strings"
)

// notYet are keys for what is not built yet, and what it is called.
var notYet = map[string]string{
	"bow": "bowed fronts", "bowed": "bowed fronts", "serpentine": "serpentine fronts", "arch": "arches", "swan-neck": "swan necks",
	"built-up": "moldings built up of several sticks", "across-grain": "facings laid across the grain",
}

// later returns what to say of a key that stands for something not built yet, false for any other. name is the group that holds it.
func later(key, name string) (string, bool) {
	what, ok := notYet[key]
	group, _, _ := strings.Cut(name, " ") // "molding base" is a molding
	if !ok || !slices.Contains([]string{"case", "stage", "plan", "molding", "rake"}, group) {
		return "", false
	}
	return what + " are not built yet", true
}
