// The report in JSON, one stable shape for draft and check.
#ifndef REBATO_PATTERN_REPORT_H
#define REBATO_PATTERN_REPORT_H

#include "base/buffer.h"
#include "pattern/pattern.h"

// Lengths in mm, areas in mm2, angles in degrees; outlines flattened to 0.01 mm.
void pattern_report_json(const Pattern *pattern, Buffer *out);

void json_add_text(Buffer *out, const char *text); // quoted and escaped
void json_add_number(Buffer *out, double value);   // shortest form that keeps 0.0001

#endif
