package store

import (
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"strings"
)

// digestOf is the SHA-256 of a content, in small hexadecimal digits.
func digestOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func isDigest(s string) bool {
	_, err := hex.DecodeString(s)
	return err == nil && len(s) == 2*sha256.Size && s == strings.ToLower(s)
}

// ours reports whether a name can be that of a file of a set: a plain path below
// the folder, and not in the stage.
func ours(name string) bool {
	first, _, _ := strings.Cut(name, "/")
	return name != "." && fs.ValidPath(name) && !strings.EqualFold(first, stageName)
}

// list is a manifest: the files of a set with the digest of each as written, in
// the lines that the usual tool for checking SHA-256 sums reads.
type list struct {
	names  []string
	digest map[string]string
}

func (l *list) add(name, digest string) {
	if l.digest == nil {
		l.digest = map[string]string{}
	}
	if _, twice := l.digest[name]; !twice {
		l.names = append(l.names, name)
	}
	l.digest[name] = digest
}

func (l list) encode() []byte {
	var b strings.Builder
	for _, n := range l.names {
		b.WriteString(l.digest[n] + "  " + n + "\n")
	}
	return []byte(b.String())
}

// parseList reads a manifest. Lines that are none of a manifest's count for
// nothing: what they name is not known.
func parseList(text []byte) list {
	var l list
	for line := range strings.Lines(string(text)) {
		digest, name, ok := strings.Cut(strings.TrimRight(line, "\r\n"), "  ")
		if ok && isDigest(digest) && ours(name) {
			l.add(name, digest)
		}
	}
	return l
}
