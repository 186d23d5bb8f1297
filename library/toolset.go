package library

import (
	"errors"
	"fmt"
	"math"

	"listel/profile/geom"
	"listel/profile/measure"
	"listel/template/cutter"
)

// A ToolSet is the tools that someone has at hand.
type ToolSet struct {
	Name, Title, Source string
	Units               measure.Units
	Tools               []cutter.Tool // valid, each with a name of its own
	molds               []mold        // form tools that are given by a profile, until their edges are found
}

// A mold is a form tool that is given by the profile that it leaves.
type mold struct {
	tool    int // in Tools
	path    string
	profile string
	tip     float64 // mm, half of what is flat at the point
}

// The embedded sets of tools.
const (
	InchTools   = "inch-tools"
	MetricTools = "metric-tools"
)

// DefaultTools returns the name of the embedded set of tools in these units.
func DefaultTools(u measure.Units) string {
	if u == measure.Inches {
		return InchTools
	}
	return MetricTools
}

// Tools returns the named set of tools and where it was found: a file of the project's, of the user's library, or an embedded one. A file that
// is there but wrong gives its Mistakes, no file a *NotFoundError.
func (l *Library) Tools(name string) (ToolSet, Origin, error) {
	f, file, data, err := l.find("tools", name)
	if err != nil {
		var missing *NotFoundError
		if errors.As(err, &missing) {
			missing.Kind = "set of tools"
		}
		return ToolSet{}, Origin{}, err
	}
	o := Origin{f.where, f.file(file)}
	set, err := l.tools(o.File, data)
	return set, o, err
}

// ReadTools returns the set of tools in the file at path.
func (l *Library) ReadTools(path string) (ToolSet, error) {
	data, err := ReadFile(path)
	if err != nil {
		return ToolSet{}, err
	}
	return l.tools(path, data)
}

// tools reads a set and makes the tools that are given by a profile.
func (l *Library) tools(file string, data []byte) (ToolSet, error) {
	set, src, err := LoadTools(file, data)
	if err != nil {
		return ToolSet{}, err
	}
	var all Mistakes
	for _, m := range set.molds {
		edge, err := l.edgeOf(m)
		if err == nil {
			set.Tools[m.tool].Profile = edge
			err = set.Tools[m.tool].Validate()
		}
		if err != nil {
			all = append(all, src.at(m.path+".profile", fmt.Sprintf("profile %s cannot be a cutter: %v", m.profile, err)))
		}
	}
	if len(all) > 0 {
		return ToolSet{}, all
	}
	set.molds = nil
	return set, nil
}

// edgeOf returns the lower edge of a cutter that turns and leaves the face of a profile: the profile's most prominent end lies next to the
// point.
func (l *Library) edgeOf(m mold) (geom.Path, error) {
	s, err := l.SectionOf(m.profile)
	if err != nil {
		return nil, err
	}
	var face geom.Path
	for i, member := range s.Members {
		if i > 0 && !face.End().Near(member.Path.Start(), 1e-9) {
			face = append(face, geom.Line{A: face.End(), B: member.Path.Start()})
		}
		face = append(face, member.Path...)
	}
	if len(face) == 0 {
		return nil, errors.New("it has no face")
	}
	a, b := face.Start(), face.End()
	most := math.Max(a.X, b.X)
	var right geom.Path // from the point outward: u grows as the face goes back, v from the end that is most prominent
	if b.X >= a.X {
		right = face.Reverse().Transform(geom.Affine{A: -1, D: -1, E: m.tip + most, F: b.Y})
	} else {
		right = face.Transform(geom.Affine{A: -1, D: 1, E: m.tip + most, F: -a.Y})
	}
	if !runsOut(right) {
		return nil, errors.New("its face turns back on itself, and a cutter that turns cannot reach behind")
	}
	left := right.MirrorX()
	return append(append(left, geom.Line{A: left.End(), B: right.Start()}), right...), nil
}

// runsOut reports whether a path never turns back toward smaller x.
func runsOut(p geom.Path) bool {
	for _, s := range p {
		for i := range 9 {
			if s.Tangent(float64(i)/8).X < -1e-9 {
				return false
			}
		}
	}
	return true
}

// listTools lists the sets of tools of every place.
func (l *Library) listTools() []Listing {
	var out []Listing
	for _, name := range l.namesOf("tools") {
		set, o, err := l.Tools(name)
		e := Listing{Kind: KindTool, Name: name, Source: set.Source, Origin: o}
		if err != nil {
			e.Fault = err.Error()
		} else {
			e.Title = fmt.Sprintf("%s (%d tools)", set.title(), len(set.Tools))
		}
		out = append(out, e)
	}
	return out
}

func (s ToolSet) title() string {
	if s.Title != "" {
		return s.Title
	}
	return s.Name
}
