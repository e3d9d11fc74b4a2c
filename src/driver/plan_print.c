/* Plans as text for a terminal: strips of a roll, sheets, leftovers. */
#include "plan_print.h"

#include <string.h>

#include "length.h"

/* Steps as a length in the notation of the list. Plans count in whole steps, so
 * that they compare integers; people measure in inches. */
static const char *length_text(struct arena *arena,
                               const struct piece_list *list, int64_t steps)
{
    return length_plain(arena, rational_times(list->step, steps), list->unit);
}

/* What is left of a length as written when so many steps are used. In
 * rationals: a side need not be a whole number of steps. */
static const char *rest_text(struct arena *arena, const struct piece_list *list,
                             struct rational length, int64_t used)
{
    return length_plain(arena,
                        rational_sub(length, rational_times(list->step, used)),
                        list->unit);
}

/* What a size is called: its name, or its sides. */
static const char *size_text(struct arena *arena, const struct piece_list *list,
                             size_t index)
{
    const struct roll_size *size = &list->problem.sizes[index];
    if (size->name[0] != '\0')
        return size->name;
    return arena_printf(arena, "(%s by %s)",
                        length_text(arena, list, size->width),
                        length_text(arena, list, size->height));
}

/* ---- a roll ---- */

/* "  14 x strip 4 1/2   9 x squares; 1 1/2 left". */
static void print_strip(struct buffer *out, const struct piece_list *list,
                        const struct roll_strip *strip, int room)
{
    int64_t used = 0;
    buffer_printf(out, "%4zu x strip %-*s", strip->repeat, room,
                  length_text(out->arena, list, strip->height));
    for (size_t i = 0; i < strip->cuts.count; i++) {
        const struct roll_cut *cut = &strip->cuts.items[i];
        used += cut->along * (int64_t)cut->count;
        buffer_printf(out, "%s%zu x %s", i == 0 ? "" : ", ", cut->count,
                      size_text(out->arena, list, cut->size));
    }
    buffer_printf(out, "; %s left\n",
                  rest_text(out->arena, list, list->sheet_sides[0], used));
}

/* Columns for the heights of strips, a blank with them: mostly 7. */
static int height_room(int room, struct arena *arena,
                       const struct piece_list *list, int64_t height)
{
    const int needed = (int)strlen(length_text(arena, list, height)) + 1;
    return needed > room ? needed : room;
}

/* The last two lines are read by scripts: they keep their form. */
void print_roll_plan(struct buffer *out, const struct piece_list *list,
                     const struct roll_plan *plan)
{
    const struct roll_effort effort = roll_effort(&list->problem, plan);
    int room = 7;
    for (size_t i = 0; i < plan->strips.count; i++)
        room =
            height_room(room, out->arena, list, plan->strips.items[i].height);
    for (size_t i = 0; i < plan->strips.count; i++)
        print_strip(out, list, &plan->strips.items[i], room);
    buffer_printf(
        out, "length %s, bound %s%s\n",
        length_text(out->arena, list, plan->length),
        length_text(out->arena, list, plan->bound),
        plan->length == plan->bound ? ": no plan of this kind is shorter" : "");
    buffer_printf(out, "effort %zu: %zu lines, %zu settings, %zu trims\n",
                  effort.lines + effort.settings + effort.trims, effort.lines,
                  effort.settings, effort.trims);
}

/* ---- sheets ---- */

/* "3 x 2 1/2 (squares)", or "3 x 2 1/2 (2 squares each)" where segments are
 * sliced. */
static void print_cut(struct buffer *out, const struct piece_list *list,
                      const struct sheet_cut *cut)
{
    const char *name = size_text(out->arena, list, cut->size);
    const char *along = length_text(out->arena, list, cut->along);
    /* A name made of sides has its own brackets. */
    const bool named = name[0] != '(';
    buffer_printf(out, "%zu x %s %s", cut->beside, along, named ? "(" : "");
    if (cut->stack > 1)
        buffer_printf(out, "%s%zu x %s each", named ? "" : "of ", cut->stack,
                      name);
    else
        buffer_text(out, name);
    buffer_text(out, named ? ")" : "");
}

/* All strips of a sheet, and the rectangle that stays whole. `sides` are its
 * width and height as written: what is left is told in full, not in steps. */
static void print_strips(struct buffer *out, const struct piece_list *list,
                         const struct rational *sides,
                         const struct sheet_pattern *pattern)
{
    const struct rational length = sides[pattern->down ? 1 : 0];
    int64_t used = 0;
    int room_of_height = 7;
    for (size_t i = 0; i < pattern->strips.count; i++)
        room_of_height = height_room(room_of_height, out->arena, list,
                                     pattern->strips.items[i].height);
    for (size_t i = 0; i < pattern->strips.count; i++) {
        const struct sheet_strip *strip = &pattern->strips.items[i];
        int64_t along = 0;
        buffer_printf(out, "%4zu x strip %-*s", strip->repeat, room_of_height,
                      length_text(out->arena, list, strip->height));
        for (size_t k = 0; k < strip->cuts.count; k++) {
            const struct sheet_cut *cut = &strip->cuts.items[k];
            along += cut->along * (int64_t)cut->beside;
            buffer_text(out, k == 0 ? "" : ", ");
            print_cut(out, list, cut);
        }
        buffer_printf(out, "; %s left\n",
                      rest_text(out->arena, list, length, along));
        used += strip->height * (int64_t)strip->repeat;
    }
    const struct rational room = sides[pattern->down ? 0 : 1];
    if (rational_compare(room, rational_times(list->step, used)) > 0)
        buffer_printf(out, "         left whole: %s by %s\n",
                      length_plain(out->arena, length, list->unit),
                      rest_text(out->arena, list, room, used));
}

/* Sheets that are cut alike are told once, with their number in front. The
 * effort is told so that two plans of as many sheets can be compared. */
void print_sheet_plan(struct buffer *out, const struct piece_list *list,
                      const struct sheet_plan *plan)
{
    const struct sheet_effort effort = sheet_effort(plan);
    for (size_t i = 0; i < plan->sheets.count; i++) {
        const struct sheet_pattern *pattern = &plan->sheets.items[i];
        buffer_printf(out, "%zu sheet%s like this, strips %s:\n",
                      pattern->repeat, pattern->repeat == 1 ? "" : "s",
                      pattern->down ? "down" : "across");
        print_strips(out, list, list->sheet_sides, pattern);
    }
    buffer_printf(out, "sheets %zu, bound %zu%s\n", plan->count, plan->bound,
                  plan->count == plan->bound ? ": proven least" : "");
    buffer_printf(out,
                  "effort %zu: %zu patterns of sheets, %zu of strips, "
                  "%zu settings, %zu trims\n",
                  sheet_effort_total(effort), effort.patterns, effort.strips,
                  effort.settings, effort.trims);
}

/* As sheets are told, each with the size of the cloth that is meant. */
void print_leftovers(struct buffer *out, const struct piece_list *list,
                     const struct leftover_plan *plan)
{
    for (size_t i = 0; i < plan->fill->uses.count; i++) {
        const struct leftover_use *use = &plan->fill->uses.items[i];
        const struct rational *sides = list->leftover_sides + 2 * use->kind;
        buffer_printf(out, "%zu leftover%s %s by %s like this, strips %s:\n",
                      use->pattern.repeat, use->pattern.repeat == 1 ? "" : "s",
                      length_plain(out->arena, sides[0], list->unit),
                      length_plain(out->arena, sides[1], list->unit),
                      use->pattern.down ? "down" : "across");
        print_strips(out, list, sides, &use->pattern);
    }
}
