package template

import (
	"fmt"
	"math"
	"strconv"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
)

// A SetupsView is a plan of set-ups as a screen shows it, one set-up at a time: the pictures and words of its sheets. Points are in section
// coordinates, mm, but for what lies on the machine.
type SetupsView struct {
	ByHand  bool          // a plan for planes
	Section geom.Path     // that is to come
	Wood    [][]geom.Path // before the first set-up and after each: loops, counter-clockwise round wood, clockwise round a hole
	Steps   []SetupView
	Blank   string      // its sizes
	Summary string      // what the plan is
	Before  []SetupNote // to be known before the first cut
	Tools   []SetupTool // in the order of their use
	Fence   [][2]string // set-ups whose cutter runs into the fence, and how far it must be opened
	About   string      // how distances are measured
	Caution []string    // the usual ones, the first the most important
}

// A SetupNote is a paragraph; Strong ones are read first, and of those that warn of the plan itself are set larger.
type SetupNote struct {
	Text          string
	Strong, Warns bool
}

// A SetupTool is a tool of a plan, the set-ups that it is for, the cutting length that a router bit needs for them, and the speed and rim speed that it may
// turn at: "" where they are not known.
type SetupTool struct{ Tool, Used, Cuts, Speed, Rim string }

// A SetupView is one set-up. On the machine the corner of table and fence is the origin; the wood lies left of it and above, as it is seen
// from where it is fed in.
type SetupView struct {
	Setup        cutter.Setup
	Place        geom.Affine // from the section to the machine
	Cut, Body    geom.Path   // what the tool sweeps with its edge, and with what must stay clear
	Router       bool        // its body is drawn, and the axis that it turns about
	Table, Fence geom.Rect   // on the machine
	Setting      float64     // mm, from the fence as it is drawn to the edge that it is set by; negative inside the fence
	SettingText  string      // of the fence, as on a drawing
	HeightText   string
	Tool         string
	Cleans       string // the members that come clean, "" for none
	Watch        string // what to watch, "" for nothing
	Remarks      []SetupRemark
}

// A SetupRemark is what is said beside a picture: words, a figure that is set, and what follows it.
type SetupRemark struct {
	Text, Figure, More string
	Strong             bool
}

// ViewSetups returns a plan as a screen shows it, lengths in f. A plan without set-ups has the blank alone.
func ViewSetups(plan SetupPlan, f measure.Format) SetupsView {
	st := Style{Lengths: f}
	c := &setupComposer{plan: plan, st: st, title: setupTitle(plan), stick: newCutStick(plan)}
	out := SetupsView{
		Section: plan.Section.Outline, Wood: [][]geom.Path{c.stick.outline(0)}, Caution: plan.cautions(f),
		Blank: f.Drawing(plan.Plan.Blank.Width) + " × " + f.Drawing(plan.Plan.Blank.Thickness),
	}
	if len(plan.Plan.Setups) == 0 {
		return out
	}
	out.ByHand, out.Summary, out.About = c.byHand(), c.summary(), c.aboutWords()
	out.Before, out.Tools = c.notes(), c.tools()
	for _, row := range c.openings().Rows {
		out.Fence = append(out.Fence, [2]string{row[0], row[1]})
	}
	for i := range plan.Plan.Setups {
		out.Wood = append(out.Wood, c.stick.outline(i+1))
		out.Steps = append(out.Steps, c.view(i))
	}
	return out
}

// view returns set-up i, from 0.
func (c *setupComposer) view(i int) SetupView {
	v := setupPicture{plan: c.plan, stick: c.stick, i: i, k: 1, st: c.st}
	u := v.setup()
	out := SetupView{
		Setup: u, Place: v.place(), Cut: geom.Polygon(c.stick.cuts[i].pts...), Body: geom.Polygon(polygonOf(u.Body).pts...), Router: u.Work == cutter.Router,
		Tool: upperFirst(u.Tool), HeightText: v.figure(u.Height), Watch: u.Words(c.st.Lengths),
	}
	w, _ := v.extent()
	out.Table, out.Fence = v.boxes(w)
	out.Setting, _ = edgeToFence(u)
	out.SettingText = v.figure(out.Setting)
	out.Setting -= v.leftOut()
	if len(u.Cleans) > 0 {
		out.Cleans = memberWords(c.plan.Section, u.Cleans)
	}
	for _, r := range (setupCell{picture: v}).remarks() {
		out.Remarks = append(out.Remarks, SetupRemark{r.text, r.number, r.tail, r.strong()})
	}
	return out
}

// strong reports whether a remark is set bold.
func (r remark) strong() bool { return r.number != "" || r.size >= 10 }

// tools returns the tools in the order of their use.
func (c *setupComposer) tools() []SetupTool {
	var out []SetupTool
	rows, cuts := map[string]int{}, map[string]float64{}
	for _, u := range c.plan.Plan.Setups {
		n := strconv.Itoa(u.N)
		cuts[u.Tool] = max(cuts[u.Tool], u.Engages)
		if i, ok := rows[u.Tool]; ok {
			out[i].Used += ", " + n
			continue
		}
		rows[u.Tool] = len(out)
		t := SetupTool{Tool: u.Tool, Used: n}
		for _, s := range c.plan.Plan.Speeds {
			if s.Tool == u.Tool && s.RPM > 0 {
				t.Speed, t.Rim = fmt.Sprintf("%d rpm", s.RPM), rimSpeed(s, c.st.Lengths)
			} else if s.Tool == u.Tool {
				t.Speed = "not on a router"
			}
		}
		out = append(out, t)
	}
	for i := range out {
		if mm := cuts[out[i].Tool]; mm > 0 {
			out[i].Cuts = c.st.Lengths.Drawing(cuttingLength(mm, c.st.Lengths))
		}
	}
	return out
}

// cuttingLength returns the cutting length, mm, to ask for in a bit that engages so much: up to the next 1/32 in, or 0.5 mm.
func cuttingLength(mm float64, f measure.Format) float64 {
	unit := inUnits(f, 1./32, 0.5)
	return math.Ceil(mm/unit-0.02) * unit
}

// rimSpeed returns a rim speed as it is spoken of: in feet a minute with inches, in meters a second with millimeters.
func rimSpeed(s cutter.Speed, f measure.Format) string {
	if f.Units == measure.Inches {
		return fmt.Sprintf("%.0f ft/min", cutter.RimSpeed(s.Diameter, s.RPM)*60/(12*measure.MMPerInch/1000))
	}
	return fmt.Sprintf("%.0f m/s", s.Rim)
}
