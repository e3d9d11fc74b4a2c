/* What the plan must hold: no open place larger than the batting allows,
 * statements; and what a quilter should know before stitching. Read next:
 * images.c. */
#include "gap.h"
#include "quilter.h"

#include <math.h>
#include <string.h>

/* Lengths of the trade are told in inches. */
static double inches(const struct quilter *quilter, double length)
{
    return quilter->sized->design->pattern->units == UNIT_CM ? length * 2.54
                                                             : length;
}

/* ---- the gap ---- */

/* All lines, and what is filled by eye: of an area what echoes leave of it, as
 * swirls stop at their strips. Seams count only as lines
 * that are stitched in them. */
static struct gap_input stitching(struct quilter *quilter)
{
    const struct quilting_plan *plan = quilter->plan;
    size_t count = 0, rings = 0;
    for (size_t i = 0; i < plan->lines.count; i++)
        count += plan->lines.items[i].count;
    for (size_t i = 0; i < plan->areas.count; i++)
        rings +=
            plan->areas.items[i].free > 0 ? plan->areas.items[i].rest_count : 0;
    struct spot(*segments)[2] =
        arena_alloc(quilter->arena, (count + 1) * sizeof *segments);
    struct gap_ring *filled =
        ARENA_ARRAY(quilter->arena, struct gap_ring, rings + 1);
    struct gap_input input = {.width = number_double(plan->quilt->width),
                              .height = number_double(plan->quilt->height),
                              .segments = (const struct spot(*)[2])segments,
                              .rings = filled};
    for (size_t i = 0; i < plan->lines.count; i++) {
        const struct quilted_line *line = &plan->lines.items[i];
        for (size_t k = 0; k + (line->closed ? 0 : 1) < line->count; k++) {
            segments[input.count][0] = line->points[k];
            segments[input.count++][1] = line->points[(k + 1) % line->count];
        }
    }
    for (size_t i = 0; i < plan->areas.count; i++) {
        const struct quilted_area *area = &plan->areas.items[i];
        for (size_t k = 0; area->free > 0 && k < area->rest_count; k++)
            filled[input.ring_count++] =
                (struct gap_ring){area->rest[k].points, area->rest[k].count};
    }
    return input;
}

/* With the cell that people look for first. */
static struct quilted_gap gap_at(const struct quilter *quilter,
                                 const struct gap *gap)
{
    const struct setting_cell *cell = nearest_cell(quilter, gap->at);
    return (struct quilted_gap){.least = gap->least,
                                .most = gap->most,
                                .at = gap->at,
                                .row = cell == NULL ? 0 : cell->row,
                                .column = cell == NULL ? 0 : cell->column,
                                .left = gap->at.x,
                                .top = gap->at.y};
}

/* The area in which a gap lies; QUILTING_NONE for none. */
static size_t area_around(const struct quilter *quilter, struct spot at)
{
    for (size_t i = 0; i < quilter->plan->areas.count; i++)
        if (area_holds(quilter, i, at))
            return i;
    return QUILTING_NONE;
}

/* Half of it halves what lies open between the lines. */
static void help_spacing(struct quilter *quilter, struct diagnostic *d,
                         const struct told_item *item)
{
    const struct rational spacing =
        item->kind == TOLD_ECHO ? item->of.echo.spacing : item->of.fill.spacing;
    const char *text =
        length_plain(quilter->arena, rational_div(spacing, rational_whole(2)),
                     quilter->sized->design->pattern->units);
    diag_mend(quilter->run, d, value_span(item->element, ATTR_SPACING), text,
              "spacing=\"%s\" there halves it", text);
}

/* The echoes whose strip lies about the spot; NULL for none. */
static const struct told_item *echo_about(const struct quilter *quilter,
                                          struct spot at)
{
    for (size_t i = 0; i < quilter->bands.count; i++)
        if (box_holds(quilter->bands.items[i].box, at))
            return quilter->bands.items[i].item;
    return NULL;
}

/* Where swirls or pebbles hold the rest of an area, what is open lies in a
 * strip of echoes. */
static void help_strip(struct quilter *quilter, struct diagnostic *d,
                       const struct told_item *echo)
{
    diag_note(quilter->run, d, echo->element->name,
              "it lies between these echoes and what they go round, where no "
              "fill goes");
    help_spacing(quilter, d, echo);
}

/* What would close it. */
static void help_gap(struct quilter *quilter, struct diagnostic *d,
                     struct spot at)
{
    const size_t area = area_around(quilter, at);
    const struct design *design = quilter->sized->design;
    if (area == QUILTING_NONE)
        return;
    const struct quilted_area *found = &quilter->plan->areas.items[area];
    const char *fabric =
        found->fabric == NO_FABRIC ? "?" : fabric_id(design, found->fabric);
    const struct told_item *echo = echo_about(quilter, at);
    if (found->free > 0 && echo != NULL) {
        help_strip(quilter, d, echo);
    } else if (found->fill != NULL && found->fill->of.fill.with != TOLD_NONE) {
        diag_note(quilter->run, d, found->fill->element->name,
                  "this fills the area there");
        help_spacing(quilter, d, found->fill);
    } else if (found->item != NULL) {
        diag_note(quilter->run, d, found->item->element->name,
                  "the area there is one of these");
        diag_help(quilter->run, d, "a fill in that `area` closes it");
    } else {
        diag_note(quilter->run, d, (struct span){0, 0},
                  "no `area` reaches it; its cloth is `%s`", fabric);
        diag_help(quilter->run, d,
                  "an `area` of `%s` with a `fill` closes it, and so does a "
                  "line across it",
                  fabric);
    }
}

/* The block whose place is nearest to the spot, by the way to its extent; NULL
 * where the quilt takes none. Of equally near ones the first is taken. */
static const struct definition *nearest_block(const struct quilter *quilter,
                                              struct spot at)
{
    const struct definition *best = NULL;
    double least = HUGE_VAL;
    for (size_t i = 0; i < quilter->placements.count; i++) {
        const struct placement *placement = &quilter->placements.items[i];
        if (placement->definition == NULL ||
            placement->definition->kind != DEFINE_BLOCK)
            continue;
        const double way = fmax(0, extent_off(placement->extent, at));
        if (way < least - 1e-9) {
            least = way;
            best = placement->definition;
        }
    }
    return best;
}

/* reports: a circle that is too large, where it lies, and what lies around
 * it. */
static void say_gap(struct quilter *quilter, const struct gap *gap)
{
    const struct definition *quilt = quilter->plan->quilt->definition;
    const double limit = rational_double(quilt->batting_gap);
    struct diagnostic *d = say_error(
        quilter, DIAG_QUILT_GAP, value_span(quilt->batting, ATTR_MAX_GAP),
        "a circle of %s lies open in `%s`, and the batting allows %s",
        length_words(quilter, gap->least), quilt->id,
        length_words(quilter, limit));
    diag_note(quilter->run, d, (struct span){0, 0}, "its middle lies %s",
              place_words(quilter, gap->at));
    const struct definition *block = nearest_block(quilter, gap->at);
    if (block != NULL)
        diag_note(quilter->run, d, (struct span){0, 0},
                  "the nearest block is a `%s`", block->id);
    help_gap(quilter, d, gap->at);
}

/* The search stops at the first place that is too large. Told is the largest of
 * all, as that is what the lines must be planned for: another search, as fine
 * as the first, on the one run that fails. */
static void say_largest_gap(struct quilter *quilter,
                            const struct gap_grid *grid,
                            const struct gap *first)
{
    struct arena *scratch = arena_create();
    const struct gap largest =
        gap_largest(scratch, grid, 0, inches(quilter, 0.001));
    say_gap(quilter, largest.least > first->least ? &largest : first);
    arena_destroy(scratch);
}

/* The spacing of a filler that is stitched by eye counts by itself.
 * reports: one that is wider than the batting allows. */
static bool spacings_hold(struct quilter *quilter, struct rational limit)
{
    bool hold = true;
    for (size_t i = 0; i < quilter->told->items.count; i++) {
        const struct told_item *item = &quilter->told->items.items[i];
        if (item->kind != TOLD_FILL ||
            (item->of.fill.with != TOLD_SWIRLS &&
             item->of.fill.with != TOLD_PEBBLES) ||
            rational_compare(item->of.fill.spacing, limit) <= 0)
            continue;
        const char *units =
            length_unit_name(quilter->sized->design->pattern->units);
        const char *most = length_plain(quilter->arena, limit,
                                        quilter->sized->design->pattern->units);
        struct diagnostic *d = say_error(
            quilter, DIAG_QUILT_GAP, value_span(item->element, ATTR_SPACING),
            "a fill of %s %s leaves more open than the %s %s of the batting",
            length_plain(quilter->arena, item->of.fill.spacing,
                         quilter->sized->design->pattern->units),
            units, most, units);
        diag_mend(quilter->run, d, value_span(item->element, ATTR_SPACING),
                  most, "spacing=\"%s\" is what the batting allows", most);
        hold = false;
    }
    return hold;
}

/* Inches: nobody looks for a gap that is smaller. */
static const double GAP_TOLD = 0.125;

/* All circles above the limit; where there are none, or no limit is told, the
 * largest alone: circles that are all nearly alike take long to part. */
static void keep_gaps(struct quilter *quilter, const struct gap_grid *grid,
                      double limit)
{
    struct arena *scratch = arena_create();
    struct gap found[GAP_CIRCLES];
    const double within = inches(quilter, 1.0 / 64);
    const double told = inches(quilter, GAP_TOLD);
    struct gap largest = gap_largest(scratch, grid, told, within);
    if (largest.proved && largest.most <= told)
        largest = (struct gap){0, told, largest.at, true};
    const size_t above =
        limit > 0 && largest.most > limit
            ? gap_circles(scratch, grid, limit, within, GAP_CIRCLES, found)
            : 0;
    for (size_t i = 0; i < above; i++)
        *LIST_ADD(quilter->arena, &quilter->plan->gaps) =
            gap_at(quilter, &found[i]);
    if (above == 0)
        *LIST_ADD(quilter->arena, &quilter->plan->gaps) =
            gap_at(quilter, &largest);
    quilter->plan->gap_known = largest.proved;
    quilter->plan->gap = gap_at(quilter, &largest);
    arena_destroy(scratch);
}

/* A thousandth of an inch above the limit still holds: lines exactly so far
 * apart as they may be must not fail for a rounding. For `check` alone the
 * figure is not worked out. */
void check_gap(struct quilter *quilter)
{
    const struct definition *quilt = quilter->plan->quilt->definition;
    const struct rational limit = quilt->batting_gap;
    const bool told = quilt->batting != NULL && rational_known(limit) &&
                      rational_sign(limit) > 0;
    const struct gap_input input = stitching(quilter);
    struct arena *scratch = arena_create();
    const struct gap_grid *grid = gap_grid(scratch, &input);
    if (told && spacings_hold(quilter, limit)) {
        struct gap found;
        if (gap_holds(scratch, grid, rational_double(limit),
                      inches(quilter, 0.001), &found) != GAP_HOLDS)
            say_largest_gap(quilter, grid, &found);
    } else if (!told) {
        struct diagnostic *d = diag_report(
            quilter->run, DIAG_NO_GAP, quilter->told->element->name,
            "how far apart quilting may lie is not told, so it is not checked");
        diag_help(quilter->run, d,
                  "write max-gap at `batting` as its label tells: 2 to 10 in, "
                  "or 2 in where it tells nothing");
    }
    if (!quilter->run->unseen)
        keep_gaps(quilter, grid, told ? rational_double(limit) : 0);
    arena_destroy(scratch);
}

/* ---- lines ---- */

/* A straight line that no ruler reaches along, and nothing lies beside it. */
static void check_reach(struct quilter *quilter)
{
    const double ruler = rational_double(quilter->told->ruler);
    const double foot = number_double(quilter->told->foot);
    for (size_t i = 0; ruler > 0 && i < quilter->plan->rows.count; i++) {
        const struct quilted_row *row = &quilter->plan->rows.items[i];
        const bool guided = row->stage == STAGE_DITCH ||
                            row->found == FOUND_FREE ||
                            row->found == FOUND_FOOT ||
                            (row->beside > 0 && row->beside <= foot);
        const double longest = longest_straight(quilter, row);
        if (guided || longest <= ruler + 1e-6)
            continue;
        struct diagnostic *d = diag_report(
            quilter->run, DIAG_RULER_REACH, row->item->element->name,
            "a line of %s is longer than the ruler, %s, with nothing beside it",
            length_words(quilter, longest), length_words(quilter, ruler));
        diag_note(quilter->run, d, (struct span){0, 0},
                  "the ruler is laid %d times along it",
                  (int)ceil(longest / ruler - 1e-6));
        diag_help(quilter->run, d,
                  "a ruler of %s reaches along it; a `ditch` or a line beside "
                  "it, as far as the foot, guides as well",
                  length_words(quilter, ceil(longest - 1e-6)));
    }
}

/* Nearer than the foot can see (our choice). */
static void check_crowd(struct quilter *quilter)
{
    const double least = inches(quilter, 0.125);
    for (size_t i = 0; i < quilter->told->items.count; i++) {
        const struct told_item *item = &quilter->told->items.items[i];
        const struct rational spacing =
            item->kind == TOLD_ECHO   ? item->of.echo.spacing
            : item->kind == TOLD_FILL ? item->of.fill.spacing
                                      : rational_unknown();
        if (!rational_known(spacing) || rational_double(spacing) == 0 ||
            rational_double(spacing) >= least - 1e-9)
            continue;
        const enum length_unit units = quilter->sized->design->pattern->units;
        const struct span span = value_span(item->element, ATTR_SPACING);
        struct diagnostic *d =
            diag_report(quilter->run, DIAG_LINES_CROWD, span,
                        "lines lie %s %s apart, nearer than %s",
                        length_plain(quilter->arena, spacing, units),
                        length_unit_name(units), length_words(quilter, least));
        const char *wider = units == UNIT_CM ? "0.4" : "1/8";
        diag_mend(quilter->run, d, span, wider,
                  "spacing=\"%s\" is as near as a foot can see", wider);
    }
    check_ends(quilter);
}

/* Told once an element. */
static void check_open_ditch(struct quilter *quilter)
{
    const struct quilting_plan *plan = quilter->plan;
    for (size_t i = 0; i < quilter->told->items.count; i++) {
        double length = 0;
        for (size_t k = 0; k < plan->lines.count; k++)
            if (plan->lines.items[k].seam_open &&
                plan->lines.items[k].item->index == i)
                length += plan->lines.items[k].length;
        if (length == 0)
            continue;
        struct diagnostic *d =
            diag_report(quilter->run, DIAG_DITCH_OPEN,
                        quilter->told->items.items[i].element->name,
                        "%s of this ditch lies in seams that are pressed open",
                        length_words(quilter, length));
        diag_note(quilter->run, d, (struct span){0, 0},
                  "there the stitching rests on the thread of the seam alone");
        diag_help(
            quilter->run, d,
            "a seam that is pressed to one side has a ditch on its other one");
    }
}

/* Of a plan that holds. */
void check_lines(struct quilter *quilter)
{
    check_reach(quilter);
    check_crowd(quilter);
    check_open_ditch(quilter);
    check_starts_extra(quilter);
}

/* ---- statements ---- */

/* Changes of the bobbin are told apart from starts, and are not stated. */
static void check_starts(struct quilter *quilter)
{
    const struct stated *stated = &quilter->told->starts;
    const size_t starts = quilter->plan->starts;
    if (!stated->usable || !stated->written ||
        rational_equal(stated->value, rational_whole((int64_t)starts)))
        return;
    struct diagnostic *d =
        say_error(quilter, DIAG_STATEMENT, stated->span,
                  "the quilting of `%s` takes %zu start%s, not %s",
                  quilter->plan->quilt->definition->id, starts,
                  starts == 1 ? "" : "s", stated->text);
    diag_mend(quilter->run, d, stated->span,
              arena_printf(quilter->arena, "%zu", starts),
              "starts=\"%zu\" holds", starts);
}

/* Threads of two quilts are one where they have one name. */
static bool same_thread(const struct quilting *quilting, const char *id)
{
    for (size_t i = 0; quilting != NULL && i < quilting->threads.count; i++)
        if (strcmp(quilting->threads.items[i].id, id) == 0)
            return true;
    return false;
}

/* Which of the quilts that have the thread this one is. */
static size_t number_of_quilt(const struct quilter *quilter, const char *id,
                              size_t *all)
{
    const struct design *design = quilter->sized->design;
    size_t place = 0;
    *all = 0;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *definition = design->definitions.items[i];
        if (!same_thread(definition->quilting, id))
            continue;
        if (definition == quilter->plan->quilt->definition)
            place = *all;
        (*all)++;
    }
    return place;
}

/* A number for each quilt, in their order. What is wrong with the list itself
 * is told at the first of them alone. */
static void check_spools(struct quilter *quilter,
                         const struct thread_dress *dress)
{
    const struct stated_amounts *stated = &dress->spool->spools;
    size_t all;
    const size_t place = number_of_quilt(quilter, dress->spool->thread, &all);
    if (stated->items == NULL)
        return;
    if (stated->count != all) {
        if (place == 0)
            say_error(quilter, DIAG_STATEMENT, stated->span,
                      "%zu numbers are stated, and %zu quilt%s that thread",
                      stated->count, all, all == 1 ? " has" : "s have");
        return;
    }
    if (dress->spools == 0) {
        struct diagnostic *d =
            say_error(quilter, DIAG_STATEMENT, stated->name,
                      "spools are stated, and the length on one is not");
        diag_help(quilter->run, d, "write length=\"...\" at the `spool`");
        return;
    }
    if (rational_equal(stated->items[place],
                       rational_whole((int64_t)dress->spools)))
        return;
    struct diagnostic *d = say_error(
        quilter, DIAG_STATEMENT, stated->span,
        "the thread `%s` takes %zu spool%s in `%s`, not %d",
        dress->spool->thread, dress->spools, dress->spools == 1 ? "" : "s",
        quilter->plan->quilt->definition->id,
        (int)rational_floor(stated->items[place]));
    if (stated->count == 1)
        diag_mend(quilter->run, d, stated->span,
                  arena_printf(quilter->arena, "%zu", dress->spools),
                  "spools=\"%zu\" holds", dress->spools);
}

/* Each colorway has spools of its own. */
void check_statements(struct quilter *quilter)
{
    const size_t count =
        quilter->sized->design->colorways.count * quilter->told->threads.count;
    check_starts(quilter);
    for (size_t i = 0; i < count; i++)
        if (quilter->plan->dresses[i].spool != NULL)
            check_spools(quilter, &quilter->plan->dresses[i]);
}
