module leastwatt

go 1.26.0

require (
	github.com/alecthomas/kong v1.17.0
	github.com/atotto/clipboard v0.1.4
	github.com/ebitengine/oto/v3 v3.3.3
	github.com/go-pdf/fpdf v0.9.0
	github.com/go-text/typesetting v0.2.0
	github.com/goccy/go-json v0.12.0
	github.com/gofrs/flock v0.13.2
	github.com/google/go-cmp v0.7.0
	github.com/hajimehoshi/ebiten/v2 v2.8.8
	github.com/invopop/jsonschema v0.14.0
	github.com/jezek/xgb v1.1.1
	github.com/rogpeppe/go-internal v1.16.0
	github.com/rs/xid v1.6.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	golang.org/x/image v0.48.0
	golang.org/x/sys v0.50.0
	golang.org/x/text v0.44.0
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.3.0
)

require (
	github.com/bahlo/generic-list-go v0.2.0 // indirect
	github.com/buger/jsonparser v1.1.2 // indirect
	github.com/ebitengine/gomobile v0.0.0-20240911145611-4856209ac325 // indirect
	github.com/ebitengine/hideconsole v1.0.0 // indirect
	github.com/ebitengine/purego v0.8.0 // indirect
	github.com/pb33f/ordered-map/v2 v2.3.1 // indirect
	go.yaml.in/yaml/v4 v4.0.0-rc.2 // indirect
	golang.org/x/sync v0.25.0 // indirect
	golang.org/x/tools v0.52.0 // indirect
)
