package geom

// A Segment is one piece of a path: a Line, an Arc or an EllipticArc, and nothing else. Its parameter t runs from 0 at its
// start to 1 at its end, evenly in length on lines and circular arcs and evenly in eccentric angle on elliptic ones.
type Segment interface {
	Start() Point
	End() Point
	At(t float64) Point      // t in [0, 1]
	Tangent(t float64) Point // unit direction of travel
	Length() float64         // mm
	Bounds() Rect
	Area() float64               // mm2, half the integral of x dy - y dx: summed round a closed path it is the area, positive when counter-clockwise
	Moment() Point               // mm3, integrals of x and y over the area that Area counts
	Nearest(p Point) float64     // parameter of the nearest point
	Reverse() Segment            // the same points travelled the other way
	Transform(m Affine) Segment  // exact: an Arc becomes an EllipticArc when m is no similarity
	Trim(t0, t1 float64) Segment // the part between two parameters, 0 <= t0 < t1 <= 1
	Flatten(tol float64) []Point // points from start to end, chords within tol mm of the curve

	sweptFrom(o Point) (area float64, moment Point) // Area and Moment with o for the origin
	levels(n Point, c float64) []float64            // parameters at which n.p = c, rising; both ends of a line that lies in it
	turns(n Point) []float64                        // parameters inside (0, 1) at which n.p is greatest or least
	clear(q Point) float64                          // distance from q that no point comes under, found cheaply
}

// A Line is the straight segment from A to B.
type Line struct{ A, B Point }

// An Arc is a circular arc: it starts at the angle From seen from Center and turns by Sweep,
// counter-clockwise when positive. Radius is positive, Sweep in [-360, 360] degrees and not 0.
type Arc struct {
	Center Point
	Radius float64 // mm, > 0
	From   Angle
	Sweep  Angle
}

// An EllipticArc is an arc of the ellipse with semi-axes RX and RY (mm, > 0) whose RX axis is turned by Turn from
// the x axis: the point at eccentric angle e is Center + Rotate(Turn)(RX cos e, RY sin e), and e runs from From to
// From + Sweep.
type EllipticArc struct {
	Center Point
	RX, RY float64
	Turn   Angle
	From   Angle
	Sweep  Angle
}

// A Path is a chain of segments, each starting where the one before ends. It is closed when its last
// end is its first start. A nil Path is empty.
type Path []Segment
