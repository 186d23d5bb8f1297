package stock

// The marks of what is cut beside the pieces.
const (
	TestMark  = "test"
	SpareMark = "spare"
)

// allow adds to a class the length for tests and set-up, and the spare wood: a part of the summed length of the pieces, in as
// few equal lengths as fit the longest stick. The spare is rounded up to a whole step of the pieces' own lengths, so that it
// spoils no exact fit, unless that step is coarse, as that of a single piece is: then to 1/8 in.
func (j Job) allow(c *class) {
	test := j.Shop.Test
	if c.Test > 0 {
		test = c.Test
	}
	sum, step := c.sum()
	if test > 0 && !c.NoTest {
		c.pieces = append(c.pieces, cut{mark: TestMark, length: test, units: roundUp(test)})
		step = gcd(step, roundUp(test))
	}
	spare := roundUp(toMM(sum) * j.Shop.Spare)
	if spare <= 0 {
		return
	}
	longest := max(c.longest().usable/step*step, 1)
	n := ceilDiv(spare, longest)
	each := ceilDiv(spare, n)
	step = spareStep(each, step)
	each = min(ceilDiv(each, step)*step, longest)
	for range n {
		c.pieces = append(c.pieces, cut{mark: SpareMark, length: toMM(each), units: each})
	}
}

// eighth is 1/8 in, in units.
const eighth = 254 * unitsPerMM / 80

// spareStep returns the step that a length of spare wood is rounded up to: that of the pieces, or 1/8 in where that would make it more than a quarter
// longer. Common practice, no source.
func spareStep(spare, step int64) int64 {
	if 4*(ceilDiv(spare, step)*step) > 5*spare && step > eighth {
		return eighth
	}
	return step
}

// sum returns the summed length of a class's pieces, in units, and the greatest length that divides each of them.
func (c *class) sum() (sum, step int64) {
	for _, p := range c.pieces {
		sum += p.units
		step = gcd(step, p.units)
	}
	for _, w := range c.wraps {
		for _, p := range w.cuts {
			sum += int64(w.count) * p.units
			step = gcd(step, p.units)
		}
	}
	return sum, max(step, 1)
}
