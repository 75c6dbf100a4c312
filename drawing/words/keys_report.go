// Code generated from table/report.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of report.csv.
const (
	ReportsTitle     Key = "reports.title"
	ReportsAbout     Key = "reports.about"
	ReportReadStated Key = "report.read.stated"
	ReportReadPulled Key = "report.read.pulled"
	ReportReadLeast  Key = "report.read.least"
	ReportRead       Key = "report.read"
	ReportTitle      Key = "report.title"
	ReportFactors    Key = "report.factors"
	ReportTaken      Key = "report.taken"
	ReportTheReport  Key = "report.the-report"
	ReportAllowable  Key = "report.allowable"
	ReportLevel      Key = "report.level"
	ReportSigned     Key = "report.signed"
	ReportAssemblies Key = "report.assemblies"
	ReportUpOut      Key = "report.up-out"
	ReportNotStated  Key = "report.not-stated"
	ReportMetal      Key = "report.metal"
	ReportRows       Key = "report.rows"
	ReportNobody     Key = "report.nobody"
)
