package serve

import (
	"cmp"
	"fmt"
	"math"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"listel/library"
	"listel/profile/measure"
)

// newMolding returns the keys of a molding that is added to the case that text says: on the lowest stage, of a profile that is
// chosen, with a name of its own, its foot on the floor or over the moldings that stand there.
func newMolding(text, profile string, covers []span) (string, error) {
	if !plainName.MatchString(profile) {
		return "", refused(http.StatusUnprocessableEntity, "%q is no name of a profile", profile)
	}
	keys, err := library.ReadKeyed([]byte(text))
	if err != nil {
		return "", err
	}
	taken := map[string]bool{}
	for i := range keys.Len("moldings") {
		name, _ := keys.Text(fmt.Sprintf("moldings[%d].name", i))
		taken[name] = true
	}
	name := "molding"
	for n := 2; taken[name]; n++ {
		name = fmt.Sprintf("molding-%d", n)
	}
	entry := "name: " + name
	if on, ok := keys.Text("stages[0].name"); ok {
		entry += ", on: " + on
	}
	free := 0.0
	slices.SortFunc(covers, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	for _, c := range covers {
		if c.from < free+sameSpot {
			free = math.Max(free, c.to)
		}
	}
	at := measure.Format{Units: unitsOf(text), Fraction: 64}.Entry(free)
	return entry + ", profile: " + profile + ", at: " + at + ", ends: wall", nil
}

// air is the path of one of the two humidities of a room.
var air = regexp.MustCompile(`^room\.humidity\[[01]\]$`)

// plainName is the name of a profile as a file can hold it without quotes.
var plainName = regexp.MustCompile(`^[\pL\pN][\pL\pN_.-]*$`)

// molding is the path of a molding as a whole.
var molding = regexp.MustCompile(`^moldings\[(\d{1,4})\]$`)

// applied returns the text with the change made, and with what follows it when that is asked for. The path moldings adds a molding of the
// profile that the value names; that of one molding, without a value, takes it out.
func (c caseChange) applied(text string) (string, error) {
	switch m := molding.FindStringSubmatch(c.Path); {
	case c.Path == "openings" && c.Value == begun:
		return withDrawers(text, c.covers)
	case c.Path == "stock" && c.Value == begun:
		return withStock(text)
	case c.Path == "moldings":
		entry, err := newMolding(text, c.Value, c.covers)
		if err != nil {
			return "", err
		}
		return changed(library.AppendEntry([]byte(text), "moldings", entry))
	case m != nil && c.Value == "":
		at, _ := strconv.Atoi(m[1])
		return changed(library.RemoveEntry([]byte(text), "moldings", at))
	}
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
		switch {
		case needed.MatchString(c.Path):
			key := c.Path[strings.LastIndexByte(c.Path, '.')+1:]
			return "", refused(http.StatusUnprocessableEntity, "It needs %s; what was there stays.", neededWords[key])
		case air.MatchString(c.Path):
			return changed(library.UnsetKey([]byte(text), "room"))
		case c.Path == "beads.profile":
			return changed(library.UnsetKey([]byte(text), "beads"))
		}
		if m := joint.FindStringSubmatch(c.Path); m != nil && m[3] != "stopped" { // without one of its sizes there is none
			return changed(library.UnsetKey([]byte(text), m[1]))
		}
		return changed(library.UnsetKey([]byte(text), c.Path))
	}
	if air.MatchString(c.Path) {
		return c.withAir(text, value)
	}
	if group, start := c.beginning(text, value); group != "" {
		if keys, err := library.ReadKeyed([]byte(text)); err == nil && !keys.Has(group) {
			path, start := grouped(text, group, start)
			return changed(library.SetKey([]byte(text), path, start))
		}
	}
	if textKeys.MatchString(c.Path) && !strings.ContainsAny(value[:1], `"'`) {
		value = library.Scalar(value)
	}
	path, value := grouped(text, c.Path, value)
	return changed(library.SetKey([]byte(text), path, value))
}

// withAir returns the text with one of the two humidities. One that is given alone stands for both until the other is.
func (c caseChange) withAir(text, value string) (string, error) {
	keys, err := library.ReadKeyed([]byte(text))
	if err == nil && keys.Has(c.Path) {
		return changed(library.SetKey([]byte(text), c.Path, value))
	}
	path, both := grouped(text, "room.humidity", "["+value+", "+value+"]")
	return changed(library.SetKey([]byte(text), path, both))
}

// beginning returns the group that a key which does not go alone belongs to, and what it begins with when that key is given; "" for other keys.
func (c caseChange) beginning(text, value string) (group, start string) {
	if m := joint.FindStringSubmatch(c.Path); m != nil {
		return m[1], begunJoint(m[2], m[3], value, unitsOf(text))
	}
	if c.Path == "openings.graduate.rows" {
		return "openings.graduate", begunRows(value)
	}
	return "", ""
}

// begunRows returns rows of drawers that get lower upward by a common ratio (common practice, no source).
func begunRows(rows string) string { return "{rows: " + rows + ", ratio: 0.9}" }

// joint is the path of a size of what holds the miters of a molding, by the spline or the pin and the size.
var joint = regexp.MustCompile(`^(moldings\[\d+\]\.joint\.(spline|pin))\.(thickness|diameter|depth|stopped)$`)

// begunJoint returns a spline or a pin of which one size is given, the other of a common proportion (common practice, no source).
func begunJoint(kind, key, value string, units measure.Units) string {
	first, size, depth := "thickness", "1/8", "3/8"
	switch inches := units == measure.Inches; {
	case kind == "pin" && inches:
		first, size, depth = "diameter", "1/4", "3/4"
	case kind == "pin":
		first, size, depth = "diameter", "6", "18"
	case !inches:
		size, depth = "3", "10"
	}
	switch key {
	case first:
		size = value
	case "depth":
		depth = value
	}
	return "{" + first + ": " + size + ", depth: " + depth + "}"
}

// textKeys are the keys that hold a text, which is quoted where it would read as something else.
var textKeys = regexp.MustCompile(`^(title|wood|name|moldings\[\d+\]\.(name|profile)|stock\[\d+\]\.wood)$`)

// needed are the keys that are never taken out by emptying their field.
var needed = regexp.MustCompile(`^(name|moldings\[\d+\]\.(name|profile|at))$`)

// neededWords name what they hold.
var neededWords = map[string]string{"name": "a name", "profile": "a profile", "at": "a height"}

// changed returns a changed text, or that it does not take the change.
func changed(text []byte, err error) (string, error) {
	if err != nil {
		return "", refused(http.StatusUnprocessableEntity, "%s", err)
	}
	return string(text), nil
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
