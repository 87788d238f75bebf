// Package console runs a program on a real pseudo-terminal with an emulator at
// the other end, for tests: keys go in, and what a person would see comes out.
//
// Its rule: it answers nothing that a program may ask of a terminal, and it
// waits for what is on the screen, never for time to pass. Linux only.
package console
