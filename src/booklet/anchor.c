#include "booklet/anchor.h"

#include <stddef.h>
#include <string.h>

#include "base/text.h"

// What compose.c and the files beside it call their sections.
static const char *const own[] = {"contents", "draft", "cutting", "interfacing", "cloth",
                                  "sewing",   "seams", "proofs",  "version"};
static const char *const own_numbered[] = {"seam-", "then-"};

bool anchor_is_own(const char *anchor) {
    for (size_t i = 0; i < sizeof own / sizeof *own; i++)
        if (strcmp(anchor, own[i]) == 0)
            return true;
    for (size_t i = 0; i < sizeof own_numbered / sizeof *own_numbered; i++) {
        const char *number = anchor + strlen(own_numbered[i]);
        if (text_starts(anchor, own_numbered[i]) && *number && number[strspn(number, "0123456789")] == '\0')
            return true;
    }
    return false;
}

void anchor_of(const char *text, char out[ANCHOR_MAX]) {
    size_t length = 0;
    for (; *text && length < ANCHOR_MAX - 1; text++) {
        const char c = *text >= 'A' && *text <= 'Z' ? (char)(*text | 0x20) : *text;
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'))
            out[length++] = c;
        else if ((c == ' ' || c == '-' || c == '_' || c == '/') && length > 0 && out[length - 1] != '-')
            out[length++] = '-';
    }
    while (length > 0 && out[length - 1] == '-')
        length--;
    out[length] = '\0';
}
