// Package geom is the plane geometry that moldings are made of: points, lines, circular and elliptic
// arcs, and paths of them.
//
// Lengths are millimeters, x grows to the right and y up, and angles are the type Angle. Lines and arcs
// stay exact: they are flattened only to draw or to compare, with the tolerance as an argument. Every type is
// a small value; methods return new values.
package geom
