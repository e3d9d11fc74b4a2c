/* How much of each thread is taken: the length of its paths, times what a
 * lockstitch through three layers takes, with waste and starts; bobbins and
 * spools; and on which cloths it shows, in each colorway. Read next: checks.c.
 */
#include "color.h"
#include "quilter.h"

#include <math.h>
#include <string.h>

/* Beneath this contrast a thread blends with the cloth: from there on figures
 * of the booklet show lines on it as well (chosen for them by looking). */
static const double BLENDS = 1.4;

/* Of thread, at each start: tails to hold and to bury (our choice), 6 in or 15
 * cm. */
static double tail_of(const struct quilter *quilter)
{
    return quilter->sized->design->pattern->units == UNIT_CM ? 15 : 6;
}

/* Yards or metres are told whole, and no spool may be short: amounts are rounded
 * up to them once, here, so that what is told adds up. */
static double rounded_up(const struct quilter *quilter, double length)
{
    const double whole =
        quilter->sized->design->pattern->units == UNIT_CM ? 100 : 36;
    return ceil(length / whole - 1e-9) * whole;
}

/* ---- amounts ---- */

/* What is stitched and travelled is told by the paths, not by the lines:
 * travel takes thread as well. */
static void add_paths(struct quilter *quilter)
{
    for (size_t i = 0; i < quilter->plan->routes.count; i++) {
        const struct quilted_route *route = &quilter->plan->routes.items[i];
        struct thread_amount *amount = &quilter->plan->amounts[route->thread];
        amount->line += route->stitched;
        amount->travel += route->travelled;
        amount->starts += route->starts;
        amount->changes += route->changes;
    }
}

/* Looked at in the middle of each quarter: no line goes on over seams by much
 * less, and its own middle is often where blocks meet. */
static void add_stretch(const struct quilter *quilter, double *over,
                        struct spot a, struct spot b)
{
    for (int i = 0; i < 4; i++) {
        const double share = (2 * i + 1) / 8.0;
        const int fabric = ground_fabric(
            quilter->ground, (struct spot){a.x + share * (b.x - a.x),
                                           a.y + share * (b.y - a.y)});
        if (fabric != NO_FABRIC)
            over[fabric] += hypot(b.x - a.x, b.y - a.y) / 4;
    }
}

/* What of a thread runs on which cloth. In the ditch it lies between two. */
static void add_cloths(struct quilter *quilter)
{
    const size_t fabrics = quilter->sized->design->fabrics.count;
    struct quilting_plan *plan = quilter->plan;
    double **over =
        ARENA_ARRAY(quilter->arena, double *, quilter->told->threads.count);
    for (size_t t = 0; t < quilter->told->threads.count; t++)
        plan->amounts[t].over = over[t] =
            ARENA_ARRAY(quilter->arena, double, fabrics);
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        const size_t pieces = line->count - (line->closed ? 0 : 1);
        for (size_t k = 0; line->stage != STAGE_DITCH && k < pieces; k++) {
            const struct spot a = line->points[k];
            const struct spot b = line->points[(k + 1) % line->count];
            add_stretch(quilter, over[line->thread], a, b);
        }
    }
    for (size_t i = 0; i < plan->areas.count; i++) {
        const struct quilted_area *area = &plan->areas.items[i];
        if (area->free > 0 && area->fabric != NO_FABRIC)
            over[area->fill->thread][area->fabric] += area->free;
    }
}

/* All that lies below, whichever thread is above it, is wound on bobbins. */
static double wound(const struct quilter *quilter, size_t thread)
{
    double length = 0;
    for (size_t i = 0; i < quilter->told->threads.count; i++)
        if (quilter->told->threads.items[i].below == thread)
            length += quilter->plan->amounts[i].below;
    return length;
}

/* ---- colors ---- */

/* Of the real cloth that plays the fabric. */
static struct srgb cloth_color(const struct colorway *colorway, int fabric)
{
    const struct bolt *bolt = &colorway->bolts[fabric];
    return (struct srgb){bolt->red, bolt->green, bolt->blue};
}

/* In the middle between two cloths, part by part. */
static struct srgb thread_color(const struct quilting_thread *thread,
                                const struct colorway *colorway)
{
    if (thread->color == THREAD_COLORED)
        return (struct srgb){thread->red, thread->green, thread->blue};
    const struct srgb a = cloth_color(colorway, thread->fabrics[0]);
    const struct srgb b = cloth_color(colorway, thread->fabrics[1]);
    return (struct srgb){(a.red + b.red) / 2, (a.green + b.green) / 2,
                         (a.blue + b.blue) / 2};
}

/* NULL where the colorway names none. */
static const struct spool *spool_of(const struct colorway *colorway,
                                    const struct quilting_thread *thread)
{
    for (size_t i = 0; i < colorway->spools.count; i++)
        if (strcmp(colorway->spools.items[i].thread, thread->id) == 0)
            return &colorway->spools.items[i];
    return NULL;
}

/* A spool may have another color than the thread that it plays; then that is
 * what is seen. */
static void dress(struct quilter *quilter, const struct colorway *colorway,
                  size_t thread, struct thread_dress *dress)
{
    const struct design *design = quilter->sized->design;
    const struct quilting_thread *told = &quilter->told->threads.items[thread];
    struct srgb color = thread_color(told, colorway);
    dress->spool = spool_of(colorway, told);
    dress->name = dress->spool == NULL ? "" : dress->spool->name;
    if (dress->spool != NULL && dress->spool->colored)
        color = (struct srgb){dress->spool->red, dress->spool->green,
                              dress->spool->blue};
    dress->red = color.red;
    dress->green = color.green;
    dress->blue = color.blue;
    if (dress->spool != NULL && rational_known(dress->spool->length))
        dress->spools = (size_t)ceil(quilter->plan->amounts[thread].bought /
                                         rational_double(dress->spool->length) -
                                     1e-9);
    double *difference =
        ARENA_ARRAY(quilter->arena, double, design->fabrics.count);
    bool *shows = ARENA_ARRAY(quilter->arena, bool, design->fabrics.count);
    for (size_t i = 0; i < design->fabrics.count; i++) {
        difference[i] =
            color_contrast(color_luminance(color),
                           color_luminance(cloth_color(colorway, (int)i)));
        shows[i] = difference[i] >= BLENDS;
    }
    dress->difference = difference;
    dress->shows = shows;
}

/* Above first, as bobbins hold what lies below all threads that they serve. */
void count_thread(struct quilter *quilter)
{
    const struct design *design = quilter->sized->design;
    const size_t threads = quilter->told->threads.count;
    struct quilting_plan *plan = quilter->plan;
    plan->amounts = ARENA_ARRAY(quilter->arena, struct thread_amount, threads);
    add_paths(quilter);
    add_cloths(quilter);
    for (size_t i = 0; i < threads; i++) {
        struct thread_amount *amount = &plan->amounts[i];
        amount->above = rounded_up(quilter, (amount->line + amount->travel) *
                                                    QUILTING_THREAD *
                                                    QUILTING_WASTE +
                                                (double)amount->starts *
                                                    tail_of(quilter));
        amount->below = amount->above;
    }
    for (size_t i = 0; i < threads; i++) {
        const double below = wound(quilter, i);
        plan->amounts[i].bought = plan->amounts[i].above + below;
        plan->amounts[i].bobbins =
            (size_t)ceil(below / number_double(quilter->told->bobbin) - 1e-9);
    }
    plan->dresses = ARENA_ARRAY(quilter->arena, struct thread_dress,
                                design->colorways.count * threads);
    for (size_t c = 0; c < design->colorways.count; c++)
        for (size_t i = 0; i < threads; i++)
            dress(quilter, &design->colorways.items[c], i,
                  &plan->dresses[c * threads + i]);
}
