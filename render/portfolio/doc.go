// Package portfolio turns a study into its set of pictures. It reads the study
// and fills the plain values that package render draws.
package portfolio
