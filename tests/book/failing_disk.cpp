#include "failing_disk.h"

#include <sqlite3.h>

#include <map>
#include <string>

namespace peelbook::book::failing_disk {
namespace {

struct Plan {
    int nth = 0;  // 0: never
    Fails how = Fails::once;
    int count = 0;

    bool fails_now() {
        ++count;
        return nth > 0 && (count == nth || (how == Fails::from_then_on && count > nth));
    }
};
Plan writes, flushes;

sqlite3_vfs* real = nullptr;
std::map<const sqlite3_io_methods*, sqlite3_io_methods> replaced;          // by the real methods
std::map<const sqlite3_io_methods*, const sqlite3_io_methods*> originals;  // by the replaced ones

int write(sqlite3_file* file, const void* data, int size, sqlite3_int64 at) {
    if (writes.fails_now()) return SQLITE_FULL;
    return originals.at(file->pMethods)->xWrite(file, data, size, at);
}

int flush(sqlite3_file* file, int flags) {
    if (flushes.fails_now()) return SQLITE_IOERR_FSYNC;
    return originals.at(file->pMethods)->xSync(file, flags);
}

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* given) {
    const int code = real->xOpen(real, name, file, flags, given);
    if (file->pMethods == nullptr) return code;
    auto& methods = replaced[file->pMethods];
    methods = *file->pMethods;
    methods.xWrite = write;
    methods.xSync = flush;
    originals[&methods] = file->pMethods;
    file->pMethods = &methods;
    return code;
}

}  // namespace

void install() {
    if (real != nullptr) return;
    real = sqlite3_vfs_find(nullptr);
    static sqlite3_vfs failing = *real;
    failing.zName = "failing";
    failing.xOpen = open;
    sqlite3_vfs_register(&failing, 1);
}

void fail_write(int nth, Fails how) { writes = {nth, how, 0}; }
void fail_flush(int nth, Fails how) { flushes = {nth, how, 0}; }
void mend() { writes = flushes = {}; }
int calls() { return writes.nth > 0 ? writes.count : flushes.count; }

}  // namespace peelbook::book::failing_disk
