package layout

import (
	"copingset/layout/job"
	"copingset/layout/plan"
)

// Sketch is a run of a perimeter that nobody has measured yet.
func Sketch(p *job.Perimeter, at int, metric bool) plan.Sketch {
	r := &p.Runs[at]
	s := plan.Sketch{Metric: metric, Run: r.Name, Length: r.Length, OnFront: r.StationFace == r.Face,
		Ends: [2]plan.SketchEnd{sketchLeft(p, at), sketchRight(p, at)}}
	for i := range r.Expansion {
		s.Expansion = append(s.Expansion, r.Expansion[i].Station)
	}
	for i := range r.Obstacles {
		s.Things = append(s.Things, plan.SketchThing{At: r.Obstacles[i].Station, Name: r.Obstacles[i].Name})
	}
	return s
}

// sketchLeft is how a run begins: where the run before it ends, or the perimeter.
func sketchLeft(p *job.Perimeter, at int) plan.SketchEnd {
	if at == 0 && p.Kind == job.Open {
		return sketchEnd(p.Starts, nil)
	}
	before := &p.Runs[(at+len(p.Runs)-1)%len(p.Runs)]
	e := sketchEnd(before.Right, before)
	switch e.Kind {
	case plan.KeyStepUp:
		e.Kind = plan.KeyStepDown
	case plan.KeyStepDown:
		e.Kind = plan.KeyStepUp
	}
	return e
}

func sketchRight(p *job.Perimeter, at int) plan.SketchEnd {
	if at == len(p.Runs)-1 && p.Kind == job.Open {
		return sketchEnd(p.Runs[at].Right, nil)
	}
	return sketchEnd(p.Runs[at].Right, &p.Runs[(at+1)%len(p.Runs)])
}

// sketchEnd is an end beyond which another run lies, or none.
func sketchEnd(e job.End, beyond *job.Run) plan.SketchEnd {
	var out plan.SketchEnd
	if beyond != nil {
		out.Run = beyond.Name
	}
	switch {
	case e.Kind == job.EndWall:
		return plan.SketchEnd{Kind: plan.KeyDies}
	case e.Kind == job.EndTee:
		return plan.SketchEnd{Kind: plan.KeyMeets, Run: e.Tee.Run}
	case beyond == nil || e.Kind == job.EndFree:
		return plan.SketchEnd{Kind: plan.KeyFree}
	case e.Kind == job.EndStep && e.Step > 0:
		out.Kind = plan.KeyStepUp
	case e.Kind == job.EndStep:
		out.Kind = plan.KeyStepDown
	case e.Kind == job.EndPitch:
		out.Kind, out.Break = plan.KeyCorners, e.Pitch.String()
	default:
		out.Kind, out.Turn = plan.KeyCorners, e.Turn
	}
	return out
}
