package job

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// BenchmarkReadSurvey reads a job whose one run has 20,000 stations.
func BenchmarkReadSurvey(b *testing.B) {
	base, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		b.Fatal(err)
	}
	head, _, _ := strings.Cut(string(base), "        readings:")
	head = strings.Replace(head, "    starts: free", "    survey: a.csv\n    starts: free", 1)
	head = strings.Replace(head, "length: 20'-0\"", "length: 5000'-0\"", 1)
	head = strings.Replace(head, "turn: right 90", "ends: free", 1)
	var csv strings.Builder
	csv.WriteString("run,station (in),width (in),street_top (in),roof_top (in),offset (in)\n")
	for i := range 20_000 {
		fmt.Fprintf(&csv, "A,%d,12.125,%.4f,0.25,0.0625\n", i*3, float64(i%7)/16)
	}
	fsys := fstest.MapFS{"a.yaml": {Data: []byte(head)}, "a.csv": {Data: []byte(csv.String())}}
	if j, list := Read(fsys, "a.yaml"); j == nil {
		b.Fatal(list)
	}
	for b.Loop() {
		Read(fsys, "a.yaml")
	}
}

// BenchmarkRead reads the job with every key.
func BenchmarkRead(b *testing.B) {
	fsys := os.DirFS("testdata/good")
	for b.Loop() {
		Read(fsys, "every-key.yaml")
	}
}
