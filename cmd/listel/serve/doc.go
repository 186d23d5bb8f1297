// Package serve is the page on which a maker designs, served on this machine alone. The server holds no document: a page sends the
// text that it edits and what is to change, and gets the new text and all there is to draw. Files are read and written in one folder.
package serve
