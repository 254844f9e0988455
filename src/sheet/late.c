#include "sheet/late.h"

#include <dlfcn.h>
#include <stdbool.h>
#include <stddef.h>

static bool find(void *library, const char *name, void *place) {
    void *found = dlsym(library, name);
    if (found == NULL)
        return false;
    *(void **)place = found;
    return true;
}

// Libraries stay loaded: types of pango are registered once in a process.
#define FIND(name) &&find(library, #name, &late.name)

const LateCairo *late_cairo(void) {
    static LateCairo late;
    static bool tried, there;
    if (!tried) {
        tried = true;
        void *library = dlopen("libcairo.so.2", RTLD_NOW | RTLD_GLOBAL);
        there = library != NULL LATE_CAIRO(FIND);
    }
    return there ? &late : NULL;
}

const LatePango *late_pango(void) {
    static LatePango late;
    static bool tried, there;
    if (!tried) {
        tried = true;
        void *library = dlopen("libpangocairo-1.0.so.0", RTLD_NOW | RTLD_GLOBAL);
        there = library != NULL LATE_PANGO(FIND);
    }
    return there ? &late : NULL;
}
