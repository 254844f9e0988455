// Fontconfig takes fonts from files only, so the program's own are put into files that live in memory and end
// with the program. Where a text needs no other font, the machine's are not looked at: it takes no time, and
// gives the same bytes everywhere.
#define _GNU_SOURCE // memfd_create
#include <fontconfig/fontconfig.h>
#include <stdio.h>
#include <sys/mman.h>
#include <unistd.h>

#include "sheet/font.h"
#include "sheet/typesetting.h"

static bool add_file(FcConfig *config, const unsigned char *bytes, size_t length) {
    const int file = memfd_create("rebato-font", MFD_CLOEXEC);
    if (file < 0)
        return false;
    size_t written = 0;
    while (written < length) {
        const ssize_t more = write(file, bytes + written, length - written);
        if (more <= 0)
            break;
        written += (size_t)more;
    }
    char path[64];
    snprintf(path, sizeof path, "/proc/self/fd/%d", file);
    if (written == length && FcConfigAppFontAddFile(config, (const FcChar8 *)path))
        return true; // the file stays open: it is read again when its letters are drawn
    close(file);
    return false;
}

static PangoFontMap *make_fonts(const PangoReady *pango, bool own_only) {
    FcConfig *config = own_only ? FcConfigCreate() : FcInitLoadConfigAndFonts();
    if (config == NULL)
        return NULL;
    size_t length;
    for (int i = 0; font_file(i, &length) != NULL; i++)
        if (!add_file(config, font_file(i, &length), length)) {
            FcConfigDestroy(config);
            return NULL;
        }
    PangoFontMap *map = pango->pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    if (map != NULL)
        pango->pango_fc_font_map_set_config((PangoFcFontMap *)map, config);
    FcConfigDestroy(config); // the map holds it
    return map;
}

// Made once for a program: fontconfig keeps what it has read of a file anyway.
PangoFontMap *typeset_fonts(const PangoReady *pango, bool own_only) {
    static PangoFontMap *maps[2];
    if (maps[own_only] == NULL)
        maps[own_only] = make_fonts(pango, own_only);
    return maps[own_only];
}
