/* What lines of quilting, their lengths and their threads are called. Read
 * next: section_quilting.c. */
#include "quilting_words.h"

#include <math.h>

/* ---- lengths ---- */

/* Measured lengths are in floating point; words are told of fractions. */
static struct rational nearest(double length, int parts)
{
    return rational_make(llround(length * parts), parts);
}

/* A long line is not measured to an eighth. */
const char *word_measured(const struct wording *w, double length)
{
    const bool metric = w->design->pattern->units == UNIT_CM;
    const double coarse = metric ? 50.0 : 20.0;
    const int parts = length >= coarse ? 1 : metric ? 10 : 8;
    return word_length_unit(w, nearest(length, parts));
}

/* What the source told comes back as it was told. */
const char *word_apart(const struct wording *w, double length)
{
    const bool metric = w->design->pattern->units == UNIT_CM;
    return word_length_unit(w, nearest(length, metric ? 100 : 64));
}

/* Rounded up: a spool that is a yard short is short. */
const char *word_thread_length(const struct wording *w, double length)
{
    const bool metric = w->design->pattern->units == UNIT_CM;
    const double whole = metric ? 100.0 : 36.0;
    return say(w->arena, w->phrases,
               metric ? "quilting.meters" : "quilting.yards", "count",
               say_count(w->arena, (size_t)ceil(length / whole - 1e-9)), NULL);
}

/* ---- lines ---- */

/* Blocks and units by their names, pieces by their ids, as they have no other.
 */
static const char *place_of(const struct wording *w,
                            const struct quilting_place *place)
{
    const char *where =
        place->of != NULL && place->of->kind != DEFINE_QUILT ? place->of->name
        : place->piece != NULL                               ? place->piece->id
        : place->border > 0
            ? say(w->arena, w->phrases, "quilting.border", "number",
                  say_count(w->arena, place->border), NULL)
            : say(w->arena, w->phrases, "quilting.top", NULL);
    return place->fabric == NO_FABRIC
               ? where
               : say(w->arena, w->phrases, "quilting.place-fabric", "place",
                     where, "fabric",
                     w->design->fabrics.items[place->fabric].name, NULL);
}

/* Those that the filler or the lines of an area come to lie in: where there was
 * no room for one, map and table have no letter either. */
static const char *letters_of(const struct wording *w,
                              const struct quilting_plan *plan,
                              const struct told_item *area)
{
    struct texts letters = {.items = {0}};
    for (size_t i = 0; i < plan->kinds.count; i++)
        if (plan->kinds.items[i].item == area &&
            plan->kinds.items[i].filled > 0)
            texts_add(w, &letters, plan->kinds.items[i].letter);
    return texts_listed(w, &letters);
}

/* As a word that begins a cell; spacing is told behind it. */
static const char *fill_kind(const struct wording *w, enum told_fill with)
{
    switch (with) {
    case TOLD_LINES:
        return say(w->arena, w->phrases, "quilting.lines-filler", NULL);
    case TOLD_GRID:
        return say(w->arena, w->phrases, "quilting.grid", NULL);
    case TOLD_SWIRLS:
        return say(w->arena, w->phrases, "quilting.swirls", NULL);
    case TOLD_PEBBLES:
        return say(w->arena, w->phrases, "quilting.pebbles", NULL);
    case TOLD_ECHOES:
        return say(w->arena, w->phrases, "quilting.outlines", NULL);
    case TOLD_NONE:
        break;
    }
    return "";
}

/* Letters lead to the map. */
static const char *in_areas(const struct wording *w,
                            const struct quilting_plan *plan,
                            const struct told_item *item, const char *what)
{
    return say(w->arena, w->phrases, "quilting.in-areas", "what", what, "areas",
               letters_of(w, plan, &plan->told->items.items[item->area]), NULL);
}

/* What grows out of the piecing is told by where it grows. */
const char *word_line_of(const struct wording *w,
                         const struct quilting_plan *plan,
                         const struct told_item *item)
{
    if (item->kind == TOLD_FILL)
        return in_areas(w, plan, item, fill_kind(w, item->of.fill.with));
    const char *place =
        item->kind == TOLD_ECHO && item->of.echo.around_count > 0
            ? say(w->arena, w->phrases, "quilting.around", NULL)
            : place_of(w, &item->place);
    const char *key = item->kind == TOLD_DITCH    ? "quilting.ditch"
                      : item->kind == TOLD_EXTEND ? "quilting.extend"
                      : item->kind == TOLD_ECHO   ? "quilting.echo"
                                                  : "quilting.connect";
    const char *what = say(w->arena, w->phrases, key, "place", place, NULL);
    return item->area == NO_ITEM ? what : in_areas(w, plan, item, what);
}

/* Areas may have lines of their own without any filler, and a filler may find no
 * room. */
const char *word_filler(const struct wording *w,
                        const struct quilted_kind *kind)
{
    const struct told_item *fill = kind->fill;
    if (fill == NULL || fill->of.fill.with == TOLD_NONE || !(kind->filled > 0))
        return kind->filled > 0
                   ? say(w->arena, w->phrases, "quilting.own-lines", NULL)
                   : say(w->arena, w->phrases, "quilting.nothing", NULL);
    const char *key =
        fill->of.fill.with == TOLD_PEBBLES  ? "quilting.fill-across"
        : fill->of.fill.with == TOLD_SWIRLS ? "quilting.fill-about"
                                            : "quilting.fill-apart";
    return say(w->arena, w->phrases, key, "what",
               fill_kind(w, fill->of.fill.with), "spacing",
               word_length_unit(w, fill->of.fill.spacing), NULL);
}

/* ---- how they are found ---- */

/* Whole sentences by what the line is beside, as languages differ in them. */
static const char *found_beside(const struct wording *w,
                                const struct quilted_row *row)
{
    static const char *const feet[] = {[GUIDE_NONE] = "quilting.foot-line",
                                       [GUIDE_SEAM] = "quilting.foot-seam",
                                       [GUIDE_LINE] = "quilting.foot-line",
                                       [GUIDE_EDGE] = "quilting.foot-edge"};
    static const char *const rulers[] = {[GUIDE_NONE] = "quilting.ruler-line",
                                         [GUIDE_SEAM] = "quilting.ruler-seam",
                                         [GUIDE_LINE] = "quilting.ruler-line",
                                         [GUIDE_EDGE] = "quilting.ruler-edge"};
    return say(w->arena, w->phrases,
               row->found == FOUND_FOOT ? feet[row->guide] : rulers[row->guide],
               "beside", word_apart(w, row->beside), NULL);
}

/* As a noun of many. */
static const char *points_of(const struct wording *w, enum point_kind kind)
{
    static const char *const keys[] = {
        [POINT_CORNERS] = "quilting.corners",
        [POINT_OUTER_CORNERS] = "quilting.outer-corners",
        [POINT_INNER_CORNERS] = "quilting.inner-corners",
        [POINT_SEAM_ENDS] = "quilting.seam-ends",
        [POINT_MIDDLES] = "quilting.middles",
        [POINT_CENTER] = "quilting.centers",
        [POINT_LINE_ENDS] = "quilting.line-ends"};
    return say(w->arena, w->phrases, keys[kind], NULL);
}

/* Which points, and which of them are joined. */
static const char *found_points(const struct wording *w,
                                const struct told_item *item)
{
    static const char *const keys[] = {[TOLD_FACING] = "quilting.found-facing",
                                       [TOLD_NEAREST] =
                                           "quilting.found-nearest",
                                       [TOLD_ALL] = "quilting.found-points"};
    return say(w->arena, w->phrases, keys[item->of.connect.pair], "from",
               points_of(w, item->of.connect.from), "to",
               points_of(w, item->of.connect.to), NULL);
}

const char *word_found(const struct wording *w, const struct quilted_row *row)
{
    switch (row->found) {
    case FOUND_SEAM:
        return row->stage == STAGE_DITCH
                   ? say(w->arena, w->phrases, "quilting.found-ditch", NULL)
                   : say(w->arena, w->phrases, "quilting.found-seam", NULL);
    case FOUND_FOOT:
    case FOUND_RULER:
        return found_beside(w, row);
    case FOUND_POINTS:
        return found_points(w, row->item);
    case FOUND_FREE:
        return say(w->arena, w->phrases, "quilting.found-free", NULL);
    case FOUND_MARK:
    case FOUND_WAYS:
        break;
    }
    return say(w->arena, w->phrases, "quilting.found-mark", NULL);
}

/* ---- threads ---- */

/* The real spool, where the colorway has one: it is what is bought. */
const char *word_thread_color(const struct wording *w,
                              const struct quilting_plan *plan, size_t colorway,
                              size_t thread)
{
    const size_t count = plan->told->threads.count;
    const struct quilting_thread *told = &plan->told->threads.items[thread];
    const struct thread_dress *dress =
        &plan->dresses[colorway * count + thread];
    const struct bolt *bolts = w->design->colorways.items[colorway].bolts;
    if (dress->name[0] != '\0')
        return dress->name;
    if (told->color == THREAD_COLORED)
        return say(w->arena, w->phrases, "quilting.as-shown", NULL);
    if (told->color == THREAD_MATCHES)
        return say(w->arena, w->phrases, "quilting.color-of", "cloth",
                   bolts[told->fabrics[0]].name, NULL);
    return say(w->arena, w->phrases, "quilting.color-between", "first",
               bolts[told->fabrics[0]].name, "last",
               bolts[told->fabrics[1]].name, NULL);
}
