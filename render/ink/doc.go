// Package ink draws lines, areas and lettering on paper. One small interface,
// Page, has three backends that give the same drawing: PNG at a stated number
// of dots an inch, SVG, and vector PDF.
//
// Positions and sizes are points (1/72 inch) from the page's upper left
// corner, x to the right and y down. The same input always gives the same
// bytes.
package ink
