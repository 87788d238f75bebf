// Package journal keeps facts durably. It knows no soap: a fact arrives as a
// kind, a JSON body, a stamp and some search terms, and leaves the same way.
//
// # The rule
//
// A fact is on disk when [Writer.Append] returns without an error, and nothing
// of it is in the store when Append returns one. Facts are only ever added: the
// database itself refuses to change or delete one.
//
// # What is on disk
//
// A store is a folder. In it, journal.db is an SQLite database (write-ahead
// log, synchronous=FULL: one flush a commit); while it is open, and after a
// crash, journal.db-wal and journal.db-shm stand beside it and belong to it.
// The folder hold has one lock file a batch; see [Store.Hold].
//
// Each fact carries a SHA-256 sum over its fields and the sum of the fact
// before it in the same batch, so a changed, missing, doubled or reordered fact
// shows; see [Record]. Facts cut off at the end of a batch leave an unbroken
// chain behind; they show because the store writes down where each batch ends.
//
// # Several programs at once
//
// Any number of programs may read and write one store at the same time on one
// machine (not over a network folder: the shared memory of the write-ahead log
// does not reach across). A batch has one writer at a time.
//
// # After an error
//
// Append may be called again with the same fact once the cause has gone. There
// is one thing no store can promise: if the flush fails and the machine or the
// program then dies before anything else is written, the fact that was reported
// as not saved may be found in the store after all: whole, never in part.
package journal
