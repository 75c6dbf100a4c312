package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Joining is how two bodies of a piece are joined at a seam.
type Joining int

// The ways.
const (
	NotJoined Joining = iota // not stated
	Weld
	Solder
	RivetAndSeal
)

func (j Joining) String() string { return [...]string{"", "weld", "solder", "rivet and seal"}[j] }

// Symbols is the standard that the symbol of a seam is drawn by.
type Symbols int

// Two systems of ISO 2553, and the American one.
const (
	SymbolsUnsaid Symbols = iota // by the units of the job
	ISO2553A
	ISO2553B
	AWSA24
)

func (s Symbols) String() string {
	return [...]string{"", "ISO 2553 system A", "ISO 2553 system B", "AWS A2.4"}[s]
}

// SeamRules say how seams of a piece are made.
type SeamRules struct {
	At      finding.Place
	Process Joining
	Backer  string        // a backer or tab behind the seam; empty: none
	Strip   length.Length // width of the backer, half of it either side; zero: not stated
	After   bool          // the piece is finished after joining
	Bare    string        // what its blanks are till then: "mill finish"
	CutBack length.Length // hems, hooks and drips end so far before the seam
	Lap     *SeamLap      // nil: a butt
	Rivets  *Rivets
	Symbols Symbols
	Tail    string // words in the tail of the symbol: the process by its number or letters
}

// SeamLap is a seam at which one leg carries tabs that the other lies over.
type SeamLap struct {
	At     finding.Place
	Cover  Side          // the hand, seen from the roof, of the leg that lies over
	Width  length.Length // how far it lies over
	Jogged bool          // the tab of the top is set down by the metal; else the covering leg is sprung over it
	Jog    length.Length // along the sheet, in which it is set down
	Clear  length.Length // a tab ends so far from the bends beside its face
}

// Rivets are the holes of a seam that is riveted.
type Rivets struct {
	Diameter length.Length // of the hole
	Edge     length.Length // middle of a hole from the edge of the metal over it, and of the first from its end
	Pitch    length.Length // no two farther apart
}

func (s *SeamRules) keys(k keys) {
	s.At = k.at
	word(k, "process", &s.Process, []choice[Joining]{{"weld", Weld}, {"solder", Solder},
		{"rivet and seal", RivetAndSeal}}, "how the seam is joined", "weld")
	k.may().text("backer", &s.Backer, "the backer or tab behind the seam, if there is one", "2 in strip, same metal")
	k.may().length("backer_width", &s.Strip, "the width of that backer across the seam, half of it either side", `2"`)
	word(k, "finish", &s.After, []choice[bool]{{"before", false}, {"after", true}},
		"whether the metal is finished before or after it is joined", "after")
	k.when(s.After, "the pieces are finished after they are joined").
		text("bare", &s.Bare, "what the blanks of a piece that is finished after joining are till then", "mill finish")
	k.may().lengthOrZero("cut_back", &s.CutBack, "how far hems, hooks and drips end before the seam", `1/16"`)
	optional(k.may(), "lap", &s.Lap, (*SeamLap).keys,
		"the tabs of one leg that the other lies over; otherwise the legs meet in a butt")
	optional(k.may(), "rivets", &s.Rivets, (*Rivets).keys, "the holes of a seam that is riveted")
	word(k.may(), "symbols", &s.Symbols, []choice[Symbols]{{"iso a", ISO2553A}, {"iso b", ISO2553B}, {"aws", AWSA24}},
		"by what its symbol is drawn: ISO 2553 system A or B, or AWS A2.4; otherwise ISO 2553 system A on a metric "+
			"job and AWS A2.4 on another", "aws")
	k.may().text("tail", &s.Tail, "what stands in the tail of the symbol: the process as the shop writes it",
		"GTAW, seal")
}

func (l *SeamLap) keys(k keys) {
	l.At = k.at
	word(k, "cover", &l.Cover, []choice[Side]{{"left", Left}, {"right", Right}},
		"the hand, seen from the roof, of the leg that lies over the other", "left")
	k.length("width", &l.Width, "how far it lies over", `3/4"`)
	word(k, "top", &l.Jogged, []choice[bool]{{"jogged", true}, {"over", false}},
		"whether the tab of the top is jogged down by the metal, or the covering leg is sprung over it", "jogged")
	k.when(l.Jogged, "the tab of the top is jogged").length("jog", &l.Jog,
		"the length along the sheet in which it is jogged", `1/4"`)
	k.length("clear", &l.Clear, "how far a tab ends from the bends beside its face", `1/8"`)
}

func (r *Rivets) keys(k keys) {
	k.length("diameter", &r.Diameter, "the diameter of a rivet's hole", `1/8"`)
	k.length("edge", &r.Edge, "the middle of a hole from the edge of the metal over it, and of the first from the "+
		"end of its face", `3/8"`)
	k.length("pitch", &r.Pitch, "the farthest two rivets of a row may stand apart", `2"`)
}

// SeamSymbols is what the symbols of seams are drawn by.
func (j *Job) SeamSymbols() Symbols {
	switch {
	case j.Shop == nil || j.Shop.Seam == nil:
		return SymbolsUnsaid
	case j.Shop.Seam.Symbols != SymbolsUnsaid:
		return j.Shop.Seam.Symbols
	case j.Units == Metric:
		return ISO2553A
	}
	return AWSA24
}
