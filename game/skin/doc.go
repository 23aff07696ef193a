// Package skin draws skin and what grows on it.
package skin
