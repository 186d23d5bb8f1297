package serve

import (
	"context"
	"errors"
	"net/http"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile/measure"
	"listel/template"
)

// A caseRequest is a case as the page holds it, and how it wants to see it.
type caseRequest struct {
	Name     string            `json:"name"` // of its file, with or without .yaml
	Text     string            `json:"text"`
	Profiles map[string]string `json:"profiles"` // texts that are not saved yet, by name
	Units    string            `json:"units"`    // "" for the file's own
	Fraction int               `json:"fraction"` // 0 for 64
	Stock    bool              `json:"stock"`    // the notes are to say too whether the stock will do, which takes a search
	Change   *caseChange       `json:"change"`   // made to the text first; nil for none
}

// A caseChange gives one key another value, or takes it out when Value is "".
type caseChange struct {
	Path   string `json:"path"`
	Value  string `json:"value"`
	Follow bool   `json:"follow"` // what hangs on the size of a stage goes with it
	covers []span // of the face of the lowest stage, what moldings take
}

// A caseAnswer is all that the page shows of a case. What needs a case that fits is empty when it does not.
type caseAnswer struct {
	OK       bool          `json:"ok"`
	Text     string        `json:"text"`
	Name     string        `json:"name"`
	Title    string        `json:"title"`
	Units    string        `json:"units"`
	Mistakes []caseMistake `json:"mistakes"`
	Notes    []string      `json:"notes"`
	Fields   []fieldGroup  `json:"fields"`
	Views    []caseView    `json:"views"`
	Moldings []caseMolding `json:"moldings"`
	Beads    []casePiece   `json:"beads"`
	BeadsSay []string      `json:"beads_say"`
	Drawers  []caseDrawer  `json:"drawers"`
	Unsaved  []string      `json:"unsaved"` // its profiles that are drawn as the page holds them, and are not saved so
}

// A caseMistake is a mistake in the words of check.
type caseMistake struct {
	File   string `json:"file"`
	Own    bool   `json:"own"` // it stands in the case's own text
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Key    string `json:"key"`
	Text   string `json:"text"`
}

// postCase answers with a case fitted and drawn, its text changed first when a change is asked for. A case that is impossible is
// answered with its mistakes; only a change that the text does not take is refused.
func (s *Server) postCase(w http.ResponseWriter, r *http.Request) error {
	var q caseRequest
	if err := read(w, r, &q); err != nil {
		return err
	}
	text := q.Text
	if q.Change != nil {
		var err error
		if q.Change.Path == "openings" || q.Change.Path == "moldings" {
			q.Change.covers = s.covered(q)
		}
		if text, err = q.Change.applied(text); err != nil {
			return err
		}
	}
	out, err := s.caseAnswer(r.Context(), q, text)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// caseAnswer returns what the page shows of a text.
func (s *Server) caseAnswer(ctx context.Context, q caseRequest, text string) (caseAnswer, error) {
	path := fileName(q.Name)
	out := caseAnswer{Text: text, Mistakes: []caseMistake{}, Notes: []string{}, Views: []caseView{}, Moldings: []caseMolding{}, Beads: []casePiece{},
		BeadsSay: []string{}, Drawers: []caseDrawer{}, Unsaved: []string{}}
	lib, err := s.libraryOf(path, q.Profiles)
	if err != nil {
		return out, err
	}
	c, err := job.LoadCase(lib, path, text)
	var mistakes library.Mistakes
	if err != nil && !errors.As(err, &mistakes) {
		return out, err
	}
	out.Mistakes = caseMistakes(mistakes, path)
	lengths, err := q.lengths(c.Case.Units)
	if err != nil {
		return out, err
	}
	out.Name, out.Title, out.Units = c.Case.Name, c.Title(), lengths.Units.String()
	keys, err := library.ReadKeyed([]byte(text))
	if err == nil {
		out.Fields = caseFields(keys, c)
	}
	if len(mistakes) > 0 {
		return out, nil
	}
	out.OK = true
	out.Unsaved = append(out.Unsaved, s.unsaved(path, text, c.Lib, c.Names(), q.Profiles).profiles...)
	out.Notes = append(out.Notes, c.Notes()...)
	if q.Stock {
		notes, wrong := c.StockNotes(ctx)
		out.Notes = append(out.Notes, noteWords(notes)...)
		for _, m := range wrong {
			out.Notes = append(out.Notes, m.Message())
		}
	}
	out.fill(c, keys, lengths)
	return out, nil
}

// caseMistakes returns mistakes as the page shows them; path is the file that it holds.
func caseMistakes(all library.Mistakes, path string) []caseMistake {
	out := []caseMistake{}
	for _, m := range all {
		out = append(out, caseMistake{File: m.File, Own: m.File == path, Line: m.Line, Column: m.Column, Key: m.Key, Text: m.Message()})
	}
	return out
}

// fill adds what a fitted case shows.
func (out *caseAnswer) fill(c job.Case, keys library.Keyed, f measure.Format) {
	views, top := template.CaseViews(c.Result), 0.0
	for _, v := range views {
		if v.Name == template.FrontView {
			top = v.Bounds().Max.Y
		}
	}
	for _, v := range views {
		out.Views = append(out.Views, newCaseView(v, top, c, keys, f))
	}
	for i, m := range c.Result.Moldings {
		out.Moldings = append(out.Moldings, newCaseMolding(i, m, c, f))
	}
	for _, p := range c.Result.Beads {
		out.Beads = append(out.Beads, newCasePiece(p, c.Case.Shop.Rough, f))
	}
	out.BeadsSay = append(out.BeadsSay, job.BeadWords(c.Result.Beads, f)...)
	out.Notes = append(out.Notes, c.Result.Notes...)
	for _, d := range c.Result.Drawers {
		out.Drawers = append(out.Drawers, caseDrawer{Row: d.Row, Column: d.Column, Width: f.Length(d.Width), Height: f.Length(d.Height)})
	}
}

// lengths returns how a request wants lengths printed.
func (q caseRequest) lengths(file measure.Units) (measure.Format, error) {
	fraction := q.Fraction
	if fraction == 0 {
		fraction = 64
	}
	return job.Lengths(q.Units, fraction, file)
}
