/* Plans of lists of which the shortest plan is known: how many are found, how
 * far the others are above it, and how long it takes. `bench_apart` takes a
 * share of the lists; `bench_apart 500 [FIRST]` that many; `bench_apart large`
 * plans lists of 100 to 1,000 sizes (or so many), with their gap to the bound.
 * Run by `make bench`; the figures are to be read, no test depends on them. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "../plan/apart.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

/* Of the lists of one kind, or of all. */
struct sums {
    size_t lists, equal, within, proved;
    double worst, sum, slowest, time;
};

static void count_list(struct sums *sums, const struct roll_plan *plan,
                       int64_t length, double time)
{
    const double over = 100.0 * ((double)plan->length / (double)length - 1.0);
    sums->lists++;
    sums->equal += plan->length <= length;
    sums->within += over <= 1.5;
    sums->proved += plan->length == plan->bound;
    sums->worst = over > sums->worst ? over : sums->worst;
    sums->sum += over;
    sums->slowest = time > sums->slowest ? time : sums->slowest;
    sums->time += time;
}

static void print_sums(const char *name, const struct sums *sums)
{
    const double lists = (double)sums->lists;
    printf("%-8s %4zu lists, %5.1f %% as short, %5.1f %% proved, %5.1f %% "
           "within 1.5 %%; mean %5.2f %%, worst %5.2f %%; mean %4.0f ms, "
           "worst %4.0f ms\n",
           name, sums->lists, 100.0 * (double)sums->equal / lists,
           100.0 * (double)sums->proved / lists,
           100.0 * (double)sums->within / lists, sums->sum / lists, sums->worst,
           1000.0 * sums->time / lists, 1000.0 * sums->slowest);
}

/* Plans it, and ends where the plan is none. */
static const struct roll_plan *plan_one(struct arena *arena,
                                        const struct apart *apart, double *time)
{
    const double start = seconds();
    const struct roll_plan *plan =
        plan_roll(arena, &apart->problem, roll_work(&apart->problem));
    *time = seconds() - start;
    if (plan == NULL || !roll_plan_holds(&apart->problem, plan) ||
        plan->bound > apart->length) {
        printf("a plan does not hold its pieces, or its bound is wrong\n");
        exit(1);
    }
    return plan;
}

static void bench_known(uint64_t first, uint64_t count)
{
    static const char *const names[APART_KINDS] = {"full", "narrow", "halves",
                                                   "thirds"};
    struct sums sums[APART_KINDS + 1] = {{0}};
    for (uint64_t seed = first; seed < first + count; seed++) {
        struct arena *arena = arena_create();
        const struct apart apart = apart_any(arena, seed);
        double time;
        const struct roll_plan *plan = plan_one(arena, &apart, &time);
        if (getenv("APART_EACH") != NULL)
            printf("%llu %s: %zu sizes, width %lld, turns %d: %lld (%lld) of "
                   "%lld, %.0f ms\n",
                   (unsigned long long)seed, names[apart.kind],
                   apart.problem.count, (long long)apart.problem.width,
                   apart.sizes[0].turns, (long long)plan->length,
                   (long long)plan->bound, (long long)apart.length,
                   1000.0 * time);
        count_list(&sums[apart.kind], plan, apart.length, time);
        count_list(&sums[APART_KINDS], plan, apart.length, time);
        arena_destroy(arena);
    }
    for (size_t kind = 0; kind < APART_KINDS; kind++)
        if (sums[kind].lists > 0)
            print_sums(names[kind], &sums[kind]);
    print_sums("all", &sums[APART_KINDS]);
}

/* Cut from strips without a gap, until there are about so many sizes. */
static struct apart cut_list(struct arena *arena, size_t sizes)
{
    struct apart apart = {0};
    for (size_t strips = sizes / 8; apart.problem.count < sizes * 19 / 20;
         strips++)
        apart = apart_list(arena, sizes, APART_FULL, strips, 336);
    return apart;
}

/* As quilts ask for: sides from 1 to 12 1/2 in, in quarters, on cloth of 42 in,
 * 4 to 100 pieces of each size, most of which may turn. */
static struct apart quilt_list(struct arena *arena, size_t sizes)
{
    struct apart apart = {.length = INT64_MAX,
                          .random = sizes * 0x9E3779B97F4A7C15u | 1};
    apart.problem.width = 168;
    apart.sizes = ARENA_ARRAY(arena, struct roll_size, sizes + 1);
    while (apart.problem.count < sizes) {
        const bool turns = apart_chance(&apart, 0, 9) > 0;
        const int64_t along = apart_chance(&apart, 4, 50);
        const int64_t height = apart_chance(&apart, 4, 50);
        apart_add(&apart, along, height, (size_t)apart_chance(&apart, 4, 100),
                  turns);
    }
    apart.problem.sizes = apart.sizes;
    return apart;
}

static void bench_large(size_t only)
{
    static const size_t counts[] = {100, 130, 140, 200, 300,
                                    400, 600, 800, 1000};
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
        for (int kind = 0; kind < 4; kind++) {
            struct arena *arena = arena_create();
            const bool cut = kind < 2, trimmed = kind % 2 == 1;
            if (only > 0 && only != counts[i])
                continue;
            struct apart apart =
                cut ? cut_list(arena, counts[i]) : quilt_list(arena, counts[i]);
            apart.problem.trimmed = trimmed;
            double time;
            const struct roll_plan *plan = plan_one(arena, &apart, &time);
            printf("%4zu sizes, %s, %s: %lld, bound %lld, %.2f %% above it, "
                   "%.0f ms\n",
                   apart.problem.count, cut ? "cut apart" : "as quilts ask",
                   trimmed ? "trimmed" : "exact", (long long)plan->length,
                   (long long)plan->bound,
                   100.0 * ((double)plan->length / (double)plan->bound - 1.0),
                   1000.0 * time);
            fflush(stdout);
            arena_destroy(arena);
        }
}

int main(int count, char **arguments)
{
    if (count > 1 && strcmp(arguments[1], "large") == 0)
        bench_large(count > 2 ? strtoull(arguments[2], NULL, 10) : 0);
    else
        bench_known(count > 2 ? strtoull(arguments[2], NULL, 10) : 1,
                    count > 1 ? strtoull(arguments[1], NULL, 10) : 40);
    return 0;
}
