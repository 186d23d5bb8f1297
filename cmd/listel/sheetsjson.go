package main

import "listel/template/sheet"

// sheetsJSON lists the sheets of a document.
type sheetsJSON struct {
	Title  string      `json:"title"`
	Sheets []sheetJSON `json:"sheets"`
}

type sheetJSON struct {
	Number   int     `json:"n"`
	Title    string  `json:"title"`
	Purpose  string  `json:"purpose"`
	Width    float64 `json:"width_mm"`
	Height   float64 `json:"height_mm"`
	FullSize bool    `json:"full_size"`
}

func newSheetsJSON(doc sheet.Document) sheetsJSON {
	out := sheetsJSON{Title: doc.Title, Sheets: []sheetJSON{}}
	for i, p := range doc.Pages {
		out.Sheets = append(out.Sheets, sheetJSON{i + 1, p.Frame.Title, p.Frame.Purpose, p.Paper.Width, p.Paper.Height, p.Frame.FullSize})
	}
	return out
}
