#include "sheet/catalog.h"

#include <inttypes.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

// An incremental update (ISO 32000-1, 7.5.6): the file as it was, then the objects that changed, a
// cross-reference section that lists only them, and a trailer whose /Prev points to the section before. The
// catalog keeps its number, so that nothing else has to change.

// cairo is held to PDF 1.4, which ends with a table of references and not a stream of them; what is added
// here came with later versions, so the catalog names one.
#define ADDED                                                                               \
    "   /Version /1.7\n"                                                                    \
    "   /ViewerPreferences << /PrintScaling /None /Duplex /Simplex /PickTrayByPDFSize true" \
    " /DisplayDocTitle true >>\n   /Lang (en)"

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

bool catalog_add_true_scale(Buffer *pdf) {
    const char *start = find_last(pdf, "startxref"), *trailer = find_last(pdf, "trailer");
    if (start == NULL || trailer == NULL || trailer > start)
        return false;
    long previous = number_after(start, "startxref"), size = number_after(trailer, "/Size");
    long root = number_after(trailer, "/Root"), info = number_after(trailer, "/Info");
    if (previous <= 0 || (size_t)previous >= (size_t)(start - pdf->data) || size <= 0 || root <= 0 ||
        info <= 0)
        return false;

    // One cross-reference section of fixed lines of 20 bytes: "xref\n0 SIZE\n", then one line for each
    // object.
    const char *table = pdf->data + previous;
    char *line_end;
    if (strncmp(table, "xref\n0 ", 7) != 0 || strtol(table + 7, &line_end, 10) != size || *line_end != '\n')
        return false;
    size_t lines = (size_t)(line_end + 1 - pdf->data);
    if (root >= size || (size_t)size > (pdf->length - lines) / 20)
        return false;
    long place = strtol(pdf->data + lines + 20 * root, NULL, 10);
    if (place <= 0 || place >= previous)
        return false;
    const char *object = pdf->data + place, *body = strstr(object, "/Type /Catalog");
    const char *end = body == NULL ? NULL : strstr(body, "endobj");
    if (strtol(object, NULL, 10) != root || end == NULL || end - object > 4000)
        return false;

    uint64_t id = hash_bytes(pdf, UINT64_C(0xcbf29ce484222325)), more = hash_bytes(pdf, id);
    Buffer added;
    buffer_init(&added);
    size_t at = pdf->length;
    buffer_add(&added, object, (size_t)(body - object));
    buffer_add_text(&added, "/Type /Catalog\n" ADDED);
    body += strlen("/Type /Catalog");
    buffer_add(&added, body, (size_t)(end - body));
    buffer_add_text(&added, "endobj\n");
    size_t section = at + added.length;
    buffer_add_format(&added, "xref\n%ld 1\n%010zu 00000 n \n", root, at);
    buffer_add_format(&added, "trailer\n<< /Size %ld /Root %ld 0 R /Info %ld 0 R /Prev %ld\n", size, root,
                      info, previous);
    buffer_add_format(&added, "   /ID [ <%016" PRIx64 "%016" PRIx64 ">", id, more);
    buffer_add_format(&added, " <%016" PRIx64 "%016" PRIx64 "> ] >>\n", id, more);
    buffer_add_format(&added, "startxref\n%zu\n%%%%EOF\n", section);
    buffer_add(pdf, added.data, added.length);
    buffer_finish(&added);
    return true;
}
