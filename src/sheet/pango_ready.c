#include "sheet/pango_ready.h"

#include <dlfcn.h>
#include <stddef.h>

static bool find(void *library, const char *name, void *place) {
    void *found = dlsym(library, name);
    if (found == NULL)
        return false;
    *(void **)place = found;
    return true;
}

// The library stays loaded: its types are registered once in a process.
const PangoReady *pango_ready(void) {
    static PangoReady pango;
    static bool tried, there;
    if (!tried) {
        tried = true;
        void *library = dlopen("libpangocairo-1.0.so.0", RTLD_NOW | RTLD_GLOBAL);
#define FIND(name) &&find(library, #name, &pango.name)
        there = library != NULL PANGO_USED(FIND);
#undef FIND
    }
    return there ? &pango : NULL;
}
