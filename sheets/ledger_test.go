package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"copingset/layout/fact"
)

// altered is a ledger of the same names with every value another one, but for the
// places of things in lists.
func altered(l fact.Ledger) fact.Ledger {
	out := slices.Clone(l)
	for i, f := range out {
		n, err := strconv.ParseInt(f.Value, 10, 64)
		switch {
		case f.What == "place", f.Of == "packing" && f.What == "shims": // its lengths name the counts
		case f.Unit == fact.Words:
			out[i].Value = "other " + f.Value
		case f.Unit == fact.Lengths:
			out[i].Value = strings.TrimSpace(f.Value + " 127000000")
		case err == nil:
			out[i].Value = strconv.FormatInt(n+127_000_000, 10)
		default:
			v, _ := strconv.ParseFloat(f.Value, 64)
			out[i].Value = strconv.FormatFloat(v+77.7, 'g', -1, 64)
		}
	}
	return out
}

// Every cell of every list comes out of the ledger: with other values in it the cell
// is another one, or it is the name of the thing that the row is of. What a list says
// of its own is named here.
func TestListsAreMadeOfTheLedgerAlone(t *testing.T) {
	own := map[string]bool{ // look-up only
		"in": true, "mm": true, // the unit of the files
		"bend": true, "down": true, "over": true, // what is not a hem, not up, not under
		"hold": true, "not stated": true, "withheld": true, // no such fact
	}
	counted := []string{ // columns
		"crates.csv line",                               // of a crate, counted from 1
		"shims.csv thickness", "shims.csv thickness mm", // what the name of the count says
		"cutting.csv from", "cutting.csv way", "cutting.csv strip", "cutting.csv cut", // what the names of the cuts say
	}
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		facts := l.Facts()
		if c := newSchedules(facts); c.l != nil || c.j != nil {
			t.Fatal("the lists know the layout")
		}
		names := map[string]bool{} // look-up only
		for _, f := range facts {
			_, mark, _ := strings.Cut(f.Of, " ")
			names[f.Of], names[mark] = true, true
		}
		tables := func(facts fact.Ledger) []Schedule { return append(ledgerTables(facts), machineLists(facts)...) }
		was, is := tables(facts), tables(altered(facts))
		cells := 0
		for i, s := range was {
			if len(s.Rows) != len(is[i].Rows) {
				t.Fatalf("%s, %s: %d rows, then %d", name, s.Name, len(s.Rows), len(is[i].Rows))
			}
			outside := map[string]string{} // look-up only: a cell of each column
			for r, row := range s.Rows {
				for k, cell := range row {
					named := names[cell] && (k == 0 || s.Header[k] == "mark" || strings.ToUpper(cell) != strings.ToLower(cell))
					if cell == "" || own[cell] || named || slices.Contains(counted, s.Name+" "+s.Header[k]) {
						continue
					}
					cells++
					if is[i].Rows[r][k] == cell {
						outside[s.Header[k]] = fmt.Sprintf("%q in row %d", cell, r+1)
					}
				}
			}
			for _, h := range s.Header {
				if where := outside[h]; where != "" {
					t.Errorf("%s, %s: column %s has %s, which is not in the ledger", name, s.Name, h, where)
				}
			}
		}
		if cells < 1000 {
			t.Errorf("%s: %d cells", name, cells)
		}
		for _, s := range tables(nil) {
			if len(s.Rows) > 0 {
				t.Errorf("%s, %s: %d rows of an empty ledger", name, s.Name, len(s.Rows))
			}
		}
	}
}

// The lists beside the files for machines are read by other programs, as the tables
// of the packet are: a new column goes to the end of its row.
func TestMachineListHeadings(t *testing.T) {
	want := []string{
		"list.csv: file,unit,mark,body,kind,hand,quantity,metal,thickness,inside radius,K,seam gap," +
			"street-side leg,street-side leg to,roof-side leg,roof-side leg to,inside width," +
			"inside width, right end,slope,turn,change of slope,street-side fold, left end to right end,twin,lap," +
			"lap width,assembly,issue,street-side leg, right end,roof-side leg, right end," +
			"street-side fold of each leg,roof-side fold, left end to right end,left end,right end," +
			"turn at left end,turn at right end,change of slope at left end,change of slope at right end," +
			"blank length,blank width",
		"bends.csv: file,unit,order,hem or bend,up or down,turn,included angle,inside radius,bend allowance," +
			"gauge edge,gauge distance,x1,y1,x2,y2,between,and",
		"notches.csv: file,unit,kind,x1,y1,x2,y2",
	}
	var got []string
	for _, s := range machineLists(nil) {
		got = append(got, s.Name+": "+strings.Join(s.Header, ","))
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// Every body of a cap has its legs at both ends, a taper and the main of a tee too.
func TestListTellsTheLegsOfEveryCap(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{} // look-up only
	for name, l := range all {
		p := &l.Job.System.Profile
		list := MachineLists(l)[0]
		at := func(row []string, head string) string { return row[slices.Index(list.Header, head)] }
		c := newSchedules(l.Facts())
		street, roof := c.plainMM(p.FrontLeg.Length.MM()), c.plainMM(p.RearLeg.Length.MM())
		for _, row := range list.Rows {
			mark, body := at(row, "mark"), at(row, "body")
			if mark >= "200" || body == "end plate" {
				continue
			}
			seen[at(row, "kind")] = true
			for _, e := range []string{"", ", right end"} {
				if at(row, "street-side leg"+e) != street || at(row, "roof-side leg"+e) != roof {
					t.Errorf("%s: %s%s has legs of %q and %q, want %s and %s", name, at(row, "file"), e, at(row, "street-side leg"+e), at(row, "roof-side leg"+e), street, roof)
				}
			}
		}
	}
	if !seen["transition"] || !seen["tee"] || !seen["corner"] {
		t.Errorf("no transition, tee or corner: %v", seen)
	}
}
