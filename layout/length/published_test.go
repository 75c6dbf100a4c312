package length

import (
	"os"
	"slices"
	"strconv"
	"testing"

	"copingset/layout/internal/published"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/length")) }

// Cases that were not made from this code. The source says who says so.

const yardAndPound = "international yard and pound agreement of 1959: 1 yd = 0.9144 m exactly"

func yard(what string) published.Source { return published.ByHand(yardAndPound + "; " + what) }

func TestPublishedUnits(t *testing.T) {
	for _, c := range []struct {
		source published.Source
		text   string
		mm     string // to the nanometre
	}{
		{yard("a thirty-sixth"), `1"`, "25.4"},
		{yard("a third"), `1'`, "304.8"},
		{published.From(yardAndPound, "the yard"), `3'`, "914.4"},
		{yard("a binary fraction of 25.4 mm"), `1/16"`, "1.5875"},
		{yard("a binary fraction of 25.4 mm"), `1/64"`, "0.396875"},
		{yard("100 ft is 30.48 m"), `100'`, "30480"},
		{published.Trade("24 in is called 610 mm, exactly 609.6"), `24"`, "609.6"},
	} {
		l, err := Parse(c.text)
		if err != nil {
			t.Errorf("%s: %v (%s)", c.text, err, c.source)
			continue
		}
		want, err := strconv.ParseFloat(c.mm, 64)
		if err != nil {
			t.Fatal(err)
		}
		published.Near(t, "inches and feet", c.source, c.text, l.MM(), want, 1e-9)
		if got := Millimetres(l, 6); got != c.mm {
			t.Errorf("%s is lettered %s mm, want %s (%s)", c.text, got, c.mm, c.source)
		}
	}
}

// TestPublishedCaps divides a run between two corners into equal caps, with a
// joint at each end of every cap.
func TestPublishedCaps(t *testing.T) {
	for _, c := range []struct {
		source        string
		run, leg, gap string
		caps          int
		long, short   []string // expected caps, in feet and in inches
		nLong         int
	}{
		{
			source: "derived, by hand: (480 - 2 x 12 - 5 x 1/4) / 4 = 113.6875",
			run:    `40'-0"`, leg: `12"`, gap: `1/4"`, caps: 4,
			long: []string{`9'-5 11/16"`, `113 11/16"`}, nLong: 4,
		},
		{
			source: "derived, by hand: (495.375 - 2 x 12 - 5 x 1/4) / 4 = 117.53125, half way between sixteenths",
			run:    `41'-3 3/8"`, leg: `12"`, gap: `1/4"`, caps: 4,
			long: []string{`9'-9 9/16"`, `117 9/16"`}, nLong: 2,
			short: []string{`9'-9 1/2"`, `117 1/2"`},
		},
	} {
		run, leg, gap := must(t, c.run), must(t, c.leg), must(t, c.gap)
		joints := Length(c.caps+1) * gap
		parts := Split(run-2*leg-joints, c.caps, Inch16, true)
		var want []Length
		for i := range c.caps {
			form := c.long
			if i >= c.nLong {
				form = c.short
			}
			l := must(t, form[0])
			if l != must(t, form[1]) {
				t.Errorf("%s and %s differ (%s)", form[0], form[1], c.source)
			}
			want = append(want, l)
			if f, in := Feet(parts[i], 16), Inches(parts[i], 16); f != form[0] || in != form[1] {
				t.Errorf("cap %d is %s or %s, want %s or %s (%s)", i+1, f, in, form[0], form[1], c.source)
			}
		}
		published.Holds(t, "equal caps", published.ByHand(c.source), c.run, slices.Equal(parts, want))
		if whole := Sum(parts...) + joints + 2*leg; Feet(whole, 16) != c.run {
			t.Errorf("adds up to %s, want %s (%s)", Feet(whole, 16), c.run, c.source)
		}
	}
}

func must(t *testing.T, s string) Length {
	t.Helper()
	l, err := Parse(s)
	if err != nil {
		t.Fatalf("%s: %v", s, err)
	}
	return l
}
