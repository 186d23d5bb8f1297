// Package library holds what listel knows before a user has written anything - profiles, tools, woods, papers, lumber and
// examples - and reads and writes the users' own files: profiles, cases, plates to trace, lists of pieces and measured printers, all in YAML.
//
// Reading reports every mistake of a file at once, each with its line and what would do. A reader is a list of fields, each a key with what reads
// its value (decode.go, scalar.go):
//
//	bytes -> parseDocument -> value -> mapping(fields...) -> the engine's own type
//	                             |
//	                             +-> Mistakes, and a Source: where each key stands
//
// What the engines find wrong later names a key, and Source.Mistakes gives it its line. A name is looked up in the project's folder first, then in the
// user's library, then in the embedded one, and the answer says which was used.
//
// SetKey and its like change the bytes of one value in a text and no others, so that comments stay. Writing is whole or not at all.
package library
