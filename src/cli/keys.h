// The names in the JSON that is printed, each with its unit and what it says: what rebato help report prints.
#ifndef REBATO_CLI_KEYS_H
#define REBATO_CLI_KEYS_H

#include "base/buffer.h"

// Of the report of draft and check, of the report when nothing could be drafted, and of the list.
typedef enum KeyGroup { KEY_REPORT, KEY_FAULT, KEY_LIST, KEY_GROUP_COUNT } KeyGroup;

typedef struct KeyRow {
    KeyGroup group;
    const char *path;  // "pieces[].edges[].name"; a name in capitals stands for any
    const char *kind;  // "text", "yes/no", "number" or the unit of a number: "mm", "mm2", "degrees"
    const char *about; // one line
} KeyRow;

const KeyRow *keys_all(int *count);
void keys_write(Buffer *out);

#endif
