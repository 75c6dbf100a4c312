package sheets

import (
	"testing"
)

// What is drawn alone is what the packet has, sheet for sheet, and what is drawn early
// too; kinds whose part cannot be drawn early are counted.
func TestLiveSheetsAreThePackets(t *testing.T) {
	for name := range map[string]bool{"rectangle": true, "metric": true} {
		l := sampleLayout(t, name)
		v := NewLive(l, Options{})
		packet := Packet(l, Options{})
		if len(packet) != len(v.Sheets()) {
			t.Fatalf("%s: %d sheets listed, %d in the packet", name, len(v.Sheets()), len(packet))
		}
		early := map[Kind]int{}
		seen := map[Kind]bool{}
		for i, s := range v.Sheets() {
			want := packet[i].Scene.Dump()
			if s.ID != packet[i].ID || s.Number != packet[i].Number || s.Title != packet[i].Title {
				t.Errorf("%s: %+v listed, %s %s in the packet", name, s, packet[i].ID, packet[i].Number)
			}
			if got, ok := v.Draw(s.ID); !ok || got.Scene.Dump() != want {
				t.Errorf("%s: sheet %s drawn alone is another one", name, s.Number)
			}
			if seen[s.Kind] { // one of a kind tells
				continue
			}
			seen[s.Kind] = true
			if got, ok := v.Early(l, Options{}, s.ID); ok {
				early[s.Kind]++
				if got.Number != s.Number || got.Scene.Dump() != want {
					t.Errorf("%s: sheet %s drawn early is another one", name, s.Number)
				}
			}
		}
		if len(early) < 12 {
			t.Errorf("%s: only %d kinds are drawn early", name, len(early))
		}
		if _, ok := v.Draw("none"); ok {
			t.Errorf("%s: a sheet that is none is drawn", name)
		}
	}
}
