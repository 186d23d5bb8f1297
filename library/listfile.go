package library

// CheckListed reads a file of things that a library lists - tools, woods, papers, lumber - or of measured printers, and returns what it is: its kind in the
// file, "" when the file is of another kind and was not read. The error is Mistakes when something is wrong in it.
func (l *Library) CheckListed(path string) (kind string, err error) {
	data, err := ReadFile(path)
	if err != nil {
		return "", err
	}
	kind = HeadOf(data).Kind
	switch kind {
	case "tools":
		_, err = l.tools(path, data)
	case "woods":
		_, _, err = LoadWoods(path, data)
	case "papers":
		_, _, err = LoadPapers(path, data)
	case "lumber":
		_, _, err = LoadLumber(path, data)
	case "printers":
		_, _, err = LoadPrinters(path, data)
	default:
		return "", nil
	}
	return kind, err
}
