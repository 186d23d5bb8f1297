package serve

import (
	"strings"

	"listel/library"
)

// applied returns the text with the change made, and with what follows it when that is asked for.
func (c caseChange) applied(text string) (string, error) {
	var more []caseChange
	if c.Follow {
		more = followers(text, c)
	}
	out, err := c.apply(text)
	for _, m := range more {
		if err == nil {
			out, err = m.apply(out)
		}
	}
	return out, err
}

// apply returns the text with the one key changed.
func (c caseChange) apply(text string) (string, error) {
	value := strings.TrimSpace(c.Value)
	if value == "" {
		out, err := library.UnsetKey([]byte(text), c.Path)
		if err != nil {
			return "", refused(422, "%s", err)
		}
		return string(out), nil
	}
	path, value := grouped(text, c.Path, value)
	out, err := library.SetKey([]byte(text), path, value)
	if err != nil {
		return "", refused(422, "%s", err)
	}
	return string(out), nil
}

// grouped returns the key to set so that path comes to hold the value: the path itself, or the first group on its way that is not there
// yet, as {group: {key: value}} on one line.
func grouped(text, path, value string) (key, as string) {
	keys, err := library.ReadKeyed([]byte(text))
	if err != nil {
		return path, value
	}
	key, as = path, value
	for {
		i := strings.LastIndexByte(key, '.')
		if i < 0 || keys.Has(key[:i]) {
			return key, as
		}
		as = "{" + key[i+1:] + ": " + as + "}"
		key = key[:i]
	}
}
