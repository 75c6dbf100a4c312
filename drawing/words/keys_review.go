// Code generated from table/review.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of review.csv.
const (
	TransmittalTitle         Key = "transmittal.title"
	TransmittalAbout         Key = "transmittal.about"
	ReviewTo                 Key = "review.to"
	ReviewFrom               Key = "review.from"
	ReviewPrepared           Key = "review.prepared"
	ReviewChecked            Key = "review.checked"
	ReviewJob                Key = "review.job"
	ReviewAddress            Key = "review.address"
	ReviewOwner              Key = "review.owner"
	ReviewIssued             Key = "review.issued"
	ReviewRevision           Key = "review.revision"
	ReviewSentFor            Key = "review.sent-for"
	ReviewCheckCodePressures Key = "review.check-code-pressures"
	ReviewKeep               Key = "review.keep"
	ReviewApproval           Key = "review.approval"
	ReviewFirstIssue         Key = "review.first-issue"
	ReviewEnclosed           Key = "review.enclosed"
	ReviewAsListed           Key = "review.as-listed"
	ReviewTitle              Key = "review.title"
	ReviewAbout              Key = "review.about"
	ReviewAnswer             Key = "review.answer"
	ReviewAnswerNone         Key = "review.answer.none"
	ReviewAnswerNoted        Key = "review.answer.noted"
	ReviewAnswerAgain        Key = "review.answer.again"
	ReviewAnswerRejected     Key = "review.answer.rejected"
	ReviewRemarks            Key = "review.remarks"
	ReviewStamp              Key = "review.stamp"
	ReviewStampRole          Key = "review.stamp.role"
	ReviewOpen               Key = "review.open"
)
