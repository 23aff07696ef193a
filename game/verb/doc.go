// Package verb holds the commands of the program that print and end: one file
// and one function each. A verb writes its value to Out, as text or with JSON
// set as JSON, and its diagnostics to Err, and returns the exit code:
//
//	0  done, with or without warnings
//	1  something was read and is malformed or invalid
//	2  the command was used wrongly, or a file could not be reached
//
// After exit 1 JSON output still holds the verb's value, or the errors; after
// exit 2 nothing has been written to Out.
package verb
