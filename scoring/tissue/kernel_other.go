//go:build !amd64

package tissue

func (s *stencil) marchRow(to, u []float32, scale float32, i, n int, l *lanes) {
	s.marchRowPlain(to, u, scale, i, n, l)
}

func (s *stencil) flowRow(to, u []float32, i, n int) { s.flowRowPlain(to, u, i, n) }

func (s *stencil) marchLayer(to, u []float32, scale float32, b block, _ layerFlow, l *lanes) {
	s.marchLayerPlain(to, u, scale, b, l)
}
