/* Few pieces of each size in many heights: a height has two or three strips,
 * and cloth is lost in the last of each. Once it is told which way each piece
 * lies, a height is a small packing of lengths into strips, soon done. So
 * pieces turn, one or two at a time, and the heights that they leave and come
 * to are packed anew; what is worse than before is kept by chance, less and
 * less (simulated annealing; Kirkpatrick, Gelatt and Vecchi, 1983, from
 * memory). All in whole numbers. */
#include "roll_turn.h"

#include <string.h>

enum {
    MOST_PIECES = 16,     /* of a size, at the mean: more are left to prices */
    MOST_WIDTH = 4096,    /* steps of the tables */
    REMEMBERED = 1 << 16, /* classes as they were packed */
    STAGES = 128,         /* of one temperature each */
    STEP = 4              /* work of one step here, measured */
};

/* Pieces of a size that lie one way. */
struct lying {
    size_t size;
    int64_t along;
    size_t count;
    size_t class; /* that of its height */
    size_t other; /* the same size turned; SIZE_MAX where it is not */
    uint64_t key; /* of a piece */
};

/* All that lies in strips of one height. */
struct class
{
    int64_t height;
    LIST(size_t) ways; /* longest first */
    int64_t load;      /* sum of the lengths */
    uint64_t key;      /* sum of the keys: what lies in it */
    int64_t strips, cost;
};

/* What the pieces with that key were packed to. */
struct packed {
    uint64_t key;
    int64_t strips, cost;
};

struct turning {
    struct arena *arena;
    const struct roll_problem *problem;
    LIST(struct class) classes;
    LIST(struct lying) lyings;
    LIST(size_t) movable; /* one way of each size that may turn */
    int64_t length, best_length;
    size_t *best; /* by lying, pieces in the shortest plan */
    /* scratch of one strip: by way of the class */
    size_t words;
    uint64_t *reached; /* a row a way, a bit for each width */
    size_t *rest, *used;
    struct packed *packed; /* by the low bits of its key */
    uint64_t random, work;
};

/* Marsaglia, xorshift, 2003. */
static uint64_t chance(struct turning *t, uint64_t below)
{
    t->random ^= t->random << 13;
    t->random ^= t->random >> 7;
    t->random ^= t->random << 17;
    return t->random % below;
}

/* ---- one strip ---- */

static bool is_reached(const uint64_t *row, int64_t at)
{
    return (row[at / 64] >> (at % 64) & 1) != 0;
}

/* Adds to a row all widths of another that are so much wider. */
static void add_wider(uint64_t *to, const uint64_t *from, size_t by,
                      size_t words)
{
    const size_t whole = by / 64, part = by % 64;
    for (size_t i = words; i-- > whole;) {
        to[i] |= from[i - whole] << part;
        if (part > 0 && i > whole)
            to[i] |= from[i - whole - 1] >> (64 - part);
    }
}

/* What the ways from `first` on can make of the room, until they fill it.
 * gives: where the last row is. */
static size_t reach(struct turning *t, const struct class *class, size_t first,
                    int64_t room)
{
    const size_t words = (size_t)room / 64 + 1;
    uint64_t *row = t->reached + first * t->words;
    memset(row, 0, words * sizeof *row);
    row[0] = 1;
    size_t i = first;
    for (; i < class->ways.count && !is_reached(row, room); i++) {
        uint64_t *next = row + t->words;
        const size_t along =
            (size_t)t->lyings.items[class->ways.items[i]].along;
        size_t most = (size_t)room / along;
        most = most < t->rest[i] ? most : t->rest[i];
        memcpy(next, row, words * sizeof *next);
        for (size_t n = 1; n <= most; n++)
            add_wider(next, row, n * along, words);
        t->work += 2 + (most > 0 ? words * (1 + most) : 0);
        row = next;
    }
    return i;
}

/* Fills one strip with the longest piece and what leaves the least gap beside
 * it (subset sums; in two strips nothing is lost by that), `used` and taken
 * from `rest`.
 * gives: what it holds. */
static int64_t fill(struct turning *t, const struct class *class, size_t first)
{
    memset(t->used, 0, class->ways.count * sizeof *t->used);
    t->used[first] = 1;
    t->rest[first]--;
    const int64_t own = t->lyings.items[class->ways.items[first]].along;
    const int64_t room = t->problem->width - own;
    size_t i = reach(t, class, first, room);
    int64_t at = room;
    while (!is_reached(t->reached + i * t->words, at))
        at--;
    const int64_t load = own + at;
    while (at > 0) {
        const int64_t along = t->lyings.items[class->ways.items[--i]].along;
        const uint64_t *row = t->reached + i * t->words;
        size_t n = 0;
        for (; !is_reached(row, at); at -= along)
            n++;
        t->used[i] += n;
        t->rest[i] -= n;
    }
    return load;
}

/* ---- one height ---- */

/* A strip costs its width less the square of its gap over the width: less
 * where it is nearly empty or nearly full, so that pieces gather. */
static int64_t cost_of(const struct turning *t, int64_t load)
{
    const int64_t width = t->problem->width, gap = width - load;
    return width * width - gap * gap;
}

/* No packing of the class costs less. */
static int64_t least_cost(const struct turning *t, const struct class *class)
{
    const int64_t width = t->problem->width;
    const int64_t full = class->load / width;
    return class->height *
           (full * width * width + cost_of(t, class->load - full * width));
}

static void add_strip(struct turning *t, const struct class *class,
                      const size_t *used, struct roll_turned *turned)
{
    struct roll_strip *strip = LIST_ADD(t->arena, &turned->strips);
    *strip = (struct roll_strip){.height = class->height, .repeat = 1};
    for (size_t i = 0; i < class->ways.count; i++) {
        const struct lying *lying = &t->lyings.items[class->ways.items[i]];
        if (used[i] > 0)
            *LIST_ADD(t->arena, &strip->cuts) =
                (struct roll_cut){lying->size, used[i], lying->along};
    }
}

/* Strips and cost of a class; `turned` gets the strips, unless NULL. */
static void pack(struct turning *t, struct class *class,
                 struct roll_turned *turned)
{
    int64_t left = class->load;
    int64_t cost = 0;
    size_t first = 0;
    class->strips = left > 0;
    t->work += 5 + class->ways.count;
    for (size_t i = 0; i < class->ways.count; i++)
        t->rest[i] = t->lyings.items[class->ways.items[i]].count;
    while (left > t->problem->width) {
        while (t->rest[first] == 0)
            first++;
        const int64_t load = fill(t, class, first);
        left -= load;
        class->strips++;
        cost += cost_of(t, load);
        if (turned != NULL)
            add_strip(t, class, t->used, turned);
    }
    class->cost = class->height * (cost + cost_of(t, left));
    if (turned != NULL && left > 0)
        add_strip(t, class, t->rest, turned);
}

/* As `pack`, or what it gave when the same pieces lay in the class before: most
 * moves come back soon. */
static void pack_again(struct turning *t, struct class *class)
{
    struct packed *packed = &t->packed[class->key % REMEMBERED];
    if (packed->key == class->key) {
        class->strips = packed->strips;
        class->cost = packed->cost;
        t->work += 3;
        return;
    }
    pack(t, class, NULL);
    *packed = (struct packed){class->key, class->strips, class->cost};
}

/* ---- turning ---- */

/* One or two turns at once, and the heights that they touch as they were. */
struct move {
    size_t from[2], pieces[2];
    size_t turns;
    size_t touched[3];
    struct class before[3];
    size_t touched_count;
};

/* A height that a move changes is noted once, with what it was, so that the
 * move can be undone. */
static void touch(const struct turning *t, struct move *move, size_t class)
{
    for (size_t i = 0; i < move->touched_count; i++)
        if (move->touched[i] == class)
            return;
    move->before[move->touched_count] = t->classes.items[class];
    move->touched[move->touched_count++] = class;
}

/* Some pieces of a size change to the other height, all together: pieces of one
 * size are the same. */
static void turn_over(struct turning *t, size_t from, size_t pieces)
{
    struct lying *a = &t->lyings.items[from], *b = &t->lyings.items[a->other];
    a->count -= pieces;
    b->count += pieces;
    struct class *left = &t->classes.items[a->class];
    struct class *taken = &t->classes.items[b->class];
    left->load -= (int64_t)pieces * a->along;
    left->key -= pieces * a->key;
    taken->load += (int64_t)pieces * b->along;
    taken->key += pieces * b->key;
}

static void add_turn(struct turning *t, struct move *move, size_t from,
                     size_t pieces)
{
    const struct lying *lying = &t->lyings.items[from];
    touch(t, move, lying->class);
    touch(t, move, t->lyings.items[lying->other].class);
    turn_over(t, from, pieces);
    move->from[move->turns] = from;
    move->pieces[move->turns++] = pieces;
}

/* Puts back what the move changed, height by height. */
static void undo(struct turning *t, const struct move *move)
{
    for (size_t n = move->turns; n-- > 0;)
        turn_over(t, t->lyings.items[move->from[n]].other, move->pieces[n]);
    for (size_t i = 0; i < move->touched_count; i++)
        t->classes.items[move->touched[i]] = move->before[i];
}

/* A piece by chance, or all of its size that lie like it; in half of the moves
 * another one leaves the height to which it came. */
static void choose_move(struct turning *t, struct move *move)
{
    move->turns = 0;
    move->touched_count = 0;
    size_t from = t->movable.items[chance(t, t->movable.count)];
    const size_t other = t->lyings.items[from].other;
    if (t->lyings.items[from].count == 0 ||
        (t->lyings.items[other].count > 0 && chance(t, 2) == 0))
        from = other;
    const struct lying *lying = &t->lyings.items[from];
    add_turn(t, move, from, chance(t, 4) == 0 ? lying->count : 1);
    if (chance(t, 2) == 0)
        return;
    const struct class *class =
        &t->classes.items[t->lyings.items[lying->other].class];
    const size_t count = class->ways.count, begin = chance(t, count);
    for (size_t i = 0; i < count; i++) {
        const size_t next = class->ways.items[(begin + i) % count];
        if (t->lyings.items[next].count == 0 ||
            t->lyings.items[next].other == SIZE_MAX)
            continue;
        add_turn(t, move, next, 1);
        return;
    }
}

/* Of exponential distribution, mean 1,024: the digits before the first one of a
 * number by chance halve the odds each, and it is straight between them. */
static int64_t patience(struct turning *t)
{
    enum { HALF = 710 }; /* 1,024 ln 2 */
    const uint64_t top = (uint64_t)1 << 40;
    uint64_t number = 1 + chance(t, top - 1);
    int64_t halves = 0;
    for (; number < top / 2; number *= 2)
        halves++;
    return HALF * halves + (int64_t)((top - number) * HALF / (top / 2));
}

/* False where it costs more than `limit`; the least that can be comes first, as
 * it is soon told. */
static bool pack_touched(struct turning *t, const struct move *move,
                         int64_t limit)
{
    int64_t cost = 0;
    for (size_t i = 0; i < move->touched_count; i++)
        cost += least_cost(t, &t->classes.items[move->touched[i]]);
    for (size_t i = 0; i < move->touched_count && cost <= limit; i++) {
        struct class *class = &t->classes.items[move->touched[i]];
        cost -= least_cost(t, class);
        pack_again(t, class);
        cost += class->cost;
    }
    return cost <= limit;
}

/* The best that was met is kept apart, as the walk may leave it again. */
static void keep_shorter(struct turning *t)
{
    if (t->length >= t->best_length)
        return;
    t->best_length = t->length;
    for (size_t i = 0; i < t->lyings.count; i++)
        t->best[i] = t->lyings.items[i].count;
    t->work += t->lyings.count / 4;
}

/* A move that makes the plan longer is taken the more seldom, the more it costs
 * and the colder it is; by whole numbers and a seeded generator, so that plans
 * are the same on every machine. */
static void try_move(struct turning *t, int64_t temperature)
{
    struct move move;
    choose_move(t, &move);
    int64_t limit = temperature / 1024 * patience(t);
    for (size_t i = 0; i < move.touched_count; i++)
        limit += move.before[i].cost;
    t->work += 20;
    if (!pack_touched(t, &move, limit)) {
        undo(t, &move);
        return;
    }
    for (size_t i = 0; i < move.touched_count; i++)
        t->length +=
            move.before[i].height *
            (t->classes.items[move.touched[i]].strips - move.before[i].strips);
    keep_shorter(t);
}

/* From a 16th of what a strip of mean height costs to a tenth of that, by the
 * same share at each stage: measured. */
static void anneal(struct turning *t, int64_t bound, uint64_t work)
{
    const int64_t width = t->problem->width;
    int64_t mean = 0;
    for (size_t k = 0; k < t->classes.count; k++) {
        pack(t, &t->classes.items[k], NULL);
        t->length += t->classes.items[k].height * t->classes.items[k].strips;
        mean += t->classes.items[k].height;
    }
    mean = mean * width * width / (int64_t)t->classes.count;
    keep_shorter(t);
    int64_t temperature = mean / 16;
    for (uint64_t stage = 0; stage < STAGES; stage++) {
        const uint64_t end = work / STAGES * (stage + 1);
        while (t->work < end && t->best_length > bound)
            try_move(t, temperature);
        temperature -= temperature / 56;
    }
}

/* ---- the list ---- */

/* gives: the way of a size that lies so; SIZE_MAX where it is too long. */
static size_t add_lying(struct turning *t, size_t size, int64_t along,
                        int64_t height)
{
    if (along > t->problem->width)
        return SIZE_MAX;
    size_t k = 0;
    while (k < t->classes.count && t->classes.items[k].height != height)
        k++;
    if (k == t->classes.count)
        *LIST_ADD(t->arena, &t->classes) = (struct class){.height = height};
    struct class *class = &t->classes.items[k];
    LIST_ADD(t->arena, &class->ways);
    size_t at = class->ways.count - 1;
    for (; at > 0; at--) {
        const size_t before = class->ways.items[at - 1];
        if (t->lyings.items[before].along >= along)
            break;
        class->ways.items[at] = before;
    }
    class->ways.items[at] = t->lyings.count;
    *LIST_ADD(t->arena, &t->lyings) =
        (struct lying){size, along, 0, k, SIZE_MAX, chance(t, UINT64_MAX)};
    return class->ways.items[at];
}

/* Its pieces lie by chance. */
static void add_size(struct turning *t, size_t index)
{
    const struct roll_size *size = &t->problem->sizes[index];
    const size_t a = add_lying(t, index, size->width, size->height);
    const size_t b = size->turns && size->width != size->height
                         ? add_lying(t, index, size->height, size->width)
                         : SIZE_MAX;
    const size_t way = a != SIZE_MAX ? a : b;
    struct lying *lying = &t->lyings.items[way];
    lying->count = size->demand;
    t->classes.items[lying->class].load += (int64_t)size->demand * lying->along;
    t->classes.items[lying->class].key += size->demand * lying->key;
    if (a == SIZE_MAX || b == SIZE_MAX)
        return;
    t->lyings.items[a].other = b;
    t->lyings.items[b].other = a;
    *LIST_ADD(t->arena, &t->movable) = a;
    turn_over(t, a, chance(t, size->demand + 1));
}

static void add_scratch(struct turning *t)
{
    size_t most = 0;
    for (size_t k = 0; k < t->classes.count; k++)
        if (t->classes.items[k].ways.count > most)
            most = t->classes.items[k].ways.count;
    t->words = (size_t)t->problem->width / 64 + 1;
    t->reached = ARENA_ARRAY(t->arena, uint64_t, (most + 1) * t->words);
    t->rest = ARENA_ARRAY(t->arena, size_t, most);
    t->used = ARENA_ARRAY(t->arena, size_t, most);
    t->packed = ARENA_ARRAY(t->arena, struct packed, REMEMBERED);
    t->best = ARENA_ARRAY(t->arena, size_t, t->lyings.count);
}

/* The shortest plan once more, now with its strips. */
static void add_strips(struct turning *t, struct roll_turned *turned)
{
    for (size_t k = 0; k < t->classes.count; k++)
        t->classes.items[k].load = 0;
    for (size_t i = 0; i < t->lyings.count; i++) {
        struct lying *lying = &t->lyings.items[i];
        lying->count = t->best[i];
        t->classes.items[lying->class].load +=
            (int64_t)lying->count * lying->along;
    }
    turned->length = 0;
    for (size_t k = 0; k < t->classes.count; k++) {
        struct class *class = &t->classes.items[k];
        pack(t, class, turned);
        turned->length += class->height * class->strips;
    }
}

struct roll_turned roll_turn(struct arena *arena,
                             const struct roll_problem *problem, int64_t bound,
                             uint64_t *work)
{
    struct turning t = {.arena = arena,
                        .problem = problem,
                        .best_length = INT64_MAX,
                        .random = 0x9E3779B97F4A7C15u};
    struct roll_turned turned = {.length = INT64_MAX};
    size_t pieces = 0;
    for (size_t i = 0; i < problem->count; i++)
        pieces += problem->sizes[i].demand;
    if (problem->width <= MOST_WIDTH && pieces <= MOST_PIECES * problem->count)
        for (size_t i = 0; i < problem->count; i++)
            add_size(&t, i);
    if (t.movable.count > 0) {
        add_scratch(&t);
        anneal(&t, bound, *work / STEP);
        add_strips(&t, &turned);
    }
    *work = t.work * STEP;
    return turned;
}
