package fold

// Over a V-die of an opening the sheet has to lie on both shoulders until it is bent.
// What a die takes is measured outside, to the mold line.

// LeastFlange is the narrowest flange a standard V-die of an opening bends: 70 per cent
// of it, which leaves a fifth of it lying on the shoulder. Trade press on the press
// brake, minimum flange lengths.
func LeastFlange(opening float64) float64 { return 0.7 * opening }

// LeastWeb is the narrowest web between two bends of a sheet that thick: half the
// opening, 2.5 mm and twice the thickness. Shop tables of bending limits, offsets.
func LeastWeb(opening, thick float64) float64 { return opening/2 + 2.5 + 2*thick }
