#include "cli/target.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/file.h"
#include "base/memory.h"
#include "base/text.h"
#include "cli/report.h"
#include "cli/tell.h"
#include "pattern/write.h"

#define SCALE_MOST 100.0 // 1:100, where a collar is as large as a thumbnail

static const struct {
    const char *ending;
    TargetKind kind;
    bool of_draft, of_weave; // whether the command writes it
} endings[] = {
    {".pdf", TARGET_PDF, true, true},          {".svg", TARGET_SVG, true, false},
    {".png", TARGET_PNG, true, false},         {".html", TARGET_HTML, false, true},
    {".pattern", TARGET_PATTERN, true, false}, {".json", TARGET_JSON, true, false},
};
enum { ENDING_COUNT = sizeof endings / sizeof *endings };

static const char *last_part(const char *file) {
    const char *slash = strrchr(file, '/');
    return slash ? slash + 1 : file;
}

static const char *ending_of(const char *file) {
    const char *name = last_part(file);
    const char *dot = strrchr(name, '.');
    return dot && dot != name ? dot : NULL;
}

static bool fail_ending(const char *file, const char *ending, Command command, Fault *fault) {
    const bool weaves = command == COMMAND_WEAVE;
    const char *names[ENDING_COUNT];
    int count = 0;
    for (int i = 0; i < ENDING_COUNT; i++) {
        if (weaves ? endings[i].of_weave : endings[i].of_draft)
            names[count++] = endings[i].ending;
        else if (ending && strcasecmp(ending, endings[i].ending) == 0) {
            fault_set(fault, NULL, 0, "rebato %s writes no %s", command_row(command)->name,
                      endings[i].ending);
            fault_set_hint(fault, "rebato %s does",
                           command_row(weaves ? COMMAND_DRAFT : COMMAND_WEAVE)->name);
            return false;
        }
    }
    const char *nearest = ending ? text_nearest(ending, names, count) : NULL;
    fault_set(fault, NULL, 0, "the ending of %s does not say what to draw", file);
    if (nearest)
        fault_set_hint(fault, "did you mean %.*s%s?", (int)(ending - file), file, nearest);
    else
        fault_set_hint(fault,
                       weaves ? "end it in .pdf or .html" : "end it in .pdf, .svg, .png, .pattern or .json");
    return false;
}

static bool target_kind(const char *file, Command command, TargetKind *out, Fault *fault) {
    const char *ending = ending_of(file);
    for (int i = 0; i < ENDING_COUNT; i++) {
        const bool fits = command == COMMAND_WEAVE ? endings[i].of_weave : endings[i].of_draft;
        if (!fits || !ending || strcasecmp(ending, endings[i].ending) != 0)
            continue;
        *out = endings[i].kind;
        return true;
    }
    return fail_ending(file, ending, command, fault);
}

static char *folder_of(const char *file) {
    const char *slash = strrchr(file, '/');
    char *folder = mem_text(slash ? file : ".");
    if (slash)
        folder[slash == file ? 1 : slash - file] = '\0';
    return folder;
}

bool target_is_writable(const char *file, const char *real, Fault *fault) {
    struct stat about;
    if (stat(real, &about) == 0 && S_ISDIR(about.st_mode)) {
        fault_set(fault, file, 0, "is a folder, so nothing can be written under that name");
        return false;
    }
    char *folder = folder_of(real);
    bool there = stat(folder, &about) == 0 && S_ISDIR(about.st_mode);
    bool open = there && access(folder, W_OK | X_OK) == 0;
    if (!there)
        fault_set(fault, file, 0, "cannot be written: there is no folder %s", folder);
    else if (!open)
        fault_set(fault, file, 0, "cannot be written: the folder %s takes no new files from you", folder);
    mem_free(folder);
    return open;
}

// One name in one folder, however the two are written; the files need not be there.
static bool same_file(const char *one, const char *other) {
    struct stat a, b;
    char *folder = folder_of(one), *other_folder = folder_of(other);
    bool same = stat(folder, &a) == 0 && stat(other_folder, &b) == 0 && a.st_dev == b.st_dev &&
                a.st_ino == b.st_ino && strcmp(last_part(one), last_part(other)) == 0;
    mem_free(folder);
    mem_free(other_folder);
    return same;
}

static bool target_is_new(const TargetList *targets, const char *file, const char *real, Fault *fault) {
    for (int i = 0; i < targets->count; i++) {
        const Target *target = &targets->items[i];
        if (!same_file(target->real, real))
            continue;
        if (strcmp(target->file, file) == 0)
            fault_set(fault, NULL, 0, "-o %s is given twice", file);
        else
            fault_set(fault, NULL, 0, "-o %s and -o %s are the same file", target->file, file);
        fault_set_hint(fault, "give each drawing a file of its own");
        return false;
    }
    return true;
}

static bool targets_add(TargetList *targets, const char *file, Command command, Fault *fault) {
    TargetKind kind;
    if (!target_kind(file, command, &kind, fault))
        return false;
    char *real = file_real(file);
    if (!target_is_writable(file, real, fault) || !target_is_new(targets, file, real, fault)) {
        mem_free(real);
        return false;
    }
    Target target = {.file = mem_text(file), .real = real, .kind = kind};
    buffer_init(&target.bytes);
    ARRAY_ADD(targets, target);
    return true;
}

// The last part of the recipe's name and .pdf: bands/square-funnel goes to square-funnel.pdf.
static bool targets_add_usual(TargetList *targets, const char *recipe, Command command, Fault *fault) {
    const char *name = last_part(recipe);
    const char *ending = ending_of(name);
    if (!*name) {
        fault_set(fault, NULL, 0, "%s is a folder or a family, not a recipe", recipe);
        fault_set_hint(fault, "rebato list tells the recipes");
        return false;
    }
    bool known = ending && (strcasecmp(ending, ".md") == 0 || strcasecmp(ending, ".pattern") == 0);
    Buffer file;
    buffer_init(&file);
    buffer_add(&file, name, known ? (size_t)(ending - name) : strlen(name));
    buffer_add_text(&file, ".pdf");
    bool fine = targets_add(targets, file.data, command, fault);
    buffer_finish(&file);
    return fine;
}

static bool read_scale(const char *text, double *out, Fault *fault) {
    double scale = 1;
    if (text) {
        char *end = NULL;
        double parts = text_starts(text, "1:") ? strtod(text + 2, &end) : 0;
        if (!end || *end || !isfinite(parts) || parts < 1 || parts > SCALE_MOST) {
            fault_set(fault, NULL, 0, "the scale %s is not understood", text);
            fault_set_hint(fault, "write it as --scale 1:4; the smallest is 1:%g", SCALE_MOST);
            return false;
        }
        scale = 1 / parts;
    }
    *out = scale;
    return true;
}

static bool read_show(const char *text, SheetShow *out, Fault *fault) {
    static const char *const names[] = {
        [SHOW_PIECES] = "pieces", [SHOW_DRAFT] = "draft", [SHOW_BOTH] = "both"};
    *out = SHOW_BOTH;
    if (!text)
        return true;
    for (int i = 0; i < 3; i++) {
        if (strcmp(text, names[i]) != 0)
            continue;
        *out = (SheetShow)i;
        return true;
    }
    const char *nearest = text_nearest(text, names, 3);
    fault_set(fault, NULL, 0, "--show %s is not understood", text);
    fault_set_hint(fault, "%s%s%s", nearest ? "did you mean " : "it is pieces, draft or both",
                   nearest ? nearest : "", nearest ? "?" : "");
    return false;
}

bool targets_plan(const Options *options, TargetList *out, Fault *fault) {
    *out = (TargetList){.show_given = options->show != NULL};
    if (!sheet_paper(options->paper ? options->paper : "a4", &out->sheet, fault) ||
        !read_scale(options->scale, &out->sheet.scale, fault) ||
        !read_show(options->show, &out->sheet.show, fault))
        return false;
    if (options->files.count == 0)
        return targets_add_usual(out, options->argument, options->command, fault);
    for (int i = 0; i < options->files.count; i++)
        if (!targets_add(out, options->files.items[i], options->command, fault))
            return false;
    return true;
}

static bool draw_sheet(Target *target, const TargetList *targets, const Pattern *pattern, Fault *fault) {
    SheetOptions sheet = targets->sheet;
    sheet.units = pattern->units;
    sheet.format = target->kind == TARGET_PDF   ? SHEET_PDF
                   : target->kind == TARGET_SVG ? SHEET_SVG
                                                : SHEET_PNG;
    if (!targets->show_given && pattern->pieces.count == 0)
        sheet.show = SHOW_DRAFT;
    return sheet_draw(pattern, &sheet, &target->bytes, &target->pages, fault);
}

bool targets_draw(TargetList *targets, const Run *run, Fault *fault) {
    const Pattern *pattern = &run->pattern;
    for (int i = 0; i < targets->count; i++) {
        Target *target = &targets->items[i];
        if (target->kind == TARGET_PATTERN)
            pattern_write(pattern, &target->bytes);
        else if (target->kind == TARGET_JSON)
            report_json(run, &target->bytes);
        else if (!draw_sheet(target, targets, pattern, fault))
            return false;
    }
    return true;
}

bool targets_write(const TargetList *targets, Fault *fault) {
    for (int i = 0; i < targets->count; i++) {
        const Target *target = &targets->items[i];
        if (!file_write(target->file, target->bytes.data, target->bytes.length, fault))
            return false;
    }
    return true;
}

void targets_tell(const TargetList *targets, Buffer *out) {
    for (int i = 0; i < targets->count; i++) {
        const Target *target = &targets->items[i];
        buffer_add_format(out, "%s%s", i == 0 ? "wrote " : ", ", target->file);
        if (target->kind == TARGET_PDF)
            buffer_add_format(out, " (%d %s)", target->pages, target->pages == 1 ? "page" : "pages");
    }
    buffer_add_char(out, '\n');
}

void targets_finish(TargetList *targets) {
    for (int i = 0; i < targets->count; i++) {
        mem_free(targets->items[i].file);
        mem_free(targets->items[i].real);
        buffer_finish(&targets->items[i].bytes);
    }
    mem_free(targets->items);
    *targets = (TargetList){0};
}

int targets_report(const TargetList *targets, const Run *run, bool json) {
    Buffer text;
    buffer_init(&text);
    if (json) {
        report_json(run, &text);
    } else {
        report_write(run, false, &text);
        targets_tell(targets, &text);
    }
    int code = tell_text(&text, pattern_holds(&run->pattern) ? EXIT_HOLDS : EXIT_FAILED);
    buffer_finish(&text);
    return code;
}
