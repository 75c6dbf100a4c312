package sheets

import "copingset/layout/takeoff"

// TakeoffList is a takeoff as a list for other programs: a row for each thing that
// each option counts.
func TakeoffList(t *takeoff.Takeoff) Schedule {
	b := newBid(t, Options{})
	s := Schedule{Name: "takeoff.csv", Header: []string{"option", "system", "group", "what", "quantity", "added",
		"added percent", "in all", "unit", "rate", "rate per", "cost", "price"}}
	for i := range t.Options {
		o := &t.Options[i]
		for k := range o.Lines {
			s.Rows = append(s.Rows, b.listed(o, &o.Lines[k]))
		}
		for _, q := range []struct {
			name  string
			money int64
		}{{"sum", o.Sum}, {"unforeseen", o.Unforeseen}, {"total of what is priced", o.Whole}} {
			if !o.Failed.HasErrors() {
				s.Rows = append(s.Rows, []string{b.optionName(o), o.System, "", q.name, "", "", "", "", "", "", "",
					money(q.money), ""})
			}
		}
		if o.Failed.HasErrors() {
			s.Rows = append(s.Rows, []string{b.optionName(o), o.System, "", "cannot be laid out: " + o.Failed[0].What,
				"", "", "", "", "", "", "", "", ""})
		}
	}
	return s
}

// listed is a line as a row.
func (b bid) listed(o *takeoff.Option, l *takeoff.Line) []string {
	rate, per, cost := "", "", ""
	state := [...]string{"priced", "not stated", "in the chair", "not priced"}[l.Price]
	if l.Price == takeoff.Priced {
		cost, rate = money(l.Money), money(l.Rate)
		switch {
		case l.Unit == takeoff.Time:
			per = "h"
		case l.What == takeoff.Area || l.What == takeoff.Weight:
			per = b.t.By.Rates.SheetPrice.Unit
		default:
			per = itoa(int(l.Per))
		}
	}
	return []string{b.optionName(o), o.System, b.groupName(l.Group), typed(b.lineName(l)),
		b.quantity(l.Unit, l.Quantity), b.quantity(l.Unit, l.Added), itoa(l.Percent), b.quantity(l.Unit, l.Total()),
		b.unitName(l.Unit), rate, per, cost, state}
}
