// A run in a child process. The child sends one message through a pipe, "P LENGTH" or "F LENGTH" on a line
// and as many bytes: a pattern's text or a packed fault. The parent reads no more than it allows, waits no
// longer than it allows, and trusts nothing: a message that is not whole counts as none, and a pattern is
// checked as one from a stranger.
#define _GNU_SOURCE
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "pattern/write.h"
#include "script/child.h"
#include "script/post.h"
#include "script/run.h"

#define MESSAGE_BYTES_MAX ((size_t)16 << 20)
#define HEADER_BYTES_MAX 32

static double now_seconds(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

static void send_all(const char *bytes, size_t length) {
    while (length > 0) {
        const ssize_t sent = write(CHILD_OUT, bytes, length);
        if (sent < 0 && errno == EINTR)
            continue;
        if (sent <= 0)
            _exit(1);
        bytes += sent;
        length -= (size_t)sent;
    }
}

// The child's whole life.
static void child_live(const ScriptJob *job, bool survey) __attribute__((noreturn));
static void child_live(const ScriptJob *job, bool survey) {
    Pattern pattern = {0};
    Fault fault;
    Buffer body, header;
    fault_init(&fault);
    buffer_init(&body);
    buffer_init(&header);
    const bool fine = run_job(job, survey, &pattern, &fault);
    if (fine)
        pattern_write_bare(&pattern, &body);
    else
        fault_pack(&fault, &body);
    buffer_add_format(&header, "%c %zu\n", fine ? 'P' : 'F', body.length);
    send_all(header.data, header.length);
    send_all(body.data, body.length);
    _exit(0);
}

typedef enum Ending { ENDING_CLOSED, ENDING_LATE, ENDING_LARGE, ENDING_BROKEN } Ending;

// Reads until the child closes the pipe, the time is over, or it is too much.
static Ending read_message(int file, double until, Buffer *out) {
    char bytes[1 << 16];
    for (;;) {
        const double left = until - now_seconds();
        if (left <= 0)
            return ENDING_LATE;
        struct pollfd wait = {.fd = file, .events = POLLIN};
        const int ready = poll(&wait, 1, (int)(left * 1000) + 1);
        if (ready < 0 && errno != EINTR)
            return ENDING_BROKEN;
        if (ready <= 0)
            continue;
        const ssize_t got = read(file, bytes, sizeof bytes);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return ENDING_BROKEN;
        if (got == 0)
            return ENDING_CLOSED;
        if (out->length + (size_t)got > MESSAGE_BYTES_MAX + HEADER_BYTES_MAX)
            return ENDING_LARGE;
        buffer_add(out, bytes, (size_t)got);
    }
}

// Takes the header off; gives 'P', 'F', or 0 for a message that is not whole.
static char message_body(const Buffer *message, const char **body, size_t *length) {
    const char *end =
        memchr(message->data, '\n', message->length < HEADER_BYTES_MAX ? message->length : HEADER_BYTES_MAX);
    if (!end || message->length < 4 || (message->data[0] != 'P' && message->data[0] != 'F') ||
        message->data[1] != ' ')
        return 0;
    size_t told = 0;
    for (const char *at = message->data + 2; at < end; at++) {
        if (*at < '0' || *at > '9' || told > MESSAGE_BYTES_MAX)
            return 0;
        told = told * 10 + (size_t)(*at - '0');
    }
    *body = end + 1;
    *length = message->length - (size_t)(end + 1 - message->data);
    return told == *length ? message->data[0] : 0;
}

static double seconds_of(const ScriptJob *job) {
    return job->limits.seconds > 0 ? job->limits.seconds : LIMIT_SECONDS;
}

static size_t memory_of(const ScriptJob *job) {
    return job->limits.memory ? job->limits.memory : LIMIT_MEMORY_BYTES;
}

// Says why a child that sent nothing whole came to its end.
static void fault_of_ending(const ScriptJob *job, Ending ending, int status, Fault *fault) {
    const Recipe *recipe = shelf_held(job->shelf, job->chain[job->chain_count - 1]);
    const char *file = recipe ? recipe->file : NULL;
    const int signal_number = WIFSIGNALED(status) ? WTERMSIG(status) : 0;
    if (ending == ENDING_LATE || signal_number == SIGXCPU) {
        fault_set(fault, file, 0, "the recipe was stopped after %g s", seconds_of(job));
        fault_set_hint(fault, "it may be in a loop that never ends");
    } else if (ending == ENDING_LARGE) {
        fault_set(fault, file, 0, "the recipe's pattern is larger than %zu MB", MESSAGE_BYTES_MAX >> 20);
        fault_set_hint(fault, "it may draw in a loop that never ends");
    } else if (signal_number) {
        fault_set(fault, file, 0, "the recipe broke the interpreter (signal %d) and was stopped",
                  signal_number);
    } else if (ending == ENDING_CLOSED && WIFEXITED(status) && WEXITSTATUS(status) != 0) {
        fault_set(fault, file, 0, "the recipe used more than %zu MB", memory_of(job) >> 20);
        fault_set_hint(fault, "it may be in a loop that never ends, or make far more than it draws");
    } else {
        fault_set(fault, file, 0, "the recipe broke off without a pattern");
    }
}

static bool take_message(const ScriptJob *job, Ending ending, int status, const Buffer *message, Pattern *out,
                         Fault *fault) {
    const char *body;
    size_t length;
    const char kind = ending == ENDING_CLOSED ? message_body(message, &body, &length) : 0;
    if (kind == 'P' && pattern_read(body, length, out, fault))
        return true;
    if (kind == 'P') {
        char said[400];
        snprintf(said, sizeof said, "%s", fault->message);
        fault_set(fault, NULL, 0, "the recipe's pattern cannot be read back: %s", said);
        return false;
    }
    if (kind != 'F' || !fault_unpack(body, length, fault))
        fault_of_ending(job, ending, status, fault);
    return false;
}

static bool run_apart(const ScriptJob *job, bool survey, Pattern *out, Fault *fault) {
    int ends[2];
    if (pipe2(ends, O_CLOEXEC) != 0) {
        fault_set(fault, NULL, 0, "no pipe for the recipe's process: %s", strerror(errno));
        return false;
    }
    const double until = now_seconds() + seconds_of(job);
    const pid_t child = fork();
    if (child < 0) {
        fault_set(fault, NULL, 0, "no process for the recipe: %s", strerror(errno));
        close(ends[0]);
        close(ends[1]);
        return false;
    }
    if (child == 0) {
        child_wall_in(ends[1], memory_of(job), seconds_of(job));
        child_live(job, survey);
    }
    close(ends[1]);
    Buffer message;
    buffer_init(&message);
    const Ending ending = read_message(ends[0], until, &message);
    close(ends[0]);
    // One that is ending already keeps the reason it ends for; one that closed its end and lives on is ended
    // here.
    kill(child, SIGKILL);
    int status = 0;
    while (waitpid(child, &status, 0) < 0 && errno == EINTR)
        continue;
    const bool fine = take_message(job, ending, status, &message, out, fault);
    buffer_finish(&message);
    return fine;
}

bool script_run_apart(const ScriptJob *job, Pattern *out, Fault *fault) {
    return run_apart(job, false, out, fault);
}

bool script_survey(const ScriptJob *job, Pattern *out, Fault *fault) {
    return run_apart(job, true, out, fault);
}
