/* Strips without a gap. Where pieces were made to fill strips, few other sets
 * of them fill one, so that which pieces lie together is nearly told: an exact
 * cover. A size that is left takes a full strip, and strips that have its other
 * pieces go for it, over and over. Who calls lays what no full strip takes. */
#include "roll_cover.h"

#include <string.h>

enum {
    MOST_FULL = 400000, /* full strips of all heights: of more none is chosen */
    MOST_TRIED = 1000,  /* of those with one size */
    MOST_PARTS = 16,    /* sizes in one */
    MOST_PIECES = 16,   /* of a size, at the mean */
    MOST_WIDTH = 4096,  /* steps of the tables */
    STEP = 4            /* work of one step here, measured */
};

/* A full strip that the list can make. */
struct full {
    int64_t height;
    const struct roll_part *parts;
    size_t part_count;
    size_t times;    /* as it is chosen */
    size_t leaving;  /* of these, while another is tried */
    uint64_t barred; /* until that move */
};

typedef LIST(size_t) full_list;

struct cover_size {
    full_list in;     /* full strips with it */
    full_list chosen; /* of these, those that are chosen */
    size_t room;      /* pieces left, with those of strips that leave */
    int64_t weight;   /* of a piece */
};

/* One while it is filled. */
struct filled {
    struct roll_part parts[MOST_PARTS];
    size_t count;
    size_t times; /* that use its sizes up, but for one; 0: not known */
    bool odd;     /* it has that one */
};

/* All of one height. */
struct class
{
    int64_t height;
    LIST(struct roll_way) ways;
};

struct covering {
    struct arena *arena;
    struct roll_cover cover; /* the longest */
    const struct roll_problem *problem;
    LIST(struct class) classes;
    LIST(struct full) fulls; /* of all heights */
    struct cover_size *sizes;
    size_t *left;   /* by size */
    int64_t length; /* of the strips at hand */
    full_list leaving;
    unsigned char
        *reached; /* by way and width: may the ways from it on make it? */
    bool crowded; /* too many */
    bool even;    /* only strips that use all their sizes up */
    uint64_t random, work, moves;
};

/* Marsaglia, xorshift, 2003. */
static uint64_t chance(struct covering *c, uint64_t below)
{
    c->random ^= c->random << 13;
    c->random ^= c->random >> 7;
    c->random ^= c->random << 17;
    return c->random % below;
}

/* ---- the full strips of a height ---- */

static size_t class_of(struct covering *c, int64_t height)
{
    size_t k = 0;
    while (k < c->classes.count && c->classes.items[k].height != height)
        k++;
    if (k == c->classes.count)
        *LIST_ADD(c->arena, &c->classes) = (struct class){.height = height};
    return k;
}

static void add_ways(struct covering *c)
{
    for (size_t i = 0; i < c->problem->count; i++) {
        const struct roll_size *size = &c->problem->sizes[i];
        for (int way = 0; way < 2; way++) {
            const int64_t along = way == 0 ? size->width : size->height;
            const int64_t height = way == 0 ? size->height : size->width;
            if (along > c->problem->width ||
                (way == 1 && (!size->turns || along == height)))
                continue;
            const size_t k = class_of(c, height);
            *LIST_ADD(c->arena, &c->classes.items[k].ways) =
                (struct roll_way){i, along};
        }
    }
}

/* From the last way to the first: what they can fill together. */
static void reach(struct covering *c, const struct class *class)
{
    const size_t cells = (size_t)c->problem->width + 1;
    const size_t count = class->ways.count;
    memset(c->reached + count * cells, 0, cells);
    c->reached[count * cells] = 1;
    for (size_t i = count; i-- > 0;) {
        const struct roll_way *way = &class->ways.items[i];
        const unsigned char *after = c->reached + (i + 1) * cells;
        unsigned char *here = c->reached + i * cells;
        memset(here, 0, cells);
        for (size_t n = 0; n <= c->left[way->size]; n++) {
            const size_t from = n * (size_t)way->along;
            if (from >= cells)
                break;
            for (size_t w = from; w < cells; w++)
                here[w] |= after[w - from];
            c->work += cells / 8;
        }
    }
}

static void keep_full(struct covering *c, const struct class *class,
                      const struct filled *filled)
{
    struct roll_part *parts =
        ARENA_ARRAY(c->arena, struct roll_part, filled->count);
    memcpy(parts, filled->parts, filled->count * sizeof *parts);
    *LIST_ADD(c->arena, &c->fulls) = (struct full){
        .height = class->height, .parts = parts, .part_count = filled->count};
    c->crowded = c->fulls.count == MOST_FULL;
}

/* Adds pieces of one more size. Where only strips are listed that use their
 * sizes up, all but one must be used up by as many strips; false where they are
 * not. */
static bool fill_with(const struct covering *c, struct filled *filled,
                      size_t size, size_t pieces)
{
    filled->parts[filled->count++] = (struct roll_part){size, pieces};
    if (!c->even)
        return true;
    const size_t times = c->left[size] / pieces;
    if (c->left[size] % pieces == 0 &&
        (filled->times == 0 || filled->times == times)) {
        filled->times = times;
        return true;
    }
    const bool second = filled->odd;
    filled->odd = true;
    return !second && times >= filled->times;
}

/* All full strips that go on with the ways from `way` on. */
static void list_fulls(struct covering *c, const struct class *class,
                       size_t way, int64_t room, struct filled *filled)
{
    const size_t cells = (size_t)c->problem->width + 1;
    if (c->crowded || c->reached[way * cells + (size_t)room] == 0)
        return;
    c->work += 20;
    if (room == 0) {
        keep_full(c, class, filled);
        return;
    }
    const struct roll_way *next = &class->ways.items[way];
    size_t most = (size_t)(room / next->along);
    most = most < c->left[next->size] ? most : c->left[next->size];
    most = filled->count == MOST_PARTS ? 0 : most;
    for (size_t n = most + 1; n-- > 0;) {
        const size_t count = filled->count, times = filled->times;
        const bool odd = filled->odd;
        if (n == 0 || fill_with(c, filled, next->size, n))
            list_fulls(c, class, way + 1, room - next->along * (int64_t)n,
                       filled);
        filled->count = count;
        filled->times = times;
        filled->odd = odd;
    }
}

/* ---- choosing ---- */

/* By size, the full strips with it. */
static void index_fulls(struct covering *c)
{
    for (size_t f = 0; f < c->fulls.count; f++)
        for (size_t i = 0; i < c->fulls.items[f].part_count; i++) {
            const size_t size = c->fulls.items[f].parts[i].size;
            *LIST_ADD(c->arena, &c->sizes[size].in) = f;
        }
}

static int64_t area_of(const struct covering *c, size_t size)
{
    return c->problem->sizes[size].width * c->problem->sizes[size].height;
}

/* What the pieces of one strip weigh. */
static int64_t weight_of(const struct covering *c, const struct full *full)
{
    int64_t weight = 0;
    for (size_t i = 0; i < full->part_count; i++)
        weight += c->sizes[full->parts[i].size].weight *
                  (int64_t)full->parts[i].count;
    return weight;
}

/* Of the chosen strips with this size that of the least weight, but not
 * `except`, which is to come; SIZE_MAX where none is left. */
static size_t lightest(struct covering *c, size_t size, size_t except)
{
    size_t best = SIZE_MAX;
    int64_t least = INT64_MAX;
    const size_t count = c->sizes[size].chosen.count;
    for (size_t k = 0; k < count; k++) {
        const size_t f = c->sizes[size].chosen.items[k];
        const struct full *full = &c->fulls.items[f];
        if (f == except || full->times == full->leaving)
            continue;
        const int64_t weight = weight_of(c, full);
        if (weight >= least)
            continue;
        best = f;
        least = weight;
    }
    c->work += 2 * count;
    return best;
}

/* Which strips must go for `times` more of this one, in `leaving`.
 * gives: their weight; INT64_MAX where there is no room, or it would not be
 * below `limit`. */
static int64_t make_room(struct covering *c, size_t f, size_t times,
                         int64_t limit)
{
    const struct full *full = &c->fulls.items[f];
    int64_t weight = 0;
    c->leaving.count = 0;
    for (size_t i = 0; i < full->part_count; i++) {
        const struct roll_part part = full->parts[i];
        while (c->sizes[part.size].room < part.count * times) {
            const size_t other = lightest(c, part.size, f);
            if (other == SIZE_MAX || weight >= limit)
                return INT64_MAX;
            struct full *leaving = &c->fulls.items[other];
            leaving->leaving++;
            weight += weight_of(c, leaving);
            *LIST_ADD(c->arena, &c->leaving) = other;
            for (size_t k = 0; k < leaving->part_count; k++)
                c->sizes[leaving->parts[k].size].room +=
                    leaving->parts[k].count;
            c->work += 4;
        }
    }
    return weight;
}

/* All stay. */
static void forget_leaving(struct covering *c)
{
    for (size_t n = 0; n < c->leaving.count; n++) {
        struct full *full = &c->fulls.items[c->leaving.items[n]];
        full->leaving = 0;
        for (size_t k = 0; k < full->part_count; k++)
            c->sizes[full->parts[k].size].room = c->left[full->parts[k].size];
    }
}

/* One strip less. It does not come back at once (tabu search; Glover, 1989,
 * from memory). */
static void drop(struct covering *c, size_t f)
{
    struct full *full = &c->fulls.items[f];
    full->times--;
    full->barred = c->moves + 1 + chance(c, 2);
    c->length -= full->height;
    for (size_t i = 0; i < full->part_count; i++) {
        struct cover_size *size = &c->sizes[full->parts[i].size];
        c->left[full->parts[i].size] += full->parts[i].count;
        size->room = c->left[full->parts[i].size];
        size_t at = 0;
        while (size->chosen.items[at] != f)
            at++;
        if (full->times == 0)
            size->chosen.items[at] = size->chosen.items[--size->chosen.count];
    }
}

static void add(struct covering *c, size_t f, size_t times)
{
    struct full *full = &c->fulls.items[f];
    c->length += full->height * (int64_t)times;
    for (size_t i = 0; i < full->part_count; i++) {
        struct cover_size *size = &c->sizes[full->parts[i].size];
        c->left[full->parts[i].size] -= full->parts[i].count * times;
        size->room = c->left[full->parts[i].size];
        if (full->times == 0)
            *LIST_ADD(c->arena, &size->chosen) = f;
    }
    full->times += times;
}

/* How many more of them the list can make, whatever else is chosen. */
static size_t most_times(const struct covering *c, const struct full *full)
{
    size_t times = SIZE_MAX;
    for (size_t i = 0; i < full->part_count; i++) {
        const struct roll_part part = full->parts[i];
        const size_t most = c->problem->sizes[part.size].demand / part.count;
        times = most < times ? most : times;
    }
    return times - full->times;
}

/* What a strip gains, once or as often as can be. */
struct move {
    size_t full, times;
    int64_t gain;
};

static void try_full(struct covering *c, size_t f, struct move *best)
{
    const struct full *full = &c->fulls.items[f];
    const size_t most = most_times(c, full);
    for (size_t times = 1; times <= most;
         times = times < most ? most : most + 1) {
        const int64_t weight = weight_of(c, full) * (int64_t)times;
        const bool first = best->full == SIZE_MAX;
        const int64_t limit = first ? INT64_MAX : weight - best->gain;
        const int64_t lost = make_room(c, f, times, limit);
        forget_leaving(c);
        c->work += 10;
        if (lost == INT64_MAX || (!first && weight - lost <= best->gain))
            continue;
        *best = (struct move){f, times, weight - lost};
    }
}

/* Pieces that are left though nothing is gained by any strip with one of them
 * weigh more from now on (weights that grow at a local optimum; Morris, 1993,
 * from memory). */
static void add_weight(struct covering *c)
{
    enum { SLOWLY = 400 };
    for (size_t i = 0; i < c->problem->count; i++)
        if (c->left[i] > 0)
            c->sizes[i].weight += area_of(c, i) / SLOWLY + 1;
}

/* The strip with this size that gains most comes, and those go that have its
 * pieces. */
static void move_best(struct covering *c, size_t size)
{
    const size_t count = c->sizes[size].in.count, from = chance(c, count);
    struct move best = {SIZE_MAX, 0, 0};
    for (size_t n = 0; n < count && n < MOST_TRIED; n++) {
        const size_t f = c->sizes[size].in.items[(from + n) % count];
        if (c->fulls.items[f].barred <= c->moves)
            try_full(c, f, &best);
    }
    if (best.full == SIZE_MAX) {
        c->work += c->problem->count / 4 + 8; /* else it would not end */
        return;
    }
    make_room(c, best.full, best.times, INT64_MAX);
    for (size_t n = 0; n < c->leaving.count; n++)
        c->fulls.items[c->leaving.items[n]].leaving = 0;
    for (size_t n = 0; n < c->leaving.count; n++)
        drop(c, c->leaving.items[n]);
    add(c, best.full, best.times);
    if (best.gain <= 0)
        add_weight(c);
    c->work += c->problem->count / 4;
}

/* Some size that is left and that a full strip has, by chance. */
static size_t size_left(struct covering *c)
{
    const size_t count = c->problem->count, from = chance(c, count);
    for (size_t i = 0; i < count; i++) {
        const size_t size = (from + i) % count;
        if (c->left[size] > 0 && c->sizes[size].in.count > 0)
            return size;
    }
    return count;
}

static void keep_cover(struct covering *c)
{
    c->cover.length = c->length;
    c->cover.strips.count = 0;
    for (size_t f = 0; f < c->fulls.count; f++) {
        const struct full *full = &c->fulls.items[f];
        if (full->times > 0)
            *LIST_ADD(c->arena, &c->cover.strips) = (struct roll_full){
                full->height, full->parts, full->part_count, full->times};
    }
    c->work += c->fulls.count / 2;
}

/* ensures: the longest cover that was found. */
static void choose_all(struct covering *c, uint64_t work)
{
    index_fulls(c);
    while (c->work < work) {
        const size_t size = size_left(c);
        if (size == c->problem->count)
            return;
        c->moves++;
        move_best(c, size);
        if (c->length > c->cover.length)
            keep_cover(c);
    }
}

/* ---- the list ---- */

/* All full strips that the whole list can make. */
static void list_all(struct covering *c)
{
    size_t most = 0;
    for (size_t k = 0; k < c->classes.count; k++)
        most = c->classes.items[k].ways.count > most
                   ? c->classes.items[k].ways.count
                   : most;
    c->reached = ARENA_ARRAY(c->arena, unsigned char,
                             (most + 1) * ((size_t)c->problem->width + 1));
    c->crowded = false;
    c->fulls.count = 0;
    for (size_t k = 0; k < c->classes.count && !c->crowded; k++) {
        struct filled filled = {.count = 0};
        reach(c, &c->classes.items[k]);
        list_fulls(c, &c->classes.items[k], 0, c->problem->width, &filled);
    }
}

/* Where there are many pieces of each size, so many strips are full that they
 * tell nothing, and prices know better. */
static bool has_few_pieces(const struct roll_problem *problem)
{
    size_t pieces = 0;
    for (size_t i = 0; i < problem->count; i++)
        pieces += problem->sizes[i].demand;
    return pieces <= MOST_PIECES * problem->count;
}

struct roll_cover roll_cover(struct arena *arena,
                             const struct roll_problem *problem, uint64_t *work)
{
    struct covering c = {
        .arena = arena, .problem = problem, .random = 0x9E3779B97F4A7C15u};
    if (problem->width <= MOST_WIDTH && has_few_pieces(problem)) {
        c.left = ARENA_ARRAY(arena, size_t, problem->count);
        c.sizes = ARENA_ARRAY(arena, struct cover_size, problem->count);
        for (size_t i = 0; i < problem->count; i++) {
            c.left[i] = problem->sizes[i].demand;
            c.sizes[i] = (struct cover_size){.room = c.left[i],
                                             .weight = area_of(&c, i)};
        }
        add_ways(&c);
        list_all(&c);
        if (c.crowded) {
            c.even = true;
            list_all(&c);
        }
        if (!c.crowded)
            choose_all(&c, *work / STEP);
    }
    *work = c.work * STEP;
    return c.cover;
}
