package finding

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/length"
)

// One says of a finding that it is of one of many things that the same cause may be
// found of: chairs, supports. All of a cause are told as one, which counts them.
type One struct {
	Noun  string        // "chair"
	Name  string        // "N-C7"
	Words string        // what is wrong with it, without its name
	Cause string        // what is alike in all of the same cause; the words of each may differ
	Worse length.Length // the greater, the worse: the words of the worst are told
}

// Gathered tells all findings of one cause as one: those of many things that are alike
// in code, severity, key of the job, cause and what mends them. It counts them, lists
// them and says what is wrong with the worst. Others stay as they are.
func (l List) Gathered() List {
	type cause struct {
		code, cause, mend string
		sev               Severity
		at                Place
	}
	group := map[cause]List{} // look-up only
	key := func(f Finding) cause { return cause{f.Code, f.One.Cause, f.Mend, f.Severity, f.At} }
	for _, f := range l {
		if f.One.Noun != "" {
			group[key(f)] = append(group[key(f)], f)
		}
	}
	var out List
	for _, f := range l {
		if f.One.Noun == "" {
			out = append(out, f)
			continue
		}
		if all := group[key(f)]; all != nil {
			out = append(out, all.asOne())
			group[key(f)] = nil
		}
	}
	return out
}

// asOne tells findings of one cause.
func (l List) asOne() Finding {
	worst := l[0]
	var names []string
	differ := false
	for _, f := range l {
		if !slices.Contains(names, f.One.Name) {
			names = append(names, f.One.Name)
		}
		if f.One.Worse > worst.One.Worse {
			worst = f
		}
		differ = differ || f.One.Words != worst.One.Words
	}
	if len(names) == 1 {
		return worst
	}
	out := worst
	out.Where = together(l)
	out.What = fmt.Sprintf(
		"%d %ss, %s: %s",
		len(names),
		worst.One.Noun,
		strings.Join(Ranges(names), ", "),
		worst.One.Words,
	)
	if differ {
		out.What += "; that is " + worst.One.Name + ", the worst"
	}
	return out
}

// together is the part of the layout that all of them touch: their runs, and their
// pieces where each names its own.
func together(l List) Ref {
	first := l[0].Where
	out := Ref{Perimeter: first.Perimeter, Run: first.Run, Corner: first.Corner}
	run := func(name string) {
		if name != out.Run && name != "" && !slices.Contains(out.Runs, name) {
			out.Runs = append(out.Runs, name)
		}
	}
	narrow := true
	for _, f := range l {
		w := f.Where
		if w.Perimeter != out.Perimeter { // runs have names of their own in the whole job
			out.Perimeter = ""
		}
		if w.Corner != out.Corner {
			out.Corner = ""
		}
		run(w.Run)
		for _, r := range w.Runs {
			run(r)
		}
		narrow = narrow && len(w.Pieces) > 0
		for _, p := range w.Pieces {
			if !slices.Contains(out.Pieces, p) {
				out.Pieces = append(out.Pieces, p)
			}
		}
	}
	if !narrow {
		out.Pieces = nil
	}
	return out
}

// Ranges shorten a list of names that count up: N-J2 to N-J5.
func Ranges(names []string) []string {
	split := func(s string) (head string, n int) {
		i := len(s)
		for i > 0 && s[i-1] >= '0' && s[i-1] <= '9' && len(s)-i < 9 {
			i--
		}
		if i == len(s) {
			return s, -1
		}
		for _, c := range s[i:] {
			n = 10*n + int(c-'0')
		}
		return s[:i], n
	}
	var out []string
	for i := 0; i < len(names); {
		head, n := split(names[i])
		k := i + 1
		for k < len(names) {
			if h, m := split(names[k]); n < 0 || h != head || m != n+k-i {
				break
			}
			k++
		}
		if k-i > 2 {
			out = append(out, names[i]+" to "+names[k-1])
		} else {
			out = append(out, names[i:k]...)
		}
		i = k
	}
	return out
}
