// The scales that people draw at.
#ifndef REBATO_SHEET_SCALES_H
#define REBATO_SHEET_SCALES_H

enum { SCALES = 21 };

double scale_at(int index); // the largest, 1:1, is the first of SCALES

// The largest at which width by height (mm) has room; the smallest where none is small enough.
double picture_scale(double width, double height, double room_width, double room_height);
double picture_scale_below(double scale); // the next smaller one; the same where there is none

#endif
