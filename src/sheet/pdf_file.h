// The file around the pages of a PDF: objects, fonts, catalog, cross-reference table.
#ifndef REBATO_SHEET_PDF_FILE_H
#define REBATO_SHEET_PDF_FILE_H

#include "sheet/pdf.h"

#define PDF_UNITS_PER_MM (72 / 25.4)

void pdf_write_file(PdfCanvas *pdf, const char *title, const char *subject, Buffer *out);

// A text string: in brackets where it is ASCII, else UTF-16 in hexadecimal.
void pdf_add_text(Buffer *out, const char *text);

#endif
