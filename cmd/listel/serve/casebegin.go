package serve

import (
	"fmt"
	"math"
	"net/http"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
)

// begun is the value of a change that puts drawers into a case that has none, or a first board of stock.
const begun = "new"

// A span is a part of a height, mm over the floor.
type span struct{ from, to float64 }

// covered returns what the moldings of a case take of the face of its lowest stage, nothing of a case that does not fit.
func (s *Server) covered(q caseRequest) []span {
	lib, err := s.libraryOf(fileName(q.Name), q.Profiles)
	if err != nil {
		return nil
	}
	c, err := job.LoadCase(lib, fileName(q.Name), q.Text)
	if err != nil || len(c.Case.Stages) == 0 {
		return nil
	}
	var out []span
	for _, m := range c.Result.Moldings {
		if m.Stage == c.Case.Stages[0].Name && len(m.Sections) > 0 {
			out = append(out, span{m.Foot, m.Foot + m.Sections[0].Section.Height})
		}
	}
	return out
}

// withDrawers returns the text with drawers in its lowest stage: within sides an inch thick, clear of what is molded at foot and top, in rows of
// about eight inches that get lower upward (common practice, no source).
func withDrawers(text string, covers []span) (string, error) {
	keys, err := library.ReadKeyed([]byte(text))
	if err != nil {
		return changed(nil, err)
	}
	units := unitsOf(text)
	said, _ := keys.Text(stageKey(keys, 0, "height"))
	height, err := measure.ParsePositive(said, units)
	if err != nil {
		return "", refused(http.StatusUnprocessableEntity, "The case needs a height first: %s", err)
	}
	const inch = measure.MMPerInch
	bottom, top := math.Min(4*inch, height/6), height-math.Min(4*inch, height/6)
	for _, c := range covers {
		if (c.from+c.to)/2 < height/2 {
			bottom = math.Max(bottom, c.to)
		} else {
			top = math.Min(top, c.from)
		}
	}
	if top-bottom < height/4 {
		return "", refused(http.StatusUnprocessableEntity, "The moldings leave no room for drawers on the lowest stage.")
	}
	rows := math.Max(1, math.Min(4, math.Round((top-bottom)/(8*inch))))
	side, divider, step := "1", "3/4", inch/4
	if units == measure.Millimeters {
		side, divider, step = "25", "20", 5
	}
	at := func(steps float64) string {
		if units == measure.Millimeters {
			return fmt.Sprint(steps * step)
		}
		return fmt.Sprint(math.Round(steps*step/inch*4) / 4)
	}
	openings := fmt.Sprintf("{area: {left: %s, right: %s, bottom: %s, top: %s}, divider: %s, graduate: %s}",
		side, side, at(math.Ceil(bottom/step-1e-6)), at(math.Floor(top/step+1e-6)), divider, begunRows(fmt.Sprint(rows)))
	return changed(library.SetKey([]byte(text), "openings", openings))
}

// withStock returns the text with one board more to buy, of the wood of the case, as wide as moldings of most cases need it.
func withStock(text string) (string, error) {
	keys, err := library.ReadKeyed([]byte(text))
	if err != nil {
		return changed(nil, err)
	}
	wood, ok := keys.Text("wood")
	if !ok {
		wood = "black cherry"
	}
	board := "thickness: 12/4, width: 6, length: 8ft"
	if unitsOf(text) == measure.Millimeters {
		board = "thickness: 75, width: 150, length: 2400"
	}
	return changed(library.AppendEntry([]byte(text), "stock", "wood: "+library.Scalar(wood)+", "+board))
}
