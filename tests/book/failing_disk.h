#pragma once
// A disk that fails at the n-th write or flush: SQLite's own file layer with those two calls replaced. Counts
// all files.

namespace peelbook::book::failing_disk {

enum class Fails { once, from_then_on };

void install();                       // once a program; every connection opened afterwards goes through it
void fail_write(int nth, Fails how);  // 1 is the next; the disk is full
void fail_flush(int nth, Fails how);  // 1 is the next
void mend();
int calls();  // writes, or flushes, since the failure was set

}  // namespace peelbook::book::failing_disk
