package sheet

import (
	"fmt"
	"io"

	"github.com/go-pdf/fpdf"

	"leastwatt/assets"
)

// A4 in mm, with margins wide enough to be filed.
const (
	pageW   = 210.0
	margin  = 20.0
	content = pageW - 2*margin
	lineMM  = 5.2
)

// PDF writes the sheet on A4 pages. The same sheet gives the same bytes. The
// error is that of writing.
func (s *Sheet) PDF(w io.Writer) error {
	p := newPaper(s)
	p.heading()
	p.facts(s.Facts)
	p.domains(s.Domains)
	p.small(s.Notes)
	p.signatures()
	p.cases(s.Cases)
	return p.Output(w)
}

// paper is a document with our two families and few styles.
type paper struct{ *fpdf.Fpdf }

func newPaper(s *Sheet) paper {
	f := fpdf.New("P", "mm", "A4", "")
	f.SetCatalogSort(true)
	f.SetCreationDate(s.made)
	f.SetModificationDate(s.made)
	f.SetProducer("Leastwatt", true)
	f.SetTitle(s.Title, true)
	f.AddUTF8FontFromBytes("serif", "", assets.LiterataRegular)
	f.AddUTF8FontFromBytes("serif", "B", assets.LiterataSemiBold)
	f.AddUTF8FontFromBytes("sans", "", assets.InterRegular)
	f.AddUTF8FontFromBytes("sans", "B", assets.InterSemiBold)
	f.SetMargins(margin, margin, margin)
	f.SetAutoPageBreak(true, 26)
	p := paper{f}
	f.SetFooterFunc(func() { p.footer(s) })
	f.AddPage()
	p.SetFont("serif", "B", 20)
	p.CellFormat(content, 10, s.Title, "", 1, "L", false, 0, "")
	p.SetFont("sans", "", 12)
	p.MultiCell(content, 6.5, s.Outcome, "", "L", false)
	p.Ln(3)
	return p
}

// heading is a thin line below the outcome.
func (p paper) heading() {
	p.SetDrawColor(0xD3, 0xD9, 0xE1)
	p.Line(margin, p.GetY(), margin+content, p.GetY())
	p.Ln(3)
}

func (p paper) footer(s *Sheet) {
	p.SetY(-20)
	p.SetFont("sans", "", 8)
	p.SetTextColor(0x55, 0x60, 0x6D)
	p.MultiCell(content-16, 4, s.Statement, "", "L", false)
	p.SetXY(margin+content-16, -20)
	p.CellFormat(16, 4, fmt.Sprintf("page %d", p.PageNo()), "", 0, "R", false, 0, "")
	p.SetTextColor(0x18, 0x20, 0x2B)
}

func (p paper) facts(list []Fact) {
	for _, f := range list {
		p.SetFont("sans", "B", 9)
		p.CellFormat(24, lineMM, f.Label, "", 0, "L", false, 0, "")
		p.SetFont("sans", "", 9)
		p.MultiCell(content-24, lineMM, f.Text, "", "L", false)
	}
	p.Ln(4)
}

func (p paper) domains(rows []DomainRow) {
	cols := []struct {
		head string
		w    float64
	}{{"Domain", 40}, {"Right", 24}, {"Share", 18}, {"95 % interval", 34}, {"Standard", 22}, {"", 32}}
	p.SetFont("sans", "B", 9)
	for _, c := range cols {
		p.CellFormat(c.w, 6.5, c.head, "B", 0, "L", false, 0, "")
	}
	p.Ln(6.5)
	p.SetFont("sans", "", 9)
	for _, d := range rows {
		for i, text := range []string{d.Domain, d.Right, d.Share, d.Interval, d.Standard, d.Says} {
			p.CellFormat(cols[i].w, 6, text, "B", 0, "L", false, 0, "")
		}
		p.Ln(6)
	}
	p.Ln(4)
}

func (p paper) small(notes []string) {
	p.SetFont("sans", "", 8)
	p.SetTextColor(0x55, 0x60, 0x6D)
	for _, n := range notes {
		p.MultiCell(content, 4.2, n, "", "L", false)
	}
	p.SetTextColor(0x18, 0x20, 0x2B)
}

// signatures leaves room for two people, on one page.
func (p paper) signatures() {
	if p.GetY() > 297-26-34 {
		p.AddPage()
	}
	p.Ln(18)
	y := p.GetY()
	p.SetDrawColor(0x55, 0x60, 0x6D)
	p.SetFont("sans", "", 8)
	for i, who := range []string{"Trainee, date", "Supervisor, date"} {
		x := margin + float64(i)*(content/2+4)
		p.Line(x, y, x+content/2-4, y)
		p.SetXY(x, y+1)
		p.CellFormat(content/2-4, 4, who, "", 0, "L", false, 0, "")
	}
	p.SetXY(margin, y+12)
	p.SetDrawColor(0xD3, 0xD9, 0xE1)
}

func (p paper) cases(rows []CaseRow) {
	p.SetFont("serif", "B", 14)
	p.CellFormat(content, 9, "Cases", "", 1, "L", false, 0, "")
	for i, c := range rows {
		if p.GetY() > 297-26-14 {
			p.AddPage()
		}
		p.SetFont("sans", "B", 9)
		p.CellFormat(content, 6, fmt.Sprintf("%d   %s   %s", i+1, c.Code, c.Verdict), "", 1, "L", false, 0, "")
		for _, x := range c.Cautions {
			p.SetX(margin + 6)
			p.SetFont("sans", "B", 8)
			p.MultiCell(content-6, 4.2, capital(x.Kind)+": "+x.Heading, "", "L", false)
			p.SetX(margin + 6)
			p.SetFont("sans", "", 8)
			p.MultiCell(content-6, 4.2, x.Why, "", "L", false)
			p.SetX(margin + 6)
			p.SetTextColor(0x55, 0x60, 0x6D)
			p.MultiCell(content-6, 4.2, x.Source, "", "L", false)
			p.SetTextColor(0x18, 0x20, 0x2B)
			p.Ln(1)
		}
	}
}
