// Package sitefile reads a site file, the YAML text in which a builder
// describes a lot, into a model.Site. It reports every fault at once, with
// line and column, what is wrong and what would be right; it fills what was
// not measured from the species table and from common practice and lists each
// such value in Site.Assumed. README.md describes every key.
package sitefile
