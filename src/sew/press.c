/* Pressing. The rules of the trade, where nothing is said: a flipped corner
 * towards the corner; a seam between two cloths towards the darker (National
 * Quilters Circle); seams of a row to the right or, in every second row, to the
 * left, so that rows that meet nest (common practice). Read next: meet.c, which
 * tells where the rules collide. */
#include "press.h"

/* A flap can only fold outwards, over its seam, or be opened. */
static bool corner_word(enum press_side side)
{
    return side == PRESS_OPEN || side == PRESS_TOWARD_CORNER;
}

/* Seams between neighbors side by side stand upright. */
static bool row_word(enum press_side side)
{
    return side == PRESS_OPEN || side == PRESS_LEFT || side == PRESS_RIGHT ||
           side == PRESS_TOWARD_FABRIC;
}

/* Seams between neighbors one above the other lie level. */
static bool column_word(enum press_side side)
{
    return side == PRESS_OPEN || side == PRESS_UP || side == PRESS_DOWN ||
           side == PRESS_TOWARD_FABRIC;
}

/* Does the word make sense for the action? A diagonal seam has no side that
 * left or up would name. */
static bool press_fits(enum press_side side, enum action_kind action)
{
    switch (action) {
    case ACTION_FLIP_CORNER:
        return corner_word(side);
    case ACTION_JOIN_ROW:
        return row_word(side);
    case ACTION_JOIN_COLUMN:
        return column_word(side);
    case ACTION_JOIN_DIAGONAL:
    case ACTION_HALF_SQUARE:
        break;
    }
    return side == PRESS_OPEN || side == PRESS_TOWARD_FABRIC;
}

/* The piece's own word comes before its step's. PRESS_RULE where both are
 * silent or no word fits. */
struct press stated_press(const struct sewer *sewer, const struct piece *piece,
                          enum action_kind action)
{
    const struct press rule = {PRESS_RULE, NO_FABRIC, NULL};
    if (press_fits(piece->press.side, action))
        return piece->press;
    const struct design *design = sewer->sized->design;
    for (size_t i = 0; i < design->assemblies.count; i++) {
        const struct assembly *assembly = &design->assemblies.items[i];
        for (size_t k = 0; k < assembly->steps.count; k++) {
            const struct assembly_step *step = &assembly->steps.items[k];
            const bool ours =
                step->make == piece->owner || step->piece == piece;
            if (ours && press_fits(step->press.side, action))
                return step->press;
        }
    }
    return rule;
}

/* Is there cloth of this fabric in the piece? */
static bool piece_has(const struct piece *piece, int fabric)
{
    if (piece->fabric == fabric || piece->left == fabric ||
        piece->right == fabric)
        return true;
    for (size_t i = 0; i < piece->corners.count; i++)
        if (piece->corners.items[i].fabric == fabric)
            return true;
    const struct piece *last = NULL;
    for (size_t i = 0; i < piece->cells.count; i++) {
        if (piece->cells.items[i].piece != last &&
            piece_has(piece->cells.items[i].piece, fabric))
            return true;
        last = piece->cells.items[i].piece;
    }
    return piece->target != NULL && piece->target->root != NULL &&
           piece_has(piece->target->root, fabric);
}

/* Does any action in the making of this piece follow the word? A use has no
 * seam of its own: its target's pieces have. */
static bool piece_follows(const struct piece *piece, const struct press *press)
{
    const enum press_side side = press->side;
    if (side == PRESS_TOWARD_FABRIC && !piece_has(piece, press->fabric))
        return false;
    if (piece->corners.count > 0 && press_fits(side, ACTION_FLIP_CORNER))
        return true;
    switch (piece->kind) {
    case PIECE_ROW:
        return press_fits(side, ACTION_JOIN_ROW);
    case PIECE_COLUMN:
        return press_fits(side, ACTION_JOIN_COLUMN);
    case PIECE_GRID:
        return (piece->across > 1 && press_fits(side, ACTION_JOIN_ROW)) ||
               (piece->down > 1 && press_fits(side, ACTION_JOIN_COLUMN));
    case PIECE_DIAGONAL:
        return press_fits(side, ACTION_JOIN_DIAGONAL);
    case PIECE_HALF_SQUARE:
        return press_fits(side, ACTION_HALF_SQUARE);
    case PIECE_PATCH:
    case PIECE_USE:
        break;
    }
    return false;
}

/* Does any piece of what the step makes follow it? All pieces between the
 * definition's tags, whatever lies in what. */
static bool step_follows(const struct design *design,
                         const struct assembly_step *step)
{
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        const bool ours = piece->owner == step->make || piece == step->piece;
        if (ours && piece_follows(piece, &step->press))
            return true;
    }
    return false;
}

/* reports: the word, with the list of what would do. */
static void report_press(struct run *run, const struct element *element,
                         const char *what)
{
    const enum attribute_id id =
        element->values[ATTR_PRESS] != NULL ? ATTR_PRESS : ATTR_TOWARD;
    struct diagnostic *d =
        diag_report(run, DIAG_PRESS, value_span(element, id),
                    "%s has no seam that can be pressed `%s`", what,
                    text_of(element, id, "?"));
    diag_note(run, d, (struct span){0, 0},
              "seams between pieces side by side go left, right or open; "
              "between pieces one above the other up, down or open; corners "
              "toward-corner or open; diagonals open or toward=\"FABRIC\"");
}

/* Looks at the source alone, so it also covers pieces that no quilt sews. */
void check_presses(struct run *run, const struct design *design)
{
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->press.side != PRESS_RULE &&
            !piece_follows(piece, &piece->press))
            report_press(run, piece->element,
                         arena_printf(run->arena, "this `%s`",
                                      element_name(piece->element->kind)));
    }
    for (size_t i = 0; i < design->assemblies.count; i++) {
        for (size_t k = 0; k < design->assemblies.items[i].steps.count; k++) {
            const struct assembly_step *step =
                &design->assemblies.items[i].steps.items[k];
            const bool bound = step->make != NULL || step->piece != NULL;
            if (bound && step->press.side != PRESS_RULE &&
                !step_follows(design, step))
                report_press(
                    run, step->element,
                    arena_printf(run->arena, "`%s`",
                                 text_of(step->element, ATTR_MAKE, "?")));
        }
    }
}

/* How light a cloth is, from 0 to 1, by the first colorway. Weights of red,
 * green and blue: Rec. ITU-R BT.709. One colorway decides for all, as a
 * booklet's steps must not change with the cloth. Doubles are enough: this
 * chooses a side and measures nothing. */
static double lightness(const struct sewer *sewer, int fabric)
{
    const struct design *design = sewer->sized->design;
    if (design->colorways.count == 0 || fabric < 0)
        return 1.0;
    const struct bolt *bolt = &design->colorways.items[0].bolts[fabric];
    return 0.2126 * bolt->red + 0.7152 * bolt->green + 0.0722 * bolt->blue;
}

/* The mean over what is seen, by area; a heap of several cloths is as dark as
 * it looks. */
static double heap_lightness(const struct sewer *sewer, const struct heap *heap)
{
    double sum = 0.0, area = 0.0;
    for (size_t i = 0; i < heap->cloth->faces.count; i++) {
        const struct face face = heap->cloth->faces.items[i];
        const double part = rational_double(face_double_area(face));
        sum += part * lightness(sewer, face.fabric);
        area += part;
    }
    return area > 0.0 ? sum / area : 1.0;
}

/* Of the heap that is input number `input`. */
static double input_lightness(const struct sewer *sewer,
                              const struct heap *heap, size_t input)
{
    return heap_lightness(sewer,
                          heap_at(sewer, heap->inputs.items[input].heap));
}

static bool heap_has(const struct heap *heap, int fabric)
{
    for (size_t i = 0; i < heap->cloth->faces.count; i++)
        if (heap->cloth->faces.items[i].fabric == fabric)
            return true;
    return false;
}

/* Does the seam before input `next` go towards it? Of two cloths of one
 * lightness, towards the earlier. */
static bool goes_to_next(const struct sewer *sewer, const struct heap *heap,
                         const struct press *press, size_t before, size_t next)
{
    const struct heap *there = heap_at(sewer, heap->inputs.items[next].heap);
    switch (press->side) {
    case PRESS_RIGHT:
    case PRESS_DOWN:
        return true;
    case PRESS_TOWARD_FABRIC:
        return heap_has(there, press->fabric) &&
               !heap_has(heap_at(sewer, heap->inputs.items[before].heap),
                         press->fabric);
    case PRESS_RULE:
        return input_lightness(sewer, heap, next) <
               input_lightness(sewer, heap, before);
    case PRESS_OPEN:
    case PRESS_LEFT:
    case PRESS_UP:
    case PRESS_TOWARD_CORNER:
        break;
    }
    return false;
}

/* Up, down and the corner stay in a mirror. */
static enum press_side mirrored_side(enum press_side side)
{
    return side == PRESS_LEFT    ? PRESS_RIGHT
           : side == PRESS_RIGHT ? PRESS_LEFT
                                 : side;
}

/* Only rows that the rule presses: a designer's word stands as it is. */
bool leans_left(const struct sewer *sewer, const struct heap *heap)
{
    return heap->piece->second_row && heap->work == WORK_JOIN &&
           heap->down == 1 &&
           stated_press(sewer, heap->piece, ACTION_JOIN_ROW).side == PRESS_RULE;
}

/* Three pieces or more in a row go one way, so that the next row can go the
 * other; two go to the darker. Columns and grids go down, all one way. */
void choose_press(const struct sewer *sewer, const struct heap *heap,
                  struct action *action)
{
    action->press = stated_press(sewer, heap->piece, action->kind);
    action->pressed_by_rule = action->press.side == PRESS_RULE;
    if (heap->mirror)
        action->press.side = mirrored_side(action->press.side);
    if (!action->pressed_by_rule)
        return;
    if (action->kind == ACTION_FLIP_CORNER)
        action->press.side = PRESS_TOWARD_CORNER;
    else if (leans_left(sewer, heap))
        action->press.side = heap->mirror ? PRESS_RIGHT : PRESS_LEFT;
    else if (action->kind == ACTION_JOIN_ROW && heap->inputs.count > 2 &&
             heap->down == 1)
        action->press.side = heap->mirror ? PRESS_LEFT : PRESS_RIGHT;
    else if (action->kind == ACTION_JOIN_COLUMN &&
             (heap->down > 2 || heap->across > 1))
        action->press.side = PRESS_DOWN;
}

/* Each mark is one seam; add_joint_seams counts on their order. */
static void add_mark(const struct sewer *sewer, struct state *state,
                     struct press_mark mark)
{
    *LIST_ADD(sewer->run->arena, &state->presses) = mark;
}

/* ensures: a mark, and in the action the cloth that the words will name. */
void press_diagonal(const struct sewer *sewer, const struct heap *heap,
                    struct action *action, struct vertex at, int x, int y,
                    size_t next)
{
    struct press_mark mark = {
        .at = at, .x = x, .y = y, .across_x = x, .across_y = y};
    if (action->press.side == PRESS_OPEN)
        mark.x = mark.y = 0;
    else if (!goes_to_next(sewer, heap, &action->press, next - 1, next))
        mark.x = -x, mark.y = -y;
    /* Tell the page which cloth it is, where the darker one was chosen. */
    if (action->press.side == PRESS_RULE ||
        action->press.side == PRESS_TOWARD_FABRIC) {
        const size_t there = mark.x == x && mark.y == y ? next : next - 1;
        const int fabric =
            heap_at(sewer, heap->inputs.items[there].heap)->fabric;
        action->press.fabric = fabric;
        action->press.side = PRESS_TOWARD_FABRIC;
    }
    add_mark(sewer, &action->after, mark);
}

/* In a grid whose seams nobody spoke of, every second row goes to the left.
 * Rows count from 0, so the first goes to the right. */
static bool row_goes_right(const struct sewer *sewer, const struct heap *heap,
                           const struct action *action, size_t next)
{
    if (action->press.side == PRESS_RULE && heap->down > 1)
        return next / heap->across % 2 == 0;
    return goes_to_next(sewer, heap, &action->press, next - 1, next);
}

/* Marks lie in the middle of their seam, in the heap's own place; gap_y moves
 * the mark of a row with its row while rows lie apart. */
void press_join(const struct sewer *sewer, const struct heap *heap,
                struct action *action, size_t next, bool above)
{
    const struct input *input = &heap->inputs.items[next];
    const struct rational half = rational_make(1, 2);
    const bool open = action->press.side == PRESS_OPEN;
    struct press_mark mark = {.at = {input->x, input->y},
                              .across_x = above ? 0 : 1,
                              .across_y = above ? 1 : 0};
    if (above) {
        mark.at.x = rational_mul(heap->width, half);
        if (!open)
            mark.y = goes_to_next(sewer, heap, &action->press,
                                  next - heap->across, next)
                         ? 1
                         : -1;
    } else {
        mark.at.y = rational_add(
            mark.at.y, rational_mul(input_height(sewer, input), half));
        /* While rows lie apart, so do their marks. */
        mark.gap_y = (int)(next / heap->across);
        if (!open)
            mark.x = row_goes_right(sewer, heap, action, next) ? 1 : -1;
    }
    add_mark(sewer, &action->after, mark);
}
