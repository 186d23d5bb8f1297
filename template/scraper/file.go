package scraper

import (
	"math"

	"listel/profile/geom"
)

// A File is what one inside place of a blade is filed with.
type File struct {
	Shape    FileShape
	Diameter float64    // mm, of a round file, else 0
	Radius   float64    // mm, the least radius of the place as filed; 0 for a corner
	Corner   geom.Angle // its opening, 0 for a curve
	At       geom.Point // on the blade
	Leaves   float64    // mm, what the file cannot take out, 0 for nothing
}

// A FileShape names a file by its cross section.
type FileShape string

// The shapes.
const (
	RoundFile  FileShape = "round"
	SquareFile FileShape = "square"
	ThreeFile  FileShape = "three-square"
	KnifeFile  FileShape = "knife"
)

// roundFiles are the diameters in mm of the round files of a shop: common practice, no source.
var roundFiles = []float64{
	1.0 / 16 * 25.4, 3.0 / 32 * 25.4, 1.0 / 8 * 25.4, 5.0 / 32 * 25.4, 3.0 / 16 * 25.4, 7.0 / 32 * 25.4, 1.0 / 4 * 25.4, 5.0 / 16 * 25.4,
	3.0 / 8 * 25.4, 7.0 / 16 * 25.4, 1.0 / 2 * 25.4, 5.0 / 8 * 25.4, 3.0 / 4 * 25.4,
}

// Edges of files with corners: the opening that they need, and how round their corners are, mm. Common practice, no source.
var corneredFiles = []struct {
	shape   FileShape
	opening geom.Angle
	edge    float64
}{{SquareFile, 90 * geom.Degree, 0.2}, {ThreeFile, 60 * geom.Degree, 0.2}, {KnifeFile, 15 * geom.Degree, 0.15}}

// filesFor returns the files for the inside curves and corners of an edge that runs from left to right, the steel over it.
func filesFor(edge geom.Path) []File {
	var out []File
	for i, g := range edge {
		if i > 0 {
			if turn := -math.Remainder(normalAt(g, 0)-normalAt(edge[i-1], 1), 360); turn >= cornerTurn { // a right turn opens away from the steel
				out = append(out, cornerFile(geom.Angle(180-turn)*geom.Degree, g.Start()))
			}
		}
		if r, sweep, at, ok := inside(g); ok {
			out = append(out, roundFile(r, sweep, at))
		}
	}
	return out
}

// inside returns the least radius of a segment that is hollow in the steel, how far it turns, and where the radius is least.
func inside(g geom.Segment) (r float64, sweep geom.Angle, at geom.Point, ok bool) {
	switch a := g.(type) {
	case geom.Arc:
		return a.Radius, a.Sweep.Abs(), a.At(0.5), a.Sweep < 0
	case geom.EllipticArc:
		ts := []float64{0, 1}
		for k := -8; k <= 8; k++ {
			if t := (float64(k)*math.Pi/2 - float64(a.From)) / float64(a.Sweep); t > 0 && t < 1 {
				ts = append(ts, t)
			}
		}
		least, where := math.Inf(1), 0.0
		for _, t := range ts {
			e := a.From + a.Sweep*geom.Angle(t)
			if rho := math.Pow(math.Hypot(a.RX*e.Sin(), a.RY*e.Cos()), 3) / (a.RX * a.RY); rho < least {
				least, where = rho, t
			}
		}
		return least, geom.Angle(math.Abs(turnOf(a, 0, 1))) * geom.Degree, a.At(where), a.Sweep < 0
	}
	return 0, 0, geom.Point{}, false
}

// roundFile returns the largest round file that fits a hollow, or the smallest one and what it leaves where even that is too large: the
// hollow is deeper under the line that the file rests on than the file is.
func roundFile(r float64, sweep geom.Angle, at geom.Point) File {
	f := File{Shape: RoundFile, Diameter: roundFiles[0], Radius: r, At: at}
	for _, d := range roundFiles {
		if d/2 <= r+1e-9 {
			f.Diameter = d
		}
	}
	if big := f.Diameter / 2; big > r {
		half := math.Min(float64(sweep), math.Pi) / 2
		c := math.Min(r*math.Sin(half), big)
		f.Leaves = math.Max(0, r*(1-math.Cos(half))-(big-math.Sqrt(big*big-c*c)))
	}
	return f
}

// cornerFile returns the file for an inside corner: the bluntest that goes in, and how far from the corner's point its own round edge stays.
func cornerFile(opening geom.Angle, at geom.Point) File {
	f := File{Corner: opening, At: at}
	for _, c := range corneredFiles {
		f.Shape = c.shape
		f.Leaves = c.edge * (1/(opening/2).Sin() - 1)
		if opening >= c.opening-0.5*geom.Degree {
			break
		}
	}
	return f
}
