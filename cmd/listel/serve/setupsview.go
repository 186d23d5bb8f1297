package serve

import (
	"fmt"
	"strconv"
	"strings"

	"listel/cmd/listel/job"
	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template"
	"listel/template/cutter"
)

// A planView is a plan as the page shows it. Paths are in section coordinates, mm, y up; place takes them to the machine, where the corner
// of table and fence is the origin and the wood lies left of it and above.
type planView struct {
	Name     string         `json:"name"`
	Title    string         `json:"title"`
	ByHand   bool           `json:"by_hand"`
	Units    string         `json:"units"`
	Set      string         `json:"set"` // title of the set of tools
	Blank    string         `json:"blank"`
	Summary  string         `json:"summary"`
	Bound    string         `json:"bound"`   // how many are needed at least, "" when these are the fewest
	Stopped  bool           `json:"stopped"` // the search ended before it was done
	Good     bool           `json:"good"`    // the plan passed its check
	Notes    []planNote     `json:"notes"`
	About    string         `json:"about"`
	Cautions []string       `json:"cautions"`
	Tools    []planTool     `json:"tools"`
	Fence    [][2]string    `json:"fence"` // set-up, and what is to be opened
	Section  string         `json:"section"`
	Box      [4]float64     `json:"box"` // of the blank as the section stands: x, y, width, height
	Members  []planMember   `json:"members"`
	Wood     []string       `json:"wood"` // before the first set-up and after each; filled nonzero
	Steps    []planStepView `json:"steps"`
}

type planNote struct {
	Text   string `json:"text"`
	Strong bool   `json:"strong"`
}

type planTool struct {
	Tool  string `json:"tool"`
	Used  string `json:"used"`
	Cuts  string `json:"cuts"`
	Speed string `json:"speed"`
	Rim   string `json:"rim"`
}

// A planMember is the part of the face that is one member's; Index is the element's, from 1.
type planMember struct {
	Index int    `json:"index"`
	Title string `json:"title"`
	Path  string `json:"path"`
}

type planStepView struct {
	N       int          `json:"n"`
	Tool    string       `json:"tool"`
	Work    cutter.Work  `json:"work"`
	Enters  string       `json:"enters"` // table, fence or above: where the tool comes from
	Place   [6]float64   `json:"place"`  // a b c d e f of an SVG matrix
	Cut     string       `json:"cut"`
	Body    string       `json:"body"`   // "" where it is not drawn
	Table   [4]float64   `json:"table"`  // x, y, width, height on the machine
	Fence   [4]float64   `json:"fence"`  // likewise
	Axis    *float64     `json:"axis"`   // x on the machine that a router's bit turns about
	Edge    float64      `json:"edge"`   // x on the machine of the edge that the fence is set by
	Height  float64      `json:"height"` // y on the machine
	Setting string       `json:"setting"`
	Over    string       `json:"over"` // the height in words
	Passes  int          `json:"passes"`
	Cleans  []int        `json:"cleans"`
	Words   string       `json:"words"` // the members that come clean
	Warning string       `json:"warning"`
	Remarks []planRemark `json:"remarks"`
}

type planRemark struct {
	Text   string `json:"text"`
	Figure string `json:"figure"`
	More   string `json:"more"`
	Strong bool   `json:"strong"`
}

// newPlanView returns a plan as the page shows it.
func newPlanView(p job.Profile, plan job.ToPlan, found job.Plan, f measure.Format) *planView {
	v := template.ViewSetups(plan.Sheets(found), f)
	bounds := geom.EmptyRect()
	for _, loop := range v.Wood[0] {
		bounds = bounds.Union(loop.Bounds())
	}
	out := &planView{
		Name: p.Section.Name, Title: p.Title(), ByHand: v.ByHand, Units: f.Units.String(), Set: plan.Sheets(found).Set, Blank: v.Blank, Summary: v.Summary,
		Bound: boundWords(found), Stopped: found.Stopped, Good: len(found.Verified.Faults) == 0, About: v.About, Section: pathD(v.Section, true), Cautions: append([]string{}, v.Caution...),
		Notes: []planNote{}, Tools: []planTool{}, Fence: append([][2]string{}, v.Fence...), Members: []planMember{}, Steps: []planStepView{},
		Box: boxOf(bounds),
	}
	for _, n := range v.Before {
		n.Text = inPageWords(n.Text)
		out.Notes = append(out.Notes, planNote{n.Text, n.Strong})
	}
	for _, t := range v.Tools {
		out.Tools = append(out.Tools, planTool(t))
	}
	for _, m := range p.Section.Members {
		out.Members = append(out.Members, planMember{m.Index, strconv.Itoa(m.Index) + " " + strings.ReplaceAll(string(m.Kind), "-", " "), pathD(m.Path, false)})
	}
	for _, loops := range v.Wood {
		out.Wood = append(out.Wood, loopsD(loops))
	}
	for _, s := range v.Steps {
		out.Steps = append(out.Steps, newPlanStep(s))
	}
	return out
}

// boundWords says how many set-ups are needed at least, "" of a plan that is proven to have the fewest, as its summary says.
func boundWords(p job.Plan) string {
	if p.Proven {
		return ""
	}
	return fmt.Sprintf("At least %d are needed; whether fewer than these %d will do is not known.", p.LowerBound, len(p.Setups))
}

// newPlanStep returns one set-up as the page shows it.
func newPlanStep(s template.SetupView) planStepView {
	u, a := s.Setup, s.Place
	out := planStepView{
		N: u.N, Tool: s.Tool, Work: u.Work, Enters: u.Enters, Place: [6]float64{a.A, a.B, a.C, a.D, a.E, a.F}, Cut: pathD(s.Cut, true),
		Table: boxOf(s.Table), Fence: boxOf(s.Fence), Edge: tidy(-s.Setting), Height: tidy(u.Height), Setting: s.SettingText, Over: s.HeightText,
		Passes: u.Passes, Cleans: append([]int{}, u.Cleans...), Words: s.Cleans, Warning: s.Watch, Remarks: []planRemark{},
	}
	if s.Router {
		x := tidy(-u.Axis)
		out.Body, out.Axis = pathD(s.Body, true), &x
	}
	for _, r := range s.Remarks {
		out.Remarks = append(out.Remarks, planRemark(r))
	}
	return out
}

// loopsD returns the d of an SVG path for loops.
func loopsD(loops []geom.Path) string {
	var d strings.Builder
	for _, l := range loops {
		d.WriteString(pathD(l, true))
	}
	return d.String()
}
