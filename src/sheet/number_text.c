#include "sheet/number_text.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>

// Written digit by digit from a whole number: many thousand go into a drawing, and printf takes ten times as
// long.
void number_text_add(Buffer *out, double value, int decimals) {
    static const long long tens[] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    assert(decimals >= 0 && decimals <= 6 && fabs(value) <= 1e9);
    long long whole = llround(value * (double)tens[decimals]);
    bool below = whole < 0;
    if (below)
        whole = -whole;
    while (decimals > 0 && whole % 10 == 0) {
        whole /= 10;
        decimals--;
    }
    char text[40];
    int at = sizeof text;
    for (int i = 0; i < decimals; i++, whole /= 10)
        text[--at] = (char)('0' + whole % 10);
    if (decimals > 0)
        text[--at] = '.';
    do {
        text[--at] = (char)('0' + whole % 10);
        whole /= 10;
    } while (whole > 0);
    if (below)
        text[--at] = '-';
    buffer_add(out, text + at, sizeof text - (size_t)at);
}

void scale_text(double scale, char *out, size_t size) {
    if (scale <= 1)
        snprintf(out, size, "1:%.4g", 1 / scale);
    else
        snprintf(out, size, "%.4g:1", scale);
}
