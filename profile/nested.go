package profile

// A nestKey tells one stack's section from another's: its profile, and the height and scale that it is built to.
type nestKey struct {
	name     string
	h, scale float64
}

// A foundProfile is what a look-up gave.
type foundProfile struct {
	profile Profile
	err     error
}

// remembered returns a look-up that asks for each name once; nil stays nil.
func (l Lookup) remembered() Lookup {
	if l == nil {
		return nil
	}
	found := map[string]foundProfile{}
	return func(name string) (Profile, error) {
		f, ok := found[name]
		if !ok {
			f.profile, f.err = l(name)
			found[name] = f
		}
		return f.profile, f.err
	}
}

// count returns how many elements the profile has, those of its stacks counted in each time, but no more than MaxElements + 1. What cannot
// be found, goes round in a circle, or lies too deep, counts as nothing.
func (p Profile) count(lookup Lookup) int { return p.countIn(lookup, map[string]int{p.Name: 0}, 1) }

func (p Profile) countIn(lookup Lookup, counted map[string]int, depth int) int {
	sum := len(p.Elements)
	for _, e := range p.Elements {
		if e.Kind != KindStack || lookup == nil || depth >= maxDepth || sum > MaxElements {
			continue
		}
		n, ok := counted[e.Profile]
		if !ok {
			counted[e.Profile] = 0 // met again inside, it is a circle
			if inner, err := lookup(e.Profile); err == nil {
				n = inner.countIn(lookup, counted, depth+1)
			}
			counted[e.Profile] = n
		}
		sum += n
	}
	return min(sum, MaxElements+1)
}
