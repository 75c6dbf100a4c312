package outline

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"copingset/layout/job"
	"copingset/layout/length"
)

var turnWords = regexp.MustCompile(`(?i)\b(right|left)\s+([0-9]+(?:\.[0-9]+)?)`)

// Sides reads lengths and turns in walking order, the roof at the right hand:
// 120 ft right 90 80 ft right 90 ... The last turn may be left out; it is what
// closes the loop. A loop that does not close to within most is an error that says
// by how much and which way; lengths are never changed to make it close.
func Sides(text string, bearing length.Angle, most length.Length) (Plan, error) {
	p := Perimeter{Kind: Roof, Bearing: bearing}
	at := 0
	for _, m := range turnWords.FindAllStringSubmatchIndex(text, -1) {
		l, err := sideLength(text[at:m[0]], len(p.Sides)+1)
		if err != nil {
			return Plan{}, err
		}
		degrees, err := strconv.ParseFloat(text[m[4]:m[5]], 64)
		if err != nil || degrees <= 0 || degrees >= 180 {
			return Plan{}, fmt.Errorf("side %d: a wall turns by more than 0 and less than 180 degrees, not by %s",
				len(p.Sides)+1, text[m[4]:m[5]])
		}
		if strings.EqualFold(text[m[2]:m[3]], "left") {
			degrees = -degrees
		}
		p.Sides = append(p.Sides, Side{Length: l, Turn: length.Angle(math.Round(degrees * float64(length.Degree)))})
		at = m[1]
	}
	if rest := strings.Trim(text[at:], " ,;\t\r\n"); rest != "" {
		l, err := sideLength(rest, len(p.Sides)+1)
		if err != nil {
			return Plan{}, err
		}
		p.Sides = append(p.Sides, Side{Length: l})
	}
	if len(p.Sides) < 3 {
		return Plan{}, fmt.Errorf("%d sides do not go round a roof; write each length and the turn after it: 120 ft "+
			"right 90 80 ft right 90 120 ft right 90 80 ft right 90", len(p.Sides))
	}
	if err := p.close(most); err != nil {
		return Plan{}, err
	}
	out := Plan{Perimeters: []Perimeter{p}}
	out.name()
	if !out.named() {
		return Plan{}, fmt.Errorf("%d sides are too many; at most %d", len(p.Sides), mostNamed)
	}
	return out, nil
}

func sideLength(text string, side int) (length.Length, error) {
	text = strings.Trim(text, " ,;\t\r\n")
	if text == "" {
		return 0, fmt.Errorf("side %d: its length is missing before the turn", side)
	}
	l, err := length.Parse(text)
	if err != nil {
		return 0, fmt.Errorf("side %d: %q: %w", side, text, err)
	}
	if l <= 0 {
		return 0, fmt.Errorf("side %d: %q is no length of a wall", side, text)
	}
	return l, nil
}

// close sees that turns make a whole circle and that the last side ends where the
// first begins, and finds whether the loop is a roof or a well.
func (p *Perimeter) close(most length.Length) error {
	var sum length.Angle
	for _, s := range p.Sides {
		sum += s.Turn
	}
	last := &p.Sides[len(p.Sides)-1]
	const round = 360 * length.Degree
	if last.Turn == 0 {
		want := round
		if sum < 0 {
			want = -round
		}
		last.Turn = want - sum
		sum = want
		if last.Turn == 0 || last.Turn >= 180*length.Degree || last.Turn <= -180*length.Degree {
			return fmt.Errorf("the last turn would have to be %s to go round once; check the turns",
				length.FormatAngle(last.Turn))
		}
	}
	switch sum {
	case round:
	case -round:
		p.Kind = Well
	default:
		return fmt.Errorf("right turns less left turns make %s, and a loop makes 360°, right round a roof and left "+
			"round a well; "+
			"right is towards the roof for somebody who stands on it and looks out", length.FormatAngle(sum))
	}
	var at vec
	way := p.Bearing.Degrees()
	for _, s := range p.Sides {
		at = at.add(ahead(way).times(s.Length.MM()))
		way += s.Turn.Degrees()
	}
	if gap := length.FromMM(at.long()); gap > most {
		return fmt.Errorf("the last side ends %s from where the first begins, towards a bearing of %.0f°; at most %s "+
			"is accepted: "+
			"check the sides that lie that way", job.Both(gap), at.bearing(), job.Both(most))
	}
	return nil
}
