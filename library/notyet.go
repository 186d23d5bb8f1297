package library

// notYet are keys for what is not built yet, and what it is called.
var notYet = map[string]string{
	"bow": "bowed fronts", "bowed": "bowed fronts", "serpentine": "serpentine fronts", "arch": "arches", "swan-neck": "swan necks",
	"built-up": "moldings built up of several sticks", "across-grain": "facings laid across the grain",
}
