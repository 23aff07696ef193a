// Package packs holds the built-in cases: folders of invented patients from
// one invented rural clinic, so that a trainee can begin with no file at all.
//
// A pack is a folder with a pack.json, the same form that a supervisor
// writes. Nothing here is special: the packs go through the same reader and
// the same check as any other, and the tests of this folder hold them to
// reading without a fault or a warning.
//
// # How a case is made
//
// The patient speaks in the patient's own words. The presenting words are
// one short line, because the list of the day shows them. An answer in "ask"
// is speech, or, for an examination, what the hand or the lens finds; it must
// tell every fact that its topic is there to reveal, since a trainee cannot
// be graded on what nobody could have found out.
//
// Case ids and titles give nothing away. An id is a word from the patient's
// day ("towel", "collar"); a title is for supervisors.
//
// # What the packs cover
//
//   - first-list: everyday lesions, most of them what they seem;
//   - face-and-neck: where looks, nerves and lids set the limits;
//   - trunk-and-limbs: pigment, reports, scars and slow legs;
//   - hands-and-folds: warts, folds, hair and small spaces;
//   - look-alikes: pairs, one harmless and one not, and the sign between them;
//   - children-and-elders: who decides, who holds still, what may be let be;
//   - not-today: another day, another place, another treatment, or soon;
//   - hazards: the harmless lesion in a patient or a room that is not.
//
// Every family of the vocabulary is met at least twice. The pairs, the signs
// that tell them apart and how each is found stand as a table in pairs_test.go.
// Where an author asks more of one case than the tables do, "expect" says so
// and why.
//
// Right answers are mixed much as they are in a clinic: treat, take tissue
// first, refer, leave, or not today.
package packs
