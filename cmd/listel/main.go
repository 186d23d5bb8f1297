// Command listel takes a molding from a set of proportions or a picture to wood.
package main

import "os"

func main() {
	os.Exit(Main(os.Args[1:], NewApp()))
}
