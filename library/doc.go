// Package library holds what listel knows before a user has written anything - profiles, woods, papers, lumber and
// an example - and reads and writes the users' own files: profiles and cases in YAML.
//
// Reading reports every mistake of a file at once, each with its line and what would do. A name is looked up in the
// project's folder first, then in the user's library, then in the embedded one, and the answer says which was used.
// Writing is whole or not at all.
package library
