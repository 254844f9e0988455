// The reference of the language as a PDF: every word with its example and what that draws and tells.
#ifndef REBATO_CLI_BOOK_H
#define REBATO_CLI_BOOK_H

#include "cli/target.h"

// The words of a subject, or all for NULL. Fills fault where the target is no PDF.
bool book_target(const char *subject, const SheetOptions *sheet, Target *target, Fault *fault);

#endif
