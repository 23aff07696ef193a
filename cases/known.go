package cases

// DoubtfulGrowth is what a lesion counts as, for rules, when its true family
// is one that only a pathologist can name and no report has named it.
const DoubtfulGrowth = "doubtful_growth"

// OnlyByPathologist tells whether the family can be named only from tissue.
func OnlyByPathologist(family string) bool {
	switch family {
	case "bcc_superficial", "bcc_nodular", "bcc_infiltrative", "scc_in_situ", "scc_invasive", "keratoacanthoma", "melanoma":
		return true
	}
	return false
}

// KnownFamily is the family that rules may read: what the report says, else
// what a careful eye sees, else [DoubtfulGrowth].
func (c *Case) KnownFamily() string {
	if c.Lesion.Report != nil {
		return c.Lesion.Report.Says
	}
	if looks := c.Lesion.Looks(); !OnlyByPathologist(looks) {
		return looks
	}
	return DoubtfulGrowth
}

// HasThinner tells whether the patient takes anything that thins the blood.
func (p *Patient) HasThinner() bool {
	for _, m := range p.Medicines {
		if contains(thinners, m) {
			return true
		}
	}
	return false
}
