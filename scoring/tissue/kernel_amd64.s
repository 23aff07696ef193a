#include "textflag.h"

// These two do what marchRow and flowRow do, eight voxels at a time and in the
// same order of operations: each multiplication and each addition is rounded
// by itself (nothing is fused), so that the bits are the same.

DATA absolute<>+0(SB)/4, $0x7fffffff
GLOBL absolute<>(SB), RODATA, $4

// The six differences, weighed, into Y3; the voxel itself is in Y0.
#define FLOWS \
	VMOVUPS (BX), Y0; \
	VMOVUPS -4(BX), Y2; \
	VSUBPS  Y0, Y2, Y2; \
	VMULPS  (CX), Y2, Y3; \
	VMOVUPS 4(BX), Y2; \
	VSUBPS  Y0, Y2, Y2; \
	VMULPS  4(CX), Y2, Y2; \
	VADDPS  Y2, Y3, Y3; \
	VMOVUPS (BX)(R15*1), Y2; \
	VSUBPS  Y0, Y2, Y2; \
	VMULPS  (DX), Y2, Y2; \
	VADDPS  Y2, Y3, Y3; \
	VMOVUPS (BX)(R11*1), Y2; \
	VSUBPS  Y0, Y2, Y2; \
	VMULPS  (DX)(R11*1), Y2, Y2; \
	VADDPS  Y2, Y3, Y3; \
	VMOVUPS (BX)(R13*1), Y2; \
	VSUBPS  Y0, Y2, Y2; \
	VMULPS  (SI), Y2, Y2; \
	VADDPS  Y2, Y3, Y3; \
	VMOVUPS (BX)(R12*1), Y2; \
	VSUBPS  Y0, Y2, Y2; \
	VMULPS  (SI)(R12*1), Y2, Y2; \
	VADDPS  Y2, Y3, Y3

// func marchRowAVX(to, u, gx, gy, gz, loss, gain, weight *float32, n, row, plane int, scale float32, l *lanes)
TEXT ·marchRowAVX(SB), NOSPLIT, $0-104
	MOVQ to+0(FP), AX
	MOVQ u+8(FP), BX
	MOVQ gx+16(FP), CX
	MOVQ gy+24(FP), DX
	MOVQ gz+32(FP), SI
	MOVQ loss+40(FP), DI
	MOVQ gain+48(FP), R8
	MOVQ weight+56(FP), R9
	MOVQ row+72(FP), R11
	MOVQ plane+80(FP), R12
	MOVQ l+96(FP), R10
	VBROADCASTSS scale+88(FP), Y10
	VBROADCASTSS absolute<>(SB), Y9
	VMOVUPS (R10), Y8
	VMOVUPS 32(R10), Y7
	MOVQ n+64(FP), R10
	MOVQ R11, R15
	NEGQ R15
	MOVQ R12, R13
	NEGQ R13

row:
	FLOWS
	VMULPS (DI), Y0, Y1
	VSUBPS Y1, Y3, Y3
	TESTQ  R8, R8
	JZ     noGain
	VADDPS (R8), Y3, Y3
	ADDQ   $32, R8

noGain:
	VMULPS  (R9), Y10, Y4
	VMULPS  Y3, Y4, Y4
	VADDPS  Y4, Y0, Y4
	VMOVUPS Y4, (AX)
	VADDPS  Y1, Y8, Y8
	VANDPS  Y9, Y4, Y4
	VMAXPS  Y4, Y7, Y7
	ADDQ    $32, AX
	ADDQ    $32, BX
	ADDQ    $32, CX
	ADDQ    $32, DX
	ADDQ    $32, SI
	ADDQ    $32, DI
	ADDQ    $32, R9
	SUBQ    $8, R10
	JG      row

	MOVQ    l+96(FP), R10
	VMOVUPS Y8, (R10)
	VMOVUPS Y7, 32(R10)
	VZEROUPPER
	RET

// func flowRowAVX(to, u, gx, gy, gz, loss, gain *float32, n, row, plane int)
TEXT ·flowRowAVX(SB), NOSPLIT, $0-80
	MOVQ to+0(FP), AX
	MOVQ u+8(FP), BX
	MOVQ gx+16(FP), CX
	MOVQ gy+24(FP), DX
	MOVQ gz+32(FP), SI
	MOVQ loss+40(FP), DI
	MOVQ gain+48(FP), R8
	MOVQ n+56(FP), R10
	MOVQ row+64(FP), R11
	MOVQ plane+72(FP), R12
	MOVQ R11, R15
	NEGQ R15
	MOVQ R12, R13
	NEGQ R13

row:
	FLOWS
	VMULPS (DI), Y0, Y1
	VSUBPS Y1, Y3, Y3
	TESTQ  R8, R8
	JZ     noGain
	VADDPS (R8), Y3, Y3
	ADDQ   $32, R8

noGain:
	VMOVUPS Y3, (AX)
	ADDQ    $32, AX
	ADDQ    $32, BX
	ADDQ    $32, CX
	ADDQ    $32, DX
	ADDQ    $32, SI
	ADDQ    $32, DI
	SUBQ    $8, R10
	JG      row
	VZEROUPPER
	RET

// func marchLayerAVX(to, u, gain *float32, n, rows, row, plane int, k *layerFlow, l *lanes)
//
// The conductances are the same for the whole layer: k holds across, above,
// below, loss and answer, 4 bytes each.
TEXT ·marchLayerAVX(SB), NOSPLIT, $0-72
	MOVQ to+0(FP), AX
	MOVQ u+8(FP), BX
	MOVQ gain+16(FP), R8
	MOVQ n+24(FP), DX
	MOVQ rows+32(FP), SI
	MOVQ row+40(FP), R11
	MOVQ plane+48(FP), R12
	MOVQ k+56(FP), CX
	MOVQ l+64(FP), DI
	VBROADCASTSS (CX), Y10
	VBROADCASTSS 4(CX), Y11
	VBROADCASTSS 8(CX), Y12
	VBROADCASTSS 12(CX), Y13
	VBROADCASTSS 16(CX), Y14
	VBROADCASTSS absolute<>(SB), Y9
	VMOVUPS (DI), Y8
	VMOVUPS 32(DI), Y7
	MOVQ R11, R15
	NEGQ R15
	MOVQ R12, R13
	NEGQ R13
	MOVQ DX, R9
	SHLQ $2, R9
	NEGQ R9
	ADDQ R11, R9   // from the end of a row to the next

rows:
	MOVQ DX, R10

row:
	VMOVUPS (BX), Y0
	VMOVUPS -4(BX), Y2
	VSUBPS  Y0, Y2, Y2
	VMULPS  Y10, Y2, Y3
	VMOVUPS 4(BX), Y2
	VSUBPS  Y0, Y2, Y2
	VMULPS  Y10, Y2, Y2
	VADDPS  Y2, Y3, Y3
	VMOVUPS (BX)(R15*1), Y2
	VSUBPS  Y0, Y2, Y2
	VMULPS  Y10, Y2, Y2
	VADDPS  Y2, Y3, Y3
	VMOVUPS (BX)(R11*1), Y2
	VSUBPS  Y0, Y2, Y2
	VMULPS  Y10, Y2, Y2
	VADDPS  Y2, Y3, Y3
	VMOVUPS (BX)(R13*1), Y2
	VSUBPS  Y0, Y2, Y2
	VMULPS  Y11, Y2, Y2
	VADDPS  Y2, Y3, Y3
	VMOVUPS (BX)(R12*1), Y2
	VSUBPS  Y0, Y2, Y2
	VMULPS  Y12, Y2, Y2
	VADDPS  Y2, Y3, Y3
	VMULPS  Y13, Y0, Y1
	VSUBPS  Y1, Y3, Y3
	TESTQ   R8, R8
	JZ      noGain
	VADDPS  (R8), Y3, Y3
	ADDQ    $32, R8

noGain:
	VMULPS  Y3, Y14, Y4
	VADDPS  Y4, Y0, Y4
	VMOVUPS Y4, (AX)
	VADDPS  Y1, Y8, Y8
	VANDPS  Y9, Y4, Y4
	VMAXPS  Y4, Y7, Y7
	ADDQ    $32, AX
	ADDQ    $32, BX
	SUBQ    $8, R10
	JG      row

	ADDQ  R9, AX
	ADDQ  R9, BX
	TESTQ R8, R8
	JZ    next
	ADDQ  R9, R8

next:
	DECQ SI
	JG   rows

	VMOVUPS Y8, (DI)
	VMOVUPS Y7, 32(DI)
	VZEROUPPER
	RET
