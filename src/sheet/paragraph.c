#include "sheet/paragraph.h"

#include "base/text.h"
#include "sheet/font.h"

double paragraph_step(TextKind kind) {
    return text_style(kind)->size * 1.32;
}

bool paragraph_next(const char **text, TextKind kind, double width, Buffer *line) {
    const TextStyle *style = text_style(kind);
    const char *start = *text;
    while (*start == ' ' || *start == '\n')
        start++;
    buffer_clear(line);
    if (*start == '\0') {
        *text = start;
        return false;
    }
    const char *at = start, *cut = NULL;
    double reached = 0;
    while (*at != '\0' && *at != '\n') {
        const char *here = at;
        uint32_t code = text_next(&at);
        const char *ahead = at;
        uint32_t next = *ahead != '\0' ? text_next(&ahead) : 0;
        if (code == ' ')
            cut = here;
        reached += style->size * font_advance(style->bold, code, next);
        if (reached <= width || here == start)
            continue;
        if (code == ' ')
            at = here;
        else
            at = cut != NULL ? cut : here;
        break;
    }
    size_t length = (size_t)(at - start);
    while (length > 0 && start[length - 1] == ' ')
        length--;
    buffer_add(line, start, length);
    *text = at;
    return true;
}
