// Package sheets makes the pages of the packet: frame, title block, tables and
// each kind of sheet, in the order they are read.
//
// Packet plans every page first, numbers them, and only then draws, so that
// the index and "sheet n of m" are right. A page is a drawing.Scene the size
// of its paper. Schedules gives the same tables as plain rows for CSV, Views
// each drawing by itself, and PDF assembles the pages into one document.
//
// A sheet computes no number of the coping: it letters what the layout says.
// Rows of a table are never split and never dropped; what does not fit goes on
// to the next page under a repeated heading.
//
// The types are Sheet, Options, Audience, Kind and Schedule.
package sheets
