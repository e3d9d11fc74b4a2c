/* Borders. The strips are joined from lengths of cloth where they are too long
 * for one (src/cut plans those); here each is one piece. Sides first, as long
 * as the center, then top and bottom over them, or the other way round
 * (published by several teachers; common practice); with pieces at the corners
 * all strips are as long as the center's sides, and those pieces are joined to
 * the ends of top and bottom. Strips that meet at 45 degrees are sewn in
 * mitre.c. Read next: craft.c. */
#include "bench.h"

/* Pressed towards the border: it lies flat under the quilting (common
 * practice). */
enum {
    BORDER_PRESSES = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_BORDER)
};
static const struct operation border_across = {
    .name = "join-border", .laid = LAID_ACROSS, .presses = BORDER_PRESSES};
static const struct operation border_down = {
    .name = "join-border", .laid = LAID_DOWN, .presses = BORDER_PRESSES};

/* ---- building ---- */

/* The four strips where they lie. A strip butts: where the sides come first
 * they end at the center, and top and bottom reach over them. */
static void add_strips(struct sewer *sewer, struct heap *recipe)
{
    const struct border *border = recipe->of.border;
    const struct rational zero = rational_whole(0), b = border->width;
    const struct rational right = rational_sub(recipe->width, b);
    const struct rational bottom = rational_sub(recipe->height, b);
    const bool long_sides = border->ends_first && !border->blocks;
    const bool long_ends = !border->ends_first && !border->blocks;
    const struct rational y = long_sides ? zero : b, x = long_ends ? zero : b;
    const struct ref side =
        build_strip(sewer, *recipe, border->fabric, border->number, b,
                    rational_sub(recipe->height, rational_times(y, 2)));
    const struct ref end =
        build_strip(sewer, *recipe, border->fabric, border->number,
                    rational_sub(recipe->width, rational_times(x, 2)), b);
    add_input(sewer, recipe, side, zero, y);
    add_input(sewer, recipe, side, right, y);
    add_input(sewer, recipe, end, x, zero);
    add_input(sewer, recipe, end, x, bottom);
}

static struct ref build_border(struct sewer *sewer, const struct piece *piece,
                               struct rational factor, bool mirror)
{
    if (piece->border->mitred)
        return build_mitred(sewer, piece, factor, mirror);
    struct heap recipe = recipe_for(sewer, piece, factor, mirror,
                                    TECHNIQUE_BORDER, &craft_border);
    recipe.of.border = piece->border;
    const struct rational b = piece->border->width, zero = rational_whole(0);
    const struct rational right = rational_sub(recipe.width, b);
    const struct rational bottom = rational_sub(recipe.height, b);
    add_input(sewer, &recipe,
              build_cell(sewer, &piece->cells.items[0], factor, mirror), b, b);
    add_strips(sewer, &recipe);
    for (size_t i = 1; i < piece->cells.count; i++)
        add_input(sewer, &recipe,
                  build_cell(sewer, &piece->cells.items[i], factor, mirror),
                  i == 2 || i == 3 ? right : zero, i >= 3 ? bottom : zero);
    return find_or_add(sewer, &recipe);
}

/* A quilt has each of its borders once, so no two are ever compared. */
static void key_border(struct sewer *sewer, struct buffer *key,
                       const struct heap *heap, unsigned turn)
{
    struct input *inputs = turned_inputs(sewer, heap, turn);
    buffer_printf(key, "%zu.%u ", heap->of.border->number, turn);
    key_inputs(sewer, key, inputs, heap->inputs.count);
}

/* ---- sewing ---- */

/* An input where it lies: all of it, and what of it stays in sight, as its
 * allowances go under its neighbors. Made once, as a center may be large. */
struct part {
    const struct cloth *all, *seen;
};

static const struct part *parts_of(const struct bench *bench)
{
    const struct heap *heap = bench->heap;
    struct part *parts =
        ARENA_ARRAY(bench->arena, struct part, heap->inputs.count);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        parts[i].all = placed(bench, &heap->inputs.items[i]);
        parts[i].seen = seen_input(bench, i, parts[i].all);
    }
    return parts;
}

/* A seam between two inputs; (x, y) is the way from `before` to `next`, so the
 * seam is the side of `next` that looks back. The last seams run from edge to
 * edge of the whole. */
static void sew_side(const struct bench *bench, struct action *action,
                     struct cloth *cloth, struct sewn_seam seam, bool last)
{
    const struct heap *heap = bench->heap;
    const struct input *next = &heap->inputs.items[seam.next];
    const struct rational zero = rational_whole(0);
    struct vertex from = {next->x, next->y};
    if (seam.across_x < 0)
        from.x = rational_add(from.x, input_width(bench->sewer, next));
    if (seam.across_y < 0)
        from.y = rational_add(from.y, input_height(bench->sewer, next));
    struct rational along = seam.across_x != 0
                                ? input_height(bench->sewer, next)
                                : input_width(bench->sewer, next);
    if (last && seam.across_x != 0)
        from.y = zero, along = heap->height;
    else if (last)
        from.x = zero, along = heap->width;
    seam.seam.from = from;
    seam.seam.to = seam.across_x != 0 ? moved(from, zero, along)
                                      : moved(from, along, zero);
    cloth_add_seam(bench->arena, cloth, sew_seam(bench, action, seam));
}

/* Two strips to the left and right of the center, or above and below. The
 * center is an input in the first action, later what was sewn so far. */
static void sew_pair(const struct bench *bench, const struct part *parts,
                     struct cloth *cloth, const struct cloth *so_far,
                     bool across)
{
    struct action *action =
        add_action(bench, across ? &border_across : &border_down);
    const size_t strips[2] = {across ? BORDER_LEFT : BORDER_TOP,
                              across ? BORDER_RIGHT : BORDER_BOTTOM};
    const bool first = so_far == NULL;
    if (first)
        so_far = parts[BORDER_CENTER].seen;
    for (int i = 0; i < 2; i++) {
        const size_t strip = strips[i];
        const int way = i == 0 ? -1 : 1;
        add_part(bench, action, strip);
        show(bench, &action->before, parts[strip].all, (int)strip,
             across ? 2 * i : 0, across ? 0 : 2 * i);
        show(bench, &action->after, parts[strip].seen, WHOLE, 0, 0);
        sew_side(bench, action, cloth,
                 (struct sewn_seam){.before = BORDER_CENTER,
                                    .next = strip,
                                    .across_x = across ? way : 0,
                                    .across_y = across ? 0 : way},
                 !first);
    }
    if (first)
        add_part(bench, action, BORDER_CENTER);
    show(bench, &action->before, first ? parts[BORDER_CENTER].all : so_far,
         first ? BORDER_CENTER : WHOLE, across ? 1 : 0, across ? 0 : 1);
    show(bench, &action->after, so_far, WHOLE, 0, 0);
}

/* Top and bottom with a piece at each end, above and below the center, which
 * lies there to look at. Pressed towards the strips. */
static void sew_rows(const struct bench *bench, const struct part *parts,
                     struct cloth *cloth, const struct cloth *so_far)
{
    /* Left corner, strip, right corner of each row, as inputs. */
    static const size_t rows[2][3] = {
        {BORDER_CORNER, BORDER_TOP, BORDER_CORNER + 1},
        {BORDER_CORNER + 3, BORDER_BOTTOM, BORDER_CORNER + 2}};
    struct action *action = add_action(bench, &border_across);
    for (int row = 0; row < 2; row++) {
        for (int i = 0; i < 3; i++) {
            const size_t input = rows[row][i];
            add_part(bench, action, input);
            show(bench, &action->before, parts[input].all, (int)input, i,
                 2 * row);
            show(bench, &action->after, parts[input].seen, WHOLE, 0, 2 * row);
            if (i != 1)
                sew_side(bench, action, cloth,
                         (struct sewn_seam){.before = input,
                                            .next = rows[row][1],
                                            .across_x = i == 0 ? 1 : -1,
                                            .row = 2 * row},
                         false);
        }
    }
    show(bench, &action->before, so_far, WHOLE, 1, 1);
    show(bench, &action->after, so_far, WHOLE, 0, 1);
}

/* The rows of top and bottom are whole by now. */
static void sew_last(const struct bench *bench, const struct part *parts,
                     struct cloth *cloth, const struct cloth *so_far)
{
    struct action *action = add_action(bench, &border_down);
    for (size_t input = BORDER_TOP; input < bench->heap->inputs.count;
         input++) {
        const bool low = input == BORDER_BOTTOM || input >= BORDER_CORNER + 2;
        show(bench, &action->before, parts[input].seen, WHOLE, 0, low ? 2 : 0);
        show(bench, &action->after, parts[input].seen, WHOLE, 0, 0);
    }
    show(bench, &action->before, so_far, WHOLE, 0, 1);
    show(bench, &action->after, so_far, WHOLE, 0, 0);
    for (int i = 0; i < 2; i++)
        sew_side(bench, action, cloth,
                 (struct sewn_seam){.before = BORDER_CENTER,
                                    .next = i == 0 ? BORDER_TOP : BORDER_BOTTOM,
                                    .across_y = i == 0 ? -1 : 1},
                 true);
}

static void sew_border(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const struct border *border = heap->of.border;
    const bool across = border->blocks || !border->ends_first;
    const struct part *parts = parts_of(bench);
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    struct cloth *so_far = ARENA_NEW(bench->arena, struct cloth);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct cloth *seen = parts[i].seen;
        cloth_add_all(bench->arena, whole, seen);
        const bool side = i == BORDER_LEFT || i == BORDER_RIGHT;
        if (i == BORDER_CENTER || (i < BORDER_CORNER && side == across))
            cloth_add_all(bench->arena, so_far, seen);
    }
    sew_pair(bench, parts, whole, NULL, across);
    if (border->blocks) {
        sew_rows(bench, parts, whole, so_far);
        sew_last(bench, parts, whole, so_far);
    } else {
        sew_pair(bench, parts, whole, so_far, !across);
    }
    heap->cloth = whole;
}

/* Sides and ends, each as long as it is where it lies. */
void list_border(const struct sewer *sewer, struct sewn_quilt *quilt,
                 size_t index)
{
    const struct heap *heap = heap_at(sewer, index);
    if (heap->of.border->mitred) {
        list_mitred(sewer, quilt, index);
        return;
    }
    const struct input *side = &heap->inputs.items[BORDER_LEFT];
    const struct input *end = &heap->inputs.items[BORDER_TOP];
    *LIST_ADD(sewer->run->arena, &quilt->borders) =
        (struct sewn_border){heap->of.border,
                             index,
                             side->heap,
                             end->heap,
                             input_height(sewer, side),
                             input_width(sewer, end)};
}

static unsigned border_presses(const struct piece *piece)
{
    return piece->border->mitred ? mitred_presses() : BORDER_PRESSES;
}

const struct craft craft_border = {.name = "border",
                                   .build = build_border,
                                   .key = key_border,
                                   .sew = sew_border,
                                   .presses = border_presses};
