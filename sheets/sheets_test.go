package sheets

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
)

const in = length.Inch

// named dresses a job as a real one would be, of an invented scenario.
func named(j *job.Job) *job.Job {
	j.Info = job.Info{
		Name: "Harbor Annex reroof, north and south blocks", Number: "26-0317", Address: "14 Quay Street, Port Example", Owner: "Harbor Annex Trust",
		Parties: []job.Party{{Role: "Contractor", Name: "Example Roofing and Sheet Metal"}, {Role: "Architect", Name: "A. Sample Architects"},
			{Role: "Engineer of record", Name: "Sample Structural"}, {Role: "Fabricator", Name: "Example Metal Shop"}},
		Issued: job.Date{Year: 2026, Month: 3, Day: 16}, PreparedBy: "P. Lead", CheckedBy: "C. Check",
		Revisions: []job.Revision{{Mark: "A", Date: job.Date{Year: 2026, Month: 4, Day: 2}, Note: "run B measured again after the block was rebuilt"}},
		Notes:     []string{"Deliver by the north gate, 7 to 9 in the morning.", "The owner's crane stands until noon."},
	}
	j.Site.SafetyPlan, j.Site.MeasuredBy, j.Site.MeasuredOn = "SSP-4", "S. Surveyor", job.Date{Year: 2026, Month: 3, Day: 2}
	j.Paper = job.Paper{Runs: job.ANSIB, Lists: job.ANSIA}
	for i := range j.Assemblies {
		j.Assemblies[i].Laboratory, j.Assemblies[i].ReferenceArea = "Sample Test Laboratory", "cap width x chair spacing"
	}
	return j
}

// wavy gives every run of a job an imperfect wall.
func wavy(j *job.Job) *job.Job {
	for p := range j.Perimeters {
		for r := range j.Perimeters[p].Runs {
			run := &j.Perimeters[p].Runs[r]
			for i := range run.Readings {
				q := &run.Readings[i]
				q.Width += length.Length((i*5+r)%7-3) * length.Inch16
				q.Offset = length.Length((i*3+r)%6-3) * length.Inch16
				q.TopOutside = length.Length((i*7+r)%18-9) * length.Inch16
				q.TopInside = length.Length((i*4+r)%16-8) * length.Inch16
			}
		}
	}
	return j
}

func perimeters(ps ...job.Perimeter) *job.Job {
	j := named(jobtest.Job())
	j.Perimeters = ps
	j.System.Profile.FrontLeg.Length, j.System.Profile.RearLeg.Length = 6*in, 4*in
	return wavy(j)
}

func ell() job.Perimeter {
	sq := 90 * job.Degree
	return jobtest.Perimeter("MAIN", job.Roof, jobtest.Run("N", 612*in, sq), jobtest.Run("E", 300*in, sq), jobtest.Run("SA", 240*in, -sq), jobtest.Run("SB", 120*in, sq),
		jobtest.Run("SD", 372*in, sq), jobtest.Run("W", 420*in, sq))
}

func open() job.Perimeter {
	p := jobtest.Perimeter("CANOPY", job.Open, jobtest.Run("K1", 260*in, 45*job.Degree), jobtest.Run("K2", 200*in, -30*job.Degree), jobtest.Run("K3", 230*in, 0))
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[2].Right = job.End{Kind: job.EndWall}
	return p
}

// blown is a wind section of an invented place.
func blown() *job.Wind {
	return &job.Wind{Edition: "ASCE 7-16", Speed: 115 * 0.44704, SpeedFrom: "S-1", Risk: "II", Exposure: "C",
		RoofHeight: 24 * length.Foot, ParapetTop: 27 * length.Foot, Kzt: 1}
}

// woody states what the cross-check in wood and the nailer's anchorage take.
func woody(j *job.Job) {
	j.Fasteners[0].Kind = job.WoodScrew
	y := &j.Walls[0].Layers[0]
	y.Gravity, y.Service = 0.42, true
	j.Walls[0].Nailer = &job.Nailer{Anchor: "anchor bolt", Report: "S-501", Pull: 1800, Most: 48 * in, Least: 6 * in}
}

// solvable is a job by name.
type solvable struct {
	name string
	job  *job.Job
}

// cases are jobs that between them have every kind of sheet.
func cases() []solvable {
	sq := 90 * job.Degree
	well := jobtest.Perimeter("WELL", job.Well, jobtest.Run("A", 220*in, -sq), jobtest.Run("B", 180*in, -sq), jobtest.Run("C", 220*in, -sq), jobtest.Run("D", 180*in, -sq))
	metric := perimeters(jobtest.Rectangle(700*in, 420*in))
	metric.Units, metric.Paper = job.Metric, job.Paper{Runs: job.ISOA3, Lists: job.ISOA4}
	held := perimeters(jobtest.Rectangle(700*in, 420*in))
	m := in / 2
	held.Perimeters[0].Runs[0].Expansion = []job.ExpansionJoint{{Station: 350 * in, Gap: in}}
	held.Perimeters[0].Runs[2].Expansion = []job.ExpansionJoint{{Station: 300 * in, Gap: in, Movement: &m}}
	held.Perimeters[0].Runs[1].Obstacles = []job.Obstacle{{Name: "lightning rod", Station: 120 * in, Extent: 3 * in, Does: job.BlocksChair | job.Pierces, FromFace: 6 * in, Depth: 3 * in}}
	held.Packing.Method, held.Packing.AboveMembrane = job.PackChairs, true
	unstated := perimeters(jobtest.Rectangle(300*in, 200*in))
	unstated.Pressures = nil
	long := perimeters(jobtest.Rectangle(2400*in, 500*in))
	drawn := perimeters(ell())
	drawn.Perimeters[0].Runs[2].Basis = job.Drawing
	trimmed := perimeters(open())
	trimmed.System.Joint.FieldCloser, trimmed.System.Joint.Allowance = true, 2*in
	computed := perimeters(jobtest.Rectangle(400*in, 300*in))
	computed.Pressures, computed.Wind = nil, blown()
	computed.System.Chair.Metal, computed.Walls[0].CoverFront = "copper", 7*in
	woody(computed)
	checked := perimeters(jobtest.Rectangle(500*in, 300*in))
	checked.Wind = blown()
	checked.Units, checked.Paper = job.Metric, job.Paper{Runs: job.ISOA3, Lists: job.ISOA4}
	woody(checked)
	confirmed := perimeters(jobtest.Rectangle(400*in, 300*in))
	confirmed.Pressures, confirmed.Wind = nil, blown()
	confirmed.Wind.Confirmed = &job.Confirmed{By: "Sample Structural", Document: "L-1", On: job.Date{Year: 2026, Month: 3, Day: 2}}
	l, _ := layout.Build(confirmed)
	confirmed.Wind.Confirmed.Code, confirmed.Wind.Confirmed.List = l.Demand.List.Code(), l.Demand.List
	two := perimeters(ell(), open())
	two.Packing.Least = 3 * in / 4
	return []solvable{
		{"rectangle", perimeters(jobtest.Rectangle(700*in, 420*in))},
		{"ell", drawn},
		{"well", perimeters(well)},
		{"open", trimmed},
		{"metric", metric},
		{"held", held},
		{"unstated", unstated},
		{"long", long},
		{"two", two},
		{"computed", computed},
		{"checked", checked},
		{"confirmed", confirmed},
	}
}

func build(t interface{ Fatalf(string, ...any) }, j *job.Job) *layout.Layout {
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatalf("the job does not build: %v", found)
	}
	return l
}

func TestSheetsAreClean(t *testing.T) {
	t.Parallel()
	for _, c := range packets() {
		t.Run(c.name, func(t *testing.T) {
			if f := faults(c.sheets); len(f) > 0 {
				t.Error(strings.Join(f, "\n"))
			}
		})
	}
}

// Every paper a job may choose has to hold every sheet.
func TestSheetsAreCleanOnEveryPaper(t *testing.T) {
	l := build(t, perimeters(ell()))
	for _, z := range []job.PaperSize{job.ANSIA, job.ANSIB, job.ANSIC, job.ANSID, job.ISOA4, job.ISOA3, job.ISOA2} {
		t.Run(fmt.Sprint(z), func(t *testing.T) {
			t.Parallel()
			got := Packet(l, Options{Runs: &z, Lists: &z})
			if f := faults(got); len(f) > 0 {
				t.Error(strings.Join(f, "\n"))
			}
			narrow, wide := size(z)
			for _, s := range got {
				// A view that needs it takes larger paper, and its sheet says so.
				if s.Scene.W+s.Scene.H != narrow+wide && !strings.Contains(s.Scene.Desc, "which the drawing needs") {
					t.Errorf("sheet %s is %v by %v", s.Number, s.Scene.W, s.Scene.H)
				}
			}
		})
	}
}

// randomJobs is how many random jobs are drawn, on every paper in turn. A packet
// takes too long to draw for a long search: the same few are drawn each time.
var randomJobs = draws.Times(int(job.ISOA2) + 1)

func TestRandomSheetsAreClean(t *testing.T) {
	jobs := rapid.Custom(jobtest.Random)
	for seed := range randomJobs {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			l, found := layout.Build(named(jobs.Example(seed)))
			if found.HasErrors() {
				t.Skip("not a layout")
			}
			// Every paper in turn; the job draws its own units.
			z := job.PaperSize(seed % (int(job.ISOA2) + 1))
			for _, f := range Check(l, Options{Runs: &z, Lists: &z}) {
				t.Error(f)
			}
		})
	}
}

func TestNumbersIdsAndIndexAgree(t *testing.T) {
	t.Parallel()
	for _, c := range packets() {
		for _, a := range Audiences() {
			if a != All && c.name != "held" { // parts differ little from job to job
				continue
			}
			sheets := c.sheets
			if a != All {
				sheets = Packet(c.layout, Options{For: a})
				theirs(t, a, sheets, c.sheets)
			}
			ids := map[string]bool{}
			links := map[string]bool{}
			index := ""
			for _, s := range sheets {
				if ids[s.ID] {
					t.Errorf("%s, %v: id %q twice", c.name, a, s.ID)
				}
				ids[s.ID] = true
				if s.Kind == Index {
					index += wordsOf(s.Scene)
					s.Scene.Walk(func(_ drawing.Layer, m drawing.Mark) {
						if l, ok := m.(drawing.Link); ok {
							links[l.Target] = true
						}
					})
				}
				if !s.Kind.For(a) {
					t.Errorf("%s: %v gets sheet %s %q", c.name, a, s.Number, s.Title)
				}
			}
			for _, s := range sheets {
				if !strings.Contains(index, "\n"+s.Number+"\n") || !links[s.ID] {
					t.Errorf("%s, %v: sheet %s %q is not in the index", c.name, a, s.Number, s.ID)
				}
				if !strings.Contains(wordsOf(s.Scene), "\nSHEET\n"+s.Number+"\n") {
					t.Errorf("%s, %v: sheet %s does not say its number", c.name, a, s.Number)
				}
			}
			for id := range links {
				if !ids[id] {
					t.Errorf("%s, %v: the index leads to %q, which is not in the packet", c.name, a, id)
				}
			}
			if a == All {
				numbers := map[string]string{}
				for _, s := range sheets {
					if was := numbers[s.Number]; was != "" {
						t.Errorf("%s: %s and %s have number %s", c.name, was, s.ID, s.Number)
					}
					numbers[s.Number] = s.ID
				}
			}
		}
	}
}

// theirs checks that an audience gets the sheets of the whole packet that are for
// it, each as it is there but for the list of sheets.
func theirs(t *testing.T, a Audience, got, packet []Sheet) {
	t.Helper()
	rest := slices.DeleteFunc(slices.Clone(got), func(s Sheet) bool { return s.Kind == Index })
	want := slices.DeleteFunc(slices.Clone(packet), func(s Sheet) bool { return s.Kind == Index || !s.Kind.For(a) })
	want = inOrder(want, a, func(s Sheet) Kind { return s.Kind })
	if !slices.EqualFunc(rest, want, func(s, q Sheet) bool {
		return s.ID == q.ID && s.Number == q.Number && s.Scene.Dump() == q.Scene.Dump()
	}) {
		t.Errorf("%v gets %d sheets that are not the packet's %d", a, len(rest), len(want))
	}
}

func TestPacketIsTheSameTwice(t *testing.T) {
	t.Parallel()
	for k, c := range packets() {
		if k%3 != 1 {
			continue
		}
		var out [2]bytes.Buffer
		for i := range out {
			l, sheets := c.layout, c.sheets
			if i == 1 {
				l = build(t, cases()[k].job)
				sheets = Packet(l, Options{})
			}
			for _, s := range sheets {
				out[i].WriteString(s.Scene.Dump())
			}
			if err := PDF(&out[i], l, sheets); err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
		}
		if !bytes.Equal(out[0].Bytes(), out[1].Bytes()) {
			t.Errorf("%s: two runs differ", c.name)
		}
	}
}

// Every chair, piece, joint, finding and crate line is lettered somewhere.
func TestNothingIsDropped(t *testing.T) {
	for _, c := range packets() {
		l := c.layout
		byKind := map[Kind]string{}
		byRun := map[string]string{}
		for _, s := range c.sheets {
			byKind[s.Kind] += "\n" + wordsOf(s.Scene)
			if s.Kind == RunSheet {
				for _, name := range runsOf(s) {
					byRun[name] += "\n" + wordsOf(s.Scene) + "\n " + oneBlank(wordsOf(s.Scene)) + " \n"
				}
			}
		}
		has := func(text, w, what string) {
			if !strings.Contains(text, "\n"+w+"\n") {
				t.Errorf("%s: %s %q is on no sheet", c.name, what, w)
			}
		}
		b := newBook(l, Options{})
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				has(byKind[PieceSchedule], q.Mark, "piece")
			}
			for _, r := range p.Runs {
				for _, x := range r.Chairs {
					has(byRun["Run "+b.of(p, r.Name)], fmt.Sprintf("C%d", x.N), "chair of run "+r.Name)
					if at := oneBlank(b.chairStation(r, x.At)); !strings.Contains(byRun["Run "+b.of(p, r.Name)], " "+at+" ") {
						t.Errorf("%s: station %s of a chair of run %s is on no sheet", c.name, at, r.Name)
					}
				}
			}
		}
		for _, k := range l.Crates {
			for _, x := range k.Items {
				if x.Mark != "" {
					has(byKind[CrateList], x.Mark, "crate line")
				}
			}
		}
		for _, q := range l.Withheld {
			has(byKind[CrateList], q.Mark, "withheld piece")
		}
		for i := range l.Findings {
			has(byKind[Findings], itoa(i+1), "finding")
		}
	}
}

func TestHoldIsSaidOnWhatItTouches(t *testing.T) {
	for _, c := range packets() {
		l := c.layout
		b := newBook(l, Options{})
		holds := map[string]bool{}
		for _, p := range l.Perimeters {
			for _, r := range p.Runs {
				holds["Run "+b.of(p, r.Name)] = len(l.HoldsOn(r)) > 0
			}
		}
		for _, s := range c.sheets {
			said := strings.Contains(wordsOf(s.Scene), "HOLD:")
			held := slices.ContainsFunc(runsOf(s), func(name string) bool { return holds[name] })
			// A second sheet has the holds of all that its sections are true of as well.
			if (s.Kind == RunSheet || s.Kind == Sections) && said != held && !(s.Kind == Sections && said) {
				t.Errorf("%s: sheet %s of %v says HOLD: %v, is on hold: %v", c.name, s.Number, runsOf(s), said, held)
			}
			if s.Kind == PieceSchedule && len(l.Withheld) > 0 && !strings.Contains(wordsOf(s.Scene), "DO NOT CUT") {
				t.Errorf("%s: the piece schedule does not say DO NOT CUT", c.name)
			}
		}
	}
}

func TestSchedulesAreWhole(t *testing.T) {
	for _, c := range packets() {
		l := c.layout
		want := map[string]int{"findings.csv": len(l.Findings)}
		for _, p := range l.Perimeters {
			want["pieces.csv"] += len(p.Pieces)
			for _, r := range p.Runs {
				want["chairs.csv"] += len(r.Chairs)
				want["joints.csv"] += len(r.Joints)
				want["shim-zones.csv"] += len(r.BuildUp)
			}
		}
		want["crates.csv"] = len(l.Withheld)
		for _, k := range l.Crates {
			want["crates.csv"] += len(k.Items)
		}
		for _, s := range Schedules(l) {
			if n, ok := want[s.Name]; ok && n != len(s.Rows) {
				t.Errorf("%s: %s has %d rows, the layout %d", c.name, s.Name, len(s.Rows), n)
			}
			var b bytes.Buffer
			if err := WriteCSV(&b, s); err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
			if strings.ContainsAny(b.String(), "\u00a0′″") { // a spreadsheet does not read them
				t.Errorf("%s: %s has marks of the drawings", c.name, s.Name)
			}
		}
	}
	if err := WriteCSV(&bytes.Buffer{}, Schedule{Name: "x", Header: []string{"a"}, Rows: [][]string{{"1", "2"}}}); err == nil {
		t.Error("a ragged row was written")
	}
}

func TestViewsHaveTheirOwnNames(t *testing.T) {
	t.Parallel()
	for _, c := range packets() {
		seen := map[string]bool{}
		for _, v := range Views(c.layout) {
			if seen[v.Name] || v.Name == "" {
				t.Errorf("%s: view name %q is empty or used twice", c.name, v.Name)
			}
			seen[v.Name] = true
		}
	}
}

func TestPDFHasAPageForEachSheet(t *testing.T) {
	t.Parallel()
	l := packets()[0].layout
	for _, a := range Audiences() {
		var b bytes.Buffer
		if err := PDF(&b, l, Packet(l, Options{For: a})); err != nil {
			t.Errorf("%v: %v", a, err)
		}
	}
	undated := *l
	j := *l.Job
	j.Info.Issued, undated.Job = job.Date{}, &j
	if err := PDF(&bytes.Buffer{}, &undated, packets()[0].sheets); err == nil {
		t.Error("a document without a date of issue was written")
	}
}
