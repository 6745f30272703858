// Package lots screens many candidate lots: it boils a study down to one small
// record a lot, ranks the records on one sheet, splits a long list into parts
// and joins the parts again. It reads and writes no files; only records of a
// few hundred bytes are held, so that ten thousand lots fit anywhere.
package lots
