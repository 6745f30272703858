// Package render draws the pictures of a study: plain values in, ink on paper
// out. It computes nothing that a table also shows.
//
// Every picture is a struct of values with two methods: Figure gives it at
// its usual size for a printed page, and Draw draws it on any page.
package render
