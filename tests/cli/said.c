#include <criterion/criterion.h>

#include "said.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include "base/fault.h"
#include "base/file.h"

static void read_back(const char *folder, const char *name, Buffer *out) {
    char path[256];
    Fault fault;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    buffer_init(out);
    fault_init(&fault);
    cr_assert(file_read(path, 16u << 20, out, &fault), "%s: %s", path, fault.message);
}

static void shell(const char *line, int *code) {
    int status = system(line);
    cr_assert(WIFEXITED(status), "the shell ended with status %d: %s", status, line);
    *code = WEXITSTATUS(status);
}

// The line lies in FOLDER/line and runs in FOLDER/work, so that what it says lies beside what it makes and
// not among it.
Said said(const char *format, ...) {
    char folder[] = "/tmp/rebato-test-XXXXXX";
    cr_assert(mkdtemp(folder) != NULL);
    char line[8192], path[64], command[256];
    va_list args;
    va_start(args, format);
    int length = vsnprintf(line, sizeof line, format, args);
    va_end(args);
    cr_assert(length >= 0 && length < (int)sizeof line);
    Fault fault;
    fault_init(&fault);
    snprintf(path, sizeof path, "%s/line", folder);
    cr_assert(file_write(path, line, (size_t)length, &fault), "%s", fault.message);

    Said result = {0};
    int cleared;
    snprintf(command, sizeof command,
             "mkdir %s/work && cd %s/work && PATH=\"$(dirname \"$REBATO\"):$PATH\" bash ../line >../out "
             "2>../err </dev/null",
             folder, folder);
    shell(command, &result.code);
    read_back(folder, "out", &result.out);
    read_back(folder, "err", &result.err);
    snprintf(command, sizeof command, "rm -rf %s", folder);
    shell(command, &cleared);
    return result;
}

void said_finish(Said *said) {
    buffer_finish(&said->out);
    buffer_finish(&said->err);
}

void said_code(const Said *said, int code) {
    cr_expect(said->code == code, "ended with %d, not %d\nout: %s\nerr: %s", said->code, code, said->out.data,
              said->err.data);
}

void said_out(const Said *said, const char *text) {
    cr_expect(strstr(said->out.data, text), "not said: %s\nout: %s\nerr: %s", text, said->out.data,
              said->err.data);
}

void said_err(const Said *said, const char *text) {
    cr_expect(strstr(said->err.data, text), "not said as an error: %s\nout: %s\nerr: %s", text,
              said->out.data, said->err.data);
}
