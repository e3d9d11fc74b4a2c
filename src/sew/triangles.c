/* Rows of triangles at 60 degrees, and of what is as large as several: sewn row
 * by row along slanted edges, and rows like those of a grid. A place is half a
 * side further than the one before it. Read next: angled.c. */
#include "bench.h"

/* Half a side of a triangle. */
static struct rational half_side(const struct heap *heap)
{
    return rational_div(
        heap->width,
        rational_whole((int64_t)heap->piece->triangles->across + 1));
}

/* Ends lie at the edges, everything else at its place. */
static struct ref build_triangles(struct sewer *sewer,
                                  const struct piece *piece,
                                  struct rational factor, bool mirror)
{
    struct heap recipe = recipe_for(sewer, piece, factor, mirror,
                                    TECHNIQUE_TRIANGLES, &craft_triangles);
    const struct triangle_rows *rows = piece->triangles;
    const struct rational half = half_side(&recipe);
    const struct rational height =
        rational_div(recipe.height, rational_whole((int64_t)rows->rows));
    recipe.of.join.down = rows->rows;
    recipe.of.join.first = rows->first;
    for (size_t row = 0; row < rows->rows; row++) {
        const size_t end = rows->first[row + 1];
        if (end - rows->first[row] > recipe.of.join.across)
            recipe.of.join.across = end - rows->first[row];
        for (size_t i = rows->first[row]; i < end; i++)
            add_input(sewer, &recipe,
                      build_cell(sewer, &piece->cells.items[i], factor, false),
                      rational_times(half, (int64_t)rows->place[i]),
                      rational_times(height, (int64_t)row));
    }
    return find_or_add(sewer, &recipe);
}

/* A quilt has them once, or in few places: turned ones are not compared. */
static void key_triangles(struct sewer *sewer, struct buffer *key,
                          const struct heap *heap, unsigned turn)
{
    buffer_printf(key, "%zu %u %zu %zu ", heap->piece->index, turn,
                  heap->of.join.across, heap->of.join.down);
    key_inputs(sewer, key, heap->inputs.items, heap->inputs.count);
    key_press(sewer, key, heap, turn, &join_row);
    key_press(sewer, key, heap, turn, &join_column);
}

/* ---- sewing ---- */

/* All rows are as high. */
static struct rational row_height(const struct heap *heap)
{
    return rational_div(heap->height,
                        rational_whole((int64_t)heap->of.join.down));
}

/* The edge before a place: it leans to the right where the triangle behind it
 * points up. From the top. */
static void edge_before(const struct heap *heap, size_t row, size_t place,
                        struct vertex *from, struct vertex *to)
{
    const struct triangle_rows *rows = heap->piece->triangles;
    const bool down = rows->down != ((row + place) % 2 == 1);
    const struct rational height = row_height(heap);
    const struct rational x = rational_times(half_side(heap), (int64_t)place);
    const struct rational further = rational_add(x, half_side(heap));
    const struct rational top = rational_times(height, (int64_t)row);
    *from = (struct vertex){down ? x : further, top};
    *to = (struct vertex){down ? further : x, rational_add(top, height)};
}

/* The place at which a part begins, as its left edge lies. */
static size_t place_before(const struct heap *heap, size_t row, size_t part)
{
    return part + 1 == heap_row_end(heap, row)
               ? heap->piece->triangles->across
               : heap->piece->triangles->place[part];
}

/* What lies to the right of the edge before the part. From top to bottom the
 * left hand is on the right. */
static struct half_plane behind(const struct heap *heap, size_t row,
                                size_t part)
{
    struct vertex from, to;
    edge_before(heap, row, place_before(heap, row, part), &from, &to);
    return half_plane_left(from, to);
}

/* Seams are sewn from left to right, from raw edge to raw edge: what lies
 * beyond the next two of them is a neighbor's. */
static const struct cloth *joined_part(const struct bench *bench, size_t row,
                                       size_t part, const struct cloth *laid)
{
    const struct heap *heap = bench->heap;
    const struct rational one = rational_whole(1), zero = rational_whole(0);
    const struct rational top = rational_times(row_height(heap), (int64_t)row);
    struct half_plane planes[5];
    size_t count = 0;
    if (part > heap_row_begin(heap, row))
        planes[count++] = behind(heap, row, part);
    for (size_t next = part + 1;
         next < heap_row_end(heap, row) && next <= part + 2; next++)
        planes[count++] = half_plane_other(behind(heap, row, next));
    if (row > 0)
        planes[count++] = (struct half_plane){zero, rational_whole(-1),
                                              rational_times(top, -1)};
    if (row + 1 < heap_down(heap))
        planes[count++] =
            (struct half_plane){zero, one, rational_add(top, row_height(heap))};
    return cloth_within(
        bench->arena, cloth_inside(bench->arena, laid, planes, count),
        outline_grown(bench->arena, heap->outline, bench->seam));
}

struct parts {
    const struct cloth **laid, **joined;
};

/* How many gaps lie before a piece of a row: as many in all as in the longest,
 * so that rows of few pieces do not look as if one were missing. */
static int gaps_before(const struct heap *heap, size_t row, size_t at)
{
    size_t most = 1;
    for (size_t i = 0; i < heap_down(heap); i++) {
        const size_t pieces = heap_row_end(heap, i) - heap_row_begin(heap, i);
        most = pieces > most ? pieces : most;
    }
    const size_t steps =
        heap_row_end(heap, row) - heap_row_begin(heap, row) - 1;
    return steps == 0 ? 0 : (int)((2 * at * (most - 1) + steps) / (2 * steps));
}

/* Pieces of a row lie a gap apart before it is sewn, rows afterwards. */
static void sew_rows(const struct bench *bench, const struct parts *parts,
                     struct cloth *whole)
{
    struct heap *heap = bench->heap;
    struct action *action = add_action(bench, &join_row);
    for (size_t row = 0; row < heap_down(heap); row++)
        for (size_t i = heap_row_begin(heap, row); i < heap_row_end(heap, row);
             i++) {
            const size_t at = i - heap_row_begin(heap, row);
            add_part(bench, action, i);
            show(bench, &action->before, parts->laid[i], (int)i,
                 gaps_before(heap, row, at), (int)row);
            show(bench, &action->after, parts->joined[i], WHOLE, 0, (int)row);
            if (at == 0)
                continue;
            struct sewn_seam seam = {
                .before = i - 1, .next = i, .across_x = 1, .row = (int)row};
            edge_before(heap, row, place_before(heap, row, i), &seam.seam.from,
                        &seam.seam.to);
            if (action->press.side == PRESS_RULE && heap_down(heap) > 1)
                seam.seam.x = (row % 2 == 0 ? 1 : -1) *
                              first_row_way(bench->sewer, heap, &join_row);
            cloth_add_seam(bench->arena, whole, sew_seam(bench, action, seam));
        }
}

/* Rows from the top down. */
static void join_rows(const struct bench *bench, const struct parts *parts,
                      struct cloth *whole)
{
    struct heap *heap = bench->heap;
    if (heap_down(heap) == 1)
        return;
    struct action *action = add_action(bench, &join_column);
    for (size_t row = 0; row < heap_down(heap); row++) {
        const struct rational y =
            rational_times(row_height(heap), (int64_t)row);
        for (size_t i = heap_row_begin(heap, row); i < heap_row_end(heap, row);
             i++) {
            show(bench, &action->before, parts->joined[i], WHOLE, 0, (int)row);
            show(bench, &action->after, parts->joined[i], WHOLE, 0, 0);
        }
        if (row == 0)
            continue;
        const struct sewn_seam seam = {
            .seam = {.from = {rational_whole(0), y}, .to = {heap->width, y}},
            .before = heap_row_begin(heap, row - 1),
            .next = heap_row_begin(heap, row),
            .across_y = 1};
        cloth_add_seam(bench->arena, whole, sew_seam(bench, action, seam));
    }
}

/* Rows first, as any grid. */
static void sew_triangles(const struct bench *bench)
{
    struct heap *heap = bench->heap;
    const size_t count = heap->inputs.count;
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    const struct parts parts = {
        ARENA_ARRAY(bench->arena, const struct cloth *, count),
        ARENA_ARRAY(bench->arena, const struct cloth *, count)};
    for (size_t row = 0; row < heap_down(heap); row++)
        for (size_t i = heap_row_begin(heap, row); i < heap_row_end(heap, row);
             i++) {
            parts.laid[i] = placed(bench, &heap->inputs.items[i]);
            parts.joined[i] = joined_part(bench, row, i, parts.laid[i]);
            cloth_add_all(bench->arena, whole, parts.joined[i]);
        }
    sew_rows(bench, &parts, whole);
    join_rows(bench, &parts, whole);
    heap->cloth = whole;
    if (!bench->sewer->counting)
        check_joints(bench->sewer, heap, parts.joined);
}

/* Rows that begin the other way, and the fabric of the halves. */
static void try_triangles(struct slips *slips, const struct piece *piece)
{
    static const char *const words[] = {"up", "down"};
    if (piece->triangles == NULL)
        return;
    const int other = piece->triangles->down ? 0 : 1;
    slips->try_change(slips, (struct change){.kind = CHANGE_WORD,
                                             .piece = piece,
                                             .attribute = ATTR_FIRST_POINTS,
                                             .choice = other,
                                             .found = words[1 - other],
                                             .word = words[other]});
    try_fabrics(slips, piece);
}

/* Words for seams along slanted edges are those of upright ones. */
static unsigned triangle_presses(const struct piece *piece)
{
    (void)piece;
    return join_row.presses | join_column.presses;
}

const struct craft craft_triangles = {.name = "triangles",
                                      .build = build_triangles,
                                      .key = key_triangles,
                                      .sew = sew_triangles,
                                      .slips = try_triangles,
                                      .presses = triangle_presses};
