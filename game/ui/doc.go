// Package ui is a small interface kit (essay to come with the layout).
package ui
