/* Pressing. The rules of the trade, where nothing is said: a flipped corner
 * towards the corner; a seam between two cloths towards the darker (National
 * Quilters Circle); seams of a row to the right or, in every second row, to the
 * left, so that rows that meet nest (common practice). Where the one before
 * goes another way than that, the next goes against it. Read next: meet.c,
 * which tells where the rules collide. */
#include "press.h"

#include <string.h>

/* Does the word make sense for the operation? */
static bool press_fits(enum press_side side, const struct operation *operation)
{
    return (operation->presses & PRESS_BIT(side)) != 0;
}

/* The piece's own word comes before its step's; `solve` is one, and says
 * nothing. PRESS_RULE where both are silent or no word fits. */
static struct press stated_word(const struct sewer *sewer,
                                const struct piece *piece,
                                const struct operation *operation)
{
    const struct press rule = {.side = PRESS_RULE, .fabric = NO_FABRIC};
    for (const struct press_trial *trial = sewer->trial; trial != NULL;
         trial = trial->next)
        if (trial->piece->first == piece->first &&
            press_fits(trial->press.side, operation))
            return trial->press;
    if (press_fits(piece->press.side, operation))
        return piece->press;
    if (piece->press.side == PRESS_SOLVE)
        return rule;
    const struct design *design = sewer->sized->design;
    for (size_t i = 0; i < design->assemblies.count; i++) {
        const struct assembly *assembly = &design->assemblies.items[i];
        for (size_t k = 0; k < assembly->steps.count; k++) {
            const struct assembly_step *step = &assembly->steps.items[k];
            const bool ours =
                step->make == piece->owner || step->piece == piece->first;
            if (ours && press_fits(step->press.side, operation))
                return step->press;
        }
    }
    return rule;
}

enum press_side stated_side(const struct sewer *sewer,
                            const struct piece *piece,
                            const struct operation *operation)
{
    return stated_word(sewer, piece, operation).side;
}

struct press stated_press(const struct sewer *sewer, const struct piece *piece,
                          const struct operation *operation)
{
    struct press press = stated_word(sewer, piece, operation);
    press.fabric = cast_fabric(sewer, press.fabric);
    return press;
}

/* ---- a plan ---- */

/* Can a seam between the cloths of the piece go to the other of two? A half of
 * one fabric has no other; what is made together with others is not parted from
 * them, or more would be cut; the halves of a quarter-square nest already. */
static bool has_other_cloth(const struct sewer *sewer,
                            const struct piece *piece,
                            const struct operation *operation)
{
    if (operation->laid != LAID_TOGETHER)
        return true;
    if (piece->kind == PIECE_HALF_SQUARE &&
        piece->fabrics.items[0].fabric == piece->fabrics.items[1].fabric)
        return false;
    if (piece->kind == PIECE_QUARTER_SQUARE &&
        strcmp(operation->name, "quarter-square") != 0)
        return false;
    return !sewer->plan->bound[piece->index];
}

int planned_way(const struct sewer *sewer, const struct piece *piece,
                const struct operation *operation)
{
    if (sewer->plan == NULL || (operation->presses & PRESS_TURNS) == 0 ||
        !has_other_cloth(sewer, piece, operation) ||
        stated_side(sewer, piece, operation) != PRESS_RULE)
        return 0;
    const struct planned_way *planned = sewer->plan->ways[piece->index];
    while (planned != NULL && planned->operation != operation)
        planned = planned->next;
    return planned == NULL ? 1 : planned->way;
}

/* Are there seams of several rows in the heap, which go to and fro? */
static bool has_rows(const struct heap *heap, const struct operation *operation)
{
    return operation->laid == LAID_ACROSS && heap_down(heap) > 1;
}

int first_row_way(const struct sewer *sewer, const struct heap *heap,
                  const struct operation *operation)
{
    const int way = planned_way(sewer, heap->piece, operation);
    return way == 0 ? 1 : heap->mirror && !sewer->plan->keeps ? -way : way;
}

/* The word for a way of seams along an axis, as the piece lies. */
static enum press_side side_of_way(int way, const struct operation *operation)
{
    return operation->laid == LAID_ACROSS ? (way > 0 ? PRESS_RIGHT : PRESS_LEFT)
                                          : (way > 0 ? PRESS_DOWN : PRESS_UP);
}

const char *turned_side(const struct heap *heap, enum press_side side,
                        unsigned turn)
{
    static const char *const sides[] = {"up", "right", "down", "left"};
    unsigned at = side == PRESS_UP      ? 0
                  : side == PRESS_RIGHT ? 1
                  : side == PRESS_DOWN  ? 2
                                        : 3;
    if (side != PRESS_UP && side != PRESS_RIGHT && side != PRESS_DOWN &&
        side != PRESS_LEFT)
        return side == PRESS_OPEN ? "open" : "toward";
    if (heap->mirror)
        at = (4 - at) % 4;
    return sides[(at + turn) % 4];
}

/* Rows that go to and fro are told by the one that is first after the turn, or
 * the column that is: of an even number, turned by half, that is one that goes
 * the other way. The halves of a half-square tell by themselves (`toward`). */
void key_plan(const struct sewer *sewer, struct buffer *key,
              const struct heap *heap, unsigned turn,
              const struct operation *operation)
{
    const int way = planned_way(sewer, heap->piece, operation);
    if (way == 0)
        return;
    if (operation->laid == LAID_TOGETHER) {
        if (way < 0 && heap->technique != TECHNIQUE_HALF_SQUARE)
            buffer_printf(key, "against ");
        return;
    }
    const bool rows = has_rows(heap, operation);
    const bool last = rows && (turn == 1 || turn == 2);
    const bool odd = last && heap_down(heap) % 2 == 0;
    buffer_printf(
        key, "%s %s ", rows ? "rows" : "press",
        turned_side(heap, side_of_way(odd ? -way : way, operation), turn));
}

/* ---- the rules ---- */

/* How light a cloth is, from 0 to 1, by the first colorway. Weights of red,
 * green and blue: Rec. ITU-R BT.709. One colorway decides for all, as a
 * booklet's steps must not change with the cloth. Doubles are enough: this
 * chooses a side and measures nothing. */
double fabric_lightness(const struct sewer *sewer, int fabric)
{
    const struct design *design = sewer->sized->design;
    if (design->colorways.count == 0 || fabric < 0)
        return 1.0;
    const struct bolt *bolt = &design->colorways.items[0].bolts[fabric];
    return 0.2126 * bolt->red + 0.7152 * bolt->green + 0.0722 * bolt->blue;
}

/* The mean over what is seen, by area; a heap of several cloths is as dark as
 * it looks. */
double heap_lightness(const struct sewer *sewer, const struct heap *heap)
{
    double sum = 0.0, area = 0.0;
    if (heap->cloth == NULL)
        return 1.0; /* on trial */
    for (size_t i = 0; i < heap->cloth->faces.count; i++) {
        const struct face face = heap->cloth->faces.items[i];
        const double part = rational_double(face_double_area(face));
        sum += part * fabric_lightness(sewer, face.fabric);
        area += part;
    }
    return area > 0.0 ? sum / area : 1.0;
}

/* Of the heap that is input number `input`. */
static double input_lightness(const struct sewer *sewer,
                              const struct heap *heap, size_t input)
{
    const struct input *inputs = cast_twin(sewer, heap)->inputs.items;
    return heap_lightness(sewer, heap_at(sewer, inputs[input].heap));
}

static bool heap_has(const struct heap *heap, int fabric)
{
    for (size_t i = 0; heap->cloth != NULL && i < heap->cloth->faces.count; i++)
        if (heap->cloth->faces.items[i].fabric == fabric)
            return true;
    return false;
}

/* Does the seam go towards its later part? Of two cloths of one lightness,
 * towards the earlier. A flap is the later one, and goes to its corner. */
static bool goes_to_next(const struct sewer *sewer, const struct heap *heap,
                         const struct press *press,
                         const struct sewn_seam *seam)
{
    const struct input *inputs = heap->inputs.items;
    switch (press->side) {
    case PRESS_RIGHT:
    case PRESS_DOWN:
    case PRESS_TOWARD_CORNER:
    case PRESS_TOWARD_BORDER:
        return true;
    case PRESS_TOWARD_FABRIC:
        return heap_has(heap_at(sewer, inputs[seam->next].heap),
                        press->fabric) &&
               !heap_has(heap_at(sewer, inputs[seam->before].heap),
                         press->fabric);
    case PRESS_RULE:
        return input_lightness(sewer, heap, seam->next) <
               input_lightness(sewer, heap, seam->before);
    case PRESS_OPEN:
    case PRESS_LEFT:
    case PRESS_UP:
    case PRESS_SOLVE:
        break;
    }
    return false;
}

void press_seam(const struct sewer *sewer, const struct heap *heap,
                const struct action *action, struct sewn_seam *seam)
{
    const struct press *press = &action->press;
    int way = press->side == PRESS_OPEN                ? 0
              : goes_to_next(sewer, heap, press, seam) ? 1
                                                       : -1;
    if (press->side == PRESS_RULE && heap->technique != TECHNIQUE_HALF_SQUARE &&
        planned_way(sewer, heap->piece, action->operation) < 0)
        way = -way;
    seam->seam.x = way * seam->across_x;
    seam->seam.y = way * seam->across_y;
}

/* Up, down and the corner stay in a mirror. */
static enum press_side mirrored_side(enum press_side side)
{
    return side == PRESS_LEFT    ? PRESS_RIGHT
           : side == PRESS_RIGHT ? PRESS_LEFT
                                 : side;
}

/* ---- rows and columns that nest ---- */

/* A heap that was found turned goes the way it was turned. */
static struct way turned_way(struct way way, unsigned turn, bool mirror)
{
    for (unsigned i = 0; i < turn; i++)
        way = (struct way){-way.y, way.x};
    return (struct way){mirror ? -way.x : way.x, way.y};
}

struct way way_of(const struct sewer *sewer, const struct piece *piece,
                  struct rational factor, bool mirror)
{
    for (const struct memo *memo = sewer->memos[piece->index]; memo != NULL;
         memo = memo->next) {
        const struct heap *heap = heap_at(sewer, memo->ref.heap);
        if (memo->mirror != mirror || !rational_equal(memo->factor, factor) ||
            !same_cast(memo->cast, sewer->cast) ||
            heap->technique != TECHNIQUE_JOIN || heap->actions.count != 1)
            continue;
        const struct sewn_seam *seams = heap->actions.items[0].seams.items;
        const struct way way = {seams[0].seam.x, seams[0].seam.y};
        for (size_t k = 1; k < heap->actions.items[0].seams.count; k++)
            if (seams[k].seam.x != way.x || seams[k].seam.y != way.y)
                return (struct way){0, 0};
        return turned_way(way, memo->ref.turn, mirror);
    }
    return (struct way){0, 0};
}

/* The work of a piece that its corners are sewn on. */
struct ref without_corners(const struct sewer *sewer, struct ref ref)
{
    while (heap_at(sewer, ref.heap)->technique == TECHNIQUE_CORNERS) {
        const struct input *base = heap_at(sewer, ref.heap)->inputs.items;
        ref = (struct ref){base->heap, ref.turn + base->turn};
    }
    return ref;
}

int ruled_way(const struct sewer *sewer, const struct piece *piece,
              const struct operation *operation)
{
    const struct memo *memo = sewer->memos[piece->index];
    if (operation->laid == LAID_TOGETHER)
        return 1;
    if (memo == NULL)
        return 0;
    const struct ref ref = without_corners(sewer, memo->ref);
    const struct heap *heap = heap_at(sewer, ref.heap);
    for (size_t i = 0; i < heap->actions.count; i++) {
        const struct action *action = &heap->actions.items[i];
        if (action->operation != operation ||
            (ref.turn % 4 != 0 && has_rows(heap, operation)))
            continue;
        const struct seam *seam = &action->seams.items[0].seam;
        const struct way way = turned_way((struct way){seam->x, seam->y},
                                          ref.turn % 4, memo->mirror);
        return way.x + way.y;
    }
    return 0;
}

/* Do two rows, or two columns, have a seam in one place? They begin at the same
 * edge, so places add up. */
static bool seams_meet(const struct sewer *sewer, const struct piece *a,
                       const struct piece *b)
{
    const struct rational *size =
        a->kind == PIECE_ROW ? sewer->sized->width : sewer->sized->height;
    struct rational at = rational_whole(0), other = rational_whole(0);
    for (size_t i = 0, k = 0; i + 1 < a->cells.count; i++) {
        at = rational_add(at, size[a->cells.items[i].piece->index]);
        for (; k + 1 < b->cells.count && rational_compare(other, at) < 0; k++)
            other = rational_add(other, size[b->cells.items[k].piece->index]);
        if (rational_equal(other, at))
            return true;
    }
    return false;
}

/* 1 for right or down, -1 for left or up: against a neighbor that is sewn; 0
 * where there is none, or where it does not matter. */
static int way_against(const struct sewer *sewer, const struct heap *heap,
                       const struct piece *neighbor)
{
    if (neighbor == NULL || neighbor->kind != heap->piece->kind ||
        !seams_meet(sewer, neighbor, heap->piece))
        return 0;
    const struct way way = way_of(sewer, neighbor, heap->factor, heap->mirror);
    return -(way.x + way.y);
}

/* Of two neighbors the one before is sewn first; in a mirror it is the other
 * way about. Of one that is not sewn yet only the word is known. */
static int way_beside(const struct sewer *sewer, const struct heap *heap,
                      const struct operation *operation)
{
    const struct piece *after = heap->piece->after;
    int way = way_against(sewer, heap, heap->piece->before);
    if (way == 0)
        way = way_against(sewer, heap, after);
    if (way != 0 || after == NULL || after->kind != heap->piece->kind ||
        !seams_meet(sewer, heap->piece, after))
        return way;
    const enum press_side side = stated_side(sewer, after, operation);
    return side == PRESS_RIGHT || side == PRESS_DOWN ? -1
           : side == PRESS_LEFT || side == PRESS_UP  ? 1
                                                     : 0;
}

/* The way that a row or column goes for itself: three parts or more go one way,
 * two to the darker. As the piece lies, which may be mirrored. */
static int way_alone(const struct sewer *sewer, const struct heap *heap,
                     bool across)
{
    if (heap->inputs.count > 2)
        return 1;
    const bool onward =
        input_lightness(sewer, heap, 1) < input_lightness(sewer, heap, 0);
    return onward != (across && heap->mirror) ? 1 : -1;
}

/* Only what the rule presses: a designer's word stands as it is. Every second
 * row goes left where nothing else tells, so that rows of whatever else is
 * between them go to and fro. */
static enum press_side find_lean(const struct sewer *sewer,
                                 const struct heap *heap,
                                 const struct operation *operation)
{
    const struct piece *piece = heap->piece;
    const bool across = operation->laid == LAID_ACROSS;
    if ((!across && operation->laid != LAID_DOWN) ||
        (across ? heap_down(heap) : heap_across(heap)) != 1 ||
        stated_side(sewer, piece, operation) != PRESS_RULE)
        return PRESS_RULE;
    int way = 0;
    if (piece->kind == (across ? PIECE_ROW : PIECE_COLUMN))
        way = way_beside(sewer, heap, operation);
    if (piece->second_row && across && way <= 0)
        return PRESS_LEFT;
    if (way == 0 || way == way_alone(sewer, heap, across))
        return PRESS_RULE;
    return across ? (way > 0 ? PRESS_RIGHT : PRESS_LEFT)
                  : (way > 0 ? PRESS_DOWN : PRESS_UP);
}

/* What was found once holds: keys ask for each turn, and a plan that keeps
 * heaps asks when neighbors may go another way. */
enum press_side lean_of(const struct sewer *sewer, const struct heap *heap,
                        const struct operation *operation)
{
    const size_t index = heap->piece->index;
    const bool planned = sewer->plan != NULL;
    struct kept_lean *kept =
        planned ? sewer->plan->leans[index] : sewer->leans[index];
    for (; kept != NULL; kept = kept->next)
        if (kept->mirror == heap->mirror && kept->operation == operation &&
            rational_equal(kept->factor, heap->factor))
            return kept->side;
    const enum press_side side = find_lean(sewer, heap, operation);
    if (planned || operation->laid == LAID_TOGETHER)
        return side;
    kept = ARENA_NEW(sewer->run->arena, struct kept_lean);
    *kept = (struct kept_lean){heap->factor, heap->mirror, operation, side,
                               sewer->leans[index]};
    sewer->leans[index] = kept;
    return side;
}

/* Three pieces or more in a row go one way, so that the next row can go the
 * other; two go to the darker. Columns and grids go down, all one way. */
static enum press_side side_by_rule(const struct sewer *sewer,
                                    const struct heap *heap,
                                    const struct operation *operation)
{
    if (press_fits(PRESS_TOWARD_CORNER, operation))
        return PRESS_TOWARD_CORNER;
    if (press_fits(PRESS_TOWARD_BORDER, operation))
        return PRESS_TOWARD_BORDER;
    const enum press_side lean = lean_of(sewer, heap, operation);
    if (lean != PRESS_RULE)
        return heap->mirror ? mirrored_side(lean) : lean;
    if (operation->laid == LAID_ACROSS && heap->inputs.count > 2 &&
        heap_down(heap) == 1)
        return heap->mirror ? PRESS_LEFT : PRESS_RIGHT;
    if (operation->laid == LAID_DOWN &&
        (heap_down(heap) > 2 || heap_across(heap) > 1))
        return PRESS_DOWN;
    return PRESS_RULE;
}

/* Open and the corner have no other side. */
static enum press_side other_side(enum press_side side)
{
    return side == PRESS_UP     ? PRESS_DOWN
           : side == PRESS_DOWN ? PRESS_UP
                                : mirrored_side(side);
}

/* By a plan: against the rules or not, or as a word of the designer would have
 * it. Between two cloths, and for rows that go to and fro, press_seam and
 * first_row_way turn what stays with the rule. */
static enum press_side planned_side(const struct sewer *sewer,
                                    const struct heap *heap,
                                    const struct operation *operation, int way)
{
    if (sewer->plan->keeps) {
        const enum press_side side = side_by_rule(sewer, heap, operation);
        return way < 0 ? other_side(side) : side;
    }
    if (operation->laid == LAID_TOGETHER || has_rows(heap, operation))
        return PRESS_RULE;
    return side_of_way(
        heap->mirror && operation->laid == LAID_ACROSS ? -way : way, operation);
}

void choose_press(const struct sewer *sewer, const struct heap *heap,
                  struct action *action)
{
    const struct operation *operation = action->operation;
    const int way = planned_way(sewer, heap->piece, operation);
    action->press = stated_press(sewer, heap->piece, operation);
    action->pressed_by_rule = action->press.side == PRESS_RULE && way >= 0;
    action->press.side = way != 0 ? planned_side(sewer, heap, operation, way)
                         : action->press.side == PRESS_RULE
                             ? side_by_rule(sewer, heap, operation)
                         : heap->mirror ? mirrored_side(action->press.side)
                                        : action->press.side;
}
