package trace

import "listel/profile"

// clear returns the bits without those so short that they may be ragged corners.
func (c *chain) clear(bits []bit) []bit {
	var out []bit
	for _, b := range bits {
		if b.length() > raggedBit {
			out = append(out, b)
		}
	}
	return out
}

// follow reports whether the bits run level outward (o), plumb up (u) and plumb down (d) as way says.
func (c *chain) follow(bits []bit, way string) bool {
	if len(bits) != len(way) {
		return false
	}
	for i, b := range bits {
		d := b.to.Sub(b.from)
		ok := false
		switch way[i] {
		case 'o':
			ok = b.upright(false, c.sigma) && d.X > 0
		case 'u':
			ok = b.upright(true, c.sigma) && d.Y > 0
		case 'd':
			ok = b.upright(true, c.sigma) && d.Y < 0
		}
		if !ok {
			return false
		}
	}
	return true
}

// drip returns the groove that bits a to b make in a soffit, nil when they do not.
func (c *chain) drip(a, b int) *profile.SizedDrip {
	f := c.clear(c.bits[c.face:c.top][a:b])
	if b-a > 9 || !c.follow(f, "ouodo") {
		return nil
	}
	return &profile.SizedDrip{Width: f[3].from.X - f[1].to.X, Depth: f[2].from.Lerp(f[2].to, 0.5).Y - f[0].to.Y, Inset: f[4].length()}
}

// dripAtFillet returns the groove that bits a to b make where its inner side goes on from the fillet below, nil when they do not.
func (c *chain) dripAtFillet(a, b int) *profile.SizedDrip {
	face := c.bits[c.face:c.top]
	if a == 0 || b-a > 6 || !c.follow(face[a-1:a], "u") {
		return nil
	}
	f := c.clear(face[a:b])
	if !c.follow(f, "odo") {
		return nil
	}
	d := profile.SizedDrip{Width: f[1].from.X - face[a-1].to.X, Depth: face[a-1].to.Y - f[2].from.Y, Inset: face[b-1].to.X - f[1].to.X}
	if !(d.Width > leastDrawn && d.Depth > leastDrawn && d.Inset > leastDrawn && d.Depth < face[a-1].length()) {
		return nil
	}
	return &d
}
