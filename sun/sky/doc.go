// Package sky says how strong the sun is: outside the atmosphere, under a
// clear sky, split into beam and diffuse, and on any plane.
package sky
