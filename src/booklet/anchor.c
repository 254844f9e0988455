#include "booklet/anchor.h"

#include <stddef.h>

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
