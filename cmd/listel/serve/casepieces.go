package serve

import (
	"math"
	"slices"
	"strings"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/miter"
	"listel/profile/geom"
	"listel/profile/measure"
)

// A caseMolding is a molding of a case, in words that the miter command prints.
type caseMolding struct {
	Name    string        `json:"name"`
	Index   int           `json:"index"` // in the file, from 0
	Profile string        `json:"profile"`
	Title   string        `json:"title"` // of the profile
	On      string        `json:"on"`
	Foot    string        `json:"foot"`
	From    library.Where `json:"from"` // project, user or embedded
	File    string        `json:"file"` // of the profile
	Where   string        `json:"where"`
	Pieces  []casePiece   `json:"pieces"`
	Say     []string      `json:"say"`             // what holds it, how it may move
	Level   string        `json:"level,omitempty"` // the height of its foot that brings its top level with the top of its stage, as the file says it
	Short   string        `json:"short,omitempty"` // by how much the topmost of a stage ends below its top, "" for one that does not
	Section string        `json:"section"`
	Box     [4]float64    `json:"box"` // of the section
}

// A casePiece is a piece to cut.
type casePiece struct {
	Mark  string     `json:"mark"`
	Count int        `json:"count"`
	Run   string     `json:"run"`
	Runs  []string   `json:"runs"` // all that share the mark
	Hand  miter.Hand `json:"hand"`
	Back  string     `json:"back"`
	Long  string     `json:"long"`
	Short string     `json:"short"`
	Rough string     `json:"rough"`
	Left  caseEnd    `json:"left"`
	Right caseEnd    `json:"right"`
}

// A caseEnd is how one end is cut: in the words of the miter command, and how the piece lies on the saw.
type caseEnd struct {
	Words string `json:"words"`
	Saw   string `json:"saw"`
}

// A caseDrawer is a drawer opening.
type caseDrawer struct {
	Row    int    `json:"row"`
	Column int    `json:"column"`
	Width  string `json:"width"`
	Height string `json:"height"`
}

// newCaseMolding returns the molding of that index.
func newCaseMolding(i int, m miter.MoldingResult, c job.Case, f measure.Format) caseMolding {
	p := c.Profiles[m.Profile]
	out := caseMolding{
		Name: m.Name, Index: i, Profile: m.Profile, Title: p.Title(), On: m.Stage, Foot: f.Length(m.Foot),
		From: p.Origin.Where, File: p.Origin.File, Where: p.Origin.String(), Pieces: []casePiece{}, Say: append([]string{}, job.FittingWords(m, f)...),
	}
	for _, piece := range m.Pieces {
		out.Pieces = append(out.Pieces, newCasePiece(piece, c.Case.Shop.Rough, f))
	}
	out.Level, out.Short = level(i, c, f)
	if len(m.Sections) > 0 {
		outline := m.Sections[0].Section.Outline
		b := outline.Bounds()
		out.Section = closedData(outline.Flatten(0.02))
		out.Box = [4]float64{b.Min.X, b.Min.Y, b.Width(), b.Height()}
	}
	return out
}

// level returns the height of the foot of a molding that brings its top level with that of its stage, and, for the topmost of the stage that
// ends less than its own height below it, by how much. Both are "" where there is no stage of that name, and for what stands on its top.
func level(i int, c job.Case, f measure.Format) (foot, short string) {
	m := c.Result.Moldings[i]
	at := slices.IndexFunc(c.Result.Stages, func(s miter.StagePlan) bool { return s.Name == m.Stage })
	if at < 0 || len(m.Sections) == 0 {
		return "", ""
	}
	top, high := c.Result.Stages[at].Top, m.Sections[0].Section.Height
	gap := top - m.Foot - high
	if m.Foot >= top-sameSpot || math.Abs(gap) < sameSpot {
		return "", ""
	}
	foot = measure.Format{Units: c.Case.Units, Fraction: 64}.Entry(top - high)
	for _, o := range c.Result.Moldings {
		if o.Stage == m.Stage && o.Foot > m.Foot {
			return foot, ""
		}
	}
	if gap < 0 || gap > high {
		return foot, ""
	}
	return foot, f.Length(gap)
}

// newCasePiece returns a piece in words, its rough length with rough mm left on each end.
func newCasePiece(p miter.Piece, rough float64, f measure.Format) casePiece {
	out := casePiece{Mark: p.Mark, Count: p.Count, Run: p.Run, Runs: slices.Clone(p.Runs), Hand: p.Hand, Back: f.Bare(p.Back), Long: f.Bare(p.Long), Short: f.Bare(p.Short), Rough: f.Bare(f.NoLess(p.Stick(rough)))}
	if len(out.Runs) == 0 {
		out.Runs = []string{p.Run}
	}
	if len(p.Ends) == 2 {
		out.Left, out.Right = newCaseEnd(p.Ends[0], f), newCaseEnd(p.Ends[1], f)
	}
	return out
}

// newCaseEnd returns an end in words.
func newCaseEnd(e miter.End, f measure.Format) caseEnd {
	out := caseEnd{Words: job.EndWords(e, f)}
	if e.Kind != miter.CutMiter && e.Kind != miter.CutCope && e.Kind != miter.CutPlumb {
		return out
	}
	out.Saw = sawWords(e.Standing, f)
	if e.Flat != nil {
		out.Saw = sawWords(*e.Flat, f) + ". Or standing: " + sawWords(e.Standing, f)
	}
	return out
}

// sawWords says how a piece lies at the saw and which way the saw is set: foot on the table, back against the fence; arm 45° to the left;
// keep what lies left of the blade.
func sawWords(s miter.Saw, f measure.Format) string {
	words := []string{string(s.Table) + " on the table, " + string(s.Fence) + " against the fence"}
	if s.Miter != geom.Angle(0) {
		words = append(words, "arm "+f.Angle(s.Miter)+" to the "+string(s.Swing))
	}
	if s.Bevel != geom.Angle(0) {
		words = append(words, "blade leaned "+f.Angle(s.Bevel)+" to the "+string(s.Tilt))
	}
	if s.Keep != miter.NoHand && s.Keep != "" {
		words = append(words, "keep what lies "+string(s.Keep)+" of the blade")
	}
	return strings.Join(words, "; ")
}
