package sheets

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"copingset/layout"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Schedule is one table of the packet as plain rows, made from the ledger of facts
// and nothing else. Lengths stand as they are
// lettered on the sheets, each followed by a column of plain millimetres for
// whoever computes with them.
type Schedule struct {
	Name   string // file name, as pieces.csv
	Of     string // the perimeter it is of; empty: the whole job
	Header []string
	Rows   [][]string
}

// WriteCSV writes a schedule with a header line.
func WriteCSV(w io.Writer, s Schedule) error {
	c := csv.NewWriter(w)
	if err := c.Write(s.Header); err != nil {
		return err
	}
	rows := make([][]string, 0, len(s.Rows))
	for _, r := range s.Rows {
		if len(r) != len(s.Header) {
			return fmt.Errorf("%s: a row of %d cells under a header of %d", s.Name, len(r), len(s.Header))
		}
		rows = append(rows, worded(r))
	}
	if err := c.WriteAll(rows); err != nil {
		return err
	}
	return c.Error()
}

// worded puts an apostrophe before words that a spreadsheet would take for a
// formula: names are what somebody typed, and must not work anything out, or lead
// anywhere, where a list is opened.
func worded(row []string) []string {
	out := slices.Clone(row)
	for i, cell := range out {
		if job.Formula(cell) {
			out[i] = "'" + cell
		}
	}
	return out
}

// Schedules are all tables of a layout, in a fixed order.
func Schedules(l *layout.Layout) []Schedule { return ledgerTables(l.Facts()) }

func ledgerTables(facts fact.Ledger) []Schedule {
	c := newSchedules(facts)
	return []Schedule{
		c.pieces(), c.joints(), c.chairs(), c.fasteners(), c.shims(), c.zones(), c.crates(), c.parts(), c.findings(),
		c.cutting(),
	}
}

// mm letters millimetres to a hundredth, without unit.
func mm(l length.Length) string { return length.Millimetres(l, 2) }

// typed is a length as a spreadsheet takes it: the foot and inch marks of a
// keyboard, as the job file writes them.
func typed(s string) string {
	return strings.NewReplacer("′", "'", "″", `"`, "’", "'", "\u00a0\u00a0", " ", "\u00a0", " ").Replace(s)
}
