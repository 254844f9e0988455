#include "reader.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

void drawing_keep(Drawing *drawing, Buffer bytes, const char *name) {
    *drawing = (Drawing){.directory = "/tmp/rebato-sheet-XXXXXX", .bytes = bytes};
    cr_assert_not_null(mkdtemp(drawing->directory));
    snprintf(drawing->path, sizeof drawing->path, "%s/%s", drawing->directory, name);
    FILE *file = fopen(drawing->path, "wb");
    cr_assert_not_null(file);
    cr_assert_eq(fwrite(bytes.data, 1, bytes.length, file), bytes.length);
    cr_assert_eq(fclose(file), 0);
}

void drawing_make(Drawing *drawing, const Pattern *pattern, const SheetOptions *options) {
    static const char *const names[] = {"x.pdf", "x.svg", "x.png"};
    Fault fault;
    Buffer bytes;
    int pages = 0;
    fault_init(&fault);
    buffer_init(&bytes);
    cr_assert(sheet_draw(pattern, options, &bytes, &pages, &fault), "%s", fault.message);
    drawing_keep(drawing, bytes, names[options->format]);
    drawing->pages = pages;
    fault_finish(&fault);
}

void drawing_finish(Drawing *drawing) {
    unlink(drawing->path);
    rmdir(drawing->directory);
    buffer_finish(&drawing->bytes);
}

int reader_run(const Drawing *drawing, const char *command, Buffer *out) {
    char line[512];
    const char *place = strstr(command, "%s");
    cr_assert_not_null(place);
    snprintf(line, sizeof line, "( %.*s%s%s ) 2>&1", (int)(place - command), command, drawing->path,
             place + 2);
    FILE *pipe = popen(line, "r");
    cr_assert_not_null(pipe);
    char bytes[4096];
    buffer_clear(out);
    for (size_t got; (got = fread(bytes, 1, sizeof bytes, pipe)) > 0;)
        buffer_add(out, bytes, got);
    int status = pclose(pipe);
    cr_assert(WIFEXITED(status));
    cr_assert_neq(WEXITSTATUS(status), 127, "not installed: %s", command);
    return WEXITSTATUS(status);
}

int text_count(const char *in, const char *text) {
    int count = 0;
    for (const char *at = strstr(in, text); at != NULL; at = strstr(at + 1, text))
        count++;
    return count;
}
