// Package sun says where the sun is: its apparent position seen from a place,
// when it rises and sets, and the hours of a year as the rest of southyard
// reads them. How strong it is on a plane is in package sky; what the weather
// leaves of it over a year is in package climate.
package sun
