// Pages are broken as a paragraph is broken into lines by "optimum fit" (Knuth and Plass, Breaking paragraphs
// into lines, 1981): not where the first page is full, but where the whole booklet comes out best. From left
// to right over the rows, each row keeps the cheapest way to set it at each height of a page. A row follows
// the one before it on its page, or begins the next one, which costs what the page left lacks. Where a step
// has several layouts the rows go on in each of them, and the cheapest way through the last row has chosen.
#include <assert.h>
#include <math.h>

#include "base/memory.h"
#include "booklet/paging.h"

#define PAGE_COST 40.0         // of each page
#define EMPTY_PART 0.33        // of a page: more left empty is ugly
#define EMPTY_COST 100.0       // of that part, and as its cube
#define HOLE_COST 400.0        // of more
#define LAST_COST 110.0        // of the last page of a chapter, for all of it empty
#define STUB_PART 0.2          // of a page: a chapter's last page with less than that
#define STUB_COST 60.0         //   costs that more
#define RUN_ON_COST 35.0       // of a chapter that would rather begin a page
#define CHAPTER_LEAST_PART 0.3 // of a page: a chapter begins above at least that,
#define CHAPTER_LOW_COST 250.0 //   or costs that more
#define KEEP_COST 5000.0       // of parting what is kept together: only what is taller than a page is
#define SOONEST_PART 0.3       // of a page that is filled before it is ended, where nothing else asks for it
#define STEP_MM 1.0            // of heights told apart
#define WAY_MOST 2500.0        // above the cheapest: no longer followed

typedef struct State {
    int row;
    double y; // of its lower edge
    double cost;
    int from; // index of the state before, or -1
    int next; // of the same row, or -1
    bool begins_page;
} State;

typedef struct Breaking {
    const Paging *p;
    struct {
        State *items;
        int count, capacity;
    } states;
    int *first; // index of a row's first state, or -1
    int best;   // of those of the last rows
    double best_cost;
} Breaking;

static double page_tall(const Paging *p) {
    return p->bottom - p->top;
}

// Of a page filled down to y; the last one of a chapter may have room left.
static double page_cost(const Paging *p, double y, bool last) {
    const double empty = fmax(0, (p->bottom - y) / page_tall(p));
    if (last)
        return PAGE_COST + LAST_COST * empty * sqrt(empty) + (1 - empty < STUB_PART ? STUB_COST : 0);
    return PAGE_COST + EMPTY_COST * pow(empty / EMPTY_PART, 3) + (empty > EMPTY_PART ? HOLE_COST : 0);
}

static double header_height(const Paging *p, const Row *row) {
    return row->header >= 0 ? p->rows.items[row->header].height : 0;
}

static void add_state(Breaking *b, State state) {
    const int key = (int)(state.y / STEP_MM);
    for (int i = b->first[state.row]; i >= 0; i = b->states.items[i].next) {
        State *other = &b->states.items[i];
        if ((int)(other->y / STEP_MM) != key)
            continue;
        if (state.cost < other->cost) {
            state.next = other->next;
            *other = state;
        }
        return;
    }
    state.next = b->first[state.row];
    b->first[state.row] = b->states.count;
    ARRAY_ADD(&b->states, state);
}

static void end_here(Breaking *b, int index) {
    const State *at = &b->states.items[index];
    const double cost = at->cost + page_cost(b->p, at->y, true);
    if (b->best < 0 || cost < b->best_cost) {
        b->best = index;
        b->best_cost = cost;
    }
}

static void go_on(Breaking *b, int index, int to) {
    const Paging *p = b->p;
    if (to >= p->rows.count) {
        end_here(b, index);
        return;
    }
    const State at = b->states.items[index];
    const Row *row = &p->rows.items[at.row], *next = &p->rows.items[to];
    const double y = at.y + next->before + next->height;
    const bool chapter = next->chapter != CHAPTER_NONE;
    const bool fits = y <= p->bottom;
    if (fits) {
        double cost = at.cost + next->price + (next->chapter == CHAPTER_BEGINS_PAGE ? RUN_ON_COST : 0);
        if (next->chapter == CHAPTER_BEGINS_PAGE && p->bottom - at.y < page_tall(p) * CHAPTER_LEAST_PART)
            cost += CHAPTER_LOW_COST;
        add_state(b, (State){.row = to, .y = y, .cost = cost, .from = index});
    }
    if (fits && !chapter && (row->keep || at.y - p->top < page_tall(p) * SOONEST_PART))
        return;
    add_state(b, (State){.row = to,
                         .y = p->top + header_height(p, next) + next->height,
                         .cost = at.cost + next->price + next->parting + page_cost(p, at.y, chapter) +
                                 (row->keep && !chapter ? KEEP_COST : 0),
                         .from = index,
                         .begins_page = true});
}

static void follow(Breaking *b, int row) {
    const Row *at = &b->p->rows.items[row];
    double least = INFINITY;
    for (int i = b->first[row]; i >= 0; i = b->states.items[i].next)
        least = fmin(least, b->states.items[i].cost);
    for (int i = b->first[row]; i >= 0; i = b->states.items[i].next) {
        if (b->states.items[i].cost > least + WAY_MOST)
            continue;
        if (at->joint < 0) {
            go_on(b, i, row + 1);
            continue;
        }
        const Joint *joint = &b->p->joints.items[at->joint];
        for (int k = 0; k < joint->count; k++)
            go_on(b, i, joint->ways[k]);
    }
}

// Keeps the rows on the way to the last state, in their order; rows repeated on a new page are told by where
// they come to stand.
static void keep_chosen(Paging *p, const Breaking *b) {
    int *places = mem_new(sizeof *places * (size_t)p->rows.count), count = 0;
    for (int i = b->best; i >= 0; i = b->states.items[i].from)
        count++;
    int *chosen = mem_new(sizeof *chosen * (size_t)(count + 1));
    int at = count;
    for (int i = b->best; i >= 0; i = b->states.items[i].from)
        chosen[--at] = i;
    int page = 0;
    for (int i = 0; i < count; i++) {
        const State *state = &b->states.items[chosen[i]];
        Row row = p->rows.items[state->row];
        places[state->row] = i;
        page += state->begins_page && i > 0;
        row.page = page;
        row.y = state->y - row.height;
        row.header = row.header >= 0 ? places[row.header] : -1;
        row.joint = -1;
        p->rows.items[i] = row;
    }
    p->rows.count = count;
    p->pages = page + 1;
    mem_free(chosen);
    mem_free(places);
}

double page_break(Paging *p) {
    p->pages = 1;
    if (p->rows.count == 0)
        return 0;
    Breaking b = {.p = p, .first = mem_new(sizeof *b.first * (size_t)p->rows.count), .best = -1};
    for (int i = 0; i < p->rows.count; i++)
        b.first[i] = -1;
    const Joint *start = &p->joints.items[0];
    for (int k = 0; k < start->count; k++) {
        const Row *row = &p->rows.items[start->ways[k]];
        add_state(&b, (State){.row = start->ways[k],
                              .y = p->top + row->height,
                              .cost = row->price,
                              .from = -1,
                              .begins_page = true});
    }
    for (int i = 0; i < p->rows.count; i++)
        follow(&b, i);
    assert(b.best >= 0);
    const double cost = b.best_cost;
    keep_chosen(p, &b);
    mem_free(b.states.items);
    mem_free(b.first);
    return cost;
}
