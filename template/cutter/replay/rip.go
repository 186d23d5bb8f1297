package replay

// rip takes away the board that a molding is ripped off, and checks that it is the molding and not the board that comes free beside the fence's far
// side of the blade, that nothing of the board is left on it, and that no cut comes after.
func (b *bench) rip(n int, s Setup) {
	if n != len(b.plan.Setups) {
		b.fault(n, "rip", float64(n), "cuts come after the molding is ripped off its board")
	}
	at := s.machine(b.r.at(b.keep))
	if u, ok := b.kerfAt(s, at[1]); !ok || at[0] < u {
		b.fault(n, "trapped", at[0], "the molding stays between blade and fence")
	}
	held := false
	b.r.loose(b.standing, b.keep, func(l run) {
		for k := l.a; k < l.b; k++ {
			b.standing[k] = false
			held = held || s.machine(b.r.at(k))[0] > at[0]
		}
	})
	if held {
		b.fault(n, "apart", 0, "more than the board comes off the molding")
	}
}
