package length

import (
	"strconv"
	"strings"
)

// Angle is a plane angle in millionths of a degree.
type Angle int64

// Degree is one degree.
const Degree Angle = 1_000_000

// Degrees returns the angle as a float for trigonometry.
func (a Angle) Degrees() float64 { return float64(a) / float64(Degree) }

// Slope is rise over run in thousandths of a millionth.
type Slope int64

// Rise over a horizontal distance.
func (s Slope) Rise(run Length) Length { return MulDiv(run, int64(s), 1_000_000_000) }

// FormatAngle letters an angle in degrees, without trailing zeros: 90°, 89.75°.
func FormatAngle(a Angle) string {
	sign := ""
	if a < 0 {
		sign, a = "-", -a
	}
	s := strconv.FormatInt(int64(a/Degree), 10)
	if f := a % Degree; f != 0 {
		d := strconv.FormatInt(int64(f+Degree), 10)[1:]
		s += "." + strings.TrimRight(d, "0")
	}
	return sign + s + "°"
}
