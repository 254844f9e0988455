#include "sheet/catalog.h"

#include <inttypes.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

// An incremental update (ISO 32000-1, 7.5.6): the file as it was, then the objects that changed, a
// cross-reference section that lists only them, and a trailer whose /Prev points to the section before. The
// catalog keeps its number, so that nothing else has to change.

// cairo is held to PDF 1.4, which ends with a table of references and not a stream of them; what is added
// here came with later versions, so the catalog names one.
#define VERSION "   /Version /1.7\n"
#define TRUE_SCALE                                                                          \
    "   /ViewerPreferences << /PrintScaling /None /Duplex /Simplex /PickTrayByPDFSize true" \
    " /DisplayDocTitle true >>\n   /Lang (en)"
#define READING "   /ViewerPreferences << /DisplayDocTitle true >>\n   /Lang (%s)"
#define MARKED "   /MarkInfo << /Marked true >>\n" // which cairo writes where the parts stand in a Document

#define CATALOG "/Type /Catalog"
#define FIGURE "/S /Figure"
#define OBJECT_MOST 4000 // bytes of one that is changed

static const char *find_last(const Buffer *in, const char *what) {
    size_t length = strlen(what);
    for (size_t at = in->length >= length ? in->length - length + 1 : 0; at > 0; at--)
        if (in->data[at - 1] == *what && memcmp(in->data + at - 1, what, length) == 0)
            return in->data + at - 1;
    return NULL;
}

// The number after a key in the trailer, or -1.
static long number_after(const char *from, const char *key) {
    const char *at = strstr(from, key);
    return at == NULL ? -1 : strtol(at + strlen(key), NULL, 10);
}

// FNV-1a, 64 bits: the name of these bytes, not a guard against anyone.
static uint64_t hash_bytes(const Buffer *in, uint64_t start) {
    uint64_t hash = start;
    for (size_t i = 0; i < in->length; i++)
        hash = (hash ^ (unsigned char)in->data[i]) * UINT64_C(0x100000001b3);
    return hash;
}

// The objects of a file as cairo writes it: one cross-reference section of fixed lines of 20 bytes, "xref\n0
// SIZE\n", then one line for each object.
typedef struct Objects {
    const Buffer *pdf;
    size_t lines; // where they start
    long previous, size, root, info;
} Objects;

static bool find_objects(const Buffer *pdf, Objects *out) {
    const char *start = find_last(pdf, "startxref"), *trailer = find_last(pdf, "trailer");
    if (start == NULL || trailer == NULL || trailer > start)
        return false;
    *out = (Objects){.pdf = pdf,
                     .previous = number_after(start, "startxref"),
                     .size = number_after(trailer, "/Size"),
                     .root = number_after(trailer, "/Root"),
                     .info = number_after(trailer, "/Info")};
    if (out->previous <= 0 || (size_t)out->previous >= (size_t)(start - pdf->data) || out->size <= 0 ||
        out->root <= 0 || out->info <= 0)
        return false;
    const char *table = pdf->data + out->previous;
    char *line_end;
    if (strncmp(table, "xref\n0 ", 7) != 0 || strtol(table + 7, &line_end, 10) != out->size ||
        *line_end != '\n')
        return false;
    out->lines = (size_t)(line_end + 1 - pdf->data);
    return out->root < out->size && (size_t)out->size <= (pdf->length - out->lines) / 20;
}

// The bytes of an object up to "endobj", or false where they are not as cairo writes a small one.
static bool find_object(const Objects *objects, long number, const char **from, const char **to) {
    const long place = strtol(objects->pdf->data + objects->lines + 20 * number, NULL, 10);
    if (place <= 0 || place >= objects->previous)
        return false;
    *from = objects->pdf->data + place;
    *to = strstr(*from, "endobj");
    return *to != NULL && *to - *from <= OBJECT_MOST && strtol(*from, NULL, 10) == number;
}

// An update in the making: changed objects behind the file, and the lines of the table that find them.
typedef struct Update {
    Buffer objects, table;
    size_t start; // of the objects in the file
} Update;

static void change_object(Update *update, long number, const char *from, const char *to, const char *key,
                          const char *added) {
    const char *body = strstr(from, key) + strlen(key);
    buffer_add_format(&update->table, "%ld 1\n%010zu 00000 n \n", number,
                      update->start + update->objects.length);
    buffer_add(&update->objects, from, (size_t)(body - from));
    buffer_add_text(&update->objects, added);
    buffer_add(&update->objects, body, (size_t)(to - body));
    buffer_add_text(&update->objects, "endobj\n");
}

// A text as PDF has it, UTF-16 in hexadecimal digits (ISO 32000-1, 7.9.2.2).
static void add_text(Buffer *out, const char *text) {
    buffer_add_text(out, "<FEFF");
    while (*text != '\0') {
        const uint32_t code = text_next(&text);
        if (code >= 0x10000)
            buffer_add_format(out, "%04X%04X", (unsigned)(0xD800 + ((code - 0x10000) >> 10)),
                              (unsigned)(0xDC00 + ((code - 0x10000) & 0x3FF)));
        else
            buffer_add_format(out, "%04X", (unsigned)code);
    }
    buffer_add_char(out, '>');
}

static void describe_figures(Update *update, const Objects *objects, const char *const *texts, int count) {
    Buffer added;
    buffer_init(&added);
    const char *from, *to;
    for (long number = 1, next = 0; number < objects->size && next < count; number++) {
        if (!find_object(objects, number, &from, &to))
            continue;
        const char *figure = strstr(from, FIGURE);
        if (figure == NULL || figure > to)
            continue;
        buffer_clear(&added);
        buffer_add_text(&added, "\n   /Alt ");
        add_text(&added, texts[next++]);
        change_object(update, number, from, to, FIGURE, added.data);
    }
    buffer_finish(&added);
}

static bool is_marked(const Buffer *pdf) {
    Objects objects;
    const char *from, *to, *mark = NULL;
    if (find_objects(pdf, &objects) && find_object(&objects, objects.root, &from, &to))
        mark = strstr(from, "/MarkInfo");
    return mark != NULL && mark < to;
}

static bool add_update(Buffer *pdf, const char *catalog, const char *const *figures, int count) {
    Objects objects;
    const char *from, *to;
    if (!find_objects(pdf, &objects) || !find_object(&objects, objects.root, &from, &to))
        return false;
    const char *type = strstr(from, CATALOG);
    if (type == NULL || type > to)
        return false;
    const uint64_t id = hash_bytes(pdf, UINT64_C(0xcbf29ce484222325)), more = hash_bytes(pdf, id);
    Update update = {.start = pdf->length};
    buffer_init(&update.objects);
    buffer_init(&update.table);
    change_object(&update, objects.root, from, to, CATALOG, catalog);
    describe_figures(&update, &objects, figures, count);
    const size_t section = pdf->length + update.objects.length;
    buffer_add_format(&update.objects,
                      "xref\n%strailer\n<< /Size %ld /Root %ld 0 R /Info %ld 0 R /Prev %ld\n",
                      update.table.data, objects.size, objects.root, objects.info, objects.previous);
    buffer_add_format(&update.objects, "   /ID [ <%016" PRIx64 "%016" PRIx64 ">", id, more);
    buffer_add_format(&update.objects, " <%016" PRIx64 "%016" PRIx64 "> ] >>\n", id, more);
    buffer_add_format(&update.objects, "startxref\n%zu\n%%%%EOF\n", section);
    buffer_add(pdf, update.objects.data, update.objects.length);
    buffer_finish(&update.objects);
    buffer_finish(&update.table);
    return true;
}

bool catalog_add_true_scale(Buffer *pdf) {
    return add_update(pdf, "\n" VERSION TRUE_SCALE, NULL, 0);
}

bool catalog_add_reading(Buffer *pdf, const char *language, const char *const *figures, int count) {
    for (const char *at = language; *at != '\0'; at++) // a tag of letters, digits and hyphens
        if (strchr("()\\", *at) != NULL)
            return false;
    Buffer catalog;
    buffer_init(&catalog);
    buffer_add_format(&catalog, "\n" VERSION "%s" READING, is_marked(pdf) ? "" : MARKED, language);
    const bool good = add_update(pdf, catalog.data, figures, count);
    buffer_finish(&catalog);
    return good;
}
