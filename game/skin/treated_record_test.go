package skin

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"testing"

	thermal "leastwatt/scoring/tissue"
)

// The scripted treatments take minutes with the real model, so the maps that
// it gave are kept in testdata/treated, a file each. Every run of the tests draws from
// them; with LEASTWATT_LONG=1 the scripts are played again and compared.
//
//	go test -run Recordings -record [-only name]
var record = flag.Bool("record", false, "play the treatments and rewrite their recordings")

func recordingPath(name string) string { return filepath.Join("testdata", "treated", name+".maps.gz") }

// recording is the states of a patch that a picture must have seen, the first
// one untreated; the temperatures of the others are the highest since the
// surface came to light.
type recording []thermal.Maps

// keep adds a copy of the maps.
func (r *recording) keep(m *thermal.Maps, peakC []float32) {
	c := *m
	dup := func(p []float32) []float32 { return append([]float32(nil), p...) }
	flag := func(p []bool) []bool { return append([]bool(nil), p...) }
	c.HeightMM, c.Omega, c.Stasis, c.Water, c.WhitenMM = dup(m.HeightMM), dup(m.Omega), dup(m.Stasis), dup(m.Water), dup(m.WhitenMM)
	c.Charred, c.Lesion, c.Wet = flag(m.Charred), flag(m.Lesion), flag(m.Wet)
	c.TempC = dup(peakC)
	*r = append(*r, c)
}

// numbers of a column, as they are stored: 16 bits each.
func stored(m *thermal.Maps, k int) [7]uint16 {
	word := func(x, lo, step float32) uint16 { return uint16(clamp((x-lo)/step+0.5, 0, 65535)) }
	bits := uint16(0)
	for i, p := range [][]bool{m.Charred, m.Lesion, m.Wet} {
		if p[k] {
			bits |= 1 << i
		}
	}
	return [7]uint16{
		word(m.HeightMM[k], -20, 0.001), word(m.TempC[k], 0, 0.05), word(log32(max(m.Omega[k], 1e-6)), -14, 0.0005),
		word(min(m.Stasis[k], 6), 0, 0.0001), word(m.Water[k], 0, 1.0/60000), word(m.WhitenMM[k], 0, 0.001), bits,
	}
}

func restored(m *thermal.Maps, k int, w [7]uint16) {
	m.HeightMM[k], m.TempC[k] = -20+float32(w[0])*0.001, float32(w[1])*0.05
	m.Omega[k] = exp32(-14 + float32(w[2])*0.0005)
	m.Stasis[k], m.Water[k], m.WhitenMM[k] = float32(w[3])*0.0001, float32(w[4])/60000, float32(w[5])*0.001
	m.Charred[k], m.Lesion[k], m.Wet[k] = w[6]&1 != 0, w[6]&2 != 0, w[6]&4 != 0
}

func (r recording) encode() []byte {
	var b bytes.Buffer
	z, _ := gzip.NewWriterLevel(&b, gzip.BestCompression)
	put := func(v any) { _ = binary.Write(z, binary.LittleEndian, v) }
	put(uint32(len(r)))
	for i := range r {
		m := &r[i]
		put([]uint32{uint32(m.NX), uint32(m.NY), uint32(m.ClockMS)})
		put(m.GridMM)
		words := make([][7]uint16, m.NX*m.NY)
		for k := range words {
			words[k] = stored(m, k)
		}
		for n := range 7 { // plane by plane packs better
			one := make([]uint16, len(words))
			for k := range words {
				one[k] = words[k][n]
			}
			put(one)
		}
	}
	z.Close()
	return b.Bytes()
}

func decodeRecording(data []byte) (recording, error) {
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	data, err = io.ReadAll(z)
	if err != nil {
		return nil, err
	}
	in := bytes.NewReader(data)
	get := func(v any) {
		if err == nil {
			err = binary.Read(in, binary.LittleEndian, v)
		}
	}
	var n uint32
	get(&n)
	var r recording
	for range n {
		var head [3]uint32
		m := thermal.Maps{}
		get(&head)
		get(&m.GridMM)
		m.NX, m.NY, m.ClockMS = int(head[0]), int(head[1]), int(head[2])
		size := m.NX * m.NY
		planes := [7][]uint16{}
		for i := range planes {
			planes[i] = make([]uint16, size)
			get(planes[i])
		}
		for _, p := range []*[]float32{&m.HeightMM, &m.TempC, &m.Omega, &m.Stasis, &m.Water, &m.WhitenMM} {
			*p = make([]float32, size)
		}
		m.Charred, m.Lesion, m.Wet = make([]bool, size), make([]bool, size), make([]bool, size)
		for k := range size {
			var w [7]uint16
			for i := range w {
				w[i] = planes[i][k]
			}
			restored(&m, k, w)
		}
		r = append(r, m)
	}
	return r, err
}

func readRecording(name string) (recording, error) {
	data, err := os.ReadFile(recordingPath(name))
	if err != nil {
		return nil, err
	}
	r, err := decodeRecording(data)
	if err != nil || len(r) < 2 {
		return nil, fmt.Errorf("%s: %d states, want two or more: %w", recordingPath(name), len(r), err)
	}
	return r, nil
}

// TestRecordings plays the treatments again and compares them with what is
// kept.
func TestRecordings(t *testing.T) {
	if !*record && os.Getenv("LEASTWATT_LONG") == "" {
		t.Skip("the treatments take minutes: set LEASTWATT_LONG=1")
	}
	for _, c := range treatments() {
		if *sheetOnly != "" && *sheetOnly != c.name {
			continue
		}
		r, err := c.run()
		if err != nil {
			t.Fatal(err)
		}
		if *record {
			if err := os.WriteFile(recordingPath(c.name), r.encode(), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := readRecording(c.name)
		if err != nil {
			t.Error(err)
			continue
		}
		if len(r) != len(want) {
			t.Errorf("%s: %d states, kept %d", c.name, len(r), len(want))
			continue
		}
		a, b := &r[len(r)-1], &want[len(want)-1]
		apart := 0
		for k := range a.HeightMM {
			if math.Abs(float64(a.HeightMM[k]-b.HeightMM[k])) > 0.11 || math.Abs(float64(a.WhitenMM[k]-b.WhitenMM[k])) > 0.11 {
				apart++
			}
		}
		if share := float64(apart) / float64(len(a.HeightMM)); share > 0.02 {
			t.Errorf("%s: %.1f %% of the columns differ from what is kept: the model has changed; record again and judge the pictures anew", c.name, 100*share)
		}
	}
}
