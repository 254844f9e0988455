#include "base/measures.h"

#include <string.h>

#include "base/memory.h"
#include "base/text.h"

#define NAME_MOST 64

typedef struct Reader {
    const char *file;
    int line;
    Measures measures;
    Fault *fault;
} Reader;

static bool is_name(const char *text) {
    return *text >= 'a' && *text <= 'z' && strlen(text) <= NAME_MOST &&
           text[strspn(text, "abcdefghijklmnopqrstuvwxyz0123456789_")] == '\0';
}

// The name that was meant by "Neck-Girth" or "neck girth"; NULL when it is none that way either. The caller
// owns it.
static char *mended_name(const char *text) {
    char *mended = mem_text(text);
    for (char *c = mended; *c; c++) {
        if (*c >= 'A' && *c <= 'Z')
            *c = (char)(*c - 'A' + 'a');
        else if (*c == ' ' || *c == '-' || *c == '\t')
            *c = '_';
    }
    if (is_name(mended))
        return mended;
    mem_free(mended);
    return NULL;
}

static bool check_name(const Reader *reader, const char *name) {
    Fault *fault = reader->fault;
    if (!is_name(name)) {
        char *mended = mended_name(name);
        fault_set(fault, reader->file, reader->line, "'%s' is not a name for a measurement", name);
        if (mended)
            fault_set_hint(fault, "write %s", mended);
        else
            fault_set_hint(fault, "a name is letters a to z, digits and _, such as neck_base_girth");
        mem_free(mended);
        return false;
    }
    const BodyMeasure *first = measures_find(&reader->measures, name);
    if (first) {
        fault_set(fault, reader->file, reader->line, "%s is given twice, first on line %d", name,
                  first->line);
        fault_set_hint(fault, "take one of the two lines out");
        return false;
    }
    const char *meant = measure_near_miss(name);
    if (meant) {
        fault_set(fault, reader->file, reader->line, "the measurement %s is not known", name);
        fault_set_hint(fault, "did you mean %s, the %s?", meant, measure_known(meant)->term);
        return false;
    }
    return true;
}

static bool read_value(const Reader *reader, const char *name, const char *text, double *out) {
    double value = 0;
    UnitsError error = measure_parse(name, text, &value);
    if (error == UNITS_OK && (value > 0 || measure_in_years(name))) {
        *out = value;
        return true;
    }
    if (error == UNITS_OK) {
        fault_set(reader->fault, reader->file, reader->line, "%s is not more than 0", name);
        fault_set_hint(reader->fault, "no part of a body measures 0 or less");
    } else if (error == UNITS_EMPTY) {
        const bool years = measure_in_years(name);
        fault_set(reader->fault, reader->file, reader->line, "%s is given no %s", name,
                  years ? "years or months" : "length");
        fault_set_hint(reader->fault, "%s", units_error_hint(years ? UNITS_NOT_AN_AGE : error));
    } else {
        fault_set(reader->fault, reader->file, reader->line, "%s = %s: %s", name, text,
                  units_error_text(error));
        fault_set_hint(reader->fault, "%s", units_error_hint(error));
    }
    return false;
}

static char *trim(char *text) {
    text += strspn(text, " \t");
    size_t length = strlen(text);
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t'))
        length--;
    text[length] = '\0';
    return text;
}

// line may be written into.
static bool read_line(Reader *reader, char *line) {
    line[strcspn(line, "#")] = '\0';
    line = trim(line);
    if (*line == '\0')
        return true;
    char *equals = strchr(line, '=');
    if (!equals) {
        fault_set(reader->fault, reader->file, reader->line, "'%s' is not a measurement", line);
        fault_set_hint(reader->fault,
                       "write a name, = and a length, such as head_girth = 56 cm; a remark begins with #");
        return false;
    }
    *equals = '\0';
    char *name = trim(line), *text = trim(equals + 1);
    double value = 0;
    if (!check_name(reader, name) || !read_value(reader, name, text, &value))
        return false;
    if (reader->measures.count == MEASURES_MOST) {
        fault_set(reader->fault, reader->file, reader->line, "there are more than %d measurements",
                  MEASURES_MOST);
        fault_set_hint(reader->fault, "keep one body in one file");
        return false;
    }
    BodyMeasure measure = {.name = mem_text(name), .value = value, .line = reader->line};
    ARRAY_ADD(&reader->measures, measure);
    return true;
}

// Two girths that are easily taken for one another: the column of the neck, for a shirt's band, and its base,
// where a neckline lies. The base is larger on every body: in the public ANSUR II survey (2012) by 41 mm in
// the mean for women and 37 mm for men.
static bool check_neck(const Reader *reader) {
    const BodyMeasure *neck = measures_find(&reader->measures, "neck_girth");
    const BodyMeasure *base = measures_find(&reader->measures, "neck_base_girth");
    if (!neck || !base || base->value >= neck->value)
        return true;
    char neck_text[48], base_text[48];
    units_format(neck->value, UNITS_CM, neck_text, sizeof neck_text);
    units_format(base->value, UNITS_CM, base_text, sizeof base_text);
    fault_set(reader->fault, reader->file, neck->line > base->line ? neck->line : base->line,
              "neck_base_girth, %s, is smaller than neck_girth, %s", base_text, neck_text);
    fault_set_hint(
        reader->fault,
        "neck_girth is taken round the column of the neck, where a shirt is buttoned; neck_base_girth lower, "
        "through the nape and the pit of the neck, and is about 4 cm larger");
    return false;
}

static bool check_text(const Reader *reader, const char *text, size_t length) {
    if (length > MEASURES_BYTES_MOST) {
        fault_set(reader->fault, reader->file, 0, "the file is longer than 64 KB, the most that is read");
        fault_set_hint(reader->fault, "keep one body in one file");
        return false;
    }
    int line = 1;
    for (size_t at = 0; at < length; line++) {
        const char *end = memchr(text + at, '\n', length - at);
        size_t here = end ? (size_t)(end - text) - at : length - at;
        if (memchr(text + at, '\0', here) || !text_is_utf8(text + at, here)) {
            fault_set(reader->fault, reader->file, line, "this line is not UTF-8 text");
            fault_set_hint(reader->fault, "save the file as plain text in UTF-8");
            return false;
        }
        at += here + 1;
    }
    return true;
}

static bool read_lines(Reader *reader, const char *text) {
    if (text_starts(text, "\xEF\xBB\xBF"))
        text += 3;
    Buffer line;
    buffer_init(&line);
    bool fine = true;
    for (reader->line = 1; fine && *text; reader->line++) {
        size_t length = strcspn(text, "\r\n");
        buffer_clear(&line);
        buffer_add(&line, text, length);
        fine = read_line(reader, line.data);
        text += length;
        text += text[0] == '\r' && text[1] == '\n' ? 2 : *text != '\0';
    }
    buffer_finish(&line);
    return fine;
}

bool measures_read(const char *text, size_t length, const char *file, Measures *out, Fault *fault) {
    Reader reader = {.file = file, .fault = fault};
    if (!check_text(&reader, text, length))
        return false;
    Buffer whole; // the text may not end with a NUL
    buffer_init(&whole);
    buffer_add(&whole, text, length);
    bool fine = read_lines(&reader, whole.data) && check_neck(&reader);
    buffer_finish(&whole);
    if (fine)
        *out = reader.measures;
    else
        measures_finish(&reader.measures);
    return fine;
}

void measures_finish(Measures *measures) {
    for (int i = 0; i < measures->count; i++)
        mem_free(measures->items[i].name);
    mem_free(measures->items);
    *measures = (Measures){0};
}

const BodyMeasure *measures_find(const Measures *measures, const char *name) {
    for (int i = 0; i < measures->count; i++)
        if (strcmp(measures->items[i].name, name) == 0)
            return &measures->items[i];
    return NULL;
}

static void format_measure(const KnownMeasure *known, double value, char *out, size_t size) {
    if (measure_in_years(known->name))
        units_format_years(value, out, size);
    else
        units_format(value, UNITS_CM, out, size);
}

void measures_doubts(const Measures *measures, Buffer *out) {
    for (int i = 0; i < measures->count; i++) {
        const BodyMeasure *measure = &measures->items[i];
        const KnownMeasure *known = measure_known(measure->name);
        if (!known || (measure->value >= known->least && measure->value <= known->most))
            continue;
        char value[48], least[48], most[48];
        format_measure(known, measure->value, value, sizeof value);
        format_measure(known, known->least, least, sizeof least);
        format_measure(known, known->most, most, sizeof most);
        buffer_add_format(out, "%s is %s, but bodies lie between %s and %s: check the number and its unit.\n",
                          measure->name, value, least, most);
    }
}
