/* Plans of lists of which the shortest plan is known: how many are found, how
 * far the others are above it, and how long it takes. `bench_apart` takes a
 * share of the lists; `bench_apart 500 [FIRST]` that many; `bench_apart large`
 * plans lists of 100 to 1,000 sizes, with their gap to the proved bound. Run by
 * `make bench`; the figures are to be read, no test depends on them. */
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

/* As many sizes as asked for, from strips until there are enough. */
static struct apart large_list(struct arena *arena, size_t sizes, bool trimmed,
                               uint64_t seed)
{
    struct apart apart = {0};
    for (size_t strips = sizes / 8; apart.problem.count < sizes; strips++)
        apart = apart_list(arena, seed, APART_FULL, strips, 336);
    apart.problem.count = sizes;
    apart.problem.trimmed = trimmed;
    apart.length = INT64_MAX;
    return apart;
}

static void bench_large(void)
{
    static const size_t counts[] = {100, 130, 140, 200, 300,
                                    400, 600, 800, 1000};
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
        for (int trimmed = 0; trimmed < 2; trimmed++) {
            struct arena *arena = arena_create();
            const struct apart apart =
                large_list(arena, counts[i], trimmed == 1, counts[i]);
            double time;
            const struct roll_plan *plan = plan_one(arena, &apart, &time);
            printf("%4zu sizes, %s: %lld, bound %lld, %.2f %% above it, "
                   "%.0f ms\n",
                   counts[i], trimmed == 1 ? "trimmed" : "exact",
                   (long long)plan->length, (long long)plan->bound,
                   100.0 * ((double)plan->length / (double)plan->bound - 1.0),
                   1000.0 * time);
            arena_destroy(arena);
        }
}

int main(int count, char **arguments)
{
    if (count > 1 && strcmp(arguments[1], "large") == 0)
        bench_large();
    else
        bench_known(count > 2 ? strtoull(arguments[2], NULL, 10) : 1,
                    count > 1 ? strtoull(arguments[1], NULL, 10) : 40);
    return 0;
}
