package store

import (
	"slices"
	"strings"
)

// longest is how many bytes of a name every usual file system takes.
const longest = 200

// portable checks that every file of a set has a name that can be written on
// every usual file system, and that no two of them are one file where capitals
// do not count.
func portable(s Set) error {
	seen := map[string]string{}
	for _, n := range append([]string{s.List}, names(s.Files)...) {
		if !ours(n) || !writable(n) {
			return refuse("%q cannot be the name of a file; nothing was written", n)
		}
		fold := strings.ToLower(n)
		other, twice := seen[fold]
		if twice && other == n {
			return refuse("two files would have the name %s; nothing was written", n)
		}
		if twice {
			return refuse("%s and %s are one file on some disks; nothing was written", other, n)
		}
		seen[fold] = n
	}
	return nil
}

func names(files []File) []string {
	out := make([]string, len(files))
	for i, f := range files {
		out[i] = f.Name
	}
	return out
}

// writable reports whether each part of a name is one that no usual file system
// refuses or changes.
func writable(name string) bool {
	for part := range strings.SplitSeq(name, "/") {
		base, _, _ := strings.Cut(strings.ToLower(part), ".")
		switch {
		case len(part) > longest, strings.HasSuffix(part, "."), strings.Trim(part, " ") != part:
			return false
		case strings.ContainsAny(part, `<>:"\|?*`), strings.ContainsFunc(part, beyondASCII):
			return false
		case slices.Contains([]string{"con", "prn", "aux", "nul"}, base):
			return false
		case len(base) == 4 && slices.Contains([]string{"com", "lpt"}, base[:3]) && base[3] >= '0' && base[3] <= '9':
			return false
		}
	}
	return true
}

func beyondASCII(r rune) bool { return r < ' ' || r > '~' }
