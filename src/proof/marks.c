/* The numbers inside a figure that no caption tells: where a ruler cuts, and
 * the numbers of seams. Positions are added up as hands cut them. */
#include "marks.h"
#include "buffer.h"

/* Adds the places of the cuts, up to the first that keeps the rest. */
static void add_places(const struct wording *w, const struct fabric_plan *plan,
                       const struct strip_cut *cuts, size_t count,
                       struct buffer *out)
{
    struct rational at = rational_whole(0);
    for (size_t i = 0; i < count && !keeps_rest(plan, &cuts[i]); i++)
        for (size_t k = 0; k < cuts[i].count; k++) {
            at = rational_add(at, cuts[i].along);
            buffer_printf(out, "%s%s", out->length == 0 ? "" : ", ",
                          word_length(w, at));
        }
}

/* Adds a size that is left over. */
static void add_left(const struct wording *w, struct rational width,
                     struct rational height, struct buffer *out)
{
    if (rational_sign(width) > 0 && rational_sign(height) > 0)
        buffer_printf(out, "%s%s", out->length == 0 ? "" : ", ",
                      word_size(w, width, height));
}

/* What stays above pieces that are lower than their strip, and behind the last;
 * a border that keeps the rest has all of it. `layers`: two where it lies
 * folded, and is told as it lies opened. */
static void add_leftovers(const struct wording *w,
                          const struct fabric_plan *plan,
                          const struct strip *strip,
                          const struct strip_cut *cuts, size_t count,
                          struct rational end, int64_t layers,
                          struct buffer *out)
{
    struct rational x = rational_whole(0);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < cuts[i].count; k++) {
            const bool last = keeps_rest(plan, &cuts[i]) && i + 1 == count &&
                              k + 1 == cuts[i].count;
            const struct rational along =
                last ? rational_sub(end, x) : cuts[i].along;
            add_left(w, along, rational_sub(strip->height, cuts[i].across),
                     out);
            x = rational_add(x, along);
        }
    add_left(w, rational_times(rational_sub(end, x), layers), strip->height,
             out);
}

/* "marks at 2½, 5 · left over 3 × 2½"; either may lack. */
static const char *told_marks(const struct wording *w,
                              const struct buffer *places,
                              const struct buffer *left)
{
    const char *marks = places->length == 0
                            ? ""
                            : say(w->arena, w->phrases, "claim.marks", "places",
                                  buffer_string(places), NULL);
    if (left->length == 0)
        return marks;
    return arena_printf(w->arena, "%s%s%s", marks,
                        marks[0] == '\0' ? "" : " \u00b7 ",
                        say(w->arena, w->phrases, "claim.left", "sizes",
                            buffer_string(left), NULL));
}

/* Where the folded part of a strip ends: at the last cut, if the rest is cut
 * opened; else at the fold. */
static struct rational folded_end(const struct fabric_plan *plan,
                                  const struct strip_work *work)
{
    struct rational end = rational_whole(0);
    if (work->singles.count == 0)
        return rational_div(plan->strip_length, rational_whole(2));
    for (size_t i = 0; i < work->pairs.count; i++) {
        const struct strip_cut *cut = &work->pairs.items[i];
        end =
            rational_add(end, rational_times(cut->along, (int64_t)cut->count));
    }
    return end;
}

const char *marks_of_strip(const struct wording *w,
                           const struct fabric_plan *plan,
                           const struct told_figure *figure)
{
    struct buffer places = buffer_in(w->arena), left = buffer_in(w->arena);
    const struct strip *strip = figure->strip;
    if (strip == NULL || figure->drawing == DRAWING_SHAPES)
        return "";
    const struct strip_work work = fold_strip(w->arena, plan, strip, false);
    if (figure->drawing == DRAWING_OPENED_STRIP) {
        add_places(w, plan, work.singles.items, work.singles.count, &places);
        add_leftovers(w, plan, strip, work.singles.items, work.singles.count,
                      work.opened, 1, &left);
    } else if (work.pairs.count > 0) {
        add_places(w, plan, work.pairs.items, work.pairs.count, &places);
        add_leftovers(w, plan, strip, work.pairs.items, work.pairs.count,
                      folded_end(plan, &work), 2, &left);
    }
    return told_marks(w, &places, &left);
}

const char *marks_of_work(const struct wording *w, const struct told_work *work)
{
    size_t seams = 0;
    if (work->step == NULL)
        return "";
    for (size_t i = 0; i < work->step->heaps.count; i++)
        seams +=
            seams_in(&w->quilt->heaps.items[work->step->heaps.items[i]], NULL);
    return seams < 2 ? ""
                     : say(w->arena, w->phrases, "claim.seams", "last",
                           say_count(w->arena, seams), NULL);
}

/* In the first two stages, where the path is shown turn by turn. */
static size_t turns_of_stage(const struct told_figure *figure,
                             enum quilting_stage stage)
{
    size_t legs = 0;
    for (size_t i = 0; i < figure->quilting->routes.count; i++) {
        const struct quilted_route *route = &figure->quilting->routes.items[i];
        for (size_t at = 0; route->stage == stage && stage <= STAGE_LINES &&
                            at < route->steps.count;
             legs++)
            at = route_turn_end(route, at, route->steps.count);
    }
    return legs;
}

const char *marks_of_path(const struct wording *w,
                          const struct told_figure *figure)
{
    size_t legs = 0;
    enum quilting_stage only;
    if (figure->drawing == DRAWING_QUILTING_STAGE)
        legs = turns_of_stage(figure, figure->stage);
    else if (figure->drawing == DRAWING_QUILTING_MAP &&
             quilting_stages(figure->quilting, &only) == 1 &&
             quilting_way_is_short(figure->quilting, only))
        legs = turns_of_stage(figure, only);
    else if (figure->drawing == DRAWING_QUILTING_SEQUENCE) {
        const struct quilted_kind *kind =
            &figure->quilting->kinds.items[figure->kind];
        for (size_t i = 0; i < kind->sequences.count; i++) {
            const struct quilted_route *route = &kind->sequences.items[i];
            for (size_t at = 0; at < route->steps.count; legs++)
                at = route_leg_end(route, at);
        }
    }
    return legs < 2 ? ""
                    : say(w->arena, w->phrases, "claim.legs", "last",
                          say_count(w->arena, legs), NULL);
}
