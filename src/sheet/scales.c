#include "sheet/scales.h"

static const double scales[SCALES] = {1,        1 / 2.0,  1 / 2.5,  1 / 3.0,  1 / 4.0,  1 / 5.0,  1 / 6.0,
                                      1 / 8.0,  1 / 10.0, 1 / 12.0, 1 / 15.0, 1 / 20.0, 1 / 25.0, 1 / 30.0,
                                      1 / 40.0, 1 / 50.0, 1 / 100., 1 / 200., 1 / 500., 1e-3,     1e-4};

double scale_at(int index) {
    return scales[index];
}

double picture_scale(double width, double height, double room_width, double room_height) {
    for (int i = 0; i < SCALES; i++)
        if (width * scales[i] <= room_width && height * scales[i] <= room_height)
            return scales[i];
    return scales[SCALES - 1];
}

double picture_scale_below(double scale) {
    for (int i = 0; i < SCALES; i++)
        if (scales[i] < scale)
            return scales[i];
    return scale;
}
