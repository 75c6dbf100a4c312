package sheets

import (
	_ "embed" // the columns of the lists
	"encoding/csv"
	"fmt"
	"strings"
	"sync"

	"copingset/layout/job"
	"copingset/layout/workbook"
)

// Column is a column of the lists, as columns.csv documents it.
type Column struct {
	List, Name string
	Number     bool // its cells are numbers
	Unit       string
	Means      string
}

//go:embed columns.csv
var columnsFile string

// ListColumns are the columns of all lists, list by list, each in its order. The file
// is part of the program: a fault in it is a programming error.
var ListColumns = sync.OnceValue(func() []Column {
	rows, err := csv.NewReader(strings.NewReader(columnsFile)).ReadAll()
	if err != nil || len(rows) == 0 || strings.Join(rows[0], ",") != "list,column,cells,unit,means" {
		panic(fmt.Sprintf("sheets: columns.csv cannot be read (%v)", err))
	}
	var out []Column
	for _, r := range rows[1:] {
		out = append(out, Column{r[0], r[1], r[2] == "number", r[3], r[4]})
	}
	return out
})

// numbered tells which columns of a list are of numbers.
func numbered(list string) map[string]bool {
	out := map[string]bool{} // look-up only
	for _, c := range ListColumns() {
		if c.List == list {
			out[c.Name] = c.Number
		}
	}
	return out
}

// Workbook is lists as the sheets of one workbook, numbers in cells of numbers.
func Workbook(j *job.Job, lists []Schedule) ([]byte, error) {
	var tables []workbook.Table
	for _, s := range lists {
		t := workbook.Table{Name: strings.TrimSuffix(s.Name, ".csv"), Head: s.Header}
		number := numbered(t.Name)
		for _, r := range s.Rows {
			row := make([]workbook.Cell, len(r))
			for i, cell := range r {
				row[i] = workbook.Words(cell)
				if number[s.Header[i]] {
					row[i] = workbook.Parsed(cell)
				}
			}
			t.Rows = append(t.Rows, row)
		}
		tables = append(tables, t)
	}
	return workbook.Write(document(j.Info.Name, j.Info.Number), tables)
}
