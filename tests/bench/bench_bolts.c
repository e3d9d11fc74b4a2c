/* Lengths from rolls: plans of published and of computed instances against the
 * values that are known of them. Reads the files *.txt of the folder that
 * SEAMWRIGHT_KITS names, one line for each, with those that differ before it;
 * told and passed over where it is absent. `bench_bolts WORD` reads only files
 * whose name has the word. Run by `make bench`, to be read: no test depends on
 * it. */
#include <dirent.h>
#include <time.h>

#include "../plan/bolts_cloths.h"
#include "../plan/bolts_instances.h"

/* Of this process, so that a busy machine counts for nothing. */
static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

/* Of one file. */
struct sums {
    size_t instances, equal, known, proven, over;
    double time, slowest;
};

/* Is each merit that is known equal to that of the plan? `over` gets by how
 * many rolls the plan is above. */
static bool is_equal(const struct bolts_instance *instance,
                     const struct bolts_plan *plan, long *over)
{
    *over = 0;
    if (instance->infeasible || plan->end != BOLTS_PLANNED)
        return instance->infeasible && plan->end == BOLTS_NO_PLAN;
    if (instance->fewest >= 0) {
        *over = (long)plan->merit[BOLT_OPENED] - instance->fewest;
        return *over == 0;
    }
    if (instance->opened < 0)
        return true;
    *over = (long)plan->merit[BOLT_COST] - instance->bought;
    return *over == 0 && plan->merit[BOLT_LOST] == instance->lost &&
           plan->merit[BOLT_OPENED] == instance->opened;
}

/* Rolls of one length: each that is opened is bought. */
static bool is_proven(const struct bolts_plan *plan)
{
    return plan->end == BOLTS_NO_PLAN ||
           (plan->end == BOLTS_PLANNED && plan->proven[BOLT_OPENED]);
}

/* Merits with their bounds, in the order of the plan. */
static void tell(const struct bolts_instance *instance,
                 const struct bolts_plan *plan, double time)
{
    printf("  %s: %zu cuts, %zu rolls", instance->name,
           instance->problem.cut_count, instance->problem.roll_count);
    if (instance->fewest >= 0)
        printf(", fewest %ld", instance->fewest);
    else if (instance->opened >= 0)
        printf(", bought %ld, lost %ld, opened %ld", instance->bought,
               instance->lost, instance->opened);
    if (plan->end == BOLTS_PLANNED)
        printf("; plan %lld (%lld), %lld (%lld), %lld (%lld)",
               (long long)plan->merit[BOLT_COST],
               (long long)plan->bound[BOLT_COST],
               (long long)plan->merit[BOLT_LOST],
               (long long)plan->bound[BOLT_LOST],
               (long long)plan->merit[BOLT_OPENED],
               (long long)plan->bound[BOLT_OPENED]);
    printf("; end %d, %.0f ms\n", (int)plan->end, 1000.0 * time);
}

/* The plan is judged before it is counted. */
static void bench_instance(struct bolts_instance *instance, struct sums *sums)
{
    struct arena *arena = arena_create();
    long over;
    if (instance->fewest >= 0) /* the literature's: bought, without limit */
        instance->rolls[0].cost = 1;
    const double start = seconds();
    const struct bolts_plan *plan =
        plan_bolts(arena, &instance->problem, BOLTS_WORK);
    const double time = seconds() - start;
    if (plan->end == BOLTS_PLANNED && !bolts_hold(&instance->problem, plan)) {
        printf("  %s: the plan does not hold\n", instance->name);
        exit(1);
    }
    const bool equal = is_equal(instance, plan, &over);
    sums->instances++;
    sums->known +=
        instance->fewest >= 0 || instance->opened >= 0 || instance->infeasible;
    sums->equal += equal;
    sums->proven += is_proven(plan);
    sums->over += over > 1;
    sums->time += time;
    sums->slowest = time > sums->slowest ? time : sums->slowest;
    if (!equal || !is_proven(plan) || getenv("BOLTS_EACH") != NULL)
        tell(instance, plan, time);
    arena_destroy(arena);
}

/* A line a file, after those of its instances that are not as good as known. */
static void bench_file(const char *folder, const char *name, struct sums *all)
{
    static struct bolts_instance instance;
    char path[512];
    struct sums sums = {0};
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "r");
    while (file != NULL && instance_read(file, &instance))
        bench_instance(&instance, &sums);
    if (file != NULL)
        fclose(file);
    printf("%-18s %3zu instances, %3zu known, %3zu as good, %3zu proven, "
           "%zu more than one roll over; mean %.0f ms, worst %.0f ms\n",
           name, sums.instances, sums.known, sums.equal, sums.proven, sums.over,
           1000.0 * sums.time / (double)(sums.instances + !sums.instances),
           1000.0 * sums.slowest);
    fflush(stdout);
    all->instances += sums.instances;
    all->equal += sums.equal;
    all->proven += sums.proven;
    all->time += sums.time;
}

/* Only *.txt: a folder of instances may have words about them, too. */
static int is_list(const struct dirent *entry)
{
    const char *end = strrchr(entry->d_name, '.');
    return end != NULL && strcmp(end, ".txt") == 0;
}

/* Cloths as orders have them: how long they take, and what is proven. */
static void bench_cloths(uint64_t count)
{
    double time = 0.0, slowest = 0.0;
    size_t proven[BOLT_MERITS] = {0};
    for (uint64_t seed = 1; seed <= count; seed++) {
        struct arena *arena = arena_create();
        struct bolts_cloth cloth;
        cloth_make(&cloth, seed);
        const double start = seconds();
        const struct bolts_plan *plan =
            plan_bolts(arena, &cloth.problem, BOLTS_CLOTH_WORK);
        const double took = seconds() - start;
        if (!bolts_hold(&cloth.problem, plan)) {
            printf("  cloth %llu: the plan does not hold\n",
                   (unsigned long long)seed);
            exit(1);
        }
        time += took;
        slowest = took > slowest ? took : slowest;
        for (size_t m = 0; m < BOLT_MERITS; m++)
            proven[m] += plan->proven[m];
        if (getenv("BOLTS_EACH") != NULL) {
            printf("  cloth %llu: %zu cuts, %zu rolls;",
                   (unsigned long long)seed, cloth.problem.cut_count,
                   cloth.problem.roll_count);
            for (size_t m = 0; m < BOLT_MERITS; m++)
                printf(" %lld (%lld)", (long long)plan->merit[m],
                       (long long)plan->bound[m]);
            printf(", %.0f ms\n", 1000.0 * took);
        }
        arena_destroy(arena);
    }
    printf("%llu cloths of orders: cost proven of %zu, loss of %zu, rolls of "
           "%zu, ages of %zu; mean %.1f ms, worst %.0f ms\n",
           (unsigned long long)count, proven[BOLT_COST], proven[BOLT_LOST],
           proven[BOLT_OPENED], proven[BOLT_AGE], 1000.0 * time / (double)count,
           1000.0 * slowest);
}

int main(int count, char **arguments)
{
    const char *folder = getenv("SEAMWRIGHT_KITS");
    struct dirent **entries;
    const int files =
        folder == NULL ? -1 : scandir(folder, &entries, is_list, alphasort);
    struct sums all = {0};
    if (count < 2 || strcmp(arguments[1], "cloths") == 0)
        bench_cloths(200);
    if (files < 0) {
        puts("bolts: SEAMWRIGHT_KITS names no folder of instances");
        return 0;
    }
    for (int i = 0; i < files; i++)
        if (count < 2 || strstr(entries[i]->d_name, arguments[1]) != NULL)
            bench_file(folder, entries[i]->d_name, &all);
    printf(
        "bolts: %zu instances, %zu as good as is known, %zu proven, %.1f s\n",
        all.instances, all.equal, all.proven, all.time);
    return 0;
}
