package sheet

import "listel/profile/geom"

// minDash is the shortest dash that is drawn, mm; shorter ones come of rounding at a path's joints.
const minDash = 1e-6

// dashPath cuts a path into its dashes, as one path with gaps. The pattern (on, off, on, off in mm) starts anew
// at each gap of the path and runs on round its corners, as the printers' own dashes do.
func dashPath(p geom.Path, pattern []float64) geom.Path {
	var out geom.Path
	for _, run := range runs(p) {
		k, left := 0, pattern[0]
		for _, s := range run {
			length, done := s.Length(), 0.0
			for done < length {
				step := min(left, length-done)
				if k%2 == 0 && step > minDash {
					out = append(out, trim(s, paramAt(s, done, length), paramAt(s, done+step, length)))
				}
				done += step
				if left -= step; left <= minDash {
					k = (k + 1) % len(pattern)
					left = pattern[k]
				}
				if step <= 0 && left <= 0 {
					return p // a pattern without length draws a solid line
				}
			}
		}
	}
	return out
}

// paramAt returns the parameter of the point that lies d mm along s, whose length is given.
func paramAt(s geom.Segment, d, length float64) float64 {
	t := d / length
	if t <= 0 || t >= 1 {
		return min(max(t, 0), 1)
	}
	if _, elliptic := s.(geom.EllipticArc); !elliptic {
		return t
	}
	lo, hi := 0.0, 1.0
	for range 50 {
		t = (lo + hi) / 2
		if s.Trim(0, t).Length() < d {
			lo = t
		} else {
			hi = t
		}
	}
	return t
}
