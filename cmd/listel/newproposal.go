package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"listel/library"
	"listel/profile/measure"
)

// rulesHelp lists the rules.
func rulesHelp() string {
	lines := []string{"The rules:"}
	for _, r := range library.Rules() {
		lines = append(lines, fmt.Sprintf("  %-24s %s", r.Name, r.Title))
	}
	return strings.Join(lines, "\n")
}

// proposes reports whether any option of a proposed case is given.
func (o newOptions) proposes() bool {
	return o.rule != "" || o.height != "" || o.width != "" || o.depth != ""
}

// newProposal writes a case whose heights follow a rule, and its profiles beside it, and tells what the rule is and gives.
func newProposal(app App, o newOptions, units measure.Units) error {
	p, err := o.proposal(units)
	if err != nil {
		return err
	}
	text, profiles, err := library.Propose(p)
	if err != nil {
		return wrongUse("%w", err)
	}
	path := drawOptions{out: o.out}.target(p.Name, "yaml")
	files, names := []library.File{{Path: path, Data: text}}, []string{path}
	for _, c := range profiles {
		beside := filepath.Join(filepath.Dir(path), c.Name+".yaml")
		files, names = append(files, library.File{Path: beside, Data: c.Text}), append(names, beside)
	}
	if err := app.writeFiles(files, library.WriteOptions{Force: o.force, MakeFolder: endsInSlash(o.out)}); err != nil {
		return err
	}
	d := p.Rule.Divide(p.Height)
	if o.json {
		return app.printJSON(map[string]any{
			"kind": o.kind, "file": path, "files": names, "rule": p.Rule.Name, "source": p.Rule.Source, "ours": p.Rule.Ours, "height_mm": p.Height,
			"base_mm": d.Base, "waist_mm": d.Waist, "cornice_mm": d.Cornice, "pedestal_mm": d.Pedestal, "base_projection_mm": d.BaseProjection,
		})
	}
	f := measure.Format{Units: units}
	fmt.Fprintf(app.Out, "A starting point, after %s:\n", p.Rule.Source)
	fmt.Fprintf(app.Out, "  base %s high, cornice %s", f.Length(d.Base), f.Length(d.Cornice))
	if d.Waist > 0 {
		fmt.Fprintf(app.Out, ", waist %s under %s from the floor", f.Length(d.Waist), f.Length(d.Pedestal))
	}
	fmt.Fprintf(app.Out, "\nOurs, not the source's: %s.\nEdit it, then: listel check %s && listel miter %s\n", p.Rule.Ours, path, path)
	return nil
}

// proposal reads the options.
func (o newOptions) proposal(units measure.Units) (library.Proposal, error) {
	p := library.Proposal{Name: strings.TrimSuffix(o.name, ".yaml"), Units: units}
	switch {
	case o.kind != "case":
		return p, wrongUse("--rule, --height, --width and --depth are for a case; a profile's height is in its file")
	case o.rule == "":
		return p, wrongUse("--rule is needed with --height: the published rule that the heights follow\n%s", rulesHelp())
	case o.height == "":
		return p, wrongUse("--height is needed with --rule: from the floor to the top of the cornice")
	}
	var err error
	if p.Rule, err = library.RuleNamed(o.rule); err != nil {
		return p, wrongUse("--rule: no rule named %q\n%s", o.rule, rulesHelp())
	}
	for _, l := range []struct {
		flag, text string
		mm         *float64
	}{{"height", o.height, &p.Height}, {"width", o.width, &p.Width}, {"depth", o.depth, &p.Depth}} {
		if l.text == "" {
			continue
		}
		if *l.mm, err = measure.ParsePositive(l.text, units); err != nil {
			return p, wrongUse("--%s: %w", l.flag, err)
		}
	}
	return p, nil
}
