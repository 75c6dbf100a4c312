package sheets

import (
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
)

// assemblies is the inspector's page: pressure asked for, assembly tested, and
// by whose word each stands.
func (b *book) assemblies() []page {
	first := page{id: b.id("assemblies"), title: "Pressures and tested assemblies", kind: Assemblies, paper: b.runs, holds: b.l.Holds(),
		about: "Design pressure by zone against the resistance of the tested assembly, and whose statement each is."}
	first.banner = holdWords(first.holds)
	blocks := []block{b.demandTable(), b.coverTable(), b.testTable(), b.othersList()}
	if fails := b.failures(); len(fails) > 0 {
		blocks = append(blocks, list{title: "Why no assembly covers", items: fails})
	}
	blocks = append(blocks, b.stampSpace())
	return b.pages(first, blocks, across)
}

// demandTable letters the pressures as stated, with their level.
func (b *book) demandTable() block {
	d := b.l.Demand
	if !d.Stated {
		return list{title: "Design pressures", items: []string{"NOT STATED. They are to be stated by the engineer of record; until then every piece that depends on them is on hold."}, plain: true}
	}
	t := table{title: "Design pressures", cols: []column{{head: "Zone"}, {head: "Up on the top", align: drawing.Right}, {head: "Out on the face", align: drawing.Right},
		{head: "Level"}, {head: "Reaches", flex: true}, {head: "Stated by", flex: true}, {head: "Document", flex: true}, {head: "Edition", flex: true}}}
	zones := [...]string{"edge", "corner"}
	reach := [...]string{"the rest of the wall", b.text(d.CornerLength) + " along the wall from each outside corner"}
	for z := range zones {
		lv := level(d.Up[z].Level)
		if d.Out[z].Level != d.Up[z].Level {
			lv = "up " + lv + ", out " + level(d.Out[z].Level)
		}
		t.rows = append(t.rows, []string{zones[z], b.pressure(d.Up[z].Pa), b.pressure(d.Out[z].Pa), lv, reach[z], prose(d.By), prose(d.Document), prose(d.Edition)})
	}
	return t
}

// coverTable compares at the allowable level, one row for each zone and
// assembly.
func (b *book) coverTable() table {
	t := table{title: "Required and tested, at the allowable level", cols: []column{{head: "Zone"}, {head: "Runs", flex: true}, {head: "Assembly"}, {head: "Up required", align: drawing.Right}, {head: "Up resists", align: drawing.Right},
		{head: "Out required", align: drawing.Right}, {head: "Out resists", align: drawing.Right}, {head: "Ratio", align: drawing.Right}, {head: "Covered"}}}
	var held []bool
	for _, c := range b.l.AssemblyCases() {
		ch := c.Choice
		up, out, ratio := b.pressure(ch.UpDemand), b.pressure(ch.OutDemand), strconv.FormatFloat(ch.Ratio(), 'f', 2, 64)
		if !ch.Stated {
			up, out, ratio = "not stated", "not stated", "–"
		}
		name, covers := "none", "NO: HOLD"
		if ch.Assembly != nil {
			name = prose(ch.Assembly.Name)
		}
		switch {
		case ch.Covers && ch.Stated:
			covers = "yes"
		case ch.Covers:
			covers = "NOT KNOWN: HOLD"
		}
		held = append(held, covers != "yes")
		t.rows = append(t.rows, []string{ch.Zone.String(), b.runNames(c.Runs), name, up, b.pressure(ch.UpResists), out, b.pressure(ch.OutResists), ratio, covers})
	}
	t.bold = func(row, _ int) bool { return held[row] }
	return t
}

func (b *book) runNames(runs []*layout.Run) string {
	if len(runs) == len(b.l.Runs()) && len(runs) > 1 {
		return "all"
	}
	var names []string
	for _, r := range runs {
		names = append(names, b.runHead(r))
	}
	return strings.Join(names, ", ")
}

// testTable letters the assemblies in use as their reports state them.
func (b *book) testTable() table {
	t := table{title: "Tested assemblies in use, as their reports state them", cols: []column{{head: "Assembly"}, {head: "Report", flex: true}, {head: "Laboratory", flex: true}, {head: "Metal", flex: true}, {head: "Front leg to", flex: true}, {head: "Rear leg to", flex: true}, {head: "Width to", align: drawing.Right},
		{head: "Chairs at", align: drawing.Right}, {head: "Fasteners a chair", flex: true}, {head: "Into"}, {head: "Up", align: drawing.Right}, {head: "Out", align: drawing.Right}, {head: "Level", flex: true}, {head: "Factor", align: drawing.Right}, {head: "Area", flex: true}}}
	var seen []*job.Assembly
	for _, c := range b.l.AssemblyCases() {
		a := c.Choice.Assembly
		if a == nil || contains(seen, a) {
			continue
		}
		seen = append(seen, a)
		factor := strconv.FormatFloat(a.Factor, 'g', -1, 64)
		if a.Up.Level != job.AsPulled {
			factor = "taken"
		}
		lv := level(a.Up.Level)
		if a.Out.Level != a.Up.Level {
			lv = "up " + lv + ", out " + level(a.Out.Level)
		}
		t.rows = append(t.rows, []string{prose(a.Name), prose(a.Report), orDash(prose(a.Laboratory)), prose(a.Metal) + ", " + b.thick(a.ThicknessLeast) + " and up (job: " + b.thick(b.j.System.Metal.Thickness) + ")",
			b.exact(a.FrontLegMost) + " (job: " + b.exact(b.j.System.Profile.FrontLeg) + ")", b.exact(a.RearLegMost) + " (job: " + b.exact(b.j.System.Profile.RearLeg) + ")", b.exact(a.WidthMost), b.exact(a.ChairSpacing),
			itoa(a.FrontRow) + " front, " + itoa(a.RearRow) + " rear: " + b.fastenerNamed(a.Fastener), a.Substrate, b.pressure(a.Up.Pa), b.pressure(a.Out.Pa), lv, factor, orDash(prose(a.ReferenceArea))})
	}
	return t
}

// fastenerNamed is a fastener of the job with its diameter, or the name alone
// of one that the job does not describe.
func (b *book) fastenerNamed(name string) string {
	for i := range b.j.Fasteners {
		if b.j.Fasteners[i].Name == name {
			return b.screwName(&b.j.Fasteners[i])
		}
	}
	return prose(name)
}

func contains(list []*job.Assembly, a *job.Assembly) bool {
	for _, x := range list {
		if x == a {
			return true
		}
	}
	return false
}

func (b *book) failures() []string {
	var out []string
	for _, c := range b.l.AssemblyCases() {
		if !c.Choice.Covers {
			out = append(out, "Runs "+b.runNames(c.Runs)+", "+c.Choice.Zone.String()+" zone: "+strings.Join(c.Choice.Fails, "; ")+".")
		}
	}
	return out
}

// othersList says who states what.
func (b *book) othersList() list {
	items := []string{
		"Design pressures: the engineer of record's. They are lettered as stated and not checked here.",
		"Resistances: the laboratory's, by the report named. An as-pulled ultimate is divided by the factor shown; an allowable has it taken already.",
		"Strength-level wind is brought to the allowable level by 0.6 (load combinations of ASCE 7, section 2.4).",
		"Stations, lengths, packing and fastener lengths: computed by the program from the survey and the job, to be confirmed by a licensed engineer where they bear on strength.",
		"By others: the wall, its nailers and their anchorage, the roofing and its base flashing, sealed collars, and what lies below the layer the fasteners hold in.",
		"Pieces that touch a zone take that zone's assembly whole.",
	}
	return list{title: "Who states what", items: items}
}

// stampSpace is left for the reviewers the job names; for whoever reviews it
// where it names none.
func (b *book) stampSpace() whole {
	var stamps []string
	for _, p := range b.j.Info.Parties {
		if role := strings.ToLower(p.Role); strings.Contains(role, "architect") || strings.Contains(role, "engineer") {
			stamps = append(stamps, "REVIEW STAMP: "+prose(role+", "+p.Name))
		}
	}
	if len(stamps) == 0 {
		stamps = []string{"REVIEW STAMP"}
	}
	return fixed(3000, func(s *drawing.Scene, r drawing.Rect) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			n := drawing.Unit(max(2, len(stamps)))
			w := min((r.Width()-gutter*(n-1))/n, 14000)
			for i, words := range stamps {
				x := r.Min.X + drawing.Unit(i)*(w+gutter)
				g.Rect(drawing.Medium, drawing.Box(x, r.Min.Y, x+w, r.Max.Y))
				for k, line := range drawing.Wrap(words, drawing.Bold, drawing.Note, w-400) {
					g.Text(drawing.Pt(x+200, r.Min.Y+500+drawing.Unit(k)*drawing.Note.Line()), line, drawing.Style{Face: drawing.Bold})
				}
			}
		})
	})
}
