package serve

import (
	"fmt"
	"slices"
	"strings"

	"listel/cmd/listel/job"
	"listel/library"
	"listel/profile"
)

// An unsaved tells which of the texts that something is drawn from are not as the disk has them.
type unsaved struct {
	own      string   // name of the text itself, "" when it is saved
	profiles []string // names of its profiles, sorted
}

// unsaved looks which texts are not as the disk has them: own, of the file at path, and those of the profiles of the given names, and of those that
// stand in them as members, that came as the page holds them. The profiles are those of lib.
func (s *Server) unsaved(path, own string, lib *library.Library, names []string, profiles map[string]string) unsaved {
	var out unsaved
	if data, err := s.folder.read(path, library.MaxFileBytes); err != nil || string(data) != own {
		out.own = stemOf(path)
	}
	if len(profiles) == 0 {
		return out
	}
	names = slices.Clone(names)
	for i := 0; i < len(names); i++ { // it grows by the stacks that are found on the way
		if _, ok := profiles[names[i]]; ok {
			out.profiles = append(out.profiles, names[i])
		}
		p, err := job.FindProfile(lib, names[i])
		if err != nil {
			continue
		}
		for _, name := range stacked(p.Profile) {
			if !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	slices.Sort(out.profiles)
	return out
}

// stacked returns the names of the profiles that stand in p as members.
func stacked(p profile.Profile) []string {
	var out []string
	for _, e := range p.Elements {
		if e.Profile != "" {
			out = append(out, e.Profile)
		}
	}
	return out
}

// names returns all that is not saved.
func (u unsaved) names() []string {
	if u.own == "" {
		return append([]string{}, u.profiles...)
	}
	return append([]string{u.own}, u.profiles...)
}

// source returns what sheets give as the file that they come from: from, and what is not saved.
func (u unsaved) source(from string) string {
	const most = 2 // names that a foot of a sheet takes beside the file's
	words := strings.Join(u.profiles, " and ")
	if len(u.profiles) > most {
		words = fmt.Sprintf("%d profiles", len(u.profiles))
	}
	switch {
	case u.own == "" && words == "":
		return from
	case u.own == "":
		return from + "; " + words + ", not saved"
	case words == "":
		return from + ", not saved"
	}
	return from + " and " + words + ", not saved"
}
