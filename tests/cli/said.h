// Runs a line of the shell in a fresh folder, where rebato is the program just built and $TESTS the folder of the tests, and
// keeps what it said.
#ifndef REBATO_TESTS_CLI_SAID_H
#define REBATO_TESTS_CLI_SAID_H

#include "base/buffer.h"

typedef struct Said {
    int code;
    Buffer out, err;
} Said;

Said said(const char *format, ...) __attribute__((format(printf, 1, 2)));
void said_finish(Said *said);

// Fail the test, showing what was said, unless it ended with code, and what was said on either way has text
// in it.
void said_code(const Said *said, int code);
void said_out(const Said *said, const char *text);
void said_err(const Said *said, const char *text);

#endif
