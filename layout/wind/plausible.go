package wind

import (
	"fmt"
	"math"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// mostPa is more than the method gives anywhere, at strength level: the fastest
// wind of the maps over open water at the greatest height of the tables, on a
// corner of the roof of a tall, partially enclosed building.
func mostPa() float64 {
	_, mph, _ := speedRange(ed16)
	z, _ := highest(ed16)
	d, _ := kd(ed16)
	g, _ := tallLine(ed16, roof3)
	inside, _ := internal(ed16, job.PartiallyEnclosed)
	return velocityPa(false, kz(ed16, "D", z)*d, mph*mpsPerMPH) * (math.Abs(g.g1) + inside)
}

// Plausible reports whether a pressure or a resistance, in pascals at the
// allowable level, is of the size that wind on a coping has. Below half the least
// net pressure of the standard, or beyond all that its method gives, a unit or a
// decimal place is the likelier reading.
func Plausible(pa float64) bool {
	return pa >= leastPSF*pascalsPerPSF*StrengthToAllowable/2 && pa <= mostPa()*StrengthToAllowable
}

// Range words what Plausible takes, for findings.
func Range() string {
	least, most := leastPSF*pascalsPerPSF*StrengthToAllowable/2, mostPa()*StrengthToAllowable
	return fmt.Sprintf("%.1f to %.0f psf (%.2f to %.1f kPa) at the allowable level", least/pascalsPerPSF,
		most/pascalsPerPSF, least/1000, most/1000)
}

// LeastZone is the least width of a corner zone, 3 ft in every edition; a metric
// standard letters it 0.9 m.
const LeastZone = 900 * length.Millimetre

// mostZone is longer than a corner zone of any building one sees: a tenth of a
// least dimension of 2,000 ft, twice.
const mostZone = 400 * length.Foot

// plausible asks for the unit of stated pressures and of a zone that wind does
// not have, and compares the zones at one level.
func plausible(p *job.Pressures) finding.List {
	var found finding.List
	for _, q := range []struct {
		what         string
		edge, corner job.Pressure
	}{{"up", p.Edge.Up, p.Corner.Up}, {"out", p.Edge.Out, p.Corner.Out}, {"rear", p.Edge.Rear, p.Corner.Rear}} {
		for i, v := range []job.Pressure{q.edge, q.corner} {
			if v.Pa == 0 {
				continue
			}
			if Plausible(AllowablePa(v)) {
				found.Append(underLeast(p, q.what, Zone(i), v)...)
				continue
			}
			f := finding.New(
				finding.Hold,
				"pressure-unit",
				p.At,
				"check the unit: psf, kPa or Pa; if it is meant, have the "+
					"engineer of record state the pressures in another unit too",
				"the pressure %s of the %s zone, %s, is not of the size of wind on a coping",
				q.what,
				Zone(i),
				letterFine(v),
			)
			f.Why = "the method of the standard gives " + Range()
			found.Append(f)
		}
		if e, c := AllowablePa(q.edge), AllowablePa(q.corner); q.edge.Pa > 0 && q.corner.Pa > 0 && c < e {
			found.Notef(
				"pressure-corner",
				p.At,
				"ask the engineer if the two are exchanged, or their levels",
				"pressures.corner.%s, %s, is less than pressures.edge.%s, %s, both at the allowable level",
				q.what,
				letter(job.Pressure{Pa: c, Level: job.Allowable}),
				q.what,
				letter(job.Pressure{Pa: e, Level: job.Allowable}),
			)
		}
	}
	if l := p.CornerLength; l > 0 && (l < LeastZone || l > mostZone) {
		at := p.LengthAt
		if at.IsZero() {
			at = p.At
		}
		f := finding.New(finding.Hold, "corner-length-unit", at, "check the unit: feet, inches or millimetres",
			"the corner zone, %s, is not of the size of any building's", job.Both(l))
		f.Why = "the standard's corner zones are 3 ft (0.9 m) and more"
		found.Append(f)
	}
	return found
}

// underLeast holds a stated pressure that no component of an edition that is known
// here may be designed for.
func underLeast(p *job.Pressures, what string, z Zone, v job.Pressure) finding.List {
	e, known := editionOf(strings.TrimSpace(p.Edition))
	least := leastPSF * pascalsPerPSF * StrengthToAllowable
	if !known || AllowablePa(v) >= least*(1-1e-3) { // as lettered
		return nil
	}
	from := leastNet(e)
	f := finding.New(
		finding.Hold,
		"pressure-least",
		p.At,
		"ask the engineer of record which level is meant, and for no "+
			"less than the edition's least",
		"the pressure %s of the %s zone, %s, is under the least net pressure of %s, %s",
		what,
		z,
		letter(v),
		e,
		letter(job.Pressure{Pa: least, Level: job.Allowable}),
	)
	f.Why = from.text + " (" + string(from.sure) + ")"
	return finding.List{f}
}

// letterFine gives a pressure that may be of any size.
func letterFine(p job.Pressure) string {
	return fmt.Sprintf("%.3g psf (%.3g kPa) %s", p.Pa/pascalsPerPSF, p.Pa/1000, levelWord(p.Level))
}
