/* English sentences about facts. One term for one thing, all through: piece,
 * strip, seam, drawn line, right side, wrong side, unfinished, finished. Texts
 * come from the facts of one heap or action, so no sentence can differ from its
 * figure. `glyphs` chooses typographic signs for pages, plain ASCII for data. A
 * second language would be a second file like this one. */
#include "wording.h"

#include <string.h>

#include "buffer.h"

/* "in" or "cm". */
const char *word_unit(const struct wording *w)
{
    return length_unit_name(w->design->pattern->units);
}

/* A number without its unit. */
const char *word_length(const struct wording *w, struct rational value)
{
    const enum length_unit units = w->design->pattern->units;
    return w->glyphs ? length_glyphs(w->arena, value, units)
                     : length_plain(w->arena, value, units);
}

/* Width by height. */
const char *word_size(const struct wording *w, struct rational width,
                      struct rational height)
{
    /* No-break spaces: a size stays on one line. */
    return arena_printf(w->arena, w->glyphs ? "%s\u00a0×\u00a0%s" : "%s x %s",
                        word_length(w, width), word_length(w, height));
}

/* One unit behind both numbers. */
const char *word_size_unit(const struct wording *w, struct rational width,
                           struct rational height)
{
    return arena_printf(w->arena, w->glyphs ? "%s\u00a0%s" : "%s %s",
                        word_size(w, width, height), word_unit(w));
}

/* Stands at the right of a step's title, where hands look for it. */
const char *word_make(const struct wording *w, size_t count)
{
    return arena_printf(w->arena, "Make %zu.", count);
}

/* Heaps are told by number, as inputs hold them. */
static const struct heap *heap_of(const struct wording *w, size_t index)
{
    return &w->quilt->heaps.items[index];
}

/* " 24 in" where the quilt has the same unit or block in several sizes. Else
 * two steps would have one name. */
static const char *size_name(const struct wording *w, const struct heap *heap)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *other = heap_of(w, i);
        if (other->named == heap->named &&
            !rational_equal(rational_mul(other->width, other->height),
                            rational_mul(heap->width, heap->height)))
            return arena_printf(w->arena, " %s %s", word_length(w, heap->width),
                                word_unit(w));
    }
    return "";
}

/* What stands on a part in a figure: the label of a cut, or the step in
 * brackets. */
const char *word_mark(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    return heap->work == WORK_CUT ? heap->label
                                  : arena_printf(w->arena, "(%zu)", heap->step);
}

/* What a part is called inside a sentence. */
const char *word_part(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    if (heap->work == WORK_CUT)
        return heap->label;
    if (heap->named != NULL)
        return arena_printf(w->arena, "%s%s%s", heap->named->name,
                            size_name(w, heap),
                            heap->named_mirror ? " (mirrored)" : "");
    return arena_printf(w->arena, "(%zu)", heap->step);
}

/* The part that is input number `input`. */
static const char *part_of_heap(const struct wording *w,
                                const struct heap *heap, size_t input)
{
    return word_part(w, heap->inputs.items[input].heap);
}

/* Named by its base and the first square. */
static const char *corner_title(const struct wording *w,
                                const struct heap *heap)
{
    struct buffer text = buffer_in(w->arena);
    buffer_printf(&text, "%s with %s", part_of_heap(w, heap, 0),
                  heap->inputs.count > 2 ? "corners" : "a corner");
    for (size_t i = 1; i < heap->inputs.count; i++) {
        bool told = false;
        for (size_t k = 1; k < i; k++)
            told |= heap->inputs.items[k].heap == heap->inputs.items[i].heap;
        if (!told)
            buffer_printf(&text, "%s %s", i == 1 ? "" : " and",
                          part_of_heap(w, heap, i));
    }
    return buffer_string(&text);
}

/* All members in their order. */
static const char *diagonal_title(const struct wording *w,
                                  const struct heap *heap)
{
    struct buffer text = buffer_in(w->arena);
    buffer_text(&text, "Strip ");
    for (size_t i = 0; i < heap->inputs.count; i++)
        buffer_printf(&text, "%s%s", i == 0 ? "" : " + ",
                      part_of_heap(w, heap, i));
    buffer_text(&text, ", joined diagonally");
    return buffer_string(&text);
}

/* What has no name of its own is told by its shape. */
static const char *join_title(const struct wording *w, const struct heap *heap)
{
    if (heap->across > 1 && heap->down > 1)
        return arena_printf(w->arena, "Grid of %zu by %zu", heap->across,
                            heap->down);
    return arena_printf(w->arena, "%s of %zu",
                        heap->down > 1 ? "Column" : "Row", heap->inputs.count);
}

/* The title of a step. */
const char *word_heap(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    if (index == w->quilt->top)
        return "Quilt center";
    if (heap->named != NULL)
        return word_part(w, index);
    switch (heap->work) {
    case WORK_CUT:
        break;
    case WORK_CORNERS:
        return corner_title(w, heap);
    case WORK_DIAGONAL:
        return diagonal_title(w, heap);
    case WORK_HALF_SQUARE:
        return arena_printf(w->arena, "Half-square %s and %s",
                            part_of_heap(w, heap, 0), part_of_heap(w, heap, 1));
    case WORK_JOIN:
        return join_title(w, heap);
    }
    return heap->label;
}

/* Names the direction and both ends: the word alone is easily mistaken. */
const char *word_line(const struct wording *w, enum line_direction line)
{
    return arena_printf(w->arena, "%s, from the %s to the %s", line_name(line),
                        line == LINE_RISING ? "bottom left" : "top left",
                        line == LINE_RISING ? "top right" : "bottom right");
}

/* "square A3 on the top-left and bottom-right corners": those of the action's
 * corners that get the same square as the one at `first`. */
static const char *square_on(const struct wording *w, const struct heap *heap,
                             const struct action *action, size_t first)
{
    const size_t *parts = action->parts.items;
    const size_t like = heap->inputs.items[parts[first]].heap;
    struct buffer places = buffer_in(w->arena);
    size_t count = 0, total = 0;
    for (size_t i = first; i < action->parts.count; i++)
        total += heap->inputs.items[parts[i]].heap == like;
    for (size_t i = first; i < action->parts.count; i++) {
        if (heap->inputs.items[parts[i]].heap != like)
            continue;
        count++;
        buffer_printf(&places, "%s%s",
                      count == 1       ? ""
                      : count == total ? " and "
                                       : ", ",
                      corner_name(heap->inputs.items[parts[i]].at));
    }
    return arena_printf(w->arena, "%s %s on the %s %s",
                        action->parts.count > 2 ? "a square" : "square",
                        part_of_heap(w, heap, parts[first]),
                        buffer_string(&places),
                        total > 1 ? "corners" : "corner");
}

static const char *squares_on(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 1; i < action->parts.count; i++) {
        bool told = false;
        for (size_t k = 1; k < i; k++)
            told |= heap->inputs.items[action->parts.items[k]].heap ==
                    heap->inputs.items[action->parts.items[i]].heap;
        if (!told)
            buffer_printf(&text, "%s%s", i == 1 ? "" : " and ",
                          square_on(w, heap, action, i));
    }
    return buffer_string(&text);
}

/* Whether all corners of the action have lines of one direction. */
static bool same_lines(const struct heap *heap, const struct action *action)
{
    for (size_t i = 1; i < action->parts.count; i++)
        if (corner_line(heap->inputs.items[action->parts.items[i]].at) !=
            action->line)
            return false;
    return true;
}

/* A square turns over a diagonal: what lies upright comes to lie sideways. */
static const char *print_hint(const struct wording *w, const struct heap *heap,
                              size_t input)
{
    const int fabric = heap_of(w, heap->inputs.items[input].heap)->fabric;
    return fabric >= 0 && w->design->fabrics.items[fabric].one_way
               ? " Lay its print sideways, so that it stands upright once "
                 "flipped."
               : "";
}

/* Right sides together, wrong side up: so the drawn line is the one that is
 * seen, and its direction is told as it lies. */
static const char *word_corner(const struct wording *w, const struct heap *heap,
                               const struct action *action)
{
    const bool many = action->parts.count > 2;
    struct buffer text = buffer_in(w->arena);
    buffer_printf(&text,
                  "Lay %s of %s, right sides together, wrong side up.%s ",
                  squares_on(w, heap, action), part_of_heap(w, heap, 0),
                  print_hint(w, heap, action->parts.items[1]));
    if (same_lines(heap, action))
        buffer_printf(&text,
                      "Draw the diagonal of %s square on its wrong side as it "
                      "lies. It is %s. ",
                      many ? "each" : "the", word_line(w, action->line));
    else
        buffer_text(&text,
                    "Draw the diagonal of each square on its wrong side as it "
                    "lies, across the corner, as the figure shows. ");
    buffer_printf(&text,
                  "Sew on the line. Trim both layers %s %s outside it, "
                  "towards the corner.",
                  word_length(w, w->design->pattern->seam), word_unit(w));
    return buffer_string(&text);
}

/* On which side of the drawn line the cut lies, as the cloth lies. */
static bool cut_is_low(const struct action *action)
{
    const struct mark *drawn = NULL, *cut = NULL;
    for (size_t i = 0; i < action->before.marks.count; i++) {
        const struct mark *mark = &action->before.marks.items[i];
        if (mark->kind == MARK_DRAWN)
            drawn = mark;
        else if (mark->kind == MARK_CUT)
            cut = mark;
    }
    return drawn != NULL && cut != NULL &&
           rational_compare(rational_add(cut->from.y, cut->to.y),
                            rational_add(drawn->from.y, drawn->to.y)) > 0;
}

/* The overlap is a square, so its diagonal is the seam. */
static const char *word_diagonal(const struct wording *w,
                                 const struct heap *heap,
                                 const struct action *action)
{
    const char *base = part_of_heap(w, heap, action->parts.items[0]);
    const char *strip = part_of_heap(w, heap, action->parts.items[1]);
    return arena_printf(
        w->arena,
        "Lay %s at a right angle across the end of %s, right sides together, "
        "wrong side up, as the figure shows. Draw the diagonal of the overlap "
        "on its wrong side as it lies. It is %s. Sew on the line. Trim both "
        "layers %s %s %s the line.",
        strip, base, word_line(w, action->line),
        word_length(w, w->design->pattern->seam), word_unit(w),
        cut_is_low(action) ? "below" : "above");
}

/* Method two gives two for each pair, and says how much trimming takes off at
 * least, to two places. */
static const char *word_half_square(const struct wording *w,
                                    const struct heap *heap,
                                    const struct action *action)
{
    const char *base = part_of_heap(w, heap, 0);
    const char *flap = part_of_heap(w, heap, 1);
    const struct pattern *pattern = w->design->pattern;
    const char *seam = arena_printf(
        w->arena, "%s %s", word_length(w, pattern->seam), word_unit(w));
    const char *lay = arena_printf(
        w->arena,
        "Lay square %s on square %s, right sides together, wrong "
        "side up.%s Draw the diagonal on its wrong side as it "
        "lies. It is %s.",
        flap, base, print_hint(w, heap, 1), word_line(w, action->line));
    if (heap->method == METHOD_ONE)
        return arena_printf(
            w->arena,
            "%s Sew on the line. Trim both layers %s beside it, on the "
            "right of the line.",
            lay, seam);
    const struct rational seams = rational_times(pattern->seam, 2);
    return arena_printf(
        w->arena,
        "%s Sew %s from the line on both sides. Cut on the line: this gives "
        "two%s. Trim "
        "each to %s, with the seam in both corners (about %s %s comes off).",
        lay, seam,
        heap->yield == 2 ? ""
                         : ", but the print of the second stands on its head: "
                           "keep the one that the figure shows",
        word_size_unit(w, rational_add(heap->width, seams),
                       rational_add(heap->height, seams)),
        rational_decimal(w->arena, heap->slack, 2), word_unit(w));
}

/* Rows first where there are both. */
static const char *word_joining(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    if (action->kind == ACTION_JOIN_COLUMN)
        return heap->across > 1
                   ? "Sew the rows together, from the top down. Match the "
                     "seams."
                   : arena_printf(
                         w->arena,
                         "Sew the %zu pieces together, from the top down.",
                         heap->inputs.count);
    return heap->down > 1
               ? arena_printf(
                     w->arena,
                     "Lay the pieces out in %zu rows of %zu. Sew the pieces of "
                     "each row together, from left to right.",
                     heap->down, heap->across)
               : arena_printf(
                     w->arena,
                     "Sew the %zu pieces together, from left to right.",
                     heap->inputs.count);
}

/* Like parts that lie turned against each other are told of: the figure shows
 * how, and it is easily overlooked. */
static bool has_turned_parts(const struct heap *heap)
{
    for (size_t i = 0; i < heap->inputs.count; i++)
        for (size_t k = 0; k < i && k < 64; k++)
            if (heap->inputs.items[i].heap == heap->inputs.items[k].heap &&
                heap->inputs.items[i].turn != heap->inputs.items[k].turn)
                return true;
    return false;
}

static const char *word_join(const struct wording *w, const struct heap *heap,
                             const struct action *action)
{
    const char *joining = word_joining(w, heap, action);
    return action == &heap->actions.items[0] && has_turned_parts(heap)
               ? arena_printf(w->arena,
                              "Turn like parts as the figure shows. %s",
                              joining)
               : joining;
}

/* One sentence or more, told in the order in which hands move. */
const char *word_action(const struct wording *w, const struct heap *heap,
                        const struct action *action)
{
    switch (action->kind) {
    case ACTION_FLIP_CORNER:
        return word_corner(w, heap, action);
    case ACTION_JOIN_DIAGONAL:
        return word_diagonal(w, heap, action);
    case ACTION_HALF_SQUARE:
        return word_half_square(w, heap, action);
    case ACTION_JOIN_ROW:
    case ACTION_JOIN_COLUMN:
        break;
    }
    return word_join(w, heap, action);
}

/* Do all marks of the action point one way? */
static bool one_direction(const struct action *action)
{
    for (size_t i = 1; i < action->after.presses.count; i++)
        if (action->after.presses.items[i].x !=
                action->after.presses.items[0].x ||
            action->after.presses.items[i].y !=
                action->after.presses.items[0].y)
            return false;
    return action->after.presses.count > 0;
}

/* Of a mark that is not open. */
static const char *direction_text(const struct press_mark *mark)
{
    return mark->x > 0   ? "to the right"
           : mark->x < 0 ? "to the left"
           : mark->y > 0 ? "down"
                         : "up";
}

/* Singular or plural, by the marks. */
static const char *seams_of(const struct action *action)
{
    return action->after.presses.count > 1 ? "seams" : "seam";
}

/* In the words that the arrows of the figure show; open, corner and cloth are
 * told by name, all else by direction. */
const char *word_press(const struct wording *w, const struct heap *heap,
                       const struct action *action)
{
    const char *seams = seams_of(action);
    if (action->press.side == PRESS_OPEN)
        return arena_printf(w->arena, "Press the %s open.", seams);
    if (action->kind == ACTION_FLIP_CORNER)
        return action->after.presses.count > 1
                   ? "Press the flaps over the seams, towards the corners."
                   : "Press the flap over the seam, towards the corner.";
    if (action->press.side == PRESS_TOWARD_FABRIC &&
        action->press.fabric >= 0) {
        const char *name = w->design->fabrics.items[action->press.fabric].name;
        return arena_printf(w->arena, "Press the %s towards %s%s.", seams,
                            action->pressed_by_rule ? "the darker cloth, " : "",
                            name);
    }
    if (action->after.presses.count > 0 && one_direction(action))
        return arena_printf(w->arena, "Press the %s %s.", seams,
                            direction_text(&action->after.presses.items[0]));
    if (heap->down > 1 && action->kind == ACTION_JOIN_ROW)
        return "Press the seams of row 1 to the right, of row 2 to the left, "
               "and so on, "
               "so that they nest.";
    return "Press each seam as the arrows show.";
}

/* Unfinished, as it lies on the table. */
const char *word_measure(const struct wording *w, const struct heap *heap)
{
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return arena_printf(w->arena, "It measures %s unfinished.",
                        word_size_unit(w, rational_add(heap->width, seams),
                                       rational_add(heap->height, seams)));
}

/* Each kind once, with how many of it: "4 x Wing (3), 1 x A2". */
const char *word_parts(const struct wording *w, const struct heap *heap)
{
    struct buffer text = buffer_in(w->arena);
    bool *told = ARENA_ARRAY(w->arena, bool, w->quilt->heaps.count);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const size_t index = heap->inputs.items[i].heap;
        size_t count = 0;
        for (size_t k = 0; k < heap->inputs.count; k++)
            count += heap->inputs.items[k].heap == index;
        if (told[index])
            continue;
        told[index] = true;
        buffer_printf(&text, w->glyphs ? "%s%zu\u00a0×\u00a0%s" : "%s%zu x %s",
                      text.length == 0 ? "" : ", ", count, word_part(w, index));
        /* A name alone does not say which step made it. */
        if (heap_of(w, index)->named != NULL)
            buffer_printf(&text, w->glyphs ? "\u00a0%s" : " %s",
                          word_mark(w, index));
    }
    return buffer_string(&text);
}
