package ui

// bodySpot is where a site lies on the outline: x from the middle line, y from
// the top, in hundredths of the body's height. Sites of the face also have a
// place on the enlarged face, in hundredths of its height.
type bodySpot struct {
	x, y   float64
	back   bool
	face   bool
	fx, fy float64
}

// bodySpots has every site of the packs' vocabulary.
var bodySpots = map[string]bodySpot{
	"scalp":           {x: 0, y: 1.5, face: true, fx: 8, fy: 5},
	"forehead":        {x: 1, y: 4, face: true, fx: 9, fy: 20},
	"temple":          {x: 3.8, y: 5.5, face: true, fx: 29, fy: 33},
	"eyebrow":         {x: 2, y: 5, face: true, fx: 15, fy: 31},
	"eyelid":          {x: 2, y: 5.7, face: true, fx: 14, fy: 40},
	"inner_canthus":   {x: 1, y: 5.8, face: true, fx: 7, fy: 43},
	"nose":            {x: 0.3, y: 7.5, face: true, fx: 1, fy: 57},
	"nasolabial_fold": {x: 1.2, y: 8.8, face: true, fx: 11, fy: 67},
	"cheek":           {x: 2.8, y: 8, face: true, fx: 20, fy: 60},
	"preauricular":    {x: 4.3, y: 7.5, face: true, fx: 30, fy: 52},
	"postauricular":   {x: 4.2, y: 7.5, back: true},
	"ear":             {x: 4.8, y: 7, face: true, fx: 36, fy: 48},
	"lip":             {x: 0.5, y: 10, face: true, fx: 5, fy: 77},
	"chin":            {x: 0, y: 12, face: true, fx: 3, fy: 91},
	"jaw":             {x: 3, y: 11, face: true, fx: 23, fy: 79},
	"neck":            {x: 1.2, y: 14},
	"chest":           {x: 4.2, y: 24},
	"breast":          {x: 4.6, y: 27},
	"shoulder":        {x: 10.6, y: 20.5},
	"back":            {x: 4, y: 27, back: true},
	"abdomen":         {x: 3, y: 40},
	"axilla":          {x: 9.3, y: 26},
	"upper_arm":       {x: 12.2, y: 29},
	"elbow":           {x: 13.4, y: 38, back: true},
	"forearm":         {x: 15, y: 44},
	"wrist":           {x: 16.6, y: 50.2},
	"hand_back":       {x: 17.9, y: 54, back: true},
	"palm":            {x: 17.9, y: 54},
	"finger":          {x: 18.6, y: 57.3},
	"nail_fold":       {x: 18.7, y: 58, back: true},
	"groin":           {x: 4.4, y: 52},
	"genital":         {x: 0, y: 53},
	"perianal":        {x: 0, y: 54, back: true},
	"buttock":         {x: 4.6, y: 51, back: true},
	"thigh":           {x: 5.6, y: 62},
	"knee":            {x: 5, y: 74},
	"shin":            {x: 5, y: 83},
	"calf":            {x: 5.2, y: 82, back: true},
	"ankle":           {x: 4, y: 94.5},
	"foot_back":       {x: 5, y: 97.4},
	"sole":            {x: 4.6, y: 98.8, back: true},
	"toe":             {x: 5.6, y: 98.8},
}
