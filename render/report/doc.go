// Package report sets a study's answer, tables and pictures as documents: a
// web page in one file, a PDF, and one page for a committee. It computes
// nothing: every figure is the study's.
//
// The content is drawn up once, as sections of blocks (content.go and the
// files named after its sections); page.go writes them as a web page, sheets.go
// and flow.go set them on paper. The same study and pictures always give the
// same bytes, so date and author are lines to fill in by hand.
package report
