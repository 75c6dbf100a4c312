// Package drawing holds the Scene: a plain list of resolved marks on paper.
//
// A view or a sheet makes a Scene; the back ends in svg, pdf and elsewhere read it. A mark
// carries its absolute place, its final pen or lettering and its final words, so a back end is
// one loop with one switch and knows nothing of copings, and a view knows nothing of back ends.
//
// Paper coordinates are whole hundredths of a millimetre, x to the right and y down, rounded
// once when the mark is made (Round). Angles are whole tenths of a degree, counter-clockwise as
// read on the paper, from the direction of x.
//
// Types: Unit, Point and Rect; Pen, Tone, HatchKind, Face, Size and Layer name every style
// there is; Mark is one of Line, Arc, Region, Text, Link and Group; Scene is the list with
// methods that compose it. Composites that lower to marks (Chain, Running, Leader, Balloon,
// ScaleBar and others) return a Figure, marks with the room they take. Check looks for faults a
// reader would meet, Dump prints a scene one mark a line.
package drawing
