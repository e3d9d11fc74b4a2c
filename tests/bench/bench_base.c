/* How long the operations of the base stage take, in nanoseconds each. Run by
 * `make bench`; the figures are to be read, no test depends on them. */
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "arena.h"
#include "length.h"

enum { ROUNDS = 200000 };

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

/* `sum` is printed so that the work is not optimised away. */
static void report(const char *what, double start, int rounds, int64_t sum)
{
    printf("%-36s %8.0f ns   (sum %lld)\n", what,
           (seconds() - start) * 1e9 / rounds, (long long)sum);
}

static void bench_arithmetic(void)
{
    const double start = seconds();
    struct rational sum = rational_whole(0);
    for (int i = 0; i < ROUNDS; i++)
        sum = rational_round_up(rational_add(sum, rational_make(i % 97, 64)),
                                rational_make(1, 8));
    report("add and round up", start, ROUNDS, sum.num);
}

static void bench_root2(int64_t inches, int rounds)
{
    const double start = seconds();
    int64_t sum = 0;
    for (int i = 0; i < rounds; i++)
        sum +=
            rational_round_up_root2(rational_make(1, 2), rational_whole(inches),
                                    rational_make(1, 8))
                .num;
    char what[40];
    snprintf(what, sizeof what, "round up %lld root 2", (long long)inches);
    report(what, start, rounds, sum);
}

static void bench_reading(const char *text)
{
    const double start = seconds();
    const size_t length = strlen(text);
    int64_t sum = 0;
    for (int i = 0; i < ROUNDS; i++)
        sum += length_parse(text, length, UNIT_IN).value.num;
    char what[40];
    snprintf(what, sizeof what, "read `%s`", text);
    report(what, start, ROUNDS, sum);
}

static void bench_printing(void)
{
    struct arena *arena = arena_create();
    const double start = seconds();
    int64_t sum = 0;
    for (int i = 0; i < ROUNDS; i++)
        sum += length_glyphs(arena, rational_make(i, 32), UNIT_IN)[0];
    report("print a length", start, ROUNDS, sum);
    arena_destroy(arena);
}

int main(void)
{
    bench_arithmetic();
    bench_root2(12, ROUNDS);
    bench_root2(120, ROUNDS / 10);
    bench_root2(10000, ROUNDS / 1000);
    bench_reading("2 1/2");
    bench_reading("12 17/32 in");
    bench_reading("6.35 cm");
    bench_printing();
    return 0;
}
