package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/job"
)

// larger are the usual papers larger than one, of its own series and growing.
// A view that no way of holding the job's paper makes readable goes on the
// first of them that does.
func larger(p paper) []job.PaperSize {
	for _, series := range [][]job.PaperSize{{job.ANSIA, job.ANSIB, job.ANSIC, job.ANSID},
		{job.ISOA4, job.ISOA3, job.ISOA2}} {
		i := slices.IndexFunc(series, func(z job.PaperSize) bool { return landscape(z) == p || portrait(z) == p })
		if i >= 0 {
			return series[i+1:]
		}
	}
	return nil
}

// printedOn is the page on a larger paper than the job's, and says so in its
// title block, in the list of sheets and to those who cannot see it.
func (p page) printedOn(say words.Book, z job.PaperSize) page {
	p.paper, p.on = landscape(z), z.String()
	on := words.In("paper", p.on)
	p.about += " " + say.Say(words.FrameLargerAbout, on)
	p.scale = strings.TrimPrefix(p.scale+"; "+say.Say(words.FrameLarger, on), "; ")
	return p
}

// onPaper is the page on a larger paper by its name.
func (p page) onPaper(say words.Book, name string) page {
	for _, z := range larger(p.paper) {
		if z.String() == name {
			return p.printedOn(say, z)
		}
	}
	return p
}

// fitting is the page on the job's paper where a view can be read on it, else
// on the first larger paper where it can. Where none serves, the page keeps
// its own.
func fitting(say words.Book, p page, fits func(room drawing.Rect) bool) page {
	if fits(p.paper.room(p.banner != "")) {
		return p
	}
	for _, z := range larger(p.paper) {
		if q := p.printedOn(say, z); fits(q.paper.room(q.banner != "")) {
			return q
		}
	}
	return p
}
