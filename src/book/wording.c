/* Facts find their sentences here. One term for one thing, all through: piece,
 * strip, seam, drawn line, right side, wrong side, unfinished, finished. Texts
 * come from the facts of one heap or action, so no sentence can differ from its
 * figure. `glyphs` chooses typographic signs for pages, plain ASCII for data.
 * The sentences are in templates/wording. Read next: wording_cut.c. */
#include "wording.h"

#include <string.h>

#include "buffer.h"

/* "in" or "cm", as the language has it. */
const char *word_unit(const struct wording *w)
{
    return say(w->arena, w->phrases,
               w->design->pattern->units == UNIT_CM ? "unit.centimetre"
                                                    : "unit.inch",
               NULL);
}

/* The sign between whole and decimal digits is the language's. */
static const char *with_sign(const struct wording *w, const char *number)
{
    const char *point = strchr(number, '.');
    const char *sign = say(w->arena, w->phrases, "number.point", NULL);
    return point == NULL ? number
                         : arena_printf(w->arena, "%.*s%s%s",
                                        (int)(point - number), number, sign,
                                        point + 1);
}

const char *word_length_in(const struct wording *w, struct rational value,
                           enum length_unit unit)
{
    return with_sign(w, w->glyphs ? length_glyphs(w->arena, value, unit)
                                  : length_plain(w->arena, value, unit));
}

/* A number without its unit. */
const char *word_length(const struct wording *w, struct rational value)
{
    return word_length_in(w, value, w->design->pattern->units);
}

const char *word_length_unit(const struct wording *w, struct rational value)
{
    return arena_printf(w->arena, "%s %s", word_length(w, value), word_unit(w));
}

const char *word_decimal(const struct wording *w, struct rational value,
                         int places)
{
    return with_sign(w, rational_decimal(w->arena, value, places));
}

/* Sentences have an order in every language; only what is in them has not. */
const char *word_then(const struct wording *w, const char *first,
                      const char *second)
{
    return first[0] == '\0' || second[0] == '\0'
               ? arena_printf(w->arena, "%s%s", first, second)
               : arena_printf(w->arena, "%s %s", first, second);
}

const char *word_list(const struct wording *w, const char *const *parts,
                      size_t count)
{
    const char *text = parts[0];
    for (size_t i = 1; i + 1 < count; i++)
        text = say(w->arena, w->phrases, "list.comma", "first", text, "next",
                   parts[i], NULL);
    return count < 2 ? text
                     : say(w->arena, w->phrases, "list.and", "first", text,
                           "last", parts[count - 1], NULL);
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
    return say(w->arena, w->phrases, "step.make", "count",
               say_count(w->arena, count), NULL);
}

/* Heaps are told by number, as inputs hold them. */
static const struct heap *heap_of(const struct wording *w, size_t index)
{
    return &w->quilt->heaps.items[index];
}

/* "24 in" where the quilt has the same unit or block in several sizes. Else
 * two steps would have one name. */
static const char *size_name(const struct wording *w, const struct heap *heap)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *other = heap_of(w, i);
        if (other->named == heap->named &&
            !rational_equal(rational_mul(other->width, other->height),
                            rational_mul(heap->width, heap->height)))
            return word_length_unit(w, heap->width);
    }
    return NULL;
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
    if (heap->named != NULL) {
        const char *size = size_name(w, heap), *name = heap->named->name;
        if (size != NULL)
            name = say(w->arena, w->phrases, "part.sized", "name", name, "size",
                       size, NULL);
        return heap->named_mirror ? say(w->arena, w->phrases, "part.mirrored",
                                        "name", name, NULL)
                                  : name;
    }
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
    LIST(const char *) squares = {0};
    for (size_t i = 1; i < heap->inputs.count; i++) {
        bool told = false;
        for (size_t k = 1; k < i; k++)
            told |= heap->inputs.items[k].heap == heap->inputs.items[i].heap;
        if (!told)
            *LIST_ADD(w->arena, &squares) = part_of_heap(w, heap, i);
    }
    return say(w->arena, w->phrases, "title.corners", "part",
               part_of_heap(w, heap, 0), "count",
               say_count(w->arena, heap->inputs.count - 1), "squares",
               word_list(w, squares.items, squares.count), NULL);
}

/* All members in their order. */
static const char *diagonal_title(const struct wording *w,
                                  const struct heap *heap)
{
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0; i < heap->inputs.count; i++)
        buffer_printf(&text, "%s%s", i == 0 ? "" : " + ",
                      part_of_heap(w, heap, i));
    return say(w->arena, w->phrases, "title.diagonal", "parts",
               buffer_string(&text), NULL);
}

/* What has no name of its own is told by its shape. */
static const char *join_title(const struct wording *w, const struct heap *heap)
{
    if (heap->across > 1 && heap->down > 1)
        return say(w->arena, w->phrases, "title.grid", "across",
                   say_count(w->arena, heap->across), "down",
                   say_count(w->arena, heap->down), NULL);
    return say(w->arena, w->phrases,
               heap->down > 1 ? "title.column" : "title.row", "count",
               say_count(w->arena, heap->inputs.count), NULL);
}

/* The title of a step. */
const char *word_heap(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    if (index == w->quilt->top)
        return say(w->arena, w->phrases, "title.center", NULL);
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
        return say(w->arena, w->phrases, "title.half-square", "base",
                   part_of_heap(w, heap, 0), "flap", part_of_heap(w, heap, 1),
                   NULL);
    case WORK_JOIN:
        return join_title(w, heap);
    }
    return heap->label;
}

/* Names the direction and both ends: the word alone is easily mistaken. */
const char *word_line(const struct wording *w, enum line_direction line)
{
    return say(w->arena, w->phrases,
               line == LINE_RISING ? "line.is-rising" : "line.is-falling",
               NULL);
}

/* The language's words for a corner. */
static const char *word_place(const struct wording *w, enum corner_place at)
{
    static const char *const keys[] = {
        [TOP_LEFT] = "place.top-left",
        [TOP_RIGHT] = "place.top-right",
        [BOTTOM_RIGHT] = "place.bottom-right",
        [BOTTOM_LEFT] = "place.bottom-left"};
    return say(w->arena, w->phrases, keys[at], NULL);
}

/* "square A3 on the top-left and bottom-right corners": those of the action's
 * corners that get the same square as the one at `first`. */
static const char *square_on(const struct wording *w, const struct heap *heap,
                             const struct action *action, size_t first)
{
    const size_t *parts = action->parts.items;
    const size_t like = heap->inputs.items[parts[first]].heap;
    LIST(const char *) places = {0};
    for (size_t i = first; i < action->parts.count; i++)
        if (heap->inputs.items[parts[i]].heap == like)
            *LIST_ADD(w->arena, &places) =
                word_place(w, heap->inputs.items[parts[i]].at);
    return say(w->arena, w->phrases, "corner.square", "squares",
               say_count(w->arena, action->parts.count - 1), "square",
               part_of_heap(w, heap, parts[first]), "corners",
               say_count(w->arena, places.count), "places",
               word_list(w, places.items, places.count), NULL);
}

static const char *squares_on(const struct wording *w, const struct heap *heap,
                              const struct action *action)
{
    LIST(const char *) squares = {0};
    for (size_t i = 1; i < action->parts.count; i++) {
        bool told = false;
        for (size_t k = 1; k < i; k++)
            told |= heap->inputs.items[action->parts.items[k]].heap ==
                    heap->inputs.items[action->parts.items[i]].heap;
        if (!told)
            *LIST_ADD(w->arena, &squares) = square_on(w, heap, action, i);
    }
    return word_list(w, squares.items, squares.count);
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
               ? say(w->arena, w->phrases, "corner.print", NULL)
               : "";
}

/* Right sides together, wrong side up: so the drawn line is the one that is
 * seen, and its direction is told as it lies. */
static const char *word_corner(const struct wording *w, const struct heap *heap,
                               const struct action *action)
{
    const char *lay =
        say(w->arena, w->phrases, "corner.lay", "squares",
            squares_on(w, heap, action), "base", part_of_heap(w, heap, 0),
            NULL);
    const char *count = say_count(w->arena, action->parts.count - 1);
    const char *draw =
        same_lines(heap, action)
            ? word_then(w,
                        say(w->arena, w->phrases, "corner.draw", "squares",
                            count, NULL),
                        word_line(w, action->line))
            : say(w->arena, w->phrases, "corner.draw-across", NULL);
    const char *sew =
        say(w->arena, w->phrases, "corner.sew", "seam",
            word_length_unit(w, w->design->pattern->seam), NULL);
    lay = word_then(w, lay, print_hint(w, heap, action->parts.items[1]));
    return word_then(w, word_then(w, lay, draw), sew);
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
    const char *lay = say(w->arena, w->phrases, "diagonal.lay", "strip", strip,
                          "base", base, NULL);
    const char *sew =
        say(w->arena, w->phrases,
            cut_is_low(action) ? "diagonal.sew-below" : "diagonal.sew-above",
            "seam", word_length_unit(w, w->design->pattern->seam), NULL);
    return word_then(w, word_then(w, lay, word_line(w, action->line)), sew);
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
    const char *seam = word_length_unit(w, pattern->seam);
    const char *lay =
        word_then(w,
                  say(w->arena, w->phrases, "half-square.lay", "flap", flap,
                      "base", base, NULL),
                  print_hint(w, heap, 1));
    const char *draw =
        word_then(w, say(w->arena, w->phrases, "half-square.draw", NULL),
                  word_line(w, action->line));
    lay = word_then(w, lay, draw);
    if (heap->method == METHOD_ONE)
        return word_then(w, lay,
                         say(w->arena, w->phrases, "half-square.one", "seam",
                             seam, NULL));
    const struct rational seams = rational_times(pattern->seam, 2);
    const char *sew =
        say(w->arena, w->phrases,
            heap->yield == 2 ? "half-square.two" : "half-square.two-print",
            "seam", seam, "size",
            word_size_unit(w, rational_add(heap->width, seams),
                           rational_add(heap->height, seams)),
            "slack",
            arena_printf(w->arena, "%s %s", word_decimal(w, heap->slack, 2),
                         word_unit(w)),
            NULL);
    return word_then(w, lay, sew);
}

/* Rows first where there are both. */
static const char *word_joining(const struct wording *w,
                                const struct heap *heap,
                                const struct action *action)
{
    const char *count = say_count(w->arena, heap->inputs.count);
    if (action->kind == ACTION_JOIN_COLUMN)
        return heap->across > 1
                   ? say(w->arena, w->phrases, "join.rows", NULL)
                   : say(w->arena, w->phrases, "join.column", "count", count,
                         NULL);
    return heap->down > 1
               ? say(w->arena, w->phrases, "join.grid", "rows",
                     say_count(w->arena, heap->down), "across",
                     say_count(w->arena, heap->across), NULL)
               : say(w->arena, w->phrases, "join.row", "count", count, NULL);
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
               ? word_then(w, say(w->arena, w->phrases, "join.turn", NULL),
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
static const char *direction_key(const struct press_mark *mark)
{
    return mark->x > 0   ? "press.right"
           : mark->x < 0 ? "press.left"
           : mark->y > 0 ? "press.down"
                         : "press.up";
}

/* Towards a cloth, by name: arrows show it, but cloth is quicker seen. */
static const char *press_toward(const struct wording *w,
                                const struct action *action, const char *seams)
{
    return say(w->arena, w->phrases,
               action->pressed_by_rule ? "press.darker" : "press.fabric",
               "seams", seams, "fabric",
               w->design->fabrics.items[action->press.fabric].name, NULL);
}

/* In the words that the arrows of the figure show; open, corner and cloth are
 * told by name, all else by direction. */
const char *word_press(const struct wording *w, const struct heap *heap,
                       const struct action *action)
{
    const size_t marks = action->after.presses.count;
    const char *seams = say_count(w->arena, marks > 1 ? marks : 1);
    if (action->press.side == PRESS_OPEN)
        return say(w->arena, w->phrases, "press.open", "seams", seams, NULL);
    if (action->kind == ACTION_FLIP_CORNER)
        return say(w->arena, w->phrases, "press.flaps", "seams", seams, NULL);
    if (action->press.side == PRESS_TOWARD_FABRIC && action->press.fabric >= 0)
        return press_toward(w, action, seams);
    if (marks > 0 && one_direction(action))
        return say(w->arena, w->phrases,
                   direction_key(&action->after.presses.items[0]), "seams",
                   seams, NULL);
    return say(w->arena, w->phrases,
               heap->down > 1 && action->kind == ACTION_JOIN_ROW
                   ? "press.nest"
                   : "press.arrows",
               NULL);
}

/* Unfinished, as it lies on the table. */
const char *word_measure(const struct wording *w, const struct heap *heap)
{
    const struct rational seams = rational_times(w->design->pattern->seam, 2);
    return say(w->arena, w->phrases, "step.measure", "size",
               word_size_unit(w, rational_add(heap->width, seams),
                              rational_add(heap->height, seams)),
               NULL);
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
