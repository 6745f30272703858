// Package climate makes the typical year of a place: from an embedded table
// of monthly station figures, from twelve figures a month, or from an hourly
// file.
package climate
