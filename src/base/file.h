// Whole files in, whole files out: a file is written completely or not at all.
#ifndef REBATO_BASE_FILE_H
#define REBATO_BASE_FILE_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buffer.h"
#include "base/fault.h"

bool file_exists(const char *path);

// Reads a regular file of at most limit bytes. On failure fills fault and leaves out untouched.
bool file_read(const char *path, size_t limit, Buffer *out, Fault *fault);

// What a name leads to through links, whether that is there or not; the name itself where it is no link. The
// caller owns it.
char *file_real(const char *path);

// Writes beside the target, then renames: readers see the old file or the new one. A link stays a link. "-"
// is standard output.
bool file_write(const char *path, const void *bytes, size_t length, Fault *fault);

// The same where nothing has that name yet, not even a link; else fills fault and leaves what is there.
bool file_write_new(const char *path, const void *bytes, size_t length, Fault *fault);

#endif
