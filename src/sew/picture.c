/* What the designer drew, on the one hand; what the cloth shows, on the other.
 * Both become four fabrics a cell, which can be compared and told. A cell is
 * local: a grid square, or a part of one where `cells` says so. Read next:
 * blame.c. */
#include <stdlib.h>

#include "picture.h"

static void report_token(struct run *run, struct span span)
{
    const char *token = arena_copy(run->arena, run->source->bytes + span.start,
                                   span.end - span.start);
    struct diagnostic *d = diag_report(
        run, DIAG_PICTURE_TOKEN, span,
        "the picture has %s, which names no cloth", quoted(run->arena, token));
    diag_note(run, d, (struct span){0, 0},
              "a cell is n, n/f, n\\f or n+f+g+f in the keys of the fabrics");
}

/* reports: rows or cells that are too many or too few, beside the grid. */
static void report_picture_size(struct run *run, struct span span,
                                const char *found, size_t wanted,
                                const struct definition *block)
{
    struct diagnostic *d = diag_report(run, DIAG_PICTURE_SIZE, span,
                                       "the picture %s, but `%s` asks for %zu",
                                       found, block->id, wanted);
    diag_note(run, d, value_span(block->element, ATTR_GRID), "the grid of `%s`",
              block->id);
}

/* Looks at the rows in their order. The first that is wrong ends it, as one
 * misspelt key is mostly used many times. */
static bool cells_fit(struct run *run, const struct picture *picture,
                      const struct definition *block)
{
    const struct picture_cell *cells = block->cells.items;
    size_t rows = 0;
    for (size_t first = 0, end; first < block->cells.count; first = end) {
        for (end = first;
             end < block->cells.count && cells[end].row == cells[first].row;
             end++) {
            if (cells[end].readable)
                continue;
            report_token(run, cells[end].span);
            return false;
        }
        rows++;
        if (end - first == picture->across)
            continue;
        report_picture_size(
            run,
            (struct span){cells[first].span.start, cells[end - 1].span.end},
            arena_printf(run->arena, "has %zu cells in row %zu", end - first,
                         rows),
            picture->across, block);
        return false;
    }
    if (rows == picture->down)
        return true;
    report_picture_size(
        run, block->picture->name,
        arena_printf(run->arena, "has %zu row%s", rows, rows == 1 ? "" : "s"),
        picture->down, block);
    return false;
}

/* How many cells a side has: the grid's squares, or as `cells` says. */
static size_t cells_of(long cells, struct rational squares,
                       struct rational across)
{
    if (cells == 0)
        return (size_t)rational_ceil(squares);
    const struct rational count =
        rational_div(rational_times(squares, cells), across);
    return rational_known(count) ? (size_t)rational_ceil(count) : 0;
}

/* A block without a grid has one cell a unit of length, rounded up; `cells` on
 * the picture says otherwise. */
struct picture *read_picture(struct run *run, const struct sized *sized,
                             const struct definition *block)
{
    if (block->shapes.count > 0)
        return paint_picture(run, sized, block);
    if (block->picture_triangles)
        return read_row_picture(run, sized, block);
    if (block->kind == DEFINE_QUILT && block->picture_cells == 0)
        return read_setting_picture(run, sized, block);
    const struct rational width = sized->width[pictured_piece(block)->index];
    const struct rational height = sized->height[pictured_piece(block)->index];
    struct picture *picture = ARENA_NEW(run->arena, struct picture);
    /* The number of cells is asked of the block, not counted in the text, so
     * that a row that is too short shows as that. */
    picture->across = cells_of(block->picture_cells, width, width);
    picture->down = cells_of(block->picture_cells, height, width);
    picture->cell_width =
        rational_div(width, rational_whole((int64_t)picture->across));
    picture->cell_height =
        rational_div(height, rational_whole((int64_t)picture->down));
    picture->cells = block->cells.items;
    return cells_fit(run, picture, block) ? picture : NULL;
}

/* ---- cloth as a picture ---- */

/* How much of each quarter is covered, to find holes and doubled cloth. */
struct tally {
    struct rational area[4]; /* doubled, of the quarter's fabric */
};

/* Quarters are what the two diagonals cut a cell into: top, right, bottom,
 * left. ensures: three points, two corners of the cell, clockwise, and its
 * middle. */
static struct face quarter_of(struct vertex points[3],
                              const struct picture *picture, size_t column,
                              size_t row, int quarter)
{
    static const int corner_x[] = {0, 1, 1, 0}, corner_y[] = {0, 0, 1, 1};
    const struct rational half = rational_make(1, 2);
    const struct rational x =
        rational_times(picture->cell_width, (int64_t)column);
    const struct rational y =
        rational_times(picture->cell_height, (int64_t)row);
    for (int i = 0; i < 2; i++) {
        const int corner = (quarter + i) % 4;
        points[i].x = rational_add(
            x, rational_times(picture->cell_width, corner_x[corner]));
        points[i].y = rational_add(
            y, rational_times(picture->cell_height, corner_y[corner]));
    }
    points[2].x = rational_add(x, rational_mul(picture->cell_width, half));
    points[2].y = rational_add(y, rational_mul(picture->cell_height, half));
    return (struct face){.points = points, .count = 3};
}

/* Adds what a face shows in one cell. Two fabrics in a quarter make it MIXED,
 * which no token can ask for, so it always differs. */
static void tally_face(struct arena *arena, struct picture *picture,
                       struct tally *tallies, struct face face, size_t column,
                       size_t row)
{
    const size_t index = row * picture->across + column;
    struct picture_cell *cell = &picture->cells[index];
    for (int quarter = 0; quarter < 4; quarter++) {
        struct vertex points[3];
        const struct face part = face_within(
            arena, face, quarter_of(points, picture, column, row, quarter));
        /* Touching an edge is not showing. */
        if (part.count == 0)
            continue;
        if (cell->quarters[quarter] == QUARTER_EMPTY)
            cell->quarters[quarter] = face.fabric;
        else if (cell->quarters[quarter] != face.fabric)
            cell->quarters[quarter] = QUARTER_MIXED;
        tallies[index].area[quarter] =
            rational_add(tallies[index].area[quarter], face_double_area(part));
    }
}

struct bounds {
    size_t from, to; /* cells from .. to - 1 */
};

/* Cloth may reach over the edge by its allowance; cells do not. */
static size_t clamp_cell(int64_t cell, size_t count)
{
    return cell < 0 ? 0 : (size_t)cell > count ? count : (size_t)cell;
}

/* Cells that the interval touches; a face looks at no others. */
static struct bounds cell_bounds(struct rational low, struct rational high,
                                 struct rational cell, size_t count)
{
    return (struct bounds){
        clamp_cell(rational_floor(rational_div(low, cell)), count),
        clamp_cell(rational_ceil(rational_div(high, cell)), count)};
}

/* Only the cells in the face's bounding box can see it. */
static void add_face(struct arena *arena, struct picture *picture,
                     struct tally *tallies, struct face face)
{
    struct vertex low, high;
    face_box(face, &low, &high);
    const struct bounds columns =
        cell_bounds(low.x, high.x, picture->cell_width, picture->across);
    const struct bounds rows =
        cell_bounds(low.y, high.y, picture->cell_height, picture->down);
    for (size_t row = rows.from; row < rows.to; row++)
        for (size_t column = columns.from; column < columns.to; column++)
            tally_face(arena, picture, tallies, face, column, row);
}

/* ensures: for each quarter its one fabric, EMPTY or MIXED. */
struct picture *picture_of(struct arena *arena, const struct cloth *cloth,
                           const struct picture *like)
{
    struct picture *picture = ARENA_NEW(arena, struct picture);
    *picture = *like;
    const size_t count = like->across * like->down;
    picture->cells = ARENA_ARRAY(arena, struct picture_cell, count);
    struct tally *tallies = ARENA_ARRAY(arena, struct tally, count);
    for (size_t i = 0; i < count; i++) {
        for (int quarter = 0; quarter < 4; quarter++) {
            picture->cells[i].quarters[quarter] = QUARTER_EMPTY;
            tallies[i].area[quarter] = rational_whole(0);
        }
    }
    for (size_t i = 0; i < cloth->faces.count; i++)
        add_face(arena, picture, tallies, cloth->faces.items[i]);
    /* A quarter that is not covered once and wholly is not of one fabric. */
    const struct rational full = rational_div(
        rational_mul(like->cell_width, like->cell_height), rational_whole(2));
    for (size_t i = 0; i < count; i++)
        for (int quarter = 0; quarter < 4; quarter++)
            if (picture->cells[i].quarters[quarter] >= 0 &&
                !rational_equal(tallies[i].area[quarter], full))
                picture->cells[i].quarters[quarter] = QUARTER_MIXED;
    return picture;
}

/* requires: pictures with the same cells. */
size_t picture_differences(const struct picture *a, const struct picture *b,
                           bool *differs)
{
    size_t total = 0;
    for (size_t i = 0; i < a->across * a->down; i++) {
        size_t quarters = 0;
        for (int quarter = 0; quarter < 4; quarter++)
            quarters +=
                a->cells[i].quarters[quarter] != b->cells[i].quarters[quarter];
        differs[i] = quarters > 0;
        total += quarters;
    }
    return total;
}

/* A picture told as polygons has as many parts as are seen at the end, after
 * painting over. */
size_t picture_parts(const struct picture *picture)
{
    return picture->painted.count > 0 ? picture->painted.count
                                      : picture->across * picture->down;
}

/* A face of the cloth and the box around it. */
struct boxed_face {
    struct whole_box box;
    const struct face *face;
};

/* From the left. */
static int compare_boxed(const void *first, const void *second)
{
    const struct boxed_face *a = first, *b = second;
    return (a->box.left > b->box.left) - (a->box.left < b->box.left);
}

/* All faces from the left; `widest` is how wide the widest box is. */
static struct boxed_face *boxed_faces(struct arena *arena,
                                      const struct cloth *cloth,
                                      int64_t *widest)
{
    const size_t count = cloth->faces.count;
    struct boxed_face *boxed =
        ARENA_ARRAY(arena, struct boxed_face, count + 1);
    *widest = 0;
    for (size_t i = 0; i < count; i++) {
        boxed[i].face = &cloth->faces.items[i];
        boxed[i].box = whole_box_of(*boxed[i].face);
        const int64_t wide = boxed[i].box.right - boxed[i].box.left;
        *widest = wide > *widest ? wide : *widest;
    }
    if (count > 1)
        qsort(boxed, count, sizeof *boxed, compare_boxed);
    return boxed;
}

/* The first box that begins at x or right of it. */
static size_t first_boxed(const struct boxed_face *boxed, size_t count,
                          int64_t x)
{
    size_t low = 0;
    while (low < count) {
        const size_t middle = low + (count - low) / 2;
        if (boxed[middle].box.left < x)
            low = middle + 1;
        else
            count = middle;
    }
    return low;
}

/* Twice the area of the part that cloth of its fabric covers. */
static struct rational covered(struct arena *arena,
                               const struct boxed_face *boxed, size_t count,
                               int64_t widest, const struct painted *part)
{
    struct rational shared = rational_whole(0);
    for (size_t k = first_boxed(boxed, count, part->box.left - widest);
         k < count && boxed[k].box.left <= part->box.right; k++)
        if (boxed[k].face->fabric == part->face.fabric &&
            !boxes_apart(part->box, boxed[k].box))
            shared = rational_add(
                shared, face_shared_area(arena, part->face, *boxed[k].face));
    return shared;
}

/* For polygons a part is right where the cloth of its fabric covers all of it;
 * parts lie side by side, so nothing counts twice. */
size_t picture_compare(struct arena *arena, const struct cloth *cloth,
                       const struct picture *picture, bool *differs)
{
    /* Told as cells. */
    if (picture->painted.count == 0)
        return picture_differences(picture_of(arena, cloth, picture), picture,
                                   differs);
    size_t count = 0;
    int64_t widest;
    const struct boxed_face *boxed = boxed_faces(arena, cloth, &widest);
    for (size_t i = 0; i < picture->painted.count; i++) {
        const struct painted *part = &picture->painted.items[i];
        const struct rational shared =
            covered(arena, boxed, cloth->faces.count, widest, part);
        differs[i] = !rational_equal(shared, face_double_area(part->face));
        count += differs[i];
    }
    return count;
}

int fabric_shown(struct arena *arena, const struct cloth *cloth,
                 struct face face)
{
    const struct whole_box box = whole_box_of(face);
    int fabric = NO_FABRIC;
    for (size_t i = 0; i < cloth->faces.count; i++) {
        const struct face *seen = &cloth->faces.items[i];
        if (boxes_apart(box, whole_box_of(*seen)) ||
            rational_sign(face_shared_area(arena, face, *seen)) == 0)
            continue;
        if (fabric != NO_FABRIC && fabric != seen->fabric)
            return NO_FABRIC;
        fabric = seen->fabric;
    }
    return fabric;
}

/* Keys are what the designer writes in a picture; a fabric without one can only
 * be told by its id. */
static const char *fabric_text(struct arena *arena, const struct design *design,
                               int fabric)
{
    if (fabric < 0)
        return "?";
    const char key = fabric_key(design, fabric);
    return key == '\0' ? fabric_id(design, fabric)
                       : arena_printf(arena, "%c", key);
}

/* The shortest token that says it. "?" stands for a quarter of no one fabric.
 */
const char *cell_text(struct arena *arena, const struct design *design,
                      const struct picture_cell *cell)
{
    const int *q = cell->quarters;
    const char *names[4];
    for (int i = 0; i < 4; i++)
        names[i] = fabric_text(arena, design, q[i]);
    if (q[0] == q[1] && q[1] == q[2] && q[2] == q[3])
        return names[0];
    if (q[0] == q[3] && q[1] == q[2])
        return arena_printf(arena, "%s/%s", names[0], names[1]);
    if (q[2] == q[3] && q[0] == q[1])
        return arena_printf(arena, "%s\\%s", names[3], names[0]);
    return arena_printf(arena, "%s+%s+%s+%s", names[0], names[1], names[2],
                        names[3]);
}
