package bench

import "os"

// longRun asks for the full numbers: LEASTWATT_LONG=1.
var longRun = os.Getenv("LEASTWATT_LONG") != ""
