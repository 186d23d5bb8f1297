// Package sheettest reads back the PDF files that package sheet writes, for tests: page sizes, every path with its exact
// coordinates on paper, and the text. It shares no code with the writer.
package sheettest
