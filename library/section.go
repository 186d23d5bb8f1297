package library

import (
	"cmp"
	"errors"

	"listel/miter"
	"listel/profile"
)

// Profile returns the named profile and where it was found. A file that is there but wrong gives its Mistakes, no
// file a *NotFoundError.
func (l *Library) Profile(name string) (profile.Profile, Origin, error) {
	p, _, o, err := l.ProfileSource(name)
	return p, o, err
}

// ProfileSource is Profile with where the file's keys stand, for what is found wrong when the profile is built.
func (l *Library) ProfileSource(name string) (profile.Profile, *Source, Origin, error) {
	f, file, data, err := l.find("profile", name)
	if err != nil {
		return profile.Profile{}, nil, Origin{}, err
	}
	o := Origin{f.where, f.file(file)}
	p, src, err := LoadProfile(o.File, data)
	return p, src, o, err
}

// Lookup returns the named profile: it is the look-up that Profile.Section takes for stacks.
func (l *Library) Lookup(name string) (profile.Profile, error) {
	p, _, err := l.Profile(name)
	return p, err
}

// Section returns the section of the named profile and where the profile was found. Elements that cannot be built are Mistakes
// with their place in the file.
func (l *Library) Section(name string) (profile.Section, Origin, error) {
	p, src, o, err := l.ProfileSource(name)
	if err != nil {
		return profile.Section{}, o, err
	}
	s, err := p.Section(l.Lookup)
	if err != nil {
		return profile.Section{}, o, src.Mistakes(err)
	}
	return s, o, nil
}

// SectionOf returns the section of the named profile: it is the look-up that miter.Fit takes.
func (l *Library) SectionOf(name string) (profile.Section, error) {
	s, _, err := l.Section(name)
	return s, err
}

// ReadProfile returns the profile in the file at path, and where its keys stand.
func ReadProfile(path string) (profile.Profile, *Source, error) {
	data, err := ReadFile(path)
	if err != nil {
		return profile.Profile{}, nil, err
	}
	return LoadProfile(path, data)
}

// ExampleName is the name of the embedded example that stands for a case where none is given.
const ExampleName = "herb-press"

// Case returns the named case and where it was found: a file, or an embedded example. The errors are those of Profile.
func (l *Library) Case(name string) (miter.Case, Origin, error) {
	c, _, o, err := l.CaseSource(name)
	return c, o, err
}

// CaseSource is Case with where the file's keys stand, for what is found wrong when it is fitted.
func (l *Library) CaseSource(name string) (miter.Case, *Source, Origin, error) {
	f, file, data, err := l.find("case", name)
	if err != nil {
		return miter.Case{}, nil, Origin{}, err
	}
	o := Origin{f.where, f.file(file)}
	c, src, err := LoadCase(o.File, data)
	return c, src, o, err
}

// ReadCase returns the case in the file at path, and where its keys stand.
func ReadCase(path string) (miter.Case, *Source, error) {
	data, err := ReadFile(path)
	if err != nil {
		return miter.Case{}, nil, err
	}
	return LoadCase(path, data)
}

// KindOf returns whether a name is that of a profile or of a case; of a profile when it is both. It is a *NotFoundError when it is
// neither.
func (l *Library) KindOf(name string) (Kind, error) {
	_, _, _, err := l.find("profile", name)
	var missing *NotFoundError
	if err == nil || !errors.As(err, &missing) {
		return KindProfile, err
	}
	if _, _, _, e := l.find("case", name); e == nil {
		return KindCase, nil
	} else if noCase := new(NotFoundError); errors.As(e, &noCase) {
		err = &NotFoundError{Kind: "profile or case", Name: name, Near: cmp.Or(missing.Near, noCase.Near)}
	}
	return KindProfile, err
}

// FileKind returns what the file at path says it is. A file that says nothing, or nothing known, is taken for a profile, so that
// reading it tells what is wrong.
func FileKind(path string) (Kind, error) {
	data, err := ReadFile(path)
	if err != nil {
		return "", err
	}
	switch k := HeadOf(data).Kind; {
	case k == "case" || k != "profile" && Near(k, fileKinds) == "case":
		return KindCase, nil
	case k == "pieces":
		return KindPieces, nil
	case k == "trace" || k != "profile" && Near(k, fileKinds) == "trace":
		return KindTrace, nil
	default:
		return KindProfile, nil
	}
}

// Text returns the file of a named profile or case as it is written, for a copy of one's own, and where it was found.
func (l *Library) Text(kind Kind, name string) ([]byte, Origin, error) {
	f, file, data, err := l.find(string(kind), name)
	if err != nil {
		return nil, Origin{}, err
	}
	return data, Origin{f.where, f.file(file)}, nil
}
