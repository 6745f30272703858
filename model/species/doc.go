// Package species knows what a kind of tree usually is: how tall and wide it
// gets, how it grows, how much sun passes through its crown in leaf and bare,
// when it is in leaf, and what it costs to take down. Its values fill the
// gaps of a site file and are always listed there as assumed.
package species
