/* Lists of which the shortest plan is known, as they are made from one: strips
 * are cut apart and the pieces shuffled. The same seed gives the same list. Two
 * reasons why no plan is shorter:
 *
 * - strips without a gap: the pieces cover all of them, and their area is the
 *   bound;
 * - wide pieces, of which both sides are longer than half the width (or a
 *   third): each strip holds one (or two) at most, and is as high as the
 *   shorter side of the highest. The longest of these sides, every one (or
 *   every second one), add up to the bound. What lies beside them is lower, and
 *   is trimmed. */
#ifndef SEAMWRIGHT_TESTS_APART_H
#define SEAMWRIGHT_TESTS_APART_H

#include "roll.h"

enum apart_kind {
    APART_FULL,   /* no gap, any widths */
    APART_NARROW, /* no gap, rolls of one to three pieces */
    APART_HALVES, /* a wide piece in each strip, lower ones beside it */
    APART_THIRDS, /* two of them */
    APART_KINDS
};

struct apart {
    struct roll_problem problem; /* trimmed */
    int64_t length;              /* of the shortest plan */
    enum apart_kind kind;
    /* while it is made */
    int64_t repeats; /* the most of a strip */
    struct roll_size *sizes;
    uint64_t random;
};

enum { APART_MOST_SIZES = 1200 };

/* A number from `low` to `high` (Marsaglia, xorshift, 2003). */
static inline int64_t apart_chance(struct apart *apart, int64_t low,
                                   int64_t high)
{
    apart->random ^= apart->random << 13;
    apart->random ^= apart->random >> 7;
    apart->random ^= apart->random << 17;
    return high <= low
               ? low
               : low + (int64_t)(apart->random % (uint64_t)(high - low + 1));
}

/* `demand` pieces more, lying one way or the other where they may turn. */
static inline void apart_add(struct apart *apart, int64_t along, int64_t height,
                             size_t demand, bool turns)
{
    struct roll_problem *problem = &apart->problem;
    const bool swapped = turns && apart_chance(apart, 0, 1) == 1;
    const int64_t width = swapped ? height : along;
    const int64_t other = swapped ? along : height;
    size_t i = 0;
    while (i < problem->count &&
           (apart->sizes[i].width != width || apart->sizes[i].height != other))
        i++;
    if (i == problem->count)
        apart->sizes[problem->count++] =
            (struct roll_size){width, other, 0, turns, ""};
    apart->sizes[i].demand += demand;
}

/* Fills the room of a strip with pieces as high as it, or lower. */
static inline void apart_fill(struct apart *apart, int64_t room, int64_t height,
                              size_t repeat, bool turns)
{
    const int64_t width = apart->problem.width;
    const bool full = apart->kind <= APART_NARROW;
    const int64_t least =
        apart->kind == APART_NARROW ? width * 3 / 10 : width / 14 + 1;
    const int64_t most =
        apart->kind == APART_NARROW ? width * 3 / 4 : width * 2 / 5;
    while (room > 0) {
        int64_t along = apart_chance(apart, least, most);
        if (along > room || room - along < least)
            along = room;
        const size_t fit = (size_t)apart_chance(apart, 1, room / along);
        const int64_t lower =
            full ? height : apart_chance(apart, height * 2 / 5 + 1, height);
        if (full || along >= least)
            apart_add(apart, along, lower, fit * repeat, turns);
        room -= along * (int64_t)fit;
    }
}

/* Strips without a gap. */
static inline void apart_full(struct apart *apart, size_t strips, bool turns)
{
    const int64_t width = apart->problem.width;
    for (size_t i = 0; i < strips; i++) {
        const int64_t height =
            apart_chance(apart, width / 20 + 1, width * 3 / 10);
        const size_t repeat = (size_t)apart_chance(apart, 1, apart->repeats);
        apart_fill(apart, width, height, repeat, turns);
        apart->length += height * (int64_t)repeat;
    }
}

/* Strips of wide pieces, each no higher than the one before. */
static inline void apart_wide(struct apart *apart, size_t strips, bool turns)
{
    const int64_t width = apart->problem.width;
    const int64_t beside = apart->kind == APART_HALVES ? 1 : 2;
    const int64_t least = width / (beside + 1) + 1;
    int64_t height = beside == 1 ? width * 4 / 5 : width / 2;
    for (size_t i = 0; i < strips && height >= least; i++) {
        const size_t repeat = (size_t)apart_chance(apart, 1, apart->repeats);
        int64_t room = width;
        apart->length += height * (int64_t)repeat;
        for (int64_t n = 0; n < beside; n++) {
            const int64_t along = beside == 1
                                      ? apart_chance(apart, height, width)
                                      : apart_chance(apart, height, width / 2);
            apart_add(apart, along, height, repeat, turns);
            room -= along;
            /* Of repeated strips, like pieces would pair among themselves. */
            if (n + 1 < beside && repeat == 1)
                height -= apart_chance(apart, 0, (height - least) / 8);
        }
        apart_fill(apart, room, height, repeat, turns);
        height -= apart_chance(apart, 0, 1 + (height - least) / 6);
    }
}

static inline void apart_shuffle(struct apart *apart)
{
    for (size_t i = apart->problem.count; i-- > 1;) {
        const size_t other = (size_t)apart_chance(apart, 0, (int64_t)i);
        const struct roll_size size = apart->sizes[i];
        apart->sizes[i] = apart->sizes[other];
        apart->sizes[other] = size;
    }
}

/* A list of a kind, cut from so many strips or, of wide pieces, from fewer. */
static inline struct apart apart_list(struct arena *arena, uint64_t seed,
                                      enum apart_kind kind, size_t strips,
                                      int64_t width)
{
    struct apart apart = {.kind = kind,
                          .random = seed * 0x9E3779B97F4A7C15u | 1};
    apart.problem.width = width;
    apart.problem.trimmed = true;
    apart.sizes = ARENA_ARRAY(arena, struct roll_size, APART_MOST_SIZES);
    for (int i = 0; i < 8; i++)
        apart_chance(&apart, 0, 1);
    const bool turns = apart_chance(&apart, 0, 2) > 0;
    apart.repeats = apart_chance(&apart, 0, 1) == 0 ? 1 : 4;
    if (kind <= APART_NARROW)
        apart_full(&apart, strips, turns);
    else
        apart_wide(&apart, strips, turns);
    apart_shuffle(&apart);
    apart.problem.sizes = apart.sizes;
    return apart;
}

/* One of a row of lists of all kinds, of few sizes and of many, on rolls of
 * different widths. */
static inline struct apart apart_any(struct arena *arena, uint64_t seed)
{
    static const int64_t widths[] = {25, 40, 84, 168, 336};
    struct apart choice = {.random = seed * 0xD1342543DE82EF95u | 1};
    for (int i = 0; i < 8; i++)
        apart_chance(&choice, 0, 1);
    const enum apart_kind kind = (enum apart_kind)(seed % APART_KINDS);
    const size_t strips = (size_t)apart_chance(&choice, 2, 24);
    return apart_list(arena, seed, kind, strips,
                      widths[apart_chance(&choice, 0, 4)]);
}

#endif
