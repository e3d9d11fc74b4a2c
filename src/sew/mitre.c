/* Borders whose strips meet at 45 degrees. Each strip is as long as the whole
 * and a little more; it is sewn to the center from one corner of it to the
 * other, a seam's width short of both edges, and where two strips overlap a
 * seam runs from the center's corner to the corner of the whole. Mitred borders
 * that follow each other are one: their strips are joined lengthwise first, and
 * the sets are mitred as a single strip would be (common practice). As all
 * strips of a set are equally long and equally wide on all sides, every corner
 * lies on a diagonal of exact points. Read next: border.c. */
#include "bench.h"
#include "trade.h"

/* The seams to the center: to the strips, as in any border. */
static const struct operation sew_strips = {
    .name = "join-border",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_BORDER)};
/* Pressed open unless a word sends them to one side: the corner stays flat
 * (common practice). */
static const struct operation sew_corners = {.name = "sew-mitre",
                                             .laid = LAID_TOGETHER,
                                             .presses = PRESS_BIT(PRESS_OPEN) |
                                                        PRESS_BIT(PRESS_LEFT) |
                                                        PRESS_BIT(PRESS_RIGHT)};
static const struct operation join_strips = {
    .name = "join-column", .laid = LAID_DOWN, .presses = PRESS_BIT(PRESS_OPEN)};

/* Sides go clockwise from the top; corner k lies before side k. */
enum { SIDES = 4, TOP_SIDE = 0, RIGHT_SIDE, BOTTOM_SIDE, LEFT_SIDE };
static const size_t side_inputs[SIDES] = {BORDER_TOP, BORDER_RIGHT,
                                          BORDER_BOTTOM, BORDER_LEFT};

/* ---- building ---- */

/* The border inside of which nothing is sewn together with this one. */
static const struct piece *innermost(const struct piece *piece)
{
    while (piece->border->matched)
        piece = piece->cells.items[0].piece;
    return piece;
}

/* The finished width of all borders that are sewn as one. */
static struct rational band_of(const struct piece *piece)
{
    struct rational band = piece->border->width;
    for (; piece->border->matched; piece = piece->cells.items[0].piece)
        band = rational_add(band, piece->cells.items[0].piece->border->width);
    return band;
}

/* A strip as it lies on top of the quilt. Across the cloth its print stands
 * upright there; along the selvage it runs along the strip. Either way it turns
 * with the strip at each corner. */
static struct ref build_one(struct sewer *sewer, struct heap recipe,
                            const struct border *border, struct rational length)
{
    if (!border->lengthwise)
        return build_strip(sewer, recipe, border->fabric, border->number,
                           length, border->width);
    struct ref ref = build_strip(sewer, recipe, border->fabric, border->number,
                                 border->width, length);
    ref.turn = (ref.turn + 1) % heap_at(sewer, ref.heap)->symmetry;
    return ref;
}

/* The strips of one side, joined: for top and bottom with the outermost above,
 * else with the innermost above. As seams of both are pressed down, those of
 * the two sets that meet in a corner go opposite ways there and nest. */
static struct ref build_set(struct sewer *sewer, struct heap recipe,
                            const struct piece *piece, struct rational length,
                            bool outer_first)
{
    struct heap set = recipe;
    set.technique = TECHNIQUE_JOIN;
    set.craft = &craft_strip_set;
    set.inputs.items = NULL;
    set.inputs.count = set.inputs.capacity = 0;
    set.width = length;
    set.height = rational_whole(0);
    const size_t last = piece->border->number;
    const size_t first = innermost(piece)->border->number;
    const struct border *borders = piece->owner->borders.items;
    for (size_t i = 0; i <= last - first; i++) {
        const size_t number = outer_first ? last - i : first + i;
        const struct border *border = &borders[number - 1];
        struct ref strip = build_one(sewer, recipe, border, length);
        if (!outer_first)
            strip.turn =
                (strip.turn + 2) % heap_at(sewer, strip.heap)->symmetry;
        add_input(sewer, &set, strip, rational_whole(0), set.height);
        set.height = rational_add(set.height, border->width);
    }
    set.of.join.across = 1;
    set.of.join.down = set.inputs.count;
    struct ref ref = find_or_add(sewer, &set);
    if (!outer_first)
        ref.turn = (ref.turn + 2) % heap_at(sewer, ref.heap)->symmetry;
    return ref;
}

/* Turned from the top clockwise. The room lies half at each end. */
static void add_sides(struct sewer *sewer, struct heap *recipe)
{
    const struct piece *piece = recipe->piece;
    const struct rational room =
        trade_length(TRADE_MITRE_ROOM, sewer->sized->design->pattern->units);
    const struct rational before = rational_mul(room, rational_make(-1, 2));
    const struct rational band = band_of(piece), zero = rational_whole(0);
    const struct ref side = build_set(
        sewer, *recipe, piece, rational_add(recipe->height, room), false);
    const struct ref end = build_set(sewer, *recipe, piece,
                                     rational_add(recipe->width, room), true);
    static const unsigned turns[] = {3, 1, 0, 2}; /* as the inputs are listed */
    for (unsigned i = 0; i < SIDES; i++) {
        struct ref ref = i < 2 ? side : end;
        ref.turn = (ref.turn + turns[i]) % heap_at(sewer, ref.heap)->symmetry;
        const struct rational x = i == 0   ? zero
                                  : i == 1 ? rational_sub(recipe->width, band)
                                           : before;
        const struct rational y = i == 2   ? zero
                                  : i == 3 ? rational_sub(recipe->height, band)
                                           : before;
        add_input(sewer, recipe, ref, x, y);
    }
}

struct ref build_mitred(struct sewer *sewer, const struct piece *piece,
                        struct rational factor, bool mirror)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror,
                                    TECHNIQUE_BORDER, &craft_mitred);
    recipe.of.border = piece->border;
    const struct rational band = band_of(piece);
    const struct cell *center = &innermost(piece)->cells.items[0];
    add_input(sewer, &recipe, build_cell(sewer, center, factor, mirror), band,
              band);
    add_sides(sewer, &recipe);
    return find_or_add(sewer, &recipe);
}

/* A quilt has each of its borders once, so no two are ever compared. */
static void key_mitred(struct sewer *sewer, struct buffer *key,
                       const struct heap *heap, unsigned turn)
{
    (void)sewer;
    buffer_printf(key, "%zu.%u ", heap->of.border->number, turn);
}

/* Alike but for the way of their seams is not alike: see build_set. */
static void key_set(struct sewer *sewer, struct buffer *key,
                    const struct heap *heap, unsigned turn)
{
    struct input *inputs = turned_inputs(sewer, heap, turn);
    sort_inputs(inputs, heap->inputs.count);
    key_inputs(sewer, key, inputs, heap->inputs.count);
    if (stated_side(sewer, heap->piece, &join_strips) != PRESS_OPEN)
        buffer_printf(key, "press %s ", turned_side(heap, PRESS_DOWN, turn));
}

/* ---- a set of strips ---- */

static void sew_set(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const struct rational zero = rational_whole(0);
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    struct action *action = add_action(bench, &join_strips);
    if (action->press.side != PRESS_OPEN)
        action->press.side = PRESS_DOWN;
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const struct input *input = &heap->inputs.items[i];
        const struct cloth *all = placed(bench, input);
        const struct cloth *seen = seen_input(bench, i, all);
        add_part(bench, action, i);
        show(bench, &action->before, all, (int)i, 0, (int)i);
        show(bench, &action->after, seen, WHOLE, 0, 0);
        cloth_add_all(bench->arena, whole, seen);
    }
    for (size_t i = 1; i < heap->inputs.count; i++) {
        const struct rational y = heap->inputs.items[i].y;
        const struct sewn_seam seam = {
            .seam = {.from = {zero, y}, .to = {heap->width, y}},
            .before = i - 1,
            .next = i,
            .across_y = 1};
        cloth_add_seam(bench->arena, whole, sew_seam(bench, action, seam));
    }
    heap->cloth = whole;
}

/* ---- sewing ---- */

/* The corners of the whole and of what the border goes round, clockwise from
 * the top left; the strips as they come, opened, and within the corner seams.
 */
struct mitring {
    const struct bench *bench;
    struct rational band;
    struct vertex outer[SIDES], inner[SIDES];
    const struct cloth *center;
    const struct cloth *all[SIDES], *opened[SIDES], *trimmed[SIDES];
};

static void find_corners(struct mitring *m)
{
    const struct heap *heap = m->bench->heap;
    const struct rational zero = rational_whole(0);
    m->band = heap->inputs.items[BORDER_CENTER].x;
    const struct rational minus = rational_times(m->band, -1);
    for (unsigned i = 0; i < SIDES; i++) {
        const bool right = i == 1 || i == 2, low = i >= 2;
        m->outer[i] = (struct vertex){right ? heap->width : zero,
                                      low ? heap->height : zero};
        m->inner[i] =
            moved(m->outer[i], right ? minus : m->band, low ? minus : m->band);
    }
}

/* The side of the line through p and q on which the point lies. */
static struct half_plane plane_with(struct vertex p, struct vertex q,
                                    struct vertex point)
{
    const struct half_plane plane = half_plane_left(p, q);
    return rational_sign(half_plane_side(plane, point)) > 0
               ? half_plane_other(plane)
               : plane;
}

/* Opened, a strip ends at its seam; trimmed, at its two corner seams and, as
 * the whole does, a seam's width beyond its edge. */
static void find_strips(struct mitring *m)
{
    const struct bench *bench = m->bench;
    const struct outline whole =
        outline_grown(bench->arena, bench->heap->outline, bench->seam);
    for (unsigned k = 0; k < SIDES; k++) {
        const unsigned next = (k + 1) % SIDES;
        const struct vertex edge = m->outer[k];
        m->all[k] = placed(bench, &bench->heap->inputs.items[side_inputs[k]]);
        m->opened[k] =
            cloth_clipped(bench->arena, m->all[k],
                          plane_with(m->inner[k], m->inner[next], edge));
        const struct half_plane planes[] = {
            plane_with(m->outer[k], m->inner[k], m->outer[next]),
            plane_with(m->outer[next], m->inner[next], m->outer[k])};
        m->trimmed[k] = cloth_within(
            bench->arena, cloth_inside(bench->arena, m->opened[k], planes, 2),
            whole);
    }
}

static void sew_to_center(const struct mitring *m, struct action *action,
                          struct cloth *whole, unsigned side)
{
    static const int across[SIDES][2] = {{0, -1}, {1, 0}, {0, 1}, {-1, 0}};
    const struct sewn_seam seam = {
        .seam = {.from = m->inner[side], .to = m->inner[(side + 1) % SIDES]},
        .before = BORDER_CENTER,
        .next = side_inputs[side],
        .across_x = across[side][0],
        .across_y = across[side][1]};
    cloth_add_seam(m->bench->arena, whole, sew_seam(m->bench, action, seam));
}

/* Two strips on opposite sides, laid on the center, wrong side up. The seams
 * stop at the corners of the center, a seam's width before its edges. */
static void sew_opposite(const struct mitring *m, struct cloth *whole,
                         unsigned first)
{
    const struct bench *bench = m->bench;
    const bool begins = first == LEFT_SIDE;
    struct action *action = add_action(bench, &sew_strips);
    if (begins)
        add_part(bench, action, BORDER_CENTER);
    show(bench, &action->before, m->center, WHOLE, 0, 0);
    show(bench, &action->after, m->center, WHOLE, 0, 0);
    for (unsigned k = LEFT_SIDE; !begins && k < SIDES + 2; k += 2) {
        show(bench, &action->before, m->opened[k % SIDES], WHOLE, 0, 0);
        show(bench, &action->after, m->opened[k % SIDES], WHOLE, 0, 0);
    }
    for (unsigned k = first; k < first + SIDES; k += 2) {
        const unsigned side = k % SIDES;
        const struct vertex from = m->inner[side];
        const struct vertex to = m->inner[(side + 1) % SIDES];
        add_part(bench, action, side_inputs[side]);
        show(bench, &action->before,
             cloth_flipped(bench->arena, m->all[side], from, to),
             (int)side_inputs[side], 0, 0);
        mark_line(bench, &action->before, MARK_SEWN, from, to);
        show(bench, &action->after, m->opened[side], WHOLE, 0, 0);
        sew_to_center(m, action, whole, side);
    }
}

/* What lies there as far down as shows the corner. */
static void show_near(const struct mitring *m, struct action *action,
                      const struct cloth *cloth, int part)
{
    const struct half_plane near = {rational_whole(0), rational_whole(1),
                                    rational_times(m->band, 3)};
    show(m->bench, &action->before, cloth_clipped(m->bench->arena, cloth, near),
         part, 0, 0);
}

/* The top left corner of the quilt, folded so that the upper edge of the center
 * lies on its left one: then the strip of the top lies on that of the left
 * side, right sides together, and the line that is drawn goes on from the fold.
 * The label of a set, which is long, would lie on the line. */
static void show_fold(const struct mitring *m, struct action *action)
{
    const struct bench *bench = m->bench;
    const struct input *strip = &bench->heap->inputs.items[BORDER_TOP];
    const bool one =
        heap_at(bench->sewer, strip->heap)->technique == TECHNIQUE_CUT;
    const struct vertex p = m->outer[0], q = m->inner[0];
    const struct half_plane above = plane_with(p, q, m->outer[1]);
    show_near(m, action, m->opened[LEFT_SIDE], WHOLE);
    show_near(m, action,
              cloth_flipped(bench->arena,
                            cloth_clipped(bench->arena, m->center, above), p,
                            q),
              WHOLE);
    show_near(m, action, cloth_flipped(bench->arena, m->opened[TOP_SIDE], p, q),
              one ? BORDER_TOP : WHOLE);
    /* The line goes on to the raw edge, the cut to the end of the strips. */
    const struct rational edge = rational_times(bench->seam, -1);
    const struct rational past = rational_add(strip->x, edge);
    const struct vertex corner = moved(p, edge, edge);
    mark_line(bench, &action->before, MARK_DRAWN, corner, q);
    mark_line(bench, &action->before, MARK_SEWN, corner, q);
    mark_beside(bench, &action->before, MARK_CUT, moved(p, past, past), q, 1,
                -1);
}

/* From the left to the right, whichever corner it is. */
static void sew_corner(const struct mitring *m, struct action *action,
                       struct cloth *whole, unsigned corner)
{
    static const unsigned left[SIDES] = {LEFT_SIDE, TOP_SIDE, BOTTOM_SIDE,
                                         LEFT_SIDE};
    static const unsigned right[SIDES] = {TOP_SIDE, RIGHT_SIDE, RIGHT_SIDE,
                                          BOTTOM_SIDE};
    const struct sewn_seam seam = {
        .seam = {.from = m->outer[corner], .to = m->inner[corner]},
        .before = side_inputs[left[corner]],
        .next = side_inputs[right[corner]],
        .across_x = 1,
        .across_y = corner % 2 == 0 ? -1 : 1};
    cloth_add_seam(m->bench->arena, whole, sew_seam(m->bench, action, seam));
}

static void sew_all_corners(const struct mitring *m, struct cloth *whole)
{
    const struct bench *bench = m->bench;
    struct action *action = add_action(bench, &sew_corners);
    if (action->pressed_by_rule)
        action->press = (struct press){.side = PRESS_OPEN, .fabric = NO_FABRIC};
    add_part(bench, action, BORDER_LEFT);
    add_part(bench, action, BORDER_TOP);
    show_fold(m, action);
    show(bench, &action->after, m->center, WHOLE, 0, 0);
    for (unsigned k = 0; k < SIDES; k++)
        show(bench, &action->after, m->trimmed[k], WHOLE, 0, 0);
    for (unsigned corner = 0; corner < SIDES; corner++)
        sew_corner(m, action, whole, corner);
}

static void sew_mitred(const struct bench *bench)
{
    struct mitring m = {.bench = bench};
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    find_corners(&m);
    find_strips(&m);
    m.center =
        seen_input(bench, BORDER_CENTER,
                   placed(bench, &bench->heap->inputs.items[BORDER_CENTER]));
    cloth_add_all(bench->arena, whole, m.center);
    for (unsigned k = 0; k < SIDES; k++)
        cloth_add_all(bench->arena, whole, m.trimmed[k]);
    sew_opposite(&m, whole, LEFT_SIDE);
    sew_opposite(&m, whole, TOP_SIDE);
    sew_all_corners(&m, whole);
    bench->heap->cloth = whole;
}

unsigned mitred_presses(void)
{
    return sew_strips.presses | sew_corners.presses;
}

/* ---- the borders of a quilt ---- */

/* The strip of border `number` in what a side is sewn from. */
static size_t strip_in(const struct sewer *sewer, size_t index, size_t number)
{
    const struct heap *heap = heap_at(sewer, index);
    for (size_t i = 0; i < heap->inputs.count; i++) {
        const size_t strip = heap->inputs.items[i].heap;
        if (heap_at(sewer, strip)->of.cut.border == number)
            return strip;
    }
    return index;
}

static struct rational strip_length(const struct sewer *sewer, size_t strip)
{
    const struct heap *heap = heap_at(sewer, strip);
    return rational_max(heap->width, heap->height);
}

void list_mitred(const struct sewer *sewer, struct sewn_quilt *quilt,
                 size_t index)
{
    const struct heap *heap = heap_at(sewer, index);
    const size_t first = innermost(heap->piece)->border->number;
    for (size_t number = first; number <= heap->of.border->number; number++) {
        const size_t side =
            strip_in(sewer, heap->inputs.items[BORDER_LEFT].heap, number);
        const size_t end =
            strip_in(sewer, heap->inputs.items[BORDER_TOP].heap, number);
        *LIST_ADD(sewer->run->arena, &quilt->borders) =
            (struct sewn_border){&heap->piece->owner->borders.items[number - 1],
                                 index,
                                 side,
                                 end,
                                 strip_length(sewer, side),
                                 strip_length(sewer, end)};
    }
}

const struct craft craft_mitred = {
    .name = "mitred", .key = key_mitred, .sew = sew_mitred};
const struct craft craft_strip_set = {
    .name = "strip set", .key = key_set, .sew = sew_set};
