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

enum top_kind { STARS, LATTICE, SQUARES };
struct quilting_case {
    const char *name;
    enum top_kind top;
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
    {"lattice: lines, echoes, fill", LATTICE,
     "<ditch of=\"lattice\" thread=\"t\"/>"
     "<extend id=\"rays\" of=\"lattice\" into=\"night\" until=\"edge\" "
     "thread=\"t\"/>"
     "<echo of=\"lattice\" fabric=\"flame\" side=\"inside\" "
     "spacing=\"1/4\" thread=\"t\"/>" FILL(
         "", "with=\"lines\" along=\"rising\" spacing=\"1/2\"")},
    {"stars: ditch and rays", STARS, DITCH RAYS},
    {"stars: halo", STARS, DITCH HALO},
    {"stars: web", STARS, DITCH WEB},
    {"stars: lines", STARS,
     DITCH FILL("", "with=\"lines\" along=\"falling\" spacing=\"1/4\"")},
    {"stars: lines along rays", STARS,
     DITCH RAYS FILL("", "with=\"lines\" along=\"rays\" spacing=\"1/4\"")},
    {"stars: grid", STARS, DITCH FILL("", "with=\"grid\" spacing=\"1/2\"")},
    {"stars: echo", STARS, DITCH FILL("", "with=\"echo\" spacing=\"1/4\"")},
    {"stars: swirls", STARS, DITCH FILL("", "with=\"swirls\" spacing=\"1\"")},
    {"stars: halo and lines", STARS,
     DITCH HALO FILL("", "with=\"lines\" spacing=\"1/4\"")},
    {"stars: halo and swirls", STARS,
     DITCH HALO FILL("", "with=\"swirls\" spacing=\"1\"")},
    {"stars: around rays", STARS,
     DITCH RAYS "<echo around=\"rays\" side=\"both\" spacing=\"1/4\" "
                "thread=\"t\"/>" FILL("", "with=\"lines\" spacing=\"1/2\"")},
    {"stars: across night", STARS,
     DITCH "<connect of=\"star\" from=\"seam-ends\" to=\"seam-ends\" "
           "into=\"night\" thread=\"t\"/>" FILL(
               "", "with=\"lines\" spacing=\"1/2\"")},
    {"stars: echoes in areas", STARS,
     DITCH RAYS "<area fabric=\"night\"><echo side=\"inside\" "
                "spacing=\"1/8\" thread=\"t\"/><fill with=\"grid\" "
                "spacing=\"1/2\" thread=\"t\"/></area>"},
    {"squares: lines in turns", SQUARES,
     "<ditch thread=\"t\"/>" FILL(
         "", "with=\"lines\" spacing=\"1/4\"") "<area fabric=\"flame\"><fill "
                                               "with=\"lines\" along=\"down\" "
                                               "spacing=\"1/4\" "
                                               "thread=\"t\"/></area>"},
    {"stars: all", STARS,
     DITCH RAYS HALO WEB FILL(" of=\"star\"", "with=\"pebbles\" spacing=\"1\"")
         FILL(" touching=\"halo\"", "with=\"grid\" spacing=\"1/2\"")
             FILL("", "with=\"lines\" along=\"rays\" spacing=\"1/4\"")},
};

/* Squares of 3 in of two fabrics in turns, 4 x 4 in the place of each block. */
static void squares_quilt(struct buffer *text, size_t across, size_t down,
                          const char *quilting)
{
    buffer_printf(
        text,
        "<quilt id=\"q\"><grid across=\"%zu\" down=\"%zu\" "
        "press=\"right\">"
        "<patch key=\"n\" fabric=\"night\" width=\"3\" height=\"3\"/>"
        "<patch key=\"f\" fabric=\"flame\" width=\"3\" height=\"3\"/><map>",
        4 * across, 4 * down);
    for (size_t row = 0; row < 4 * down; row++)
        for (size_t column = 0; column < 4 * across; column++)
            buffer_printf(text, "%c%c", (row + column) % 2 == 0 ? 'n' : 'f',
                          column + 1 == 4 * across ? '\n' : ' ');
    buffer_printf(text, "</map></grid>%s</quilt>", quilting);
}

static const char *source_of(struct arena *arena,
                             const struct quilting_case *what, size_t across,
                             size_t down)
{
    struct buffer text = buffer_in(arena);
    const char *quilting = arena_printf(
        arena,
        "<quilting travel=\"%s\"><thread id=\"t\" match=\"night\"/>%s"
        "</quilting>",
        what->top == SQUARES ? "ditch" : "any", what->words);
    switch (what->top) {
    case STARS:
        star_blocks(&text);
        lattice_quilt(&text, "star", across, down, false, quilting);
        break;
    case LATTICE:
        lattice_blocks(&text);
        lattice_quilt(&text, "lattice", across, down, false, quilting);
        break;
    case SQUARES:
        squares_quilt(&text, across, down, quilting);
        break;
    }
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
    struct arena *arena = arena_create();
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
