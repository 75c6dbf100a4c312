package words

import "testing"

// Where there is no street, a sentence names what there is.
func TestOuterSide(t *testing.T) {
	rows()["test.outer"] = Row{Key: "test.outer",
		English: "STREET SIDE: the street-side leg, {street} toward the street, not the streets",
		Spanish: "LADO DE LA CALLE: la pata de la calle, {street} hacia la calle, desde la calle; calle arriba"}
	for _, c := range []struct {
		b    Book
		want string
	}{
		{Book{}, "STREET SIDE: the street-side leg, X toward the street, not the streets"},
		{Book{Outer: "court"}, "COURT SIDE: the court-side leg, X toward the court, not the streets"},
		{Book{Outer: "street well"},
			"STREET/WELL SIDE: the street/well-side leg, X toward the street/well, not the streets"},
		{Book{Lang: Spanish, Outer: "court"},
			"LADO DEL PATIO: la pata del patio, X hacia el patio, desde el patio; patio arriba"},
		{Book{Lang: Spanish, Outer: "street well"},
			"LADO DE LA CALLE/DEL POZO: la pata de la calle/del pozo, " +
				"X hacia la calle/el pozo, desde la calle/el pozo; calle/pozo arriba"},
	} {
		if got := c.b.Say("test.outer", In("street", "X")); got != c.want {
			t.Errorf("%v says %q, want %q", c.b, got, c.want)
		}
	}
}
