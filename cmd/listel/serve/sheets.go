package serve

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"sync"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// A sheetsRequest asks for the sheets of a case or of a profile, as the page holds it.
type sheetsRequest struct {
	What      string            `json:"what"` // packet of a case; section, template or setups of a profile
	Name      string            `json:"name"`
	Text      string            `json:"text"`
	Profiles  map[string]string `json:"profiles"`
	Paper     string            `json:"paper"`
	Landscape bool              `json:"landscape"`
	Printer   string            `json:"printer"`
	Units     string            `json:"units"`
	Fraction  int               `json:"fraction"`
	Setups    bool              `json:"setups"` // of a packet: with the set-ups
	Work      string            `json:"work"`   // machine or plane; "" for machine
	Tools     string            `json:"tools"`  // "" for the generic set
	Effort    string            `json:"effort"` // of the set-ups of a profile; "" for usual
	Blank     string            `json:"blank"`  // likewise: flat or upright, "" for the one that comes out better
}

// sheetsDone is what a request for sheets comes to.
type sheetsDone struct {
	doc   sheet.Document
	stem  string // of the names of its files
	notes []string
	files []library.File // the texts that it was made from
	paper string         // its name
	odd   unsaved        // which of the texts are not as the disk has them
}

// A sheetEntry is one sheet in the list of them.
type sheetEntry struct {
	N        int     `json:"n"`
	Part     string  `json:"part"` // of the work, "" for the cover and for sheets of a profile
	Title    string  `json:"title"`
	Purpose  string  `json:"purpose"`
	Width    float64 `json:"width_mm"`
	Height   float64 `json:"height_mm"`
	FullSize bool    `json:"full_size"`
}

// noteWords returns notes in words, with the page's field for the key of the file that they ask for.
func noteWords(notes []job.Note) []string {
	out := []string{}
	for _, n := range notes {
		switch n.Key {
		case "stock":
			n.Found = "No sheets of what to buy: the case says nothing of stock. Under Wood to buy in Case, add the boards that can be had."
		case "blank":
			n.Do = ", or choose Blank among the molding's fields in Case."
		}
		out = append(out, n.String())
	}
	return out
}

// A lineWriter sends JSON values, a line each, as they come; it is safe for several goroutines.
type lineWriter struct {
	mu sync.Mutex
	w  http.ResponseWriter
}

// send sends one value and returns the error of a reader that is gone.
func (l *lineWriter) send(v any) error {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		return err
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if _, err := l.w.Write(b.Bytes()); err != nil {
		return err
	}
	return http.NewResponseController(l.w).Flush()
}

// postSheets streams the sheets: how far the set-ups have come, then the list of the sheets, then each as SVG. Mistakes in the text come
// as a line of their own. A page that leaves the stream stops it.
func (s *Server) postSheets(w http.ResponseWriter, r *http.Request) error {
	var q sheetsRequest
	if err := read(w, r, &q); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/x-ndjson; charset=utf-8")
	lines := &lineWriter{w: w}
	done, err := s.sheets(r.Context(), q, func(stage string, n, of int) {
		_ = lines.send(map[string]any{"stage": stage, "done": n, "of": of}) // a reader that is gone ends the context too
	})
	var mistakes library.Mistakes
	switch {
	case errors.As(err, &mistakes):
		return lines.send(map[string]any{"mistakes": caseMistakes(mistakes, fileName(q.Name))})
	case r.Context().Err() != nil:
		return nil
	case err != nil:
		return lines.send(map[string]any{"error": err.Error(), "status": statusOf(err)})
	}
	list := []sheetEntry{}
	for i, p := range done.doc.Pages {
		list = append(list, sheetEntry{i + 1, p.Part, p.Frame.Title, p.Frame.Purpose, p.Paper.Width, p.Paper.Height, p.Frame.FullSize})
	}
	if err := lines.send(map[string]any{"sheets": list, "stem": done.stem, "paper": done.paper, "unsaved": done.odd.names(), "notes": append([]string{}, done.notes...)}); err != nil {
		return nil
	}
	for i, p := range done.doc.Pages {
		var b bytes.Buffer
		if r.Context().Err() != nil {
			return nil
		}
		if err := sheet.WriteSVG(&b, p); err != nil {
			return lines.send(map[string]any{"error": err.Error(), "status": http.StatusUnprocessableEntity})
		}
		if lines.send(map[string]any{"n": i + 1, "svg": b.String()}) != nil {
			return nil
		}
	}
	return nil
}

// sheets returns what q asks for. progress is told how far the set-ups have come.
func (s *Server) sheets(ctx context.Context, q sheetsRequest, progress func(stage string, done, of int)) (sheetsDone, error) {
	if q.Fraction == 0 {
		q.Fraction = 64
	}
	if q.Work == "" {
		q.Work = "machine"
	}
	path := fileName(q.Name)
	lib, err := s.libraryOf(path, q.Profiles)
	if err != nil {
		return sheetsDone{}, err
	}
	if q.What == "packet" {
		return s.packet(ctx, q, lib, path, progress)
	}
	return s.profileSheets(ctx, q, lib, path, progress)
}

// style returns how the sheets are drawn.
func (q sheetsRequest) style(s *Server, lib *library.Library, file measure.Units, source string) (template.Style, error) {
	lengths, err := job.Lengths(q.Units, q.Fraction, file)
	if err != nil {
		return template.Style{}, err
	}
	style, err := job.Paper{Name: q.Paper, Landscape: q.Landscape, Printer: q.Printer}.Style(lib, s.user, lengths, source)
	if err != nil {
		return template.Style{}, err
	}
	return style, job.Fits(style)
}

// shop returns the choices of the plans.
func (q sheetsRequest) shop() job.Shop { return job.Shop{Work: q.Work, Effort: "usual"} }

// packet returns the packet of a case.
func (s *Server) packet(ctx context.Context, q sheetsRequest, lib *library.Library, path string, progress func(string, int, int)) (sheetsDone, error) {
	c, err := job.LoadCase(lib, path, q.Text)
	if err != nil {
		return sheetsDone{}, err
	}
	odd := s.unsaved(path, q.Text, lib, c.Names(), q.Profiles)
	style, err := q.style(s, lib, c.Case.Units, odd.source(c.PacketSource()))
	if err != nil {
		return sheetsDone{}, err
	}
	p := job.Packet{Style: style, Setups: q.Setups, Planning: job.Planning{Shop: q.shop(), Cache: s.cache, Start: counted(progress)}}
	if q.Setups {
		if p.Tools, err = job.Tools(lib, q.Tools, c.Case.Units); err != nil {
			return sheetsDone{}, err
		}
		leave, err := s.enterPlan(ctx)
		if err != nil {
			return sheetsDone{}, err
		}
		defer leave()
	}
	ctx, cancel := context.WithTimeout(ctx, planTime)
	defer cancel()
	out := sheetsDone{stem: c.Case.Name + "-packet", paper: style.Paper.Name, odd: odd}
	var notes []job.Note
	out.doc, notes, err = c.Packet(ctx, p)
	out.notes = noteWords(notes)
	if err != nil {
		return out, timeWords(ctx, err)
	}
	out.files = append(out.files, library.File{Path: path, Data: []byte(q.Text)})
	for _, name := range c.Names() {
		text, _, err := lib.Text(library.KindProfile, name)
		if err != nil {
			return out, err
		}
		out.files = append(out.files, library.File{Path: name + ".yaml", Data: text})
	}
	out.files = ownFiles(out.files, lib, c, q.Tools)
	return out, nil
}

// profileSheets returns the sheets of one profile.
func (s *Server) profileSheets(ctx context.Context, q sheetsRequest, lib *library.Library, path string, progress func(string, int, int)) (sheetsDone, error) {
	p, err := job.LoadProfile(lib, path, q.Text)
	if err == nil {
		p, err = p.Built()
	}
	if err != nil {
		return sheetsDone{}, err
	}
	odd := s.unsaved(path, q.Text, lib, stacked(p.Profile), q.Profiles)
	style, err := q.style(s, lib, p.Profile.Units, odd.source(p.From()))
	if err != nil {
		return sheetsDone{}, err
	}
	out := sheetsDone{stem: p.Section.Name + "-" + q.What, notes: p.Notes(), paper: style.Paper.Name, odd: odd, files: []library.File{{Path: path, Data: []byte(q.Text)}}}
	switch q.What {
	case "section":
		out.doc = p.SectionSheets(style)
	case "template":
		out.doc = p.TemplateSheets(style)
	case "setups":
		var plan template.SetupPlan
		if plan, err = s.planProfile(ctx, q, lib, p, progress); err == nil {
			out.doc = p.SetupSheets(plan, style)
		}
	default:
		err = refused(http.StatusBadRequest, "%q are no sheets; they are packet, section, template or setups", q.What)
	}
	return out, err
}

// planProfile returns the set-ups of one profile.
func (s *Server) planProfile(ctx context.Context, q sheetsRequest, lib *library.Library, p job.Profile, progress func(string, int, int)) (template.SetupPlan, error) {
	shop := q.shop()
	shop.Blank = profile.BlankWay(q.Blank)
	if q.Effort != "" {
		shop.Effort = q.Effort
	}
	tools, err := job.Tools(lib, q.Tools, p.Profile.Units)
	if err != nil {
		return template.SetupPlan{}, err
	}
	plan, err := shop.ToPlan(p.Section, tools, p.Profile.Units)
	if err != nil {
		return template.SetupPlan{}, err
	}
	leave, err := s.enterPlan(ctx)
	if err != nil {
		return template.SetupPlan{}, err
	}
	defer leave()
	ctx, cancel := context.WithTimeout(ctx, planTime)
	defer cancel()
	plans, err := job.PlanAll(ctx, []job.ToPlan{plan}, s.cache, counted(progress)(1))
	if err != nil {
		return template.SetupPlan{}, timeWords(ctx, err)
	}
	return plan.Sheets(plans[0]), nil
}

// counted returns what is told of plans as they begin and end, for progress to be told how many are done.
func counted(progress func(stage string, done, of int)) func(n int) func(int, string) {
	return func(n int) func(int, string) {
		var mu sync.Mutex
		done, last := 0, ""
		progress("", 0, n)
		return func(_ int, stage string) {
			mu.Lock()
			defer mu.Unlock()
			if stage == "" {
				done++
			} else if stage == last {
				return
			}
			last = stage
			progress(stage, done, n)
		}
	}
}

// timeWords says in words that the time for a search ran out.
func timeWords(ctx context.Context, err error) error {
	if errors.Is(ctx.Err(), context.DeadlineExceeded) {
		return refused(http.StatusUnprocessableEntity, "the set-ups were not found within %d s; the setups command takes the time it needs", int(planTime.Seconds()))
	}
	return err
}

// A download is a file for the page to keep.
func download(w http.ResponseWriter, name, kind string, data []byte) error {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", fmt.Sprintf("attachment; filename=%q", name))
	_, _ = w.Write(data) // the client may be gone
	return nil
}
