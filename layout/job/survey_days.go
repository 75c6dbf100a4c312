package job

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"copingset/layout/finding"
)

// day is a cell that a spreadsheet made a day of.
type day struct {
	text string
	at   finding.Place
}

// A spreadsheet takes 1/16 for the sixteenth of January, and writes it in the way of
// its country. No length is written so.
var (
	months     = strings.Fields("jan feb mar apr may jun jul aug sep oct nov dec")
	otherMonth = map[string]string{ // look-up only: as other languages shorten them
		"ene": "jan", "abr": "apr", "ago": "aug", "dic": "dec", "mai": "may", "okt": "oct", "dez": "dec", "mär": "mar",
		"sept": "sep",
	}
	dayMonth = regexp.MustCompile(`^(\d{1,2})[-./ ]+([\pL]{3,10})\.?([-./ ]+\d{2,4})?$`)
	monthDay = regexp.MustCompile(`^([\pL]{3,10})\.?[-./ ]+(\d{1,4})$`)
	isoDay   = regexp.MustCompile(`^\d{4}-(\d{1,2})-(\d{1,2})([ T][0-9:.]+)?$`)
	plainDay = regexp.MustCompile(`^(\d{1,2})([/.])(\d{1,2})[/.]\d{2,4}$`)
)

// monthNamed is the number of a month by the beginning of its name.
func monthNamed(s string) (int, bool) {
	s = strings.ToLower(s)
	for short, is := range otherMonth {
		if strings.HasPrefix(s, short) {
			s = is
		}
	}
	for i, m := range months {
		if strings.HasPrefix(s, m) {
			return i + 1, true
		}
	}
	return 0, false
}

// fractionOf tells a day from a length, with the month and the day that were likely typed
// as a fraction.
func fractionOf(text string) (month, of int, ok bool) {
	number := func(s string) int {
		n, _ := strconv.Atoi(s)
		return n
	}
	if m := dayMonth.FindStringSubmatch(text); m != nil {
		if n, is := monthNamed(m[2]); is {
			return n, number(m[1]), true
		}
	}
	if m := monthDay.FindStringSubmatch(text); m != nil {
		if n, is := monthNamed(m[1]); is {
			return n, number(m[2]) % 100, true
		}
	}
	if m := isoDay.FindStringSubmatch(text); m != nil {
		return number(m[1]), number(m[2]), true
	}
	if m := plainDay.FindStringSubmatch(text); m != nil {
		if m[2] == "." { // day before month
			return number(m[3]), number(m[1]), true
		}
		return number(m[1]), number(m[3]), true
	}
	return 0, 0, false
}

// isDay gathers a cell that is a day.
func (c *column) isDay(text string, at finding.Place) bool {
	if _, _, is := fractionOf(text); !is {
		return false
	}
	c.days = append(c.days, day{text, at})
	return true
}

// dates tells once of each column which cells are days.
func (s *survey) dates() {
	for i := range s.columns {
		c := &s.columns[i]
		if len(c.days) == 0 {
			continue
		}
		first := c.days[0]
		month, of, _ := fractionOf(first.text)
		others := ""
		if n := len(c.days) - 1; n > 0 {
			others = fmt.Sprintf(", and so are %s below it", plural(n, "cell"))
		}
		s.fail("csv-date", first.at, fmt.Sprintf("make the cells of the column text, and write what was read there "+
			"again: %d/%d, if it was that", month, of),
			"column %s: %s is a day, which a spreadsheet makes of a fraction%s", c.name, show(first.text), others)
	}
}
