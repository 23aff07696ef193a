package verb

import (
	"fmt"
	"text/tabwriter"
)

// Listed is one case as a supervisor sees it.
type Listed struct {
	Case     string `json:"case"`
	Title    string `json:"title"`
	Family   string `json:"family"`
	Site     string `json:"site"`
	Level    int    `json:"level"`
	SkinType int    `json:"skin_type"`
}

// List prints every case at hand, diagnosis and all: it is for supervisors.
func List(s *Shell) int {
	shelf, err := s.LoadShelf()
	if err != nil {
		return s.Fail(err)
	}
	rows := []Listed{}
	for _, p := range shelf.Packs {
		for _, c := range p.Cases {
			rows = append(rows, Listed{p.ID + "/" + c.ID, c.Title, c.Lesion.Family, c.Lesion.Site, c.Level, c.Patient.SkinType})
		}
	}
	if s.JSON {
		return s.printJSON(rows)
	}
	w := tabwriter.NewWriter(s.Out, 0, 4, 2, ' ', 0)
	fmt.Fprintln(w, "CASE\tTITLE\tFAMILY\tSITE\tLEVEL\tSKIN TYPE")
	for _, r := range rows {
		fmt.Fprintf(w, "%s\t%s\t%s\t%s\t%d\t%d\n", r.Case, r.Title, r.Family, r.Site, r.Level, r.SkinType)
	}
	if err := w.Flush(); err != nil {
		return s.usage(err)
	}
	return Done
}
