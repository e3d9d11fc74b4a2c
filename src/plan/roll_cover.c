/* Strips without a gap. Where pieces were made to fill strips, few other sets
 * of them fill one, so that which pieces lie together is nearly told: each size
 * in turn that is in the fewest full strips takes one of these, that which
 * leaves most ways to the others (exact cover, the row with the fewest choices
 * first; Knuth, 2000, from memory). Then some strips are taken back and chosen
 * anew, over and over. Who calls lays what is left. */
#include "roll_cover.h"

#include <string.h>

enum {
    MOST_FULL = 400000, /* full strips of all heights: of more none is chosen */
    MOST_TRIED = 24,    /* of those with one size */
    MOST_PARTS = 16,    /* sizes in one */
    MOST_PIECES = 16,   /* of a size, at the mean */
    MOST_WIDTH = 4096,  /* steps of the tables */
    STEP = 4            /* work of one step here, measured */
};

/* A full strip that the pieces left can make. */
struct full {
    const struct roll_part *parts;
    size_t part_count;
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
    LIST(struct full) fulls; /* first those that what is left can make */
    size_t possible;
};

struct covering {
    struct arena *arena;
    struct roll_cover cover; /* at hand */
    const struct roll_problem *problem;
    LIST(struct class) classes;
    size_t *left;    /* by size */
    size_t *choices; /* by size: full strips that hold it */
    size_t (*at)[2]; /* by size: its classes, + 1; 0: none */
    unsigned char
        *reached; /* by way and width: may the ways from it on make it? */
    size_t fulls; /* of all heights */
    bool crowded; /* too many */
    bool even;    /* only strips that use all their sizes up */
    uint64_t random, work;
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
            c->at[i][way] = k + 1;
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

static void keep_full(struct covering *c, struct class *class,
                      const struct filled *filled)
{
    struct roll_part *parts =
        ARENA_ARRAY(c->arena, struct roll_part, filled->count);
    memcpy(parts, filled->parts, filled->count * sizeof *parts);
    *LIST_ADD(c->arena, &class->fulls) = (struct full){parts, filled->count};
    c->crowded = ++c->fulls == MOST_FULL;
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
static void list_fulls(struct covering *c, struct class *class, size_t way,
                       int64_t room, struct filled *filled)
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

static bool possible(const struct full *full, const size_t *left)
{
    for (size_t i = 0; i < full->part_count; i++)
        if (full->parts[i].count > left[full->parts[i].size])
            return false;
    return true;
}

/* Puts those that can be made to the front. */
static void part_possible(struct covering *c, struct class *class, size_t among)
{
    size_t kept = 0;
    for (size_t n = 0; n < among; n++) {
        const struct full full = class->fulls.items[n];
        if (!possible(&full, c->left))
            continue;
        class->fulls.items[n] = class->fulls.items[kept];
        class->fulls.items[kept++] = full;
    }
    class->possible = kept;
    c->work += 6 * among;
}

/* What can be made of all that is left. */
static void count_choices(struct covering *c)
{
    memset(c->choices, 0, c->problem->count * sizeof *c->choices);
    for (size_t k = 0; k < c->classes.count; k++) {
        struct class *class = &c->classes.items[k];
        part_possible(c, class, class->fulls.count);
        for (size_t n = 0; n < class->possible; n++)
            for (size_t i = 0; i < class->fulls.items[n].part_count; i++)
                c->choices[class->fulls.items[n].parts[i].size]++;
    }
}

/* How often it can be cut. */
static size_t times_of(const struct full *full, const size_t *left)
{
    size_t times = SIZE_MAX;
    for (size_t i = 0; i < full->part_count; i++) {
        const struct roll_part part = full->parts[i];
        if (left[part.size] / part.count < times)
            times = left[part.size] / part.count;
    }
    return times;
}

static void use(const struct full *full, size_t *left, size_t times, bool back)
{
    for (size_t i = 0; i < full->part_count; i++) {
        const size_t pieces = full->parts[i].count * times;
        left[full->parts[i].size] += back ? pieces : (size_t)0 - pieces;
    }
}

/* Goes through all full strips that share a size with this one, which is used,
 * and takes from `choices` those that are no longer possible. ensures: how many
 * sizes that are still asked for have none left. */
static size_t lost_by(struct covering *c, const struct full *full,
                      size_t *choices)
{
    size_t touched[2 * MOST_PARTS], count = 0, lost = 0;
    for (size_t i = 0; i < 2 * full->part_count; i++) {
        const size_t k = c->at[full->parts[i / 2].size][i % 2];
        bool known = k == 0;
        for (size_t n = 0; n < count; n++)
            known |= touched[n] == k;
        if (!known)
            touched[count++] = k;
    }
    for (size_t t = 0; t < count; t++) {
        const struct class *class = &c->classes.items[touched[t] - 1];
        c->work += 6 * class->possible;
        for (size_t n = 0; n < class->possible; n++) {
            const struct full *other = &class->fulls.items[n];
            if (possible(other, c->left))
                continue;
            for (size_t i = 0; i < other->part_count; i++) {
                const size_t size = other->parts[i].size;
                if (--choices[size] == 0)
                    lost += c->left[size] > 0;
            }
        }
    }
    return lost;
}

/* The size in the fewest full strips, a little by chance; the count of sizes
 * where there is none. */
static size_t tightest(struct covering *c)
{
    size_t best = c->problem->count;
    for (size_t i = 0; i < c->problem->count; i++)
        if (c->left[i] > 0 && c->choices[i] > 0 &&
            (best == c->problem->count || c->choices[i] < c->choices[best] ||
             (c->choices[i] == c->choices[best] && chance(c, 2) == 0)))
            best = i;
    c->work += c->problem->count;
    return best;
}

/* Of the full strips with this size that which takes the last choice from the
 * fewest others. */
static const struct full *choose(struct covering *c, size_t size,
                                 struct class **of)
{
    const size_t count = c->problem->count;
    struct arena *scratch = arena_create();
    size_t *choices = ARENA_ARRAY(scratch, size_t, count);
    const struct full *best = NULL;
    uint64_t least = UINT64_MAX;
    /* Of many a part by chance. */
    const uint64_t share = c->choices[size] / MOST_TRIED + 1;
    for (int way = 0; way < 2; way++) {
        struct class *class = c->at[size][way] == 0
                                  ? NULL
                                  : &c->classes.items[c->at[size][way] - 1];
        for (size_t n = 0; class != NULL && n < class->possible; n++) {
            const struct full *full = &class->fulls.items[n];
            bool holds = false;
            for (size_t i = 0; i < full->part_count; i++)
                holds |= full->parts[i].size == size;
            if (!holds || (best != NULL && chance(c, share) > 0))
                continue;
            const size_t times = times_of(full, c->left);
            memcpy(choices, c->choices, count * sizeof *choices);
            use(full, c->left, times, false);
            const uint64_t lost = 8 * lost_by(c, full, choices) + chance(c, 8);
            use(full, c->left, times, true);
            if (lost >= least)
                continue;
            least = lost;
            best = full;
            *of = class;
        }
    }
    arena_destroy(scratch);
    return best;
}

/* Leaves out what can no longer be made. */
static void drop_impossible(struct covering *c, const struct full *used)
{
    for (size_t i = 0; i < 2 * used->part_count; i++) {
        const size_t k = c->at[used->parts[i / 2].size][i % 2];
        if (k > 0)
            part_possible(c, &c->classes.items[k - 1],
                          c->classes.items[k - 1].possible);
    }
}

static void take_full(struct covering *c, const struct full *full,
                      int64_t height)
{
    const struct full used = *full; /* which changes its place */
    const size_t times = times_of(&used, c->left);
    use(&used, c->left, times, false);
    lost_by(c, &used, c->choices);
    drop_impossible(c, &used);
    *LIST_ADD(c->arena, &c->cover.strips) =
        (struct roll_full){height, used.parts, used.part_count, times};
    c->cover.length += height * (int64_t)times;
}

/* As many full strips as what is left can make. */
static void choose_all(struct covering *c)
{
    struct class *class = NULL;
    count_choices(c);
    for (size_t size = tightest(c); size < c->problem->count;
         size = tightest(c)) {
        const struct full *full = choose(c, size, &class);
        take_full(c, full, class->height);
    }
}

/* ---- choosing anew ---- */

/* Some size that no full strip has taken, by chance. */
static size_t size_left(struct covering *c)
{
    const size_t count = c->problem->count, from = chance(c, count);
    for (size_t i = 0; i < count; i++)
        if (c->left[(from + i) % count] > 0)
            return (from + i) % count;
    return count;
}

/* Strips go by chance, and all of the heights of a size that is left. */
static void take_back(struct covering *c, size_t size)
{
    const struct roll_size *near = &c->problem->sizes[size];
    const uint64_t part = 3 + chance(c, 20);
    size_t kept = 0;
    for (size_t i = 0; i < c->cover.strips.count; i++) {
        const struct roll_full strip = c->cover.strips.items[i];
        const bool goes = strip.height == near->height ||
                          (near->turns && strip.height == near->width) ||
                          chance(c, part) == 0;
        if (!goes) {
            c->cover.strips.items[kept++] = strip;
            continue;
        }
        use(&(struct full){strip.parts, strip.part_count}, c->left, strip.times,
            true);
        c->cover.length -= strip.height * (int64_t)strip.times;
    }
    c->cover.strips.count = kept;
}

static void copy_cover(struct arena *arena, struct roll_cover *to,
                       const struct roll_cover *from)
{
    to->strips.count = 0;
    for (size_t i = 0; i < from->strips.count; i++)
        *LIST_ADD(arena, &to->strips) = from->strips.items[i];
    to->length = from->length;
}

/* ensures: the best cover in `best`. */
static void renew(struct covering *c, struct roll_cover *best, uint64_t work)
{
    const size_t count = c->problem->count;
    size_t *left = ARENA_ARRAY(c->arena, size_t, count);
    copy_cover(c->arena, best, &c->cover);
    memcpy(left, c->left, count * sizeof *left);
    while (c->work < work) {
        const size_t size = size_left(c);
        if (size == count)
            return;
        take_back(c, size);
        choose_all(c);
        if (c->cover.length < best->length) {
            copy_cover(c->arena, &c->cover, best);
            memcpy(c->left, left, count * sizeof *left);
            continue;
        }
        copy_cover(c->arena, best, &c->cover);
        memcpy(left, c->left, count * sizeof *left);
    }
}

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
    c->fulls = 0;
    for (size_t k = 0; k < c->classes.count && !c->crowded; k++) {
        struct filled filled = {.count = 0};
        c->classes.items[k].fulls.count = 0;
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
    struct roll_cover best = {.length = 0};
    struct covering c = {
        .arena = arena, .problem = problem, .random = 0x9E3779B97F4A7C15u};
    if (problem->width <= MOST_WIDTH && has_few_pieces(problem)) {
        c.left = ARENA_ARRAY(arena, size_t, problem->count);
        c.choices = ARENA_ARRAY(arena, size_t, problem->count);
        c.at = arena_alloc(arena, problem->count * sizeof *c.at);
        for (size_t i = 0; i < problem->count; i++)
            c.left[i] = problem->sizes[i].demand;
        add_ways(&c);
        list_all(&c);
        if (c.crowded) {
            c.even = true;
            list_all(&c);
        }
        if (!c.crowded) {
            choose_all(&c);
            /* Where less than half is covered, gaps are in the nature of the
             * list. */
            if (c.cover.length * 2 >= roll_area_bound(problem))
                renew(&c, &best, *work / STEP);
        }
    }
    *work = c.work * STEP;
    return best;
}
