// Package fieldsheet draws the form that trainees take to a lot: what to
// measure, how to take a tree's height, a grid for the sketch, and tables whose
// heads are the keys of the site file.
package fieldsheet
