// Code generated from table/profile.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of profile.csv.
const (
	ProfileTitle        Key = "profile.title"
	ProfilesAbout       Key = "profiles.about"
	ProfileSeeTable     Key = "profile.see-table"
	ProfileGirth        Key = "profile.girth"
	ProfileGirthHow     Key = "profile.girth.how"
	ProfileGirthHem     Key = "profile.girth.hem"
	ProfileGirthUsed    Key = "profile.girth.used"
	ProfileWidths       Key = "profile.widths"
	ProfileLegs         Key = "profile.legs"
	ProfileFrontLeg     Key = "profile.front-leg"
	ProfileRearLeg      Key = "profile.rear-leg"
	ProfileMachineNone  Key = "profile.machine.none"
	ProfileMachineFlats Key = "profile.machine.flats"
	ProfileMachineFound Key = "profile.machine.found"
	ProfileMachineShops Key = "profile.machine.shops"
	ProfileMachineTools Key = "profile.machine.tools"
	ProfileBends        Key = "profile.bends"
	ProfileLessHem      Key = "profile.less.hem"
	ProfileLess         Key = "profile.less"
	ProfileGirthSum     Key = "profile.girth.sum"
	ProfileLegMold      Key = "profile.leg.mold"
	ProfileLegTangent   Key = "profile.leg.tangent"
	ProfileTape         Key = "profile.tape"
	ProfileToMold       Key = "profile.to-mold"
	ProfileToTangent    Key = "profile.to-tangent"
	ProfileSection      Key = "profile.section"
	ProfileSectionSides Key = "profile.section.sides"
	ProfileSectionAbout Key = "profile.section.about"
	ProfileIncluded     Key = "profile.included"
)
