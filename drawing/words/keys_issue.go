// Code generated from table/issue.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of issue.csv.
const (
	IssueTitle         Key = "issue.title"
	IssueAbout         Key = "issue.about"
	IssueIssue         Key = "issue.issue"
	IssueDate          Key = "issue.date"
	IssueNote          Key = "issue.note"
	IssueBefore        Key = "issue.before"
	IssueFirst         Key = "issue.first"
	IssueInput         Key = "issue.input"
	IssueChanged       Key = "issue.changed"
	IssueNothing       Key = "issue.nothing"
	IssueSent          Key = "issue.sent"
	IssueKept          Key = "issue.kept"
	IssueWithdraw      Key = "issue.withdraw"
	IssueWithdrawFiles Key = "issue.withdraw-files"
	IssueReplaced      Key = "issue.replaced"
	IssueNoCloud       Key = "issue.no-cloud"
	IssueLeftOut       Key = "issue.left-out"
	IssueNew           Key = "issue.new"
	IssueHolds         Key = "issue.holds"
	IssueNoHolds       Key = "issue.no-holds"
	IssueFiles         Key = "issue.files"
	IssueFilesHow      Key = "issue.files-how"
	IssueColWas        Key = "issue.col.was"
	IssueColNow        Key = "issue.col.now"
	IssueColFile       Key = "issue.col.file"
	IssueColSum        Key = "issue.col.sum"
	IssueColCode       Key = "issue.col.code"
	IssueColWhat       Key = "issue.col.what"
	IssueReceived      Key = "issue.received"
)
