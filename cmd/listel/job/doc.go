// Package job holds what the commands and the page do alike with one file: reading and building a profile or a case, planning and verifying
// its set-ups, what to buy, how sheets are drawn, and the packet. It prints nothing and knows no command line.
package job
