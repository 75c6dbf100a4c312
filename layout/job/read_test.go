package job

import (
	"os"
	"reflect"
	"strings"
	"testing"

	"copingset/layout/length"
)

func readGood(t *testing.T, name string) *Job {
	t.Helper()
	j, list := Read(os.DirFS("testdata/good"), name)
	for _, f := range list {
		t.Error(f)
	}
	if j == nil {
		t.Fatal("no job")
	}
	return j
}

const (
	mm = length.Millimetre
	in = length.Inch
	ft = length.Foot
)

func TestHeron(t *testing.T) {
	j := readGood(t, "heron.yaml")
	s := &j.System
	same(t, "stock", s.Stock, 11*ft+6*in)
	same(t, "expansion", s.Metal.Expansion, 23220)
	same(t, "slope", s.Profile.TopSlope, 41_666_667)
	same(t, "reference", s.Joint.Reference, 20_000)
	same(t, "supports", s.Corner.Supports[1].At[1], 750)
	same(t, "one person", j.Site.OnePerson, 22_680)
	same(t, "cost", j.Assemblies[0].Cost, 14_500)
	same(t, "level", j.Assemblies[0].Up.Level, AsPulled)
	same(t, "number", j.Info.Number, "0417")
	runs := j.Perimeters[0].Runs
	var names []string
	readings := 0
	for _, r := range runs {
		names = append(names, r.Name)
		readings += len(r.Readings)
		same(t, "turn", r.Right.Turn, 90*Degree)
		same(t, "elevation", r.Elevation, r.Name)
	}
	same(t, "runs", strings.Join(names, ""), "NESW")
	same(t, "readings", readings, 78)
	same(t, "length", runs[0].Length, 58*ft+7*in+in/4)
	same(t, "does", runs[0].Obstacles[1].Does, BlocksChair|Pierces)
	q := runs[0].Readings[1]
	same(t, "station", q.Station, 2*ft+6*in)
	same(t, "place", q.At.String(), "heron.csv:3:1")
	same(t, "place of run", runs[1].At.String(), "heron.yaml:174:9")
	same(t, "place of turn", runs[1].Right.At.String(), "heron.yaml:179:9")
}

func same[T comparable](t *testing.T, what string, got, want T) {
	t.Helper()
	if got != want {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// The file has every key and no value that is zero, so a field that the
// decoder forgets stays zero.
func TestEveryKey(t *testing.T) {
	j := readGood(t, "every-key.yaml")
	// What is zero by its meaning: the first word of an enumeration, the
	// other way of giving widths, and what the file states once of two.
	zero := map[string]bool{
		"Perimeters[0].face.value": true, "Perimeters[0].face.given": true,
		"Perimeters[0].basis.value": true, "Perimeters[0].basis.given": true,
		"Perimeters[0].face.at.File": true, "Perimeters[0].face.at.Line": true, "Perimeters[0].face.at.Col": true,
		"Perimeters[0].basis.at.File": true, "Perimeters[0].basis.at.Line": true, "Perimeters[0].basis.at.Col": true,
		"System.Profile.FrontLeg.To": true, "Assemblies[0].FrontLegMost.To": true, // to the mold line
		"System.Remainder": true, "System.EndCap.Upstand": true, "Site.InstallMetalT[0]": true,
		"System.Widths.Least": true, "System.Widths.Most": true, "System.Widths.Step": true,
		"Pressures.Edge.Up.Level": true, "Pressures.Edge.Out.Level": true,
		"Pressures.Corner.Up.Level": true, "Pressures.Corner.Out.Level": true,
		"Walls[0].Basis":                 true,
		"Perimeters[0].Runs[0].Supposed": true, "Perimeters[0].Runs[1].Supposed": true,
		"Perimeters[0].Runs[2].Supposed": true, "Perimeters[0].Runs[3].Supposed": true,
		"Perimeters[0].Starts.Taped": true, "Perimeters[0].Runs[0].Right.Taped": true, "Perimeters[0].Runs[1].Right.Taped": true,
		"Perimeters[0].Runs[2].Right.Taped": true, "Perimeters[0].Runs[3].Right.Taped": true, // lettered as angles
		"Membrane.Gravity": true, "Membrane.Wet": true, "Membrane.Service": true, "Membrane.Treated": true, // no wood
		"Walls[0].Layers[1].Gravity": true, "Walls[0].Layers[1].Wet": true,
		"Walls[0].Layers[1].Service": true, "Walls[0].Layers[1].Treated": true,
		"Fasteners[0].Kind":         true, // holds in concrete
		"Fasteners[0].Thread":       true,
		"Pressures.Edge.Rear.Level": true, "Pressures.Corner.Rear.Level": true,
		"Perimeters[0].Runs[0].Cleared[0].Conditions": true,
		"Perimeters[0].Runs[0].Right.Tee":             true, "Perimeters[0].Runs[1].Right.Tee": true, "Perimeters[0].Runs[2].Right.Tee": true,
		"Takeoff.Rates.SheetPrice.Grams": true, // by area
		"windIn":                         true, // lettered as the job states
		"Wind.Kzt":                       true, // from the topography
		"Perimeters[0].Starts.Turn":      true, "Perimeters[0].Starts.Step": true, "Perimeters[0].Runs[0].Right.Step": true,
		"Perimeters[0].Runs[2].Right.Turn": true, "Perimeters[0].Runs[2].Right.Step": true,
		"Perimeters[0].Runs[2].Line.Kind": true, "Perimeters[0].Runs[2].Line.At.File": true,
		"Perimeters[0].Runs[2].Line.At.Line": true, "Perimeters[0].Runs[2].Line.At.Col": true,
		"Perimeters[0].Runs[2].Line.Left": true, "Perimeters[0].Runs[2].Line.Right": true, "Perimeters[0].Runs[2].Cleared": true,
		"Perimeters[0].Runs[2].Wall": true, "Perimeters[0].Runs[2].Face": true, "Perimeters[0].Runs[2].StationFace": true,
		"Perimeters[0].Runs[2].Basis": true, "Perimeters[0].Runs[2].Datum.Mark": true, "Perimeters[0].Runs[2].Datum.At": true,
		"Perimeters[0].Runs[2].Obstacles": true, "Perimeters[0].Runs[2].Expansion": true,
		"Perimeters[0].Runs[0].StationFace": true, "Perimeters[0].Runs[0].Right.Kind": true,
		"Perimeters[0].Runs[0].Obstacles[0].FromFace": true, "Perimeters[0].Runs[0].Obstacles[0].Depth": true,
		"Perimeters[0].Runs[0].Obstacles[0].Collar": true, "Perimeters[0].Runs[0].Expansion[1].Movement": true,
		"Perimeters[0].Runs[0].Readings[0].Station": true, "Perimeters[0].Runs[0].Readings[0].Note": true,
		"Perimeters[0].Runs[0].Readings[2].Note": true, "Perimeters[0].Runs[0].Readings[0].Conditions": true,
		"Perimeters[0].Runs[0].Readings[2].Conditions": true, "Perimeters[0].Runs[0].Readings[0].Photos": true,
		"Perimeters[0].Runs[0].Readings[2].Photos": true, "Perimeters[0].Runs[1].Readings[1].Conditions": true,
		"Perimeters[0].Runs[1].Readings[1].Photos": true, "Perimeters[0].Runs[1].Cleared": true,
		"Perimeters[0].Runs[1].Line.Left": true, "Perimeters[0].Runs[1].Line.Right": true,
		"Perimeters[0].Runs[1].Wall": true, "Perimeters[0].Runs[1].Face": true, "Perimeters[0].Runs[1].StationFace": true,
		"Perimeters[0].Runs[1].Basis": true, "Perimeters[0].Runs[1].Right.Turn": true,
		"Perimeters[0].Runs[1].Datum.Mark": true, "Perimeters[0].Runs[1].Datum.At": true,
		"Perimeters[0].Runs[1].Obstacles": true, "Perimeters[0].Runs[1].Expansion": true,
		"Perimeters[0].Runs[1].Readings[1].Note": true,
		"Perimeters[0].Starts.Pitch":             true, "Perimeters[0].Runs[0].Right.Pitch": true, "Perimeters[0].Runs[1].Right.Pitch": true,
		"Perimeters[0].Runs[3].Right.Turn": true, "Perimeters[0].Runs[3].Right.Step": true, "Perimeters[0].Runs[3].Right.Pitch": true,
		"Perimeters[0].Runs[0].Grade": true, "Perimeters[0].Runs[1].Grade": true, "Perimeters[0].Runs[3].Grade": true,
		"Perimeters[0].Runs[3].Line.Kind": true, "Perimeters[0].Runs[3].Line.At.File": true,
		"Perimeters[0].Runs[3].Line.At.Line": true, "Perimeters[0].Runs[3].Line.At.Col": true,
		"Perimeters[0].Runs[3].Line.Left": true, "Perimeters[0].Runs[3].Line.Right": true, "Perimeters[0].Runs[3].Cleared": true,
		"Perimeters[0].Runs[3].Wall": true, "Perimeters[0].Runs[3].Face": true, "Perimeters[0].Runs[3].StationFace": true,
		"Perimeters[0].Runs[3].Basis": true, "Perimeters[0].Runs[3].Datum.Mark": true, "Perimeters[0].Runs[3].Datum.At": true,
		"Perimeters[0].Runs[3].Obstacles": true, "Perimeters[0].Runs[3].Expansion": true,
		// A face has a length or reaches across, and the first one turns from nothing.
		"System.Chair.Blank.Section[0].Across":          true,
		"System.Chair.Blank.Section[0].Before":          true,
		"System.Chair.Blank.Section[0].Behind":          true,
		"System.Chair.Blank.Section[0].Turn":            true,
		"System.Chair.Blank.Section[1].Length":          true,
		"System.Chair.Blank.Section[1].Rises":           true, // it reaches across
		"System.Chair.Blank.Section[1].Before":          true,
		"System.Chair.Blank.Section[1].Behind":          true,
		"Assemblies[0].Chair.Blank.Section[0].Across":   true,
		"Assemblies[0].Chair.Blank.Section[0].Before":   true,
		"Assemblies[0].Chair.Blank.Section[0].Behind":   true,
		"Assemblies[0].Chair.Blank.Section[0].Turn":     true,
		"Assemblies[0].Chair.Blank.Section[1].Length":   true,
		"Assemblies[0].Chair.Blank.Section[1].Before":   true,
		"Assemblies[0].Chair.Blank.Section[1].Behind":   true,
		"Assemblies[0].Chair.Blank.Section[1].Rises":    true,
		"Assemblies[0].Chair.Blank.Section[2].Across":   true,
		"Assemblies[0].Chair.Blank.Section[2].Before":   true,
		"Assemblies[0].Chair.Blank.Section[2].Behind":   true,
		"Assemblies[0].Chair.Blank.Section[2].Rises":    true,
		"Assemblies[0].Chair.Blank.Holes":               true,
		"System.Chair.Blank.Holes":                      true,
		"System.Corner.Support.Blank.Section[0].Length": true,
		"System.Corner.Support.Blank.Section[0].Rises":  true,
		"System.Corner.Support.Blank.Section[0].Before": true,
		"System.Corner.Support.Blank.Section[0].Turn":   true,
		"System.Corner.Support.Blank.Section[1].Across": true,
		"System.Corner.Support.Blank.Section[1].Rises":  true,
		"System.Corner.Support.Blank.Section[1].Before": true,
		"System.Corner.Support.Blank.Section[1].Behind": true,
		"System.Corner.Support.Blank.HoleDia":           true,
		"System.Corner.Support.Blank.Inset":             true,
		"System.Extender.Section[0].Across":             true,
		"System.Extender.Section[0].Rises":              true,
		"System.Extender.Section[0].Before":             true,
		"System.Extender.Section[0].Behind":             true,
		"System.Extender.Section[0].Turn":               true,
		"System.Extender.Section[1].Length":             true,
		"System.Extender.Section[1].Rises":              true,
		"System.Extender.Section[1].Before":             true,
		"System.Extender.Section[1].Behind":             true,
		"System.RoofExtender.Section[0].Across":         true,
		"System.RoofExtender.Section[0].Rises":          true,
		"System.RoofExtender.Section[0].Before":         true,
		"System.RoofExtender.Section[0].Behind":         true,
		"System.RoofExtender.Section[0].Turn":           true,
		"System.RoofExtender.Section[1].Length":         true,
		"System.RoofExtender.Section[1].Rises":          true,
		"System.RoofExtender.Section[1].Before":         true,
		"System.RoofExtender.Section[1].Behind":         true,
		"Shop.Relief.Diameter":                          true,
		"Findings":                                      true, // this file has none
		"Issued":                                        true, // nothing was
		"Issuing":                                       true, // a command says so
	}
	first := *j
	first.Perimeters = j.Perimeters[:1] // the other is there to be met
	allSet(t, reflect.ValueOf(first), "", zero)
	for path := range zero {
		t.Errorf("%s has a value, and was not to have one", path)
	}
	s := &j.System
	same(t, "slope", s.Profile.TopSlope, 52_407_779) // tan 3°
	same(t, "width", s.Widths.Offered[3], 360*mm)
	same(t, "shims", j.Packing.Shims[0], 10*mm)
	same(t, "lengths", j.Fasteners[0].Lengths[0], 60*mm)
	same(t, "resistance", j.Assemblies[0].Up, Pressure{4200, AsPulled})
	same(t, "demand", j.Pressures.Corner.Up, Pressure{1800, Strength})
	same(t, "speed", j.Wind.Speed, 51)
	same(t, "edition", j.Wind.Edition, "ASCE 7-22")
	same(t, "ground", *j.Wind.Ground, 150_000*mm)
	same(t, "confirmed", j.Wind.Confirmed.On, Date{2028, 2, 20})
	same(t, "confirmed code", j.Wind.Confirmed.Code, "7K3QMXW4TD")
	same(t, "confirmed list", j.Wind.Confirmed.List.Text(), "confirm/1\nedition = ASCE 7-22\nspeed = 51.00 m/s\n")
	same(t, "test date", j.Assemblies[0].Test.On, Date{2027, 5, 4})
	same(t, "factor basis", j.Assemblies[0].FactorBasis.Level, Allowable)
	same(t, "rear resistance", j.Assemblies[0].Rear, Pressure{4000, AsPulled})
	same(t, "rear demand", j.Pressures.Corner.Rear, Pressure{1700, Strength})
	same(t, "thread", j.Fasteners[1].Thread, 40*mm)
	same(t, "least spacing", j.Walls[0].Nailer.Least, 150*mm)
	same(t, "pull", j.Walls[0].Nailer.Pull, 1800)
	r := &j.Perimeters[0].Runs[0]
	same(t, "turn", r.Right.Turn, -45*Degree)
	same(t, "pitch", j.Perimeters[0].Runs[2].Right.Pitch, Peak)
	same(t, "grade of a run", *j.Perimeters[0].Runs[2].Grade, Grade{10_000_000, Rising})
	same(t, "start", *j.Perimeters[0].Starts.Tee, Tee{"QUAY", "D1", 4500 * mm, TeeRight})
	same(t, "end", j.Perimeters[0].Runs[3].Right.Kind, EndTee)
	same(t, "end", *j.Perimeters[0].Runs[3].Right.Tee, Tee{"QUAY", "D2", 3000 * mm, TeeCentre})
	same(t, "drop", j.System.Tee.DropMost, 40*mm)
	same(t, "raise", j.Perimeters[0].Raise, 20*mm)
	same(t, "step", j.Perimeters[0].Runs[1].Right.Step, 200*mm)
	same(t, "grade", j.Packing.Grade, 5_000_000)
	same(t, "sheet", j.Packing.Sheet, Sheet{1220 * mm, 2440 * mm, 3 * mm})
	same(t, "nail", j.Packing.Nail.Rows, 2)
	same(t, "rate", j.Packing.Rates.Piece, 1500)
	same(t, "price", j.Packing.Rates.Sheet, 48_500)
	same(t, "station", r.Readings[1].Station, 4250*mm)
	same(t, "top", r.Readings[0].TopOutside, 2500*length.Micrometre)
	same(t, "cell with its own unit", r.Readings[1].Offset, in/8)
	same(t, "low", *r.Readings[1].OffsetLow, 5*mm)
	same(t, "condition", r.Readings[1].Conditions[1], Fixings)
	same(t, "photo", r.Readings[1].Photos[1], "8")
	same(t, "line", r.Line.Kind, LineHeld)
	same(t, "cleared", r.Cleared[0].Measure, MeasureTopInside)
	for _, c := range r.Cleared {
		if !c.Reads(&r.Readings[1]) {
			t.Errorf("the entry for the %s does not read %+v", c.Measure, r.Readings[1])
		}
	}
	same(t, "note", j.Info.Revisions[0].Note, "Issued for fabrication")
}

// allSet reports the fields that are zero, less those in zero, and takes those
// it found there out.
func allSet(t *testing.T, v reflect.Value, path string, zero map[string]bool) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			allSet(t, v.Field(i), strings.TrimPrefix(path+"."+v.Type().Field(i).Name, "."), zero)
		}
		return
	case reflect.Slice:
		for i := range v.Len() {
			allSet(t, v.Index(i), path+"["+string(rune('0'+i))+"]", zero)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			allSet(t, v.Elem(), path, zero)
			return
		}
	}
	if !v.IsZero() {
		return
	}
	if !zero[path] {
		t.Errorf("%s is not set", path)
	}
	delete(zero, path)
}

// A key that no getter asks for would be accepted and forgotten.
func TestEveryKeyIsInTheFile(t *testing.T) {
	data, err := os.ReadFile("testdata/good/every-key.yaml")
	if err != nil {
		t.Fatal(err)
	}
	d := newDecoder(nil, "every-key.yaml")
	root := treeOf(d, string(data))
	found := map[string]bool{}
	collect(root, "", found)
	missing := map[string]bool{
		"system.inside_width.least": true, "system.inside_width.most": true, "system.inside_width.step": true,
		"wind.kzt": true, "shop.relief.diameter": true,
	}
	for _, k := range Keys() {
		if found[k.Path] == missing[k.Path] {
			t.Errorf("%s: in the file %v", k.Path, found[k.Path])
		}
		if k.Means == "" {
			t.Errorf("%s does not say what it means", k.Path)
		}
	}
}

func collect(n *node, path string, found map[string]bool) {
	for _, f := range n.fields {
		p := strings.TrimPrefix(path+"."+f.key, ".")
		found[p] = true
		collect(f.value, p, found)
	}
	for _, i := range n.items {
		collect(i, path+"[]", found)
	}
}
