package job

import (
	"slices"
	"strings"

	"listel/library"
	"listel/profile/measure"
	"listel/template"
	"listel/template/sheet"
)

// A Paper is what sheets are drawn on, as a person chooses it.
type Paper struct {
	Name      string // "" for Letter with inches, A4 with millimeters
	Landscape bool
	Printer   string // the name of a measured printer to correct for, "" for none
}

// Style returns how sheets are drawn on the paper; lib and user are where papers and measured printers of one's own are, source is the file
// that the sheets name. The error is a *ChoiceError when there is no such paper or printer.
func (p Paper) Style(lib *library.Library, user string, lengths measure.Format, source string) (template.Style, error) {
	paper, err := p.paper(lib, lengths.Units)
	if err != nil {
		return template.Style{}, err
	}
	printer, err := p.correction(user)
	if err != nil {
		return template.Style{}, err
	}
	return template.Style{Lengths: lengths, Paper: paper, Printer: printer, Source: source}, nil
}

// paper returns the paper of that name: a standard one, else one of the project's or the user's own.
func (p Paper) paper(lib *library.Library, units measure.Units) (sheet.Paper, error) {
	name := strings.Trim(p.Name, `"'`)
	if name == "" {
		name = map[measure.Units]string{measure.Inches: "Letter", measure.Millimeters: "A4"}[units]
	}
	paper, unknown := sheet.PaperNamed(name)
	if unknown != nil {
		own, err := lib.Papers()
		if err != nil {
			return paper, err
		}
		i := slices.IndexFunc(own, func(o library.Paper) bool {
			return slices.ContainsFunc(slices.Concat([]string{o.Name}, o.Also), func(s string) bool { return strings.EqualFold(s, name) })
		})
		if i < 0 {
			return paper, unknownPaper(name, own, unknown)
		}
		paper = sheet.Paper{Name: own[i].Name, Width: own[i].Width, Height: own[i].Height}
	}
	if p.Landscape {
		return paper.Landscape(), nil
	}
	return paper, nil
}

// unknownPaper returns the error for a name that no paper has, standard or one's own: with the name that is near, else as unknown says it.
func unknownPaper(name string, own []library.Paper, unknown error) error {
	names := sheet.PaperNames()
	for _, o := range own {
		names = append(append(names, o.Name), o.Also...)
	}
	if near := library.Near(name, names); near != "" {
		return wrongChoice("paper", ": unknown paper %q; %s?", name, near)
	}
	return wrongChoice("paper", ": %w", unknown)
}

// correction returns the error of the printer that is named, none without one.
func (p Paper) correction(user string) (sheet.Correction, error) {
	if p.Printer == "" {
		return sheet.Correction{}, nil
	}
	printers, err := library.Printers(user)
	if err != nil {
		return sheet.Correction{}, err
	}
	var names []string
	for _, known := range printers {
		if known.Name == p.Printer {
			return Correction(known), nil
		}
		names = append(names, known.Name)
	}
	hint := "`listel printer record` does it"
	if near := library.Near(p.Printer, names); near != "" {
		hint = near + "?"
	}
	return sheet.Correction{}, wrongChoice("printer", ": no printer named %q is recorded; %s", p.Printer, hint)
}

// Correction returns what sheets are corrected by for a measured printer.
func Correction(p library.Printer) sheet.Correction {
	return sheet.Correction{Name: p.Name, Across: p.Across, Up: p.Up}
}

// Fits returns what keeps sheets from being drawn in a style, nil when nothing does: it is told before a long search.
func Fits(style template.Style) error {
	for _, p := range template.PrinterCheck(style) { // its frame takes the most room
		if err := p.Frame.Fits(p.Paper); err != nil {
			return err
		}
	}
	return nil
}
