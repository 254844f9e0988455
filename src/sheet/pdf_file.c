#include "sheet/pdf_file.h"

#include <inttypes.h>
#include <stdio.h>
#include <math.h>
#include <string.h>
#include <zlib.h>

#include "base/memory.h"
#include "base/text.h"
#include "sheet/number_text.h"

// Objects have fixed numbers: catalog, page tree, information, resources, then five for each font, then two
// for each page. No date of the day, no random name: the /ID is made from the bytes.

enum {
    CATALOG = 1,
    TREE,
    INFORMATION,
    RESOURCES,
    FONTS,
    FONT_OBJECTS = 5,
    FIRST_PAGE = FONTS + 2 * FONT_OBJECTS
};

typedef struct File {
    Buffer *out;
    size_t start; // of the file in out
    size_t *places;
    int objects; // the highest number + 1
    z_stream press;
} File;

void pdf_add_text(Buffer *out, const char *text) {
    bool plain = true;
    for (const char *c = text; *c != '\0'; c++)
        plain = plain && (unsigned char)*c >= 0x20 && (unsigned char)*c < 0x7f;
    if (plain) {
        buffer_add_char(out, '(');
        for (const char *c = text; *c != '\0'; c++) {
            if (strchr("()\\", *c) != NULL)
                buffer_add_char(out, '\\');
            buffer_add_char(out, *c);
        }
        buffer_add_char(out, ')');
        return;
    }
    buffer_add_text(out, "<feff");
    for (uint32_t code = text_next(&text); code != 0; code = text_next(&text)) {
        if (code > 0xffff) {
            buffer_add_format(out, "%04x%04x", (unsigned)(0xd7c0 + (code >> 10)),
                              (unsigned)(0xdc00 + (code & 0x3ff)));
            continue;
        }
        buffer_add_format(out, "%04x", (unsigned)code);
    }
    buffer_add_char(out, '>');
}

static void begin_object(File *file, int number) {
    file->places[number] = file->out->length - file->start;
    buffer_add_format(file->out, "%d 0 obj\n", number);
}

static void end_object(File *file) {
    buffer_add_text(file->out, "endobj\n");
}

// A stream with a dictionary entry of its own ("" for none), compressed.
static void add_stream(File *file, int number, const char *entry, const Buffer *bytes) {
    uLong room = deflateBound(&file->press, bytes->length);
    Buffer pressed;
    buffer_init(&pressed);
    pressed.data = mem_resize(pressed.data, room + 1);
    pressed.capacity = room + 1;
    deflateReset(&file->press);
    file->press.next_in = (Bytef *)bytes->data;
    file->press.avail_in = (uInt)bytes->length;
    file->press.next_out = (Bytef *)pressed.data;
    file->press.avail_out = (uInt)room;
    deflate(&file->press, Z_FINISH);
    pressed.length = room - file->press.avail_out;
    begin_object(file, number);
    buffer_add_format(file->out, "<< /Length %zu /Filter /FlateDecode%s >>\nstream\n", pressed.length, entry);
    buffer_add(file->out, pressed.data, pressed.length);
    buffer_add_text(file->out, "\nendstream\n");
    end_object(file);
    buffer_finish(&pressed);
}

// What each glyph says, for copying and searching.
static void add_meanings(const Subset *subset, Buffer *out) {
    buffer_add_text(
        out, "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n/CIDSystemInfo\n"
             "<< /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n/CMapName /Adobe-Identity-UCS "
             "def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n");
    enum { BLOCK = 100 };
    for (int i = 1; i < subset->count; i += BLOCK) {
        int last = i + BLOCK < subset->count ? i + BLOCK : subset->count, named = 0;
        for (int k = i; k < last; k++)
            named += subset->codes[k] != 0;
        if (named == 0)
            continue;
        buffer_add_format(out, "%d beginbfchar\n", named);
        for (int k = i; k < last; k++)
            if (subset->codes[k] != 0)
                buffer_add_format(out, "<%04x> <%04x>\n", (unsigned)k, (unsigned)subset->codes[k]);
        buffer_add_text(out, "endbfchar\n");
    }
    buffer_add_text(out, "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
}

// A font used through glyph numbers (Type 0 over CIDFontType2), its subset embedded.
static void add_font(File *file, Subset *subset, int first, const char *name) {
    Buffer bytes;
    buffer_init(&bytes);
    subset_write(subset, &bytes);
    FontFile head = font_table(subset->bold, "head"), hhea = font_table(subset->bold, "hhea");
    double k = 1000.0 / font_u16(head.bytes + 18);
    Buffer *out = file->out;
    begin_object(file, first);
    buffer_add_format(out,
                      "<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H\n"
                      "/DescendantFonts [%d 0 R] /ToUnicode %d 0 R >>\n",
                      name, first + 1, first + 4);
    end_object(file);
    begin_object(file, first + 1);
    buffer_add_format(out,
                      "<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /CIDToGIDMap /Identity\n"
                      "/CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>\n"
                      "/FontDescriptor %d 0 R /DW 0 /W [0 [",
                      name, first + 2);
    for (int i = 0; i < subset->count; i++) {
        double width = i == 0 ? FONT_MISSING_EM : font_glyph_width(subset->bold, subset->glyphs[i]);
        number_text_add(out, width * 1000, 2);
        buffer_add_char(out, ' ');
    }
    buffer_add_text(out, "]] >>\n");
    end_object(file);
    begin_object(file, first + 2);
    buffer_add_format(out,
                      "<< /Type /FontDescriptor /FontName /%s /Flags 4 /ItalicAngle 0 /StemV %d\n/FontBBox [",
                      name, subset->bold ? 120 : 80);
    for (int i = 0; i < 4; i++) {
        number_text_add(out, font_i16(head.bytes + 36 + 2 * i) * k, 0);
        buffer_add_char(out, ' ');
    }
    buffer_add_text(out, "] /Ascent ");
    number_text_add(out, font_i16(hhea.bytes + 4) * k, 0);
    buffer_add_text(out, " /Descent ");
    number_text_add(out, font_i16(hhea.bytes + 6) * k, 0);
    buffer_add_text(out, " /CapHeight ");
    number_text_add(out, FONT_CAP * 1000, 0);
    buffer_add_format(out, " /FontFile2 %d 0 R >>\n", first + 3);
    end_object(file);
    char entry[40];
    snprintf(entry, sizeof entry, " /Length1 %zu", bytes.length);
    add_stream(file, first + 3, entry, &bytes);
    buffer_clear(&bytes);
    add_meanings(subset, &bytes);
    add_stream(file, first + 4, "", &bytes);
    buffer_finish(&bytes);
}

static void add_catalog(File *file, const PdfCanvas *pdf) {
    begin_object(file, CATALOG);
    buffer_add_format(
        file->out,
        "<< /Type /Catalog /Pages %d 0 R /Lang (en)\n/ViewerPreferences << /PrintScaling /None /Duplex "
        "/Simplex /PickTrayByPDFSize true /DisplayDocTitle true >>\n/PageLabels << /Nums [",
        TREE);
    for (int i = 0; i < pdf->pages.count; i++) {
        const char *label = pdf->pages.items[i].label;
        buffer_add_format(file->out, "%d << /P ", i);
        pdf_add_text(file->out, *label != '\0' ? label : "sheet");
        buffer_add_text(file->out, " >> ");
    }
    buffer_add_text(file->out, "] >> >>\n");
    end_object(file);
    begin_object(file, TREE);
    buffer_add_format(file->out, "<< /Type /Pages /Count %d /Kids [", pdf->pages.count);
    for (int i = 0; i < pdf->pages.count; i++)
        buffer_add_format(file->out, "%d 0 R ", FIRST_PAGE + 2 * i);
    buffer_add_text(file->out, "] >>\n");
    end_object(file);
}

static void add_pages(File *file, const PdfCanvas *pdf) {
    for (int i = 0; i < pdf->pages.count; i++) {
        const PdfPage *page = &pdf->pages.items[i];
        int number = FIRST_PAGE + 2 * i;
        begin_object(file, number);
        buffer_add_format(file->out, "<< /Type /Page /Parent %d 0 R /Resources %d 0 R /MediaBox [0 0 ", TREE,
                          RESOURCES);
        number_text_add(file->out, page->width * PDF_UNITS_PER_MM, 5);
        buffer_add_char(file->out, ' ');
        number_text_add(file->out, page->height * PDF_UNITS_PER_MM, 5);
        buffer_add_format(file->out, "] /Contents %d 0 R >>\n", number + 1);
        end_object(file);
        add_stream(file, number + 1, "", &page->content);
    }
}

// FNV-1a, 64 bits: a name for these bytes, not a guard against anyone.
static uint64_t hash_bytes(const char *bytes, size_t length) {
    uint64_t hash = UINT64_C(0xcbf29ce484222325);
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ (unsigned char)bytes[i]) * UINT64_C(0x100000001b3);
    return hash;
}

static void add_table(File *file) {
    Buffer *out = file->out;
    uint64_t id = hash_bytes(out->data + file->start, out->length - file->start),
             turned = id << 32 | id >> 32;
    size_t table = out->length - file->start;
    buffer_add_format(out, "xref\n0 %d\n0000000000 65535 f \n", file->objects);
    for (int i = 1; i < file->objects; i++)
        buffer_add_format(out, "%010zu 00000 n \n", file->places[i]);
    buffer_add_format(out, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R\n", file->objects, CATALOG,
                      INFORMATION);
    buffer_add_format(out, "/ID [<%016" PRIx64 "%016" PRIx64 "> <%016" PRIx64 "%016" PRIx64 ">] >>\n", id,
                      turned, id, turned);
    buffer_add_format(out, "startxref\n%zu\n%%%%EOF\n", table);
}

void pdf_write_file(PdfCanvas *pdf, const char *title, const char *subject, Buffer *out) {
    File file = {.out = out, .start = out->length, .objects = FIRST_PAGE + 2 * pdf->pages.count};
    file.places = mem_new(sizeof *file.places * (size_t)file.objects);
    // A small window and table: streams are a few kB, and clearing the usual tables would take as long as
    // filling them.
    deflateInit2(&file.press, Z_BEST_SPEED, Z_DEFLATED, 13, 6, Z_DEFAULT_STRATEGY);
    buffer_add_text(out, "%PDF-1.6\n%\xc3\xa9\xc3\xa8\n");
    add_catalog(&file, pdf);
    begin_object(&file, INFORMATION);
    buffer_add_text(out, "<< /Title ");
    pdf_add_text(out, title);
    buffer_add_text(out, "\n/Subject ");
    pdf_add_text(out, subject);
    buffer_add_text(out, "\n/Creator (rebato) /Producer (rebato) /CreationDate (D:20000101000000Z) >>\n");
    end_object(&file);
    begin_object(&file, RESOURCES);
    buffer_add_format(out, "<< /Font << /R %d 0 R /B %d 0 R >> >>\n", FONTS, FONTS + FONT_OBJECTS);
    end_object(&file);
    add_font(&file, &pdf->fonts[0], FONTS, "AAAAAA+OpenSans");
    add_font(&file, &pdf->fonts[1], FONTS + FONT_OBJECTS, "AAAAAB+OpenSans-Semibold");
    add_pages(&file, pdf);
    add_table(&file);
    deflateEnd(&file.press);
    mem_free(file.places);
}
