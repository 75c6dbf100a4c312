// Code generated from table/machine.csv by go test ./drawing/words -update; DO NOT EDIT.

package words

// Sentences of machine.csv.
const (
	MachineMake              Key = "machine.make"
	MachineMake2             Key = "machine.make-2"
	MachineLeft              Key = "machine.left"
	MachineJobRev            Key = "machine.job-rev"
	MachineFinishFaceTowards Key = "machine.finish-face-towards"
	MachineKeyPlan           Key = "machine.key-plan"
	MachineHeld              Key = "machine.held"
)
