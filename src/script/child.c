// The second wall. The state is sealed already (sandbox.c) and its memory and work are counted (ledger.c);
// what stands here is for the day a recipe finds a hole in the interpreter itself. It runs in a child process
// (apart.c), which gives up, before it runs the recipe, all that it has no use for:
//
//   close_files      every descriptor but the pipe its message goes out by, so that nothing of the parent's
//   can
//                    be read or written
//   limit_resources  memory, processor time, files of no bytes, no core; each kills or fails only the child
//   refuse_calls     every system call but those for memory, that pipe and the way out: what is refused fails
//   as
//                    not permitted, so that the C library goes on and tells it as an ordinary failure
//
// and it dies with its parent. The order matters: closing files and setting limits are calls that the last
// wall refuses, so that one comes last; the memory limit is counted from what is mapped at the time.
//
// What never changes: no wall is taken for granted. Where the system has none of a kind (no libseccomp, a
// kernel that refuses filters) the run goes on behind the others, and the parent trusts nothing it is sent.
#define _GNU_SOURCE
#include "script/child.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#ifdef HAVE_SECCOMP
#include <seccomp.h>
#endif

// A sanitizer maps far more than it uses and calls what it likes: its runs go without those two walls.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define WATCHED 1
#else
#define WATCHED 0
#endif

// Room beside the limit of the ledger: the writing of the pattern, and blocks the allocator keeps.
#define MEMORY_SLACK ((size_t)256 << 20)

static void limit(int resource, rlim_t most) {
    const struct rlimit rule = {.rlim_cur = most, .rlim_max = most};
    setrlimit(resource, &rule);
}

// The bytes mapped already.
static size_t mapped_bytes(void) {
    unsigned long pages = 0;
    FILE *file = fopen("/proc/self/statm", "r");
    if (!file)
        return (size_t)1 << 30;
    if (fscanf(file, "%lu", &pages) != 1)
        pages = ((unsigned long)1 << 30) / 4096;
    fclose(file);
    return pages * (size_t)sysconf(_SC_PAGESIZE);
}

static void limit_resources(size_t memory, double seconds) {
    if (!WATCHED)
        limit(RLIMIT_AS, mapped_bytes() + 2 * memory + MEMORY_SLACK);
    limit(RLIMIT_CPU, (rlim_t)ceil(seconds) + 1);
    limit(RLIMIT_CORE, 0);
    limit(RLIMIT_FSIZE, 0);
    limit(RLIMIT_NOFILE, CHILD_OUT + 1);
}

static void close_files(int out) {
    if (out != CHILD_OUT)
        dup2(out, CHILD_OUT);
    if (syscall(SYS_close_range, CHILD_OUT + 1, ~0U, 0) == 0)
        return;
    const long most = sysconf(_SC_OPEN_MAX);
    for (int file = CHILD_OUT + 1; file < (most > 0 ? most : 1024); file++)
        close(file);
}

static void default_signals(void) {
    static const int signals[] = {SIGSEGV, SIGBUS,  SIGFPE,  SIGILL, SIGABRT,
                                  SIGXCPU, SIGTERM, SIGPIPE, SIGSYS};
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++)
        signal(signals[i], SIG_DFL);
}

#ifdef HAVE_SECCOMP
// Memory, the one descriptor, and the way out; anything else fails as if it were not allowed.
static void refuse_calls(void) {
    static const int calls[] = {
        SCMP_SYS(exit_group),     SCMP_SYS(exit),          SCMP_SYS(brk),    SCMP_SYS(munmap),
        SCMP_SYS(mremap),         SCMP_SYS(madvise),       SCMP_SYS(futex),  SCMP_SYS(rt_sigreturn),
        SCMP_SYS(rt_sigprocmask), SCMP_SYS(getrandom),     SCMP_SYS(getpid), SCMP_SYS(gettid),
        SCMP_SYS(tgkill),         SCMP_SYS(clock_gettime),
    };
    scmp_filter_ctx filter = seccomp_init(SCMP_ACT_ERRNO(1));
    if (!filter)
        return;
    for (size_t i = 0; i < sizeof calls / sizeof *calls; i++)
        seccomp_rule_add(filter, SCMP_ACT_ALLOW, calls[i], 0);
    seccomp_rule_add(filter, SCMP_ACT_ALLOW, SCMP_SYS(write), 1, SCMP_A0(SCMP_CMP_EQ, CHILD_OUT));
    // Memory that can be run is never wanted.
    seccomp_rule_add(filter, SCMP_ACT_ALLOW, SCMP_SYS(mmap), 1, SCMP_A2(SCMP_CMP_MASKED_EQ, PROT_EXEC, 0));
    seccomp_rule_add(filter, SCMP_ACT_ALLOW, SCMP_SYS(mprotect), 1,
                     SCMP_A2(SCMP_CMP_MASKED_EQ, PROT_EXEC, 0));
    seccomp_load(filter); // a kernel that cannot leaves the other walls
    seccomp_release(filter);
}
#endif

void child_wall_in(int out, size_t memory, double seconds) {
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0);
    default_signals();
    close_files(out);
    limit_resources(memory, seconds);
#ifdef HAVE_SECCOMP
    if (!WATCHED)
        refuse_calls();
#endif
}
