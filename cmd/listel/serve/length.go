package serve

import (
	"net/http"

	"listel/cmd/listel/job"
	"listel/profile/measure"
)

// postLength answers with a length as it is read, in inches and millimeters, those of the units first that were asked for; or says why it is none.
func (s *Server) postLength(w http.ResponseWriter, r *http.Request) error {
	var q struct {
		Text  string `json:"text"`
		Units string `json:"units"` // of a bare number; "" for inches
	}
	if err := read(w, r, &q); err != nil {
		return err
	}
	units := measure.Inches
	if q.Units != "" {
		var err error
		if units, err = measure.ParseUnits(q.Units); err != nil {
			return refused(http.StatusBadRequest, "%s", err)
		}
	}
	mm, err := measure.ParseLength(q.Text, units)
	if err != nil {
		return err
	}
	words := map[measure.Units]string{}
	for _, u := range []measure.Units{measure.Inches, measure.Millimeters} {
		f, err := job.Lengths(u.String(), 64, u)
		if err != nil {
			return err
		}
		words[u] = f.Length(mm)
	}
	other := measure.Millimeters
	if units == other {
		other = measure.Inches
	}
	return answer(w, map[string]any{"mm": mm, "words": words[units] + ", " + words[other]})
}
