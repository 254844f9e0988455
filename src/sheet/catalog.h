// What cairo cannot say in a PDF: that it is printed at its true size, its language, what its figures show.
// Added to finished bytes by an incremental update.
#ifndef REBATO_SHEET_CATALOG_H
#define REBATO_SHEET_CATALOG_H

#include <stdbool.h>

#include "base/buffer.h"

// Adds to the catalog of a PDF made by cairo: no scaling in the print dialog, one-sided, paper tray by page
// size, the title shown, the language; and an /ID made from the bytes. False when the bytes are not as cairo
// writes them; pdf is untouched then.
bool catalog_add_true_scale(Buffer *pdf);

// For a PDF to read: the title shown, the language of that tag, an /ID, and to the figures of its structure,
// in their order, the texts that say what they show (ISO 32000-1, 14.9.3).
bool catalog_add_reading(Buffer *pdf, const char *language, const char *const *figures, int count);

#endif
