// Package mapfile goes between maps and site files: it reads a GeoJSON map of
// a lot (RFC 7946) and a list of trees (CSV) into the text of a site file, in
// which what the map does not tell is marked as to be measured, and writes a
// site as GeoJSON. README.md says which properties it understands.
package mapfile
