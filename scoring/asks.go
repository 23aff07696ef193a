package scoring

// Asks lists the domains in which a case has marks to give, in the order of
// the grade, for the acceptable decision with the most of them. It tells what a
// case exercises without telling what is right.
func (j *Judge) Asks() []string {
	of := j.ofDomain[j.target("")]
	var asked []string
	for i, name := range domains {
		if of != nil && of[i] > 0 {
			asked = append(asked, name)
		}
	}
	return asked
}
