// Times a redraft within one process: the recipe run again on its block and proven, with a new height every
// time and without drawing, as a page that follows the designer's changes would. Prints the median in
// milliseconds.
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "pattern/prove.h"
#include "recipe/shelf.h"
#include "script/script.h"

#define ROUNDS 200

static double now_ms(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec * 1e3 + (double)now.tv_nsec * 1e-6;
}

static int by_size(const void *a, const void *b) {
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void give_up(const Fault *fault) {
    fprintf(stderr, "bench_redraft: %s\n", fault->message);
    exit(2);
}

static double redraft_ms(const ScriptJob *job) {
    Pattern pattern = {0};
    Fault fault;
    fault_init(&fault);
    double start = now_ms();
    if (!script_run(job, &pattern, &fault))
        give_up(&fault);
    pattern_prove(&pattern, NULL, 0, NULL);
    double took = now_ms() - start;
    pattern_finish(&pattern);
    fault_finish(&fault);
    return took;
}

int main(void) {
    Shelf shelf;
    Measures body = {0};
    Fault fault;
    const Recipe *block, *collar;
    shelf_init(&shelf);
    fault_init(&fault);
    if (!shelf_find(&shelf, "blocks/close-fitting", &block, &fault) ||
        !shelf_find(&shelf, "bands/square-funnel", &collar, &fault) ||
        !shelf_measures(&shelf, "women-88", &body, &fault))
        give_up(&fault);

    const char *chain[] = {block->name, collar->name};
    double took[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        char height[16];
        snprintf(height, sizeof height, "%d mm", 60 + i % 100);
        const Setting setting = {.name = "height", .value = height};
        const ScriptJob job = {.shelf = &shelf,
                               .chain = chain,
                               .chain_count = 2,
                               .settings = &setting,
                               .setting_count = 1,
                               .body = &body,
                               .body_name = "women-88"};
        took[i] = redraft_ms(&job);
    }
    qsort(took, ROUNDS, sizeof *took, by_size);
    printf("%.4f\n", took[ROUNDS / 2]);
    measures_finish(&body);
    shelf_finish(&shelf);
    fault_finish(&fault);
    return 0;
}
