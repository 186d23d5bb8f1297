// Package sheet draws on paper. A Drawing is a list of marks in millimeters, y up: strokes, filled regions,
// hatching, text and pictures. A Page is a sheet of paper with a frame, a title block and a drawing on it, and a
// Document is the pages of one file. WritePDF, WriteSVG and WritePNG print them.
//
// Everything prints at true size: a length of 10 in a drawing is 10 mm on paper. Placing a drawing at another
// scale moves and stretches its geometry, but lines keep their width and text keeps its size, as on a
// drawing board. The same document always gives the same bytes.
package sheet
