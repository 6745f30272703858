// Package measure reads and writes the measures a builder uses: feet and
// inches, roof pitches, compass bearings, money, R-values, dates. Everything
// inside the program is SI and radians; this package is the edge where
// people's units come in and go out.
//
// Every Parse function accepts any text without panicking and returns either
// a finite value in the stated unit or an *Error that says what is wrong and
// what would be right.
package measure
