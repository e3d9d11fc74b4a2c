/* How long the whole stage of quilting takes, step by step, on tops that grow
 * at one density. Asked of it: 60 x 72 in with 2,000 seams and 5,000 lines
 * within a second on one core, under 200 MB; twice the quilt at most 2.3 times
 * as long. Run by `make bench`; the figures are to be read, no test depends on
 * them. */
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "../../src/quilting/quilter.h"
#include "../quilting/lattice_source.h"
#include "../resolve/small.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static long megabytes(void)
{
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss / 1024;
}

/* ---- what is quilted ---- */

struct quilting_case {
    const char *name;
    bool lattice; /* else stars */
    const char *words;
};

#define FILL(place, fill) \
    "<area fabric=\"night\"" place "><fill " fill " thread=\"t\"/></area>"
#define DITCH "<ditch of=\"star\" outline=\"yes\" thread=\"t\"/>"
#define RAYS                                                         \
    "<extend id=\"rays\" of=\"star\" into=\"night\" until=\"edge\" " \
    "thread=\"t\"/>"
#define HALO                                                           \
    "<echo id=\"halo\" of=\"star\" fabric=\"flame\" side=\"outside\" " \
    "spacing=\"1/4\" times=\"3\" thread=\"t\"/>"
#define WEB                                                                 \
    "<connect of=\"star\" fabric=\"glow\" from=\"corners\" to=\"corners\" " \
    "pair=\"all\" into=\"glow\" thread=\"t\"/>"

static const struct quilting_case cases[] = {
    {"lattice: lines, echoes, fill", true,
     "<ditch of=\"lattice\" thread=\"t\"/>"
     "<extend id=\"rays\" of=\"lattice\" into=\"night\" until=\"edge\" "
     "thread=\"t\"/>"
     "<echo of=\"lattice\" fabric=\"flame\" side=\"inside\" "
     "spacing=\"1/4\" thread=\"t\"/>" FILL(
         "", "with=\"lines\" along=\"rising\" spacing=\"1/2\"")},
    {"stars: ditch and rays", false, DITCH RAYS},
    {"stars: halo", false, DITCH HALO},
    {"stars: web", false, DITCH WEB},
    {"stars: lines", false,
     DITCH FILL("", "with=\"lines\" along=\"falling\" spacing=\"1/4\"")},
    {"stars: lines along rays", false,
     DITCH RAYS FILL("", "with=\"lines\" along=\"rays\" spacing=\"1/4\"")},
    {"stars: grid", false, DITCH FILL("", "with=\"grid\" spacing=\"1/2\"")},
    {"stars: echo", false, DITCH FILL("", "with=\"echo\" spacing=\"1/4\"")},
    {"stars: swirls", false, DITCH FILL("", "with=\"swirls\" spacing=\"1\"")},
    {"stars: halo and lines", false,
     DITCH HALO FILL("", "with=\"lines\" spacing=\"1/4\"")},
    {"stars: halo and swirls", false,
     DITCH HALO FILL("", "with=\"swirls\" spacing=\"1\"")},
    {"stars: all", false,
     DITCH RAYS HALO WEB FILL(" of=\"star\"", "with=\"pebbles\" spacing=\"1\"")
         FILL(" touching=\"halo\"", "with=\"grid\" spacing=\"1/2\"")
             FILL("", "with=\"lines\" along=\"rays\" spacing=\"1/4\"")},
};

static const char *source_of(struct arena *arena,
                             const struct quilting_case *what, size_t across,
                             size_t down)
{
    struct buffer text = buffer_in(arena);
    const char *quilting = arena_printf(arena,
                                        "<quilting travel=\"any\"><thread "
                                        "id=\"t\" match=\"night\"/>%s"
                                        "</quilting>",
                                        what->words);
    if (what->lattice)
        lattice_blocks(&text);
    else
        star_blocks(&text);
    lattice_quilt(&text, what->lattice ? "lattice" : "star", across, down,
                  false, quilting);
    return buffer_string(&text);
}

/* ---- steps ---- */

enum step {
    STEP_GROUND,
    STEP_DITCH,
    STEP_EXTEND,
    STEP_ECHO,
    STEP_CONNECT,
    STEP_AREAS,
    STEP_GAP,
    STEP_SYMMETRY,
    STEP_PATHS,
    STEP_THREAD,
    STEP_CHECKS,
    STEPS
};
static const char *const step_names[STEPS] = {
    "ground", "ditch",    "extend", "echo",   "connect", "areas",
    "gap",    "symmetry", "paths",  "thread", "checks"};

struct watch {
    double at, took[STEPS];
};

static void lap(struct watch *watch, enum step step)
{
    const double now = seconds();
    watch->took[step] += now - watch->at;
    watch->at = now;
}

static void draw(struct quilter *quilter, struct watch *watch)
{
    for (size_t i = 0; i < quilter->told->items.count; i++) {
        const struct told_item *item = &quilter->told->items.items[i];
        if (item->area != NO_ITEM)
            continue;
        if (item->kind == TOLD_DITCH) {
            draw_ditch(quilter, item);
            lap(watch, STEP_DITCH);
        } else if (item->kind == TOLD_EXTEND) {
            draw_extended(quilter, item);
            lap(watch, STEP_EXTEND);
        } else if (item->kind == TOLD_ECHO) {
            draw_echoes(quilter, item, QUILTING_NONE);
            lap(watch, STEP_ECHO);
        } else if (item->kind == TOLD_CONNECT) {
            draw_connected(quilter, item);
            lap(watch, STEP_CONNECT);
        }
    }
}

/* The steps of `plan_one` in quilting.c, each with its time. */
static void plan(struct quilter *quilter, struct watch *watch)
{
    struct fault fault = {0};
    watch->at = seconds();
    quilter->ground = ground_of(quilter->arena, quilter->plan->quilt->cloth);
    quilter->seams = join_seams(quilter->arena, quilter->ground);
    quilter->top_symmetries =
        top_symmetries(quilter->arena, quilter->ground, &fault);
    find_places(quilter);
    lap(watch, STEP_GROUND);
    draw(quilter, watch);
    fill_areas(quilter);
    find_ways(quilter);
    lap(watch, STEP_AREAS);
    check_gap(quilter);
    lap(watch, STEP_GAP);
    check_symmetry(quilter);
    lap(watch, STEP_SYMMETRY);
    plan_paths(quilter);
    lap(watch, STEP_PATHS);
    count_thread(quilter);
    lap(watch, STEP_THREAD);
    check_lines(quilter);
    check_density(quilter);
    check_statements(quilter);
    lap(watch, STEP_CHECKS);
}

/* ensures: the time of the whole. */
static double measure(const struct quilting_case *what, size_t across,
                      size_t down, double before)
{
    struct arena *arena = arena_create_roomy();
    struct small small = small_sew(arena, source_of(arena, what, across, down));
    expect_clean(&small);
    const struct sewn_quilt *quilt = &small.sewn->quilts.items[0];
    struct quilting_plan *result = ARENA_NEW(arena, struct quilting_plan);
    *result = (struct quilting_plan){.quilt = quilt,
                                     .told = quilt->definition->quilting};
    struct quilter quilter = {.run = small.run,
                              .arena = arena,
                              .sized = small.sized,
                              .told = result->told,
                              .plan = result};
    struct watch watch = {0};
    plan(&quilter, &watch);
    expect_clean(&small);
    double all = 0;
    for (int i = 0; i < STEPS; i++)
        all += watch.took[i];
    printf("stage %-28s %3.0f x %3.0f: %5zu seams, %6zu lines, %5zu areas: "
           "%7.0f ms",
           what->name, number_double(quilt->width),
           number_double(quilt->height), quilt->cloth->seams.count,
           result->lines.count, result->areas.count, 1000 * all);
    if (before > 0)
        printf(", %.2f times", all / before);
    printf("; %ld MB so far;", megabytes());
    for (int i = 0; i < STEPS; i++)
        printf(" %s %.0f", step_names[i], 1000 * watch.took[i]);
    printf("\n");
    fflush(stdout);
    arena_destroy(arena);
    return all;
}

/* In a process of its own, so that its memory is its own. */
static void measure_case(const struct quilting_case *what)
{
    const pid_t child = fork();
    if (child == 0) {
        const double once = measure(what, 5, 6, 0);
        const double twice = measure(what, 10, 6, once);
        measure(what, 10, 12, twice);
        exit(0);
    }
    waitpid(child, NULL, 0);
}

/* With a word, only cases that have it in their names. */
int main(int count, char **words)
{
    for (size_t i = 0; i < UNIT_COUNT(cases); i++)
        if (count < 2 || strstr(cases[i].name, words[1]) != NULL)
            measure_case(&cases[i]);
    return 0;
}
