// A file that is built into the program: what scripts/embed.py writes.
#ifndef REBATO_BASE_EMBEDDED_H
#define REBATO_BASE_EMBEDDED_H

#include <stddef.h>

typedef struct Embedded {
    const char *family; // its folder: "bands", "bodies"
    const char *name;   // "bands/square-funnel"
    const char *file;   // "stdlib/bands/square-funnel.md"
    const char *text;   // ended by a NUL
    size_t length;
} Embedded;

#endif
