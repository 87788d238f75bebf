package paper

// LeastPrint is for the tests.
var LeastPrint = leastPrint
