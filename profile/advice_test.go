package profile_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"listel/profile"
	"listel/profile/geom"
)

// A back sprung at the greatest angle that is told would do does, and at a tenth of a degree more does not; where it is the angle that leaves no top it is
// the key of the fault.
func TestAngleThatWouldDo(t *testing.T) {
	sprung := func(degrees float64) profile.Profile {
		p := mm(sized(fillet, 6, 0, 0), sized(profile.KindCove, 10, 0, 10), sized(fillet, 3, 0, 0), sized(fillet, 16, 3, 0), sized(recta, 16, 0, 17), sized(fillet, 3, 0, 0))
		p.Ground = profile.MM(12)
		p.Back.Spring = &profile.Spring{Angle: geom.Angle(degrees) * geom.Degree, Wall: profile.MM(6)}
		return p
	}
	_, err := sprung(60).Section(nil)
	var faults profile.Errors
	require.ErrorAs(t, err, &faults)
	require.Equal(t, "back.spring.angle", faults[0].Key)
	var most float64
	_, err = fmt.Sscanf(faults[0].Reason, "a back at 60.0 degrees and a wall of 6.0 mm leave no top; an angle of %f degrees or less would do", &most)
	require.NoError(t, err, faults[0].Reason)
	built(t, sprung(most))
	_, err = sprung(most + 0.1).Section(nil)
	require.ErrorContains(t, err, fmt.Sprintf("an angle of %.1f degrees or less would do", most))
	require.Empty(t, sprung(most-10).Warnings(built(t, sprung(most-10))))
	w := sprung(most).Warnings(built(t, sprung(most)))
	require.Len(t, w, 1)
	require.Regexp(t, `^element 4, fillet: the spring line leaves 1\.\d mm of wood behind it; under 3\.2 mm it may break at the cutter$`, w.Error())
}
