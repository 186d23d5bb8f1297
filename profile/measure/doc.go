// Package measure reads and prints what a maker writes down: lengths in inches, feet, millimeters or parts,
// angles, temperatures, per cents and plain fractions.
//
// Reading is exact. A number is kept as a fraction of whole numbers until it is asked for as a float64, so 1/3 in
// is a third of 25.4 mm and not a decimal near it. The inch is 25.4 mm (international yard and pound agreement of
// 1959; NIST SP 811, from memory). A leading minus sign negates all that follows; the hyphen in 1-1/8 joins.
// Every reader returns an error that quotes the text, says why it will not do and what would.
//
// Printing goes through a Format. Inches are rounded to the nearest 1/64, or as asked, and marked: 1 3/4+ in says
// that the true length is a little more than 1 3/4 in, 1 3/4- in that it is a little less, a little being more
// than 1/256 in. A mark is for the eye: readers refuse it, because the length it stands beside is not the
// true one. Format.Entry prints what a file may hold.
package measure
