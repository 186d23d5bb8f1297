package trace

import (
	"fmt"
	"math"

	"listel/profile"
)

const (
	// leastRounds is how many rounds and hollows must be off their circles alike before a stretch is thought of; authors draw one or two so.
	leastRounds = 3
	// leastStretch and likelyStretch bound the stretch that copiers and scanners leave; common practice, no source.
	leastStretch, likelyStretch = 0.015, 0.08
	// sameStretch is how far their stretches may be apart.
	sameStretch = 0.01
)

// stretchHint asks whether a scan is stretched of which one length alone is known, where all rounds and hollows that could be parts of a circle are wider than
// high, or higher, by the same; "" where they are not.
func stretchHint(members []profile.Member) string {
	least, most, n := math.Inf(1), math.Inf(-1), 0
	for _, m := range members {
		switch m.Kind {
		case profile.KindOvolo, profile.KindCove, profile.KindConge, profile.KindCymaRecta, profile.KindCymaReversa:
			r := math.Abs(m.Projection)/m.Height - 1
			least, most, n = math.Min(least, r), math.Max(most, r), n+1
		}
	}
	mean := (least + most) / 2
	if n < leastRounds || most-least > sameStretch || math.Abs(mean) < leastStretch || math.Abs(mean) > likelyStretch {
		return ""
	}
	wider := "wider than high"
	if mean < 0 {
		wider = "higher than wide"
	}
	return fmt.Sprintf("its %d rounds and hollows are all %s by about %.0f %%; is the scan stretched? a second length, up where the first is across, or three known points tell", n, wider, 100*math.Abs(mean))
}
