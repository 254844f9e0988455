#include "sheet/plain_name.h"

#include <stddef.h>
#include <string.h>

#include "base/text.h"

void plain_name(const char *name, char out[PLAIN_NAME_MAX]) {
    out[0] = '\0';
    if (name == NULL)
        return;
    const char *twin = strstr(name, " over "), *at = name;
    const char *end = twin != NULL && twin > name ? twin : name + strlen(name);
    size_t length = 0;
    while (at < end) {
        const char *from = at;
        text_next(&at);
        size_t bytes = (size_t)(at - from);
        if (length + bytes >= PLAIN_NAME_MAX)
            break;
        memcpy(out + length, from, bytes);
        if (*from == '_')
            out[length] = ' ';
        length += bytes;
    }
    out[length] = '\0';
}
