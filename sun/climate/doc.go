// Package climate makes the typical year of a place: from an embedded table
// of monthly station figures, the nearest stations weighed together, from
// monthly figures of the builder's own, or from an hourly file.
package climate
