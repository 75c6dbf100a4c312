package layout

import (
	"fmt"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/fact"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// ofJob is the title block, the site and the coping system.
func (b *facts) ofJob() {
	j := b.l.Job
	b.about(fact.Job, "job")
	b.words("name", j.Info.Name)
	b.words("number", j.Info.Number)
	b.said("address", j.Info.Address)
	b.said("owner", j.Info.Owner)
	for i, p := range j.Info.Parties {
		b.words(fmt.Sprintf("party-%d", i+1), p.Role+": "+p.Name)
	}
	b.words("issued", date(j.Info.Issued))
	b.said("prepared-by", j.Info.PreparedBy)
	b.said("checked-by", j.Info.CheckedBy)
	for i, r := range j.Info.Revisions {
		n := fmt.Sprintf("revision-%d", i+1)
		b.words(n, r.Mark)
		b.words(n+"-date", date(r.Date))
		b.said(n+"-note", r.Note)
	}
	for i, n := range j.Info.Notes {
		b.words(fmt.Sprintf("note-%d", i+1), n)
	}
	for i, t := range j.Site.InstallMetalT {
		b.temp(InstallAt(i), t)
	}
	b.length("roof-height", j.Site.RoofHeight)
	b.grams("one-person", j.Site.OnePerson)
	b.grams("two-persons", 2*j.Site.OnePerson)
	b.length("long-piece", j.Site.LongPiece)
	b.said("safety-plan", j.Site.SafetyPlan)
	b.said("measured-by", j.Site.MeasuredBy)
	b.words("measured-on", date(j.Site.MeasuredOn))
	if m := j.Benchmark; m != nil {
		b.words("benchmark", m.What)
		b.words("benchmark-where", m.Where)
		b.length("benchmark-reading", m.Reading)
		if c := m.Check; c != nil {
			b.words("benchmark-check", c.What)
			b.words("benchmark-check-where", c.Where)
			b.length("benchmark-check-reading", c.Reading)
			b.length("benchmark-check-over", c.Reading-m.Reading)
		}
		if l := m.Loop; l != nil {
			b.length("level-misclosure", l.Misclosure())
			b.length("level-misclosure-most", l.Most)
			b.count("level-moves", len(l.Moves))
		}
	}
	b.grams("weight-of-pieces", b.l.Grams())
	b.grams("weight-of-pieces-shipped", b.l.GramsShipped())
	b.words("units", unitsName(j.Units))
	b.length("crew-step", b.l.Grid)
	b.length("shop-step", length.Shop(j.Units == job.Metric).Step())
	b.words("revision", b.l.Revision())
	b.words("input-digest", j.Digest())
	b.yes("preliminary", j.Preliminary())
	for i, s := range j.Sources {
		n := fmt.Sprintf("source-%d", i+1)
		b.words(n, s.Name)
		b.words(n+"-kind", s.Kind)
		b.words(n+"-digest", s.Digest)
	}
	b.ofSystem()
	b.ofShop()
	b.ofPacking()
	b.ofWalls()
	b.ofInstructions()
	b.ofCrating()
}

// InstallAt is what a temperature that gaps are given at is called, counted from nought.
func InstallAt(i int) string { return fmt.Sprintf("gap-temperature-%d", i+1) }

func unitsName(u job.Units) string {
	return map[job.Units]string{job.Imperial: "imperial", job.Metric: "metric"}[u]
}

func date(d job.Date) string {
	if d == (job.Date{}) {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day)
}

func (b *facts) ofSystem() {
	s := &b.l.Job.System
	b.about(fact.Job, "system")
	b.words("name", s.Name)
	b.words("metal", s.Metal.Name)
	b.length("thickness", s.Metal.Thickness)
	b.some("thickness-specified", s.Metal.Specified)
	b.said("finish", s.Metal.Finish)
	b.number("density-kg-m3", s.Metal.Density)
	b.length("front-leg", s.Profile.FrontLeg.Length)
	b.length("rear-leg", s.Profile.RearLeg.Length)
	b.length("front-leg-to-foot", s.FrontFoot())
	b.length("front-leg-to-mold-line", s.FrontLeg(job.ToMoldLine))
	b.length("rear-leg-to-foot", s.RearFoot())
	b.length("rear-leg-to-mold-line", s.RearLeg(job.ToMoldLine))
	b.length("drip", s.Profile.Drip.Length)
	b.angle("drip-angle", s.Profile.Drip.Angle)
	b.length("rear-hook", s.Profile.RearHook.Length)
	b.angle("rear-hook-angle", s.Profile.RearHook.Angle)
	street, roof := s.Profile.Hems()
	for i, h := range []job.Hem{street, roof} {
		name := hemNames(&s.Profile)[i]
		if i == 1 && name == hemNames(&s.Profile)[0] {
			continue
		}
		b.length(name, h.Return)
		if h.Kind != job.ClosedHem {
			b.said(name+"-kind", h.Kind.String())
			b.length(name+"-inside", h.Inside)
		}
	}
	b.length(lapLeast[0], s.Lap.Front)
	b.length(lapLeast[1], s.Lap.Rear)
	b.length("inside-radius", s.Profile.InsideR)
	b.slope("top-slope", s.Profile.TopSlope)
	b.length("front-clearance", s.FrontClearance)
	b.length("rear-clearance", s.RearClearance)
	b.length("rear-play-least", s.PlayLeast)
	b.length("rear-play-most", s.PlayMost)
	b.length("transition-leg", s.Transition.Leg)
	b.length("stock", s.Stock)
	b.length("least-piece", s.LeastPiece)
	b.length("joint-gap", s.Joint.Gap)
	b.temp("joint-reference", s.Joint.Reference)
	b.temp("coldest", s.Joint.Coldest)
	b.temp("hottest", s.Joint.Hottest)
	b.length("splice-plate", s.Splice.Length)
	b.length("splice-bearing", s.Splice.Bearing)
	b.length("chair", s.Chair.Length)
	b.length("chair-rise", s.Chair.Rise)
	b.length("chair-front-edge", s.Chair.FrontEdge)
	b.length("chair-rear-edge", s.Chair.RearEdge)
	b.length("string-behind-cap-line", cap.ChairLine(s))
	b.length("splice-tape", s.Splice.Tape)
	b.length("support-length", s.Corner.Support.Length)
	b.length("support-width", s.Corner.Support.Width)
	b.length("end-clearance", s.EndCap.Clearance)
	b.length("wall-end-clearance", s.WallEnd.Clearance)
	b.length("upstand", s.WallEnd.Upstand)
}

// lapLeast are what the least laps of the street-side leg and of the roof-side leg are
// called.
var lapLeast = [...]string{"lap-front-least", "lap-rear-least"}

// hemNames are what the hems of both edges of a cap are called; one name where they are
// alike.
func hemNames(p *job.Profile) [2]string {
	if street, roof := p.Hems(); street == roof {
		return [2]string{"hem", "hem"}
	}
	return [2]string{"hem", "rear-hem"}
}

func (b *facts) ofPacking() {
	p, e := &b.l.Job.Packing, &b.l.Packing
	b.about(fact.Job, "packing")
	b.length("layer", p.Layer)
	b.lengths("shims", p.Shims)
	for _, s := range p.Shims {
		b.length("shim-"+fact.Nanometres(s), s)
	}
	b.said("layer-name", p.LayerName)
	if n := &p.Nail; n.Name != "" {
		b.words("nail", n.Name)
		b.count("nail-rows", n.Rows)
		b.length("nail-spacing", n.Spacing)
	}
	if k := &p.Sheet; k.Stated() {
		b.lengths("sheet", []length.Length{k.Width, k.Length})
		b.length("sheet-kerf", k.Kerf)
	}
	if p.Shim.Stated() {
		b.words("shim-material", p.Shim.Material)
		b.length("shim-length", p.Shim.Length)
		b.length("shim-width", p.Shim.Width)
	}
	b.length("membrane", b.l.Job.Membrane.Thickness)
	b.said("membrane-name", b.l.Job.Membrane.Name)
	b.words("taken", method(e.Taken))
	if e.Known {
		b.words("recommended", method(e.Recommended))
	}
	b.said("reason", e.Reason)
}

func method(m job.PackingMethod) string {
	return map[job.PackingMethod]string{job.PackContinuous: "continuous", job.PackChairs: "chairs"}[m]
}

// ofWind is the demand by zone and all it follows from.
func (b *facts) ofWind() {
	d := b.l.Demand
	b.about(fact.Wind, "wind")
	b.yes("stated", d.Stated)
	b.yes("computed", d.Computed)
	b.yes("to-confirm", d.ToConfirm())
	b.said("edition", d.Edition)
	b.said("by", d.By)
	b.said("document", d.Document)
	b.length("corner-zone", d.CornerLength)
	if d.CornerTurn > 0 {
		b.angle("corner-turn", d.CornerTurn)
	}
	b.ofDemand(&d)
	b.ofSteps(d.Basis)
	b.ofConfirmation(&d)
	if d.Check != nil {
		b.about(fact.Wind, "wind beside") // the stated ones
		b.length("corner-zone", d.Check.CornerLength)
		b.ofDemand(d.Check)
		b.ofSteps(d.Check.Basis)
	}
	for i, w := range b.l.Withdrawals() {
		b.about(fact.Wind, fmt.Sprintf("withdrawal %d", i+1))
		b.ofSteps(w.One.Steps)
		if len(w.Across) > 0 {
			b.about(fact.Wind, fmt.Sprintf("shear %d", i+1))
			b.ofSteps(w.Across)
		}
	}
	b.out = append(b.out, d.Signed...)
}

// ofConfirmation is what a confirmation of computed pressures repeats, and who gave the
// job's.
func (b *facts) ofConfirmation(d *wind.Demand) {
	if !d.Computed {
		return
	}
	b.count("confirmed-lines", len(d.List))
	b.words("check-code", d.List.Code().String())
	if c := d.Confirmed; c != nil {
		b.words("confirmed-by", c.By)
		b.said("confirmed-document", c.Document)
		b.said("confirmed-on", date(c.On))
		b.words("confirmed-code", c.Code.String())
	}
}

// ofDemand are the pressures of a demand, as stated or computed and as assemblies are
// compared with.
func (b *facts) ofDemand(d *wind.Demand) {
	for z := wind.Edge; z <= wind.Corner; z++ {
		for _, q := range []struct {
			what string
			of   job.Pressure
		}{{"up", d.Up[z]}, {"out", d.Out[z]}, {"rear", d.Rear[z]}, {"in", d.In[z]}} {
			if q.of.Pa != 0 {
				k := z.String() + "-" + q.what
				b.pressure(k, q.of)
				b.words(k+"-level", levelName(q.of.Level))
				b.put(k+"-allowable", fact.Pressure, exactly(wind.AllowablePa(q.of)))
			}
		}
	}
}

// ofSteps are the steps of a reckoning.
func (b *facts) ofSteps(steps []wind.Step) {
	for i, s := range steps {
		k := fmt.Sprintf("step-%d-", i+1)
		b.count(k+"line", i+1)
		b.words(k+"what", strings.TrimSpace(s.Symbol+" "+s.What))
		if s.Text != "" {
			b.words(k+"value", s.Text)
		} else {
			b.number(k+"value", s.Value)
		}
		b.said(k+"unit", s.Unit)
		b.said(k+"listed", s.Fact)
		b.said(k+"formula", s.Formula)
		b.said(k+"source", s.Source)
	}
}

func levelName(v job.Level) string {
	return map[job.Level]string{job.Strength: "strength", job.Allowable: "allowable", job.AsPulled: "as pulled"}[v]
}

// ofAssemblies is what covers each zone, and by how much.
func (b *facts) ofAssemblies() {
	for i, k := range b.l.AssemblyCases() {
		c := k.Choice
		b.about(fact.Assembly, FactOfCase(i))
		b.place()
		b.words("zone", c.Zone.String())
		var runs []string
		for _, r := range k.Runs {
			runs = append(runs, FactOfRun(r))
		}
		b.words("runs", strings.Join(runs, " "))
		if c.Assembly != nil {
			b.words("assembly", c.Assembly.Name)
			b.length("spacing", c.Assembly.ChairSpacing)
		}
		b.yes("covers", c.Covers)
		b.number("up-demand-Pa", c.UpDemand)
		b.number("up-resists-Pa", c.UpResists)
		b.number("out-demand-Pa", c.OutDemand)
		b.number("out-resists-Pa", c.OutResists)
		if c.RearKnown {
			b.number("rear-demand-Pa", c.RearDemand)
			b.number("rear-resists-Pa", c.RearResists)
		}
		b.number("ratio", c.Ratio())
		b.said("fails", strings.Join(c.Fails, "; "))
		b.ofLimits(k)
	}
}

// ScrewFacts is what the facts of a fastener of whatever length are of.
func ScrewFacts(name string) string { return "screw " + name }

// FastenerFacts is what the facts of a fastener of one length are of.
func FastenerFacts(name string, l length.Length) string {
	return "fastener " + name + " " + fact.Nanometres(l)
}

// FactOfFastening is what the facts of a row of the schedule by zone are of, counted from
// nought.
func FactOfFastening(i int) string { return fmt.Sprintf("fastening %d", i+1) }

// ofFasteners is what the job takes of each fastener.
func (b *facts) ofFasteners() {
	runs := b.l.Runs()
	for i := range b.l.Job.Fasteners {
		f := &b.l.Job.Fasteners[i]
		b.about(fact.Fastener, ScrewFacts(f.Name))
		b.words("name", f.Name)
		b.length("diameter", f.Diameter)
		b.some("pilot-diameter", f.PilotDia)
	}
	for _, f := range b.l.FastenerSchedule() {
		b.about(fact.Fastener, FastenerFacts(f.Fastener.Name, f.Length))
		b.place()
		b.words("name", f.Fastener.Name)
		b.length("diameter", f.Fastener.Diameter)
		b.length("thread-asked", f.Fastener.Embedment)
		b.length("tip", f.Fastener.Tip)
		if f.Fastener.PilotDia > 0 {
			b.length("pilot-diameter", f.Fastener.PilotDia)
		}
		b.length("edge-asked", f.Fastener.EdgeDistance)
		b.length("cover", f.Fastener.Cover)
		b.length("length", f.Length)
		b.count("count", f.Count)
		b.count("spare", f.Spare)
		b.count("boxes", f.Boxes)
		b.count("box", f.Fastener.Box)
		for i, n := range f.ByRun {
			if n > 0 {
				b.count("count-"+FactOfRun(runs[i]), n)
			}
		}
	}
	for i, f := range b.l.Fastenings() {
		b.about(fact.Fastener, FactOfFastening(i))
		b.words("assembly", f.Assembly.Name)
		b.words("wind-zone", f.Zone.String())
		b.words("row", ScrewsOf(f.Row))
		b.words("name", f.Fastener.Name)
		b.length("length", f.Length)
		b.count("chairs", f.Chairs)
		b.count("count", f.Count)
		b.lengths("packing", []length.Length{f.PackLeast, f.PackMost})
		b.lengths("thread", []length.Length{f.Thread.Has, f.ThreadMax})
		b.length("thread-asked", f.Thread.Asked)
		b.length("edge-asked", f.Edge.Asked)
		b.lengths("pilot", []length.Length{f.PilotLeast, f.PilotMost})
		if !f.Edge.Unknown {
			b.length("edge-distance", f.Edge.Has)
		}
	}
}
