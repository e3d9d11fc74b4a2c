/* Facts find their sentences here. One term for one thing, all through: piece,
 * strip, seam, drawn line, right side, wrong side, unfinished, finished. Texts
 * come from the facts of one heap or action, so no sentence can differ from its
 * figure. `glyphs` chooses typographic signs for pages, plain ASCII for data.
 * The sentences are in templates/wording. Read next: wording_cut.c. */
#include "telling.h"

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
    return point == NULL
               ? number
               : arena_printf(w->arena, "%.*s%s%s", (int)(point - number),
                              number, sign, point + 1);
}

/* Vulgar fractions where the font has glyphs for them, else digits that
 * programs can read back. The sign is set apart, as a true minus is no hyphen.
 */
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

/* In the unit that the pattern is written in. */
const char *word_length_unit(const struct wording *w, struct rational value)
{
    return arena_printf(w->arena, "%s %s", word_length(w, value), word_unit(w));
}

/* Rulers are ruled in sixteenths of an inch, or in millimetres. */
static struct rational to_mark(const struct wording *w, struct rational value)
{
    const long marks = w->design->pattern->units == UNIT_CM ? 10 : 16;
    return rational_make(
        rational_floor(
            rational_add(rational_times(value, marks), rational_make(1, 2))),
        marks);
}

const char *word_length_mark(const struct wording *w, struct rational value)
{
    return word_length_unit(w, to_mark(w, value));
}

const char *word_length_near(const struct wording *w, struct rational value)
{
    const char *word = word_length_mark(w, value);
    return rational_equal(to_mark(w, value), value)
               ? word
               : say(w->arena, w->phrases, "length.about", "length", word,
                     NULL);
}

bool is_no_length(const struct wording *w, struct rational value)
{
    return rational_sign(to_mark(w, value)) == 0;
}

/* For what no ruler measures, such as shrinkage in per cent; `places` digits
 * behind the point. */
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

/* requires: at least one part. Phrases join the parts, as languages differ in
 * commas and in the last word. */
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
static const char *size_name(const struct wording *w, const struct heap *heap,
                             const struct definition *definition)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *other = heap_of(w, i);
        if (heap_is(other, definition) &&
            !rational_equal(rational_mul(other->width, other->height),
                            rational_mul(heap->width, heap->height)))
            return word_length_unit(w, heap->width);
    }
    return NULL;
}

/* Heaps of one step stand in the order of sewing; the last is what it makes. */
const char *word_step(const struct wording *w, size_t index)
{
    const size_t whole = heap_whole(w->quilt, index);
    size_t number = 1;
    if (whole == index)
        return say_count(w->arena, heap_of(w, index)->step);
    for (size_t i = 0; i < index; i++)
        number += i != whole && heap_of(w, i)->technique != TECHNIQUE_CUT &&
                  heap_whole(w->quilt, i) == whole;
    return arena_printf(w->arena, "%zu.%zu", heap_of(w, index)->step, number);
}

/* What stands on a part in a figure: the label of a cut, or the step in
 * brackets. */
const char *word_mark(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    return heap->technique == TECHNIQUE_CUT
               ? heap->of.cut.label
               : arena_printf(w->arena, "(%s)", word_step(w, index));
}

/* Where all are sewn mirrored there is nothing to tell them from. */
static bool sewn_both_ways(const struct wording *w,
                           const struct definition *definition)
{
    bool ways[2] = {false, false};
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = heap_of(w, i);
        for (size_t k = 0; k < heap->names.count; k++)
            if (heap->names.items[k].definition == definition &&
                heap->names.items[k].count > 0)
                ways[heap->names.items[k].mirror ? 1 : 0] = true;
    }
    return ways[0] && ways[1];
}

/* The cast in which the heap is the definition; NULL for none. */
static const struct cast *cast_as(const struct heap *heap,
                                  const struct definition *definition)
{
    for (size_t i = 0; i < heap->names.count; i++)
        if (heap->names.items[i].definition == definition)
            return heap->names.items[i].cast;
    return NULL;
}

bool role_varies(const struct wording *w, const struct cast *cast, size_t role)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *heap = heap_of(w, i);
        const struct cast *other = heap_is(heap, cast->definition)
                                       ? cast_as(heap, cast->definition)
                                       : NULL;
        if (other != NULL && other->fabrics[role] != cast->fabrics[role])
            return true;
    }
    return false;
}

const char *word_cast(const struct wording *w, const struct cast *cast)
{
    struct buffer text = buffer_in(w->arena);
    size_t told = 0;
    for (size_t i = 0; cast != NULL && i < cast->definition->role_count; i++)
        if (role_varies(w, cast, i))
            buffer_printf(&text, "%s%s", told++ > 0 ? ", " : "",
                          w->design->fabrics.items[cast->fabrics[i]].name);
    return told == 0 ? NULL : buffer_string(&text);
}

/* A size is added where the quilt has the definition in several, and a word
 * where it is sewn both ways and this one is mirrored. */
const char *word_kind(const struct wording *w, const struct heap *heap,
                      const struct definition *definition, bool mirror)
{
    const char *size = size_name(w, heap, definition);
    const char *name = definition->name;
    if (size != NULL)
        name = say(w->arena, w->phrases, "part.sized", "name", name, "size",
                   size, NULL);
    return mirror && sewn_both_ways(w, definition)
               ? say(w->arena, w->phrases, "part.mirrored", "name", name, NULL)
               : name;
}

const char *word_name(const struct wording *w, const struct heap *heap,
                      const struct definition *definition, bool mirror)
{
    const char *kind = word_kind(w, heap, definition, mirror);
    const char *cast = word_cast(w, cast_as(heap, definition));
    return cast == NULL ? kind
                        : say(w->arena, w->phrases, "part.cast", "name", kind,
                              "fabrics", cast, NULL);
}

/* Is the fabric seen in the heap? */
static bool shows(const struct heap *heap, int fabric)
{
    for (size_t i = 0; i < heap->cloth->faces.count; i++)
        if (heap->cloth->faces.items[i].fabric == fabric)
            return true;
    return false;
}

/* Does the role tell the heap from others that are sewn alike? Each of them
 * must show what plays it. */
static bool role_tells(const struct wording *w, const struct heap *heap,
                       size_t role)
{
    bool varies = false;
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *other = heap_of(w, i);
        if (other->like != heap->like || other->cast == NULL ||
            other->cast->definition != heap->cast->definition)
            continue;
        if (!shows(other, other->cast->fabrics[role]))
            return false;
        varies |= other->cast->fabrics[role] != heap->cast->fabrics[role];
    }
    return varies;
}

/* "step 2 (Gold)": the same in other fabrics has the same step. */
static const char *step_name(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    struct buffer text = buffer_in(w->arena);
    for (size_t i = 0;
         heap->cast != NULL && i < heap->cast->definition->role_count; i++)
        if (role_tells(w, heap, i))
            buffer_printf(
                &text, "%s%s", text.length > 0 ? ", " : "",
                w->design->fabrics.items[heap->cast->fabrics[i]].name);
    const char *name = say(w->arena, w->phrases, "part.step", "step",
                           word_step(w, index), NULL);
    return text.length == 0 ? name
                            : say(w->arena, w->phrases, "part.cast", "name",
                                  name, "fabrics", buffer_string(&text), NULL);
}

/* "C2+A2": a part without a name is told by the few pieces that it is sewn of.
 */
static const char *pieces_name(const struct wording *w, const struct heap *heap)
{
    enum { FEW = 3 };
    struct buffer text = buffer_in(w->arena);
    size_t count = 0;
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct heap *part = heap_of(w, heap->inputs.items[i].heap);
        bool told = false;
        for (size_t k = 0; k < i; k++)
            told |= heap->inputs.items[k].heap == heap->inputs.items[i].heap;
        if (told)
            continue;
        if (part->technique != TECHNIQUE_CUT || ++count > FEW)
            return NULL;
        buffer_printf(&text, "%s%s", count > 1 ? "+" : "", part->of.cut.label);
    }
    return buffer_string(&text);
}

bool told_mirrored(const struct wording *w, const struct heap *heap)
{
    return heap->named != NULL && heap->named_mirror &&
           sewn_both_ways(w, heap->named);
}

/* The designer's name for a row, column or grid; NULL for none. */
static const char *given_name(const struct heap *heap)
{
    return heap->technique == TECHNIQUE_JOIN ? heap->piece->name : NULL;
}

/* Has another step the same title, as both join as many parts? */
static bool has_double(const struct wording *w, size_t index, const char *title)
{
    for (size_t i = 0; i < w->quilt->heaps.count; i++) {
        const struct heap *other = heap_of(w, i);
        if (i != index && i != w->quilt->top && other->count > 0 &&
            other->technique == TECHNIQUE_JOIN && other->named == NULL &&
            heap_whole(w->quilt, i) == i && other->like == i &&
            given_name(other) == NULL &&
            strcmp(telling_of(other)->title(w, other), title) == 0)
            return true;
    }
    return false;
}

/* What a row of a grid with sashing is called, where there is one alone. */
static const char *row_name(const struct wording *w, size_t index)
{
    const char *title = sashed_row_title(w, heap_of(w, index));
    return title == NULL || has_double(w, index, title) ? NULL : title;
}

/* What a part is called inside a sentence. */
const char *word_part(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    if (heap->technique == TECHNIQUE_CUT)
        return heap->of.cut.label;
    if (heap->named != NULL)
        return word_name(w, heap, heap->named, heap->named_mirror);
    if (index == w->quilt->top)
        return word_center(w);
    if (given_name(heap) != NULL)
        return given_name(heap);
    if (heap->technique == TECHNIQUE_BORDER)
        return say(w->arena, w->phrases, "part.border", "number",
                   say_count(w->arena, heap->of.border->number), NULL);
    const char *pieces = pieces_name(w, heap);
    const char *row = row_name(w, index);
    return pieces != NULL ? pieces : row != NULL ? row : step_name(w, index);
}

/* The largest part tells two rows apart that are as long. */
static const char *title_apart(const struct wording *w, size_t index,
                               const char *title)
{
    const struct heap *heap = heap_of(w, index);
    size_t largest = 0;
    double most = 0.0;
    if (heap->technique != TECHNIQUE_JOIN || !has_double(w, index, title))
        return title;
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct heap *part = heap_of(w, heap->inputs.items[i].heap);
        const double area =
            rational_double(part->width) * rational_double(part->height);
        if (area > most) {
            most = area;
            largest = heap->inputs.items[i].heap;
        }
    }
    return say(w->arena, w->phrases, "title.with", "title", title, "part",
               word_part(w, largest), NULL);
}

/* The title of a step: what has no name is called by its technique, and by what
 * figures and lines of parts call it. */
const char *word_heap(const struct wording *w, size_t index)
{
    const struct heap *heap = heap_of(w, index);
    if (index == w->quilt->top)
        return say(w->arena, w->phrases,
                   w->quilt->borders.count > 0 ? "title.center" : "glance.top",
                   NULL);
    if (heap->named != NULL)
        return word_part(w, index);
    if (given_name(heap) != NULL)
        return given_name(heap);
    const char *kind = telling_of(heap)->title(w, heap);
    const char *pieces =
        heap->technique == TECHNIQUE_CUT || heap->technique == TECHNIQUE_BORDER
            ? NULL
            : pieces_name(w, heap);
    return pieces == NULL ? title_apart(w, index, kind)
                          : say(w->arena, w->phrases, "title.of-pieces", "kind",
                                kind, "pieces", pieces, NULL);
}

/* The mark shows what the word says: the word alone is easily mistaken. */
const char *word_line(const struct wording *w, enum line_direction line)
{
    if (!w->glyphs)
        return line_word(w, line);
    return say(w->arena, w->phrases,
               line == LINE_RISING ? "line.mark-rising" : "line.mark-falling",
               NULL);
}

/* One sentence or more, told in the order in which hands move. */
const char *word_action(const struct wording *w, const struct heap *heap,
                        const struct action *action)
{
    const struct telling *telling = telling_of(heap);
    const char *text =
        word_then(w, told_parting(w, heap, action),
                  told_in_order(w, telling->action(w, heap, action)));
    if (telling->other == NULL || action->other.faces.count == 0)
        return text;
    text = word_then(w, text, say(w->arena, w->phrases, "corner.or", NULL));
    return word_then(w, text,
                     told_in_order(w, telling->other(w, heap, action)));
}

/* Are all seams of the action pressed one way? */
static bool one_direction(const struct action *action)
{
    const struct sewn_seam *seams = action->seams.items;
    for (size_t i = 1; i < action->seams.count; i++)
        if (seams[i].seam.x != seams[0].seam.x ||
            seams[i].seam.y != seams[0].seam.y)
            return false;
    return action->seams.count > 0;
}

/* Of a seam that is not open. Rows on point lie aslant; a seam across a square
 * is told by what lies beside it. */
static const char *direction_key(const struct action *action)
{
    const struct seam *seam = &action->seams.items[0].seam;
    if (seam->x != 0 && seam->y != 0 &&
        action->operation->laid != LAID_TOGETHER)
        return seam->x > 0 ? (seam->y > 0 ? "press.lower-right"
                                          : "press.upper-right")
                           : (seam->y > 0 ? "press.lower-left"
                                          : "press.upper-left");
    return seam->x > 0   ? "press.right"
           : seam->x < 0 ? "press.left"
           : seam->y > 0 ? "press.down"
                         : "press.up";
}

/* Towards a cloth, by name: arrows show it, but cloth is quicker seen. Its name
 * is that of the parts, as a fabric's may be that of a unit, too. */
static const char *press_toward(const struct wording *w,
                                const struct colorway *colorway,
                                const struct action *action, const char *seams)
{
    const int fabric = action->press.fabric;
    return say(w->arena, w->phrases,
               action->pressed_by_rule ? "press.darker" : "press.fabric",
               "seams", seams, "letter",
               fabric_letter(w->arena, fabric), "fabric",
               colorway != NULL ? colorway->bolts[fabric].name
                                : w->design->fabrics.items[fabric].name,
               NULL);
}

/* Rows of a grid go to and fro. */
static const char *many_ways_key(const struct heap *heap,
                                 const struct action *action)
{
    if (heap_down(heap) <= 1 || action->operation->laid != LAID_ACROSS)
        return "press.arrows";
    const struct seam *first = &action->seams.items[0].seam;
    if (first->y != 0) /* rows lie aslant */
        return first->x > 0 ? "press.nest-slanted" : "press.nest-slanted-up";
    return first->x > 0 ? "press.nest" : "press.nest-left";
}

/* In the words that the arrows of the figure show; open, corner and cloth are
 * told by name, all else by direction. */
const char *word_press(const struct wording *w, const struct colorway *colorway,
                       const struct heap *heap, const struct action *action)
{
    const size_t count = action->seams.count;
    const char *seams = say_count(w->arena, count > 1 ? count : 1);
    if (action->press.side == PRESS_OPEN)
        return say(w->arena, w->phrases, "press.open", "seams", seams, NULL);
    if (action->press.side == PRESS_TOWARD_BORDER)
        return say(w->arena, w->phrases, "press.border", "seams", seams, NULL);
    const char *outward = telling_of(heap)->outward;
    if (action->press.side == PRESS_TOWARD_CORNER)
        return say(w->arena, w->phrases,
                   outward != NULL ? outward : "press.flaps", "seams", seams,
                   NULL);
    if (action->press.side == PRESS_TOWARD_FABRIC && action->press.fabric >= 0)
        return press_toward(w, colorway, action, seams);
    if (one_direction(action))
        return say(w->arena, w->phrases,
                   direction_key(action), "seams", seams,
                   NULL);
    return say(w->arena, w->phrases, many_ways_key(heap, action), NULL);
}

struct rational unfinished_side(const struct wording *w,
                                const struct heap *heap, bool across)
{
    struct rational side =
        rational_add(across ? heap->width : heap->height,
                     rational_times(w->design->pattern->seam, 2));
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct heap *part = &w->quilt->heaps.items[input->heap];
        if (heap->technique != TECHNIQUE_JOIN || input->turn != 0 ||
            part->technique != TECHNIQUE_CUT || part->of.cut.border == 0 ||
            !rational_equal(across ? part->width : part->height,
                            across ? heap->width : heap->height))
            return side;
    }
    if (heap->inputs.count > 0) {
        const struct cut_piece *cut =
            &w->quilt->heaps.items[heap->inputs.items[0].heap].of.cut;
        side = across ? cut->width : cut->height;
    }
    return side;
}

/* Unfinished, as it lies on the table. */
const char *word_measure(const struct wording *w, const struct heap *heap)
{
    return say(w->arena, w->phrases, "step.measure", "size",
               word_size_unit(w, unfinished_side(w, heap, true),
                              unfinished_side(w, heap, false)),
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
        /* A name alone does not say which step made it; a label does. */
        const struct heap *part = heap_of(w, index);
        if (part->technique != TECHNIQUE_CUT &&
            (part->named != NULL || index == w->quilt->top ||
             strcmp(word_part(w, index), word_heap(w, index)) == 0 ||
             part->technique == TECHNIQUE_BORDER))
            buffer_printf(&text, w->glyphs ? "\u00a0%s" : " %s",
                          word_mark(w, index));
    }
    return buffer_string(&text);
}
