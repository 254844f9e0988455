// What a child process sends home: a fault, packed and read back trusting nothing.
#ifndef REBATO_SCRIPT_POST_H
#define REBATO_SCRIPT_POST_H

#include <stdbool.h>

#include "base/buffer.h"
#include "base/fault.h"

// Copies length bytes of text as one line of clean UTF-8 that ends with a NUL: control signs become spaces,
// malformed bytes question marks; what does not fit size is cut off with three dots. size is at least 16.
void text_clean(const char *text, size_t length, char *out, size_t size);
void text_clean_lines(const char *text, size_t length, char *out, size_t size); // line ends stay

void fault_pack(const Fault *fault, Buffer *out);

// Fills fault from what fault_pack wrote. False, with fault untouched, where the bytes are not that.
bool fault_unpack(const char *bytes, size_t length, Fault *fault);

#endif
