#include "base/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/memory.h"

#define LINKS_MOST 40 // as the kernel follows

bool file_exists(const char *path) {
    struct stat about;
    return stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

static bool fail(Fault *fault, const char *path, const char *what) {
    fault_set(fault, path, 0, "%s: %s", what, strerror(errno));
    return false;
}

// Reads to the end, since a file may grow between asking its size and reading it; false past limit or on
// error.
static bool read_all(int from, size_t limit, Buffer *out, bool *too_long) {
    char piece[16384];
    for (;;) {
        ssize_t got = read(from, piece, sizeof piece);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return got == 0;
        if ((size_t)got > limit - out->length) {
            *too_long = true;
            return false;
        }
        buffer_add(out, piece, (size_t)got);
    }
}

bool file_read(const char *path, size_t limit, Buffer *out, Fault *fault) {
    int from = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY); // a FIFO must not hold the program
    if (from < 0)
        return fail(fault, path, "cannot be opened");
    struct stat about;
    if (fstat(from, &about) != 0 || !S_ISREG(about.st_mode)) {
        close(from);
        fault_set(fault, path, 0, "is not a plain file");
        return false;
    }
    Buffer read;
    buffer_init(&read);
    bool too_long = false;
    bool fine = read_all(from, limit, &read, &too_long);
    if (!fine && too_long)
        fault_set(fault, path, 0, "is longer than %zu bytes, the most that is read", limit);
    else if (!fine)
        fail(fault, path, "cannot be read");
    close(from);
    if (fine)
        buffer_add(out, read.data, read.length);
    buffer_finish(&read);
    return fine;
}

static bool write_all(int to, const char *bytes, size_t length) {
    while (length > 0) {
        ssize_t put = write(to, bytes, length);
        if (put < 0 && errno == EINTR)
            continue;
        if (put < 0)
            return false;
        bytes += put;
        length -= (size_t)put;
    }
    return true;
}

static bool write_in_place(const char *path, const void *bytes, size_t length, Fault *fault) {
    int to = open(path, O_WRONLY | O_CLOEXEC | O_NOCTTY);
    if (to < 0)
        return fail(fault, path, "cannot be opened for writing");
    bool fine = write_all(to, bytes, length) || fail(fault, path, "cannot be written");
    close(to);
    return fine;
}

// The mode a new file gets: that of the file it replaces, or the usual one less the user's mask.
static mode_t mode_for(const struct stat *old) {
    if (old)
        return old->st_mode & 07777;
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

static bool fail_there(Fault *fault, const char *path) {
    fault_set(fault, path, 0, "is there already, and is left as it is");
    fault_set_hint(fault, "give another name, or move what is there away");
    return false;
}

// Gives the finished file its name. A new one takes it only where nothing has it: link, unlike rename, never
// replaces. A file system without links is asked beforehand.
static bool take_name(const char *beside, const char *path, bool fresh) {
    if (!fresh)
        return rename(beside, path) == 0;
    if (link(beside, path) == 0) {
        unlink(beside);
        return true;
    }
    struct stat about;
    if (errno == EEXIST || lstat(path, &about) == 0) {
        errno = EEXIST;
        return false;
    }
    return rename(beside, path) == 0;
}

static bool write_beside(const char *path, const struct stat *old, bool fresh, const void *bytes,
                         size_t length, Fault *fault) {
    Buffer beside;
    buffer_init(&beside);
    buffer_add_format(&beside, "%s.XXXXXX", path);
    int to = mkstemp(beside.data);
    bool made = to >= 0;
    bool fine = made && fchmod(to, mode_for(old)) == 0 && write_all(to, bytes, length) && fsync(to) == 0;
    if (made && close(to) != 0)
        fine = false;
    fine = fine && take_name(beside.data, path, fresh);
    if (!fine) {
        if (fresh && made && errno == EEXIST)
            fail_there(fault, path);
        else
            fail(fault, path, "cannot be written");
        if (made)
            unlink(beside.data);
    }
    buffer_finish(&beside);
    return fine;
}

bool file_write_new(const char *path, const void *bytes, size_t length, Fault *fault) {
    struct stat about;
    if (lstat(path, &about) == 0)
        return fail_there(fault, path);
    return write_beside(path, NULL, true, bytes, length, fault);
}

// A link's own text counts from the folder that the link lies in.
static char *link_next(const char *path) {
    char text[PATH_MAX];
    ssize_t length = readlink(path, text, sizeof text - 1);
    if (length <= 0) // no link
        return NULL;
    text[length] = '\0';
    const char *slash = strrchr(path, '/');
    Buffer next;
    buffer_init(&next);
    if (text[0] != '/' && slash)
        buffer_add(&next, path, (size_t)(slash + 1 - path));
    buffer_add_text(&next, text);
    char *copy = mem_text(next.data);
    buffer_finish(&next);
    return copy;
}

char *file_real(const char *path) {
    char *real = mem_text(path);
    for (int i = 0; i < LINKS_MOST; i++) {
        char *next = link_next(real);
        if (!next)
            break;
        mem_free(real);
        real = next;
    }
    return real;
}

bool file_write(const char *path, const void *bytes, size_t length, Fault *fault) {
    if (strcmp(path, "-") == 0) {
        fflush(stdout);
        return write_all(STDOUT_FILENO, bytes, length) || fail(fault, "standard output", "cannot be written");
    }
    struct stat about;
    bool exists = stat(path, &about) == 0;
    if (exists && S_ISDIR(about.st_mode)) {
        fault_set(fault, path, 0, "is a folder, so nothing can be written under that name");
        return false;
    }
    if (exists && !S_ISREG(about.st_mode)) // a device or a pipe has no "beside"
        return write_in_place(path, bytes, length, fault);
    char *real = file_real(path);
    bool fine = write_beside(real, exists ? &about : NULL, false, bytes, length, fault);
    mem_free(real);
    if (!fine && fault->file && strcmp(fault->file, path) != 0) {
        mem_free(fault->file);
        fault->file = mem_text(path);
    }
    return fine;
}
