package measure_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"listel/profile/geom"
	"listel/profile/measure"
)

const seed = 20260317

func random(t *testing.T) *rand.Rand {
	t.Logf("seed %d", seed)
	return rand.New(rand.NewPCG(seed, 0))
}

// unmarked takes the mark of a rounded length out of text and returns it as +1, 0 or -1.
func unmarked(text string) (string, int) {
	for _, end := range []string{" in", "″", ""} { // the mark stands before " in" and behind the inch sign
		body, ok := strings.CutSuffix(text, end)
		if !ok {
			continue
		}
		for mark, off := range map[string]int{"+": 1, "-": -1, "\u2212": -1} {
			if plain, ok := strings.CutSuffix(body, mark); ok {
				return plain + end, off
			}
		}
	}
	return text, 0
}

// What is printed and read again is the true length within half the finest fraction, and the mark says on which
// side it lies.
func TestPrintedLengthsReadBack(t *testing.T) {
	rnd := random(t)
	for range 10000 {
		size := math.Pow(10, rnd.Float64()*6.3-2) // 0.01 mm to nearly 20 m
		mm := min(size, measure.Limit-20) * float64(1-2*rnd.IntN(2))
		f := measure.Format{Units: measure.Inches, Fraction: 2 + rnd.IntN(63), Feet: rnd.IntN(2) == 0}
		for _, text := range []string{f.Length(mm), f.Bare(mm), f.Drawing(mm)} {
			plain, mark := unmarked(text)
			got, err := measure.ParseLength(plain, measure.Inches)
			require.NoError(t, err, text)
			require.InDelta(t, f.Shown(mm), got, 1e-10*size+1e-12, text)
			require.LessOrEqual(t, math.Abs(got-mm), 25.4/2/float64(f.Fraction)+1e-7, "%s for %v", text, mm)

			over := math.Abs(mm) - math.Abs(got)
			if got == 0 {
				over = mm
			}
			want := 0
			if math.Abs(over) > 25.4/256 {
				want = int(math.Copysign(1, over))
			}
			require.Equal(t, want, mark, "%s for %v", text, mm)
		}
		metric := measure.Format{}
		got, err := measure.ParseLength(metric.Length(mm), measure.Inches)
		require.NoError(t, err)
		require.InDelta(t, mm, got, 0.05+1e-9)
		got, err = measure.ParseLength(metric.Set(mm), measure.Inches)
		require.NoError(t, err)
		require.InDelta(t, mm, got, 0.005+1e-9)
	}
}

// A printed length printed again is the same text without its mark, so that copying a list does not shift it.
func TestPrintingSettles(t *testing.T) {
	rnd := random(t)
	for range 5000 {
		mm := (rnd.Float64() - 0.5) * 2000
		for _, f := range []measure.Format{{}, {Units: measure.Inches}, {Units: measure.Inches, Fraction: 16, Feet: true}} {
			plain, _ := unmarked(f.Length(mm))
			require.Equal(t, plain, f.Length(f.Shown(mm)), "%v", mm)
		}
	}
}

// What is entered reads back within a millionth of a millimeter, a sixty-fourth to the last bit.
func TestEntriesReadBack(t *testing.T) {
	rnd := random(t)
	for range 5000 {
		mm := (rnd.Float64() - 0.5) * 2 * math.Pow(10, rnd.Float64()*4)
		for _, u := range []measure.Units{measure.Millimeters, measure.Inches} {
			text := measure.Format{Units: u}.Entry(mm)
			got, err := measure.ParseLength(text, u)
			require.NoError(t, err, text)
			require.InDelta(t, mm, got, 1e-6, text)
		}
		n := rnd.IntN(64 * 700)
		want, err := measure.ParseLength(fmt.Sprintf("%d/64", n), measure.Inches)
		require.NoError(t, err)
		got, err := measure.ParseLength(measure.Format{Units: measure.Inches}.Entry(want), measure.Inches)
		require.NoError(t, err)
		require.Equal(t, want, got)

		a := geom.Angle(rnd.Float64()-0.5) * 700 * geom.Degree
		back, err := measure.ParseAngle(measure.Format{}.AngleEntry(a))
		require.NoError(t, err)
		require.InDelta(t, a.Degrees(), back.Degrees(), 1e-6)
		back, err = measure.ParseAngle(measure.Format{}.Angle(a))
		require.NoError(t, err)
		require.InDelta(t, a.Degrees(), back.Degrees(), 0.05+1e-9)
	}
}

// Every way of writing one length is read as the same Quantity.
func TestWaysToWriteOneLength(t *testing.T) {
	rnd := random(t)
	for range 2000 {
		ft, whole, den := rnd.IntN(60), rnd.IntN(12), 1<<(1+rnd.IntN(6))
		num := 1 + rnd.IntN(den-1)
		want, err := measure.ParseSize(fmt.Sprintf("%d/%d in", (12*ft+whole)*den+num, den), measure.Millimeters)
		require.NoError(t, err)
		inch := float64(12*ft+whole) + float64(num)/float64(den)
		for _, text := range []string{
			fmt.Sprintf("%d %d/%d", 12*ft+whole, num, den),
			fmt.Sprintf("%d-%d/%d\"", 12*ft+whole, num, den),
			fmt.Sprintf("%d' %d-%d/%d\"", ft, whole, num, den),
			fmt.Sprintf("%dft %d %d/%din", ft, whole, num, den),
			fmt.Sprintf("%d′-%d %d⁄%d″", ft, whole, num, den),
			fmt.Sprintf("%v in", inch),
			fmt.Sprintf("%.9f mm", inch*25.4),
			fmt.Sprintf("%.10f cm", inch*2.54),
			fmt.Sprintf("%.12f m", inch*0.0254),
		} {
			got, err := measure.ParseSize(text, measure.Inches)
			require.NoError(t, err, text)
			require.Zero(t, want.Rat().Cmp(got.Rat()), "%s is %s, not %s", text, got.Rat(), want.Rat())
			neg, err := measure.ParseSize("-"+text, measure.Inches)
			require.NoError(t, err, text)
			require.Zero(t, neg.Rat().Cmp(got.Rat().Neg(got.Rat())), text)
		}
		assert.InDelta(t, inch*25.4, want.MM(), 1e-9)
	}
}
