package sheets

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout/job"
)

// The headings of the CSV files are read by other programs: a column is never
// renamed, moved or taken away; a new one goes to the end of its row.
func TestCSVHeadings(t *testing.T) {
	pinned := []string{
		"pieces.csv: perimeter,mark,laying,kind,hand,turn,street side,street side mm,roof side,roof side mm,inside,inside mm," +
			"narrow end inside,narrow end inside mm,girth,girth mm,allowance,allowance mm,cut at,cut length," +
			"cut length mm,weight with allowance,grams with allowance,lift,zone,assembly,holes,released," +
			"holds,held by,cut from,outer side",
		"joints.csv: perimeter,run,joint,kind,left piece,right piece,station,station mm,gap,gap mm,plate," +
			"plate mm,movement,movement mm,held",
		"chairs.csv: perimeter,run,chair,number,station,station mm,where,build-up street side," +
			"build-up street side mm,build-up roof side,build-up roof side mm,built street side mm,built roof side mm," +
			"layers,shims street side,shims roof side,fastener,count street side,length street side,length street side mm,count roof side," +
			"length roof side,length roof side mm,pilot from top of build-up street side mm,pilot from top of build-up roof side mm," +
			"assembly,inside width,inside width mm,inside at left edge mm,inside at right edge mm,outer side",
		"fasteners.csv: fastener,diameter,diameter mm,length,length mm,perimeter,run,count,in all,spare," +
			"boxes",
		"shims.csv: perimeter,run,thickness,thickness mm,street side,roof side,outer side",
		"shim-zones.csv: perimeter,run,from,from mm,to,to mm,layers,shims street side least mm," +
			"shims street side most mm,shims roof side least mm,shims roof side most mm,outer side",
		"crates.csv: crate,kind,perimeter,line,count,spare,what,mark,length,length mm,thickness," +
			"thickness mm,diameter,diameter mm,grams,lot,laid",
		"parts.csv: part,kind,hand,twin,inside,inside mm,count,spare,make now,spare now,girth,girth mm," +
			"length,length mm,metal,thickness mm,inside radius mm,k,bends,holes,grams,for,not released for," +
			"holds",
		"findings.csv: severity,code,file,line,column,perimeter,run,corner,station,station mm,pieces," +
			"what,why,what to do",
		"cutting.csv: lot,elevation,metal,from,way,times,stock width,stock width mm,stock length,stock length mm," +
			"strip,strip width,strip width mm,cut,mark,length,length mm,drop,drop mm",
		"form heron.csv: run,station (ft-in),width (in),street_top (in),roof_top (in)," +
			"offset (in),condition,photo,note",
	}
	l := sampleLayout(t, "rectangle")
	var got []string
	for _, s := range Schedules(l) {
		got = append(got, s.Name+": "+strings.Join(s.Header, ","))
	}
	for _, s := range FormCSV(l.Job, FormOptions{}) {
		got = append(got, "form "+s.Name+": "+strings.Join(s.Header, ","))
	}
	for i := range max(len(got), len(pinned)) {
		if i >= len(got) || i >= len(pinned) || got[i] != pinned[i] {
			t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(pinned, "\n"))
			return
		}
	}
}

// The basis of design names every file the packet was made from, and the release.
func TestBasisNamesItsFiles(t *testing.T) {
	l := sampleLayout(t, "rectangle")
	var text string
	for _, s := range Packet(l, Options{For: Inspector}) {
		if s.Kind == Basis {
			text += wordsOf(s.Scene)
		}
	}
	want := []string{"release " + Release}
	var names []string
	for _, s := range l.Job.Sources {
		want = append(want, s.Name, s.Short())
		names = append(names, s.Name)
	}
	want = append(want, "input", job.ShortDigest(l.Job.Digest()))
	if files := []string{"job.yaml", "../systems/brindle-r8.yaml", "../firms/tern-and-ledge.yaml", "heron.csv"}; !slices.Equal(names, files) {
		t.Errorf("the job was read from %v, want %v", names, files)
	}
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("the basis of design does not say %s", w)
		}
	}
}
