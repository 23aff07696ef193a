package tissue

import "golang.org/x/sys/cpu"

// vector tells whether rows may be done eight voxels at a time. A test turns
// it off to hold both ways against each other.
var vector = cpu.X86.HasAVX

//go:noescape
func marchRowAVX(to, u, gx, gy, gz, loss, gain, weight *float32, n, row, plane int, scale float32, l *lanes)

//go:noescape
func flowRowAVX(to, u, gx, gy, gz, loss, gain *float32, n, row, plane int)

func (s *stencil) marchRow(to, u []float32, scale float32, i, n int, l *lanes) {
	if !vector {
		s.marchRowPlain(to, u, scale, i, n, l)
		return
	}
	s.check(u, i, n)
	_, _ = to[i+n-1], s.weight[i+n-1]
	var gain *float32
	if s.gain != nil {
		_ = s.gain[i+n-1]
		gain = &s.gain[i]
	}
	marchRowAVX(&to[i], &u[i], &s.gx[i], &s.gy[i], &s.gz[i], &s.loss[i], gain, &s.weight[i], n, 4*s.rowStep, 4*s.planeStep, scale, l)
}

func (s *stencil) flowRow(to, u []float32, i, n int) {
	if !vector {
		s.flowRowPlain(to, u, i, n)
		return
	}
	s.check(u, i, n)
	_ = to[i+n-1]
	var gain *float32
	if s.gain != nil {
		_ = s.gain[i+n-1]
		gain = &s.gain[i]
	}
	flowRowAVX(&to[i], &u[i], &s.gx[i], &s.gy[i], &s.gz[i], &s.loss[i], gain, n, 4*s.rowStep, 4*s.planeStep)
}

// check panics, as an index out of range does, where the assembly would read
// beyond a slice.
func (s *stencil) check(u []float32, i, n int) {
	_, _ = u[i-s.planeStep], u[i+n-1+s.planeStep]
	_, _, _ = s.gx[i+n], s.gy[i+n-1+s.rowStep], s.gz[i+n-1+s.planeStep]
	_ = s.loss[i+n-1]
	if n&7 != 0 || n <= 0 {
		panic("tissue: a row must be a multiple of eight voxels")
	}
}

//go:noescape
func marchLayerAVX(to, u, gain *float32, n, rows, row, plane int, k *layerFlow, l *lanes)

// marchLayer is march over one plane of a block, all of one material.
func (s *stencil) marchLayer(to, u []float32, scale float32, b block, k layerFlow, l *lanes) {
	if !vector {
		s.marchLayerPlain(to, u, scale, b, l)
		return
	}
	last := b.first + (b.ny-1)*s.rowStep + b.nx - 1
	_, _, _ = u[b.first-s.planeStep], u[last+s.planeStep], to[last]
	var gain *float32
	if s.gain != nil {
		_ = s.gain[last]
		gain = &s.gain[b.first]
	}
	k.answer = float32(scale * k.answer)
	marchLayerAVX(&to[b.first], &u[b.first], gain, b.nx, b.ny, 4*s.rowStep, 4*s.planeStep, &k, l)
}
