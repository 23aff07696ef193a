package ui

import "image"

// MarkIcon draws only the icon of a mark: ringed tick, ringed i, triangle,
// filled octagon.
type MarkIcon struct{ Mark Mark }

// MarginMark is a supervisor's note in the margin: icon, number and heading,
// text, source line, and a link to its phrase. A click on it and Enter send
// Activate.
type MarginMark struct {
	ID      string
	Mark    Mark
	Number  int    // 0 none
	Heading string // "Never: the prep was still wet."
	Text    string
	Source  string // "Drug label, year, section · agreed"
	Link    string // "Go to this phrase"; "" none
	Chosen  bool
}

// LineStyle of a chart series; styles differ in shape as well as colour.
type LineStyle uint8

// Solid is the zero value.
const (
	Solid LineStyle = iota
	Dashed
	Dotted
)

// Point of a series in the chart's own units.
type Point struct{ X, Y float64 }

// Series is one line of a LineChart, named at the line itself.
type Series struct {
	Name   string
	Points []Point // rising X
	Color  Color
	Style  LineStyle
}

// ChartMark is a labelled upright line in a LineChart: "7 W, you".
type ChartMark struct {
	X     float64
	Label string
	Color Color
}

// LineChart shows series over a common X. It has no grid: an axis line, named
// lines, marks. Alt tells in words what it shows.
type LineChart struct {
	Series     []Series
	Marks      []ChartMark
	MinX, MaxX float64
	MinY, MaxY float64
	XLabels    []ChartMark // labels on the axis, no line
	Height     float64     // 0 means 120
	Alt        string
}

// Bar is one bar of a BarChart.
type Bar struct {
	Label string
	Value float64
	Says  string // the value in words at the bar's end
	Color Color
}

// BarChart shows horizontal bars from zero.
type BarChart struct {
	Bars []Bar
	Max  float64 // 0: the largest value
	Alt  string
}

// IntervalRow is an estimate with its interval, all 0 to 1.
type IntervalRow struct {
	Label        string
	At, Low, Top float64
	Says         string // instead of dot and bar: "too few to say"
}

// IntervalChart shows dot-and-bar rows with one standard line.
type IntervalChart struct {
	Rows     []IntervalRow
	Standard float64 // 0 to 1; below 0: none
	StdLabel string  // "standard"
	Alt      string
}

// Picture is an image, most often skin. It has no frame and no shadow. It is as
// wide as its place allows up to MaxW, square by the image's own ratio.
type Picture struct {
	ID      string // texture cache key with Version; also an accessible ID
	Version int    // raise it when the pixels change
	Image   image.Image
	Alt     string // says what is shown, without naming a diagnosis
	MaxW    float64
	MaxH    float64
	ScaleMM float64 // width of the image in mm: draws a scale bar below; 0 none
	Drawn   bool    // adds the word "drawn" below
}

// BodyOutline is a small neutral human outline, front and back, with one site
// marked.
type BodyOutline struct {
	Site   string  // vocabulary id: "upper_arm"
	Side   string  // left, right, midline or ""
	Label  string  // "Upper back": the accessible name and the words below
	Height float64 // 0 means 160
}
