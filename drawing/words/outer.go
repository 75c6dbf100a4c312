package words

import (
	"regexp"
	"strings"
	"unicode"
)

// The tables say street of what lies outside a wall. Where a wall stands round a
// court or a well there is no street, and the job names what there is; the sentence
// stays the same.

// calle is the street with what Spanish puts before it, and street the English word.
var (
	calle  = regexp.MustCompile(`(?i)\b(?:(?:de|a) )?(?:la )?calle\b`)
	street = regexp.MustCompile(`(?i)\bstreet\b`)
)

// outside is a text with the names of what lies outside in place of the street. Names
// of slots stay as they are.
func (b Book) outside(text string) string {
	if b.Outer == "" {
		return text
	}
	var out strings.Builder
	for {
		before, rest, open := strings.Cut(text, "{")
		out.WriteString(b.named(before))
		if !open {
			return out.String()
		}
		name, after, _ := strings.Cut(rest, "}")
		out.WriteString("{" + name + "}")
		text = after
	}
}

// named is a piece of a text without slots.
func (b Book) named(text string) string {
	codes := strings.Fields(b.Outer)
	each := func(one func(r Row) string) string {
		var names []string
		for _, c := range codes {
			names = append(names, one(rows()[Key("outer."+c)]))
		}
		return strings.Join(names, "/")
	}
	text = street.ReplaceAllStringFunc(text, func(was string) string {
		return cased(was, each(func(r Row) string { return r.English }))
	})
	if b.Lang != Spanish {
		return text
	}
	return calle.ReplaceAllStringFunc(text, func(was string) string {
		return cased(was, each(func(r Row) string { return spoken(strings.ToLower(was), r.Spanish) }))
	})
}

// spoken is a Spanish name, told with its article, after what stood before the street:
// de la calle is del patio.
func spoken(was, name string) string {
	article, bare, _ := strings.Cut(name, " ")
	before := strings.TrimSuffix(was, "calle")
	switch {
	case !strings.HasSuffix(before, "la "):
		return before + bare
	case article == "el" && strings.HasPrefix(before, "de "):
		return "del " + bare
	case article == "el" && strings.HasPrefix(before, "a "):
		return "al " + bare
	}
	return strings.TrimSuffix(before, "la ") + article + " " + bare
}

// cased is a name in capitals where what it takes the place of is, or with a capital.
func cased(was, name string) string {
	switch {
	case was == strings.ToUpper(was):
		return strings.ToUpper(name)
	case unicode.IsUpper([]rune(was)[0]):
		r := []rune(name)
		return string(unicode.ToUpper(r[0])) + string(r[1:])
	}
	return name
}
