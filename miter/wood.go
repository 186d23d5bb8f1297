package miter

// A Wood is how a species shrinks.
type Wood struct {
	Name                   string
	Radial, Tangential     float64 // shrinkage from green to oven-dry, per cent
	CoefRadial, CoefTangen float64 // change of size for each per cent of moisture, 6 to 14 %; 0 when it must follow from the shrinkage
}
