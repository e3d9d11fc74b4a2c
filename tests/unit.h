/* What every test program of the project begins with. */
#ifndef SEAMWRIGHT_TESTS_UNIT_H
#define SEAMWRIGHT_TESTS_UNIT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "arena.h"

/* Group fixtures: an arena as the state of each test. */
static inline int unit_arena(void **state)
{
    *state = arena_create();
    return 0;
}

static inline int unit_arena_end(void **state)
{
    arena_destroy(*state);
    return 0;
}

/* A small generator (xorshift), the same numbers on every run and machine. */
struct unit_random {
    uint64_t state; /* not 0 */
};

static inline uint64_t unit_next(struct unit_random *random)
{
    random->state ^= random->state << 13;
    random->state ^= random->state >> 7;
    random->state ^= random->state << 17;
    return random->state;
}

/* ensures: a number from 0 to limit - 1. */
static inline int64_t unit_below(struct unit_random *random, uint64_t limit)
{
    return (int64_t)(unit_next(random) % limit);
}

#define UNIT_COUNT(array) (sizeof(array) / sizeof(array)[0])

#endif
