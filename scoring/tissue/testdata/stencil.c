/* The same march as kernel.go, for the benchmark that holds Go against C. It
 * is built by the benchmark itself with gcc -O3 -march=native. With one
 * argument, the number of marches, it prints the seconds of one, for voxels
 * that differ and for voxels all alike, and then the traffic in GB/s of a plain
 * triad (a = b + s c) on the same processor. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { NX = 128, NY = 128, NZ = 48, ROW = NX + 2, PLANE = ROW * (NY + 2), SIZE = PLANE * (NZ + 2) };

static float *ones(float v)
{
	float *f = malloc(SIZE * sizeof *f);
	for (int i = 0; i < SIZE; i++)
		f[i] = v + 1e-4f * (i % 97);
	return f;
}

static void march(float *restrict to, const float *restrict u, const float *restrict gx, const float *restrict gy,
		  const float *restrict gz, const float *restrict loss, const float *restrict gain,
		  const float *restrict weight, float scale)
{
	for (int z = 0; z < NZ; z++)
		for (int y = 0; y < NY; y++) {
			int at = (z + 1) * PLANE + (y + 1) * ROW + 1;
			for (int i = at; i < at + NX; i++) {
				float c = u[i];
				float f = gx[i] * (u[i - 1] - c) + gx[i + 1] * (u[i + 1] - c) + gy[i] * (u[i - ROW] - c) +
					  gy[i + ROW] * (u[i + ROW] - c) + gz[i] * (u[i - PLANE] - c) +
					  gz[i + PLANE] * (u[i + PLANE] - c) - loss[i] * c + gain[i];
				to[i] = c + scale * weight[i] * f;
			}
		}
}

static void alike(float *restrict to, const float *restrict u, float g, float loss, float weight, float scale)
{
	for (int z = 0; z < NZ; z++)
		for (int y = 0; y < NY; y++) {
			int at = (z + 1) * PLANE + (y + 1) * ROW + 1;
			for (int i = at; i < at + NX; i++) {
				float c = u[i];
				float f = g * (u[i - 1] - c) + g * (u[i + 1] - c) + g * (u[i - ROW] - c) + g * (u[i + ROW] - c) +
					  g * (u[i - PLANE] - c) + g * (u[i + PLANE] - c) - loss * c;
				to[i] = c + scale * weight * f;
			}
		}
}

enum { LONG = 1 << 24 };

static void triad(float *restrict a, const float *restrict b, const float *restrict c)
{
	for (int i = 0; i < LONG; i++)
		a[i] = b[i] + .5f * c[i];
}

static double now(void)
{
	struct timespec t;
	clock_gettime(CLOCK_MONOTONIC, &t);
	return t.tv_sec + 1e-9 * t.tv_nsec;
}

int main(int argc, char **argv)
{
	int n = argc > 1 ? atoi(argv[1]) : 20;
	float *u = ones(1), *to = ones(1), *gx = ones(.1f), *gy = ones(.1f), *gz = ones(.1f), *loss = ones(.01f),
	      *gain = ones(0), *weight = ones(1);
	double best[2] = { 1e9, 1e9 };
	for (int k = 0; k < n; k++) {
		double t = now();
		march(to, u, gx, gy, gz, loss, gain, weight, .1f);
		t = now() - t;
		best[0] = t < best[0] ? t : best[0];
		float *swap = u;
		u = to;
		to = swap;
	}
	for (int k = 0; k < n; k++) {
		double t = now();
		alike(to, u, .1f, .01f, 1, .1f);
		t = now() - t;
		best[1] = t < best[1] ? t : best[1];
		float *swap = u;
		u = to;
		to = swap;
	}
	float *a = calloc(LONG, 4), *b = calloc(LONG, 4), *c = calloc(LONG, 4);
	for (int i = 0; i < LONG; i++)
		a[i] = b[i] = c[i] = i & 7;
	double quick = 1e9;
	for (int k = 0; k < 10; k++) {
		double t = now();
		triad(a, b, c);
		t = now() - t;
		quick = t < quick ? t : quick;
	}
	printf("%.9f %.9f %.2f %g\n", best[0], best[1], 12e-9 * LONG / quick, u[SIZE / 2] + a[LONG / 2]);
	return 0;
}
