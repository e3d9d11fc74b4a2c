/* The picture of a quilt: its center in coarse cells, plain cloth or whole
 * pieces that are named by their keys. Each becomes the faces that it asks for,
 * so that a setting is compared as a picture of polygons is. A column that
 * holds a piece is as wide as that; the others share what is left; rows alike.
 * Read next: picture.c. */
#include "design_faces.h"
#include "picture.h"

struct setting {
    struct run *run;
    const struct sized *sized;
    const struct definition *quilt;
    size_t across, down;
    struct rational *widths, *heights; /* of columns and rows */
    const struct cloth **pieces;       /* by cell; NULL for plain cloth */
};

static const struct picture_cell *cell_at(const struct setting *setting,
                                          size_t column, size_t row)
{
    return &setting->quilt->cells.items[row * setting->across + column];
}

/* ---- rows of words ---- */

static void report_token(struct run *run, const struct picture_cell *cell)
{
    const struct span span = cell->span;
    const char *token = arena_copy(run->arena, run->source->bytes + span.start,
                                   span.end - span.start);
    struct diagnostic *d =
        diag_report(run, DIAG_PICTURE_TOKEN, span,
                    "the picture has %s, which names no cloth and no piece",
                    quoted(run->arena, token));
    diag_note(
        run, d, (struct span){0, 0},
        "a cell is n, n/f, n\\f or n+f+g+f in the keys of the fabrics, or "
        "the key of a piece of the quilt, with a turn and a mirror: L, "
        "L.90, L.m, L.m90");
}

/* reports: words that cannot be read, rows that are longer or shorter than the
 * first. */
static bool read_rows(struct setting *setting)
{
    const struct definition *quilt = setting->quilt;
    const struct picture_cell *cells = quilt->cells.items;
    for (size_t first = 0, end; first < quilt->cells.count; first = end) {
        for (end = first;
             end < quilt->cells.count && cells[end].row == cells[first].row;
             end++) {
            if (cells[end].readable)
                continue;
            report_token(setting->run, &cells[end]);
            return false;
        }
        setting->down++;
        if (setting->across == 0)
            setting->across = end - first;
        if (setting->across == end - first)
            continue;
        diag_report(
            setting->run, DIAG_PICTURE_SIZE,
            (struct span){cells[first].span.start, cells[end - 1].span.end},
            "row %zu of the picture has %zu cell%s, but the first has %zu",
            setting->down, end - first, end - first == 1 ? "" : "s",
            setting->across);
        return false;
    }
    return setting->down > 0;
}

/* ---- sizes ---- */

/* A piece as it is drawn, turned as its cell says: what a use says of turns is
 * for its own place. */
static const struct cloth *piece_cloth(const struct setting *setting,
                                       const struct picture_cell *cell)
{
    struct arena *arena = setting->run->arena;
    struct cloth *cloth =
        design_faces(arena, setting->sized, cell->piece, NULL, 0);
    if (cell->piece->kind == PIECE_USE)
        cloth = cloth_oriented(arena, cloth,
                               orientation_inverse(cell->piece->orientation));
    return cloth_oriented(arena, cloth, cell->orientation);
}

/* What is left of a side for those of which nothing is known, shared. ensures:
 * false where nothing is left for them, or the others do not make the whole. */
static bool share_rest(struct rational *sizes, size_t count,
                       struct rational whole)
{
    size_t open = 0;
    for (size_t i = 0; i < count; i++)
        if (rational_known(sizes[i]))
            whole = rational_sub(whole, sizes[i]);
        else
            open++;
    if (open == 0 || rational_sign(whole) <= 0)
        return open == 0 && rational_sign(whole) == 0;
    for (size_t i = 0; i < count; i++)
        if (!rational_known(sizes[i]))
            sizes[i] = rational_div(whole, rational_whole((int64_t)open));
    return true;
}

/* reports: pieces of the picture that do not make the side of the center. */
static bool fit_side(const struct setting *setting, struct rational *sizes,
                     size_t count, bool across)
{
    const struct definition *quilt = setting->quilt;
    const struct rational whole =
        across ? setting->sized->width[pictured_piece(quilt)->index]
               : setting->sized->height[pictured_piece(quilt)->index];
    if (share_rest(sizes, count, whole))
        return true;
    diag_report(setting->run, DIAG_PICTURE_SIZE, quilt->picture->name,
                "the pieces of the picture do not make the %s of `%s`, which "
                "is %s",
                across ? "width" : "height", quilt->id,
                length_plain(setting->run->arena, whole,
                             setting->sized->design->pattern->units));
    return false;
}

/* reports: two pieces of one column or row that are not of one size. */
static bool take_size(const struct setting *setting, struct rational *size,
                      struct rational of_piece, const struct picture_cell *cell,
                      bool across)
{
    if (!rational_known(*size))
        *size = of_piece;
    if (rational_equal(*size, of_piece))
        return true;
    const enum length_unit units = setting->sized->design->pattern->units;
    struct arena *arena = setting->run->arena;
    diag_report(setting->run, DIAG_PICTURE_SIZE, cell->span,
                "this piece is %s %s, but another in its %s is %s",
                length_plain(arena, of_piece, units), across ? "wide" : "high",
                across ? "column" : "row", length_plain(arena, *size, units));
    return false;
}

static bool find_sizes(struct setting *setting)
{
    struct arena *arena = setting->run->arena;
    const size_t count = setting->across * setting->down;
    setting->widths = ARENA_ARRAY(arena, struct rational, setting->across);
    setting->heights = ARENA_ARRAY(arena, struct rational, setting->down);
    setting->pieces = ARENA_ARRAY(arena, const struct cloth *, count);
    for (size_t i = 0; i < setting->across; i++)
        setting->widths[i] = rational_unknown();
    for (size_t i = 0; i < setting->down; i++)
        setting->heights[i] = rational_unknown();
    for (size_t i = 0; i < count; i++) {
        const struct picture_cell *cell = &setting->quilt->cells.items[i];
        if (cell->piece == NULL)
            continue;
        const struct cloth *cloth = piece_cloth(setting, cell);
        setting->pieces[i] = cloth;
        if (!take_size(setting, &setting->widths[i % setting->across],
                       cloth->width, cell, true) ||
            !take_size(setting, &setting->heights[i / setting->across],
                       cloth->height, cell, false))
            return false;
    }
    return fit_side(setting, setting->widths, setting->across, true) &&
           fit_side(setting, setting->heights, setting->down, false);
}

/* ---- faces ---- */

static void add_face(struct setting *setting, struct picture *picture,
                     struct face face, struct span span)
{
    const size_t order = picture->painted.count;
    *LIST_ADD(setting->run->arena, &picture->painted) =
        (struct painted){face, span, whole_box_of(face), order};
}

/* All of the cell, or its four quarters. */
static void add_plain(struct setting *setting, struct picture *picture,
                      const struct picture_cell *cell,
                      const struct vertex corners[4])
{
    struct arena *arena = setting->run->arena;
    const int *quarters = cell->quarters;
    if (quarters[0] == quarters[1] && quarters[1] == quarters[2] &&
        quarters[2] == quarters[3]) {
        struct vertex *points = ARENA_ARRAY(arena, struct vertex, 4);
        for (size_t i = 0; i < 4; i++)
            points[i] = corners[i];
        add_face(
            setting, picture,
            (struct face){.fabric = quarters[0], .points = points, .count = 4},
            cell->span);
        return;
    }
    const struct rational half = rational_make(1, 2);
    const struct vertex middle = {
        rational_mul(rational_add(corners[0].x, corners[2].x), half),
        rational_mul(rational_add(corners[0].y, corners[2].y), half)};
    for (size_t i = 0; i < 4; i++) {
        struct vertex *points = ARENA_ARRAY(arena, struct vertex, 3);
        points[0] = corners[i];
        points[1] = corners[(i + 1) % 4];
        points[2] = middle;
        add_face(
            setting, picture,
            (struct face){.fabric = quarters[i], .points = points, .count = 3},
            cell->span);
    }
}

static void add_cell(struct setting *setting, struct picture *picture,
                     size_t column, size_t row, struct vertex at)
{
    const struct picture_cell *cell = cell_at(setting, column, row);
    const struct cloth *piece = setting->pieces[row * setting->across + column];
    if (piece == NULL) {
        const struct rational right =
            rational_add(at.x, setting->widths[column]);
        const struct rational low = rational_add(at.y, setting->heights[row]);
        const struct vertex corners[4] = {
            at, {right, at.y}, {right, low}, {at.x, low}};
        add_plain(setting, picture, cell, corners);
        return;
    }
    const struct cloth *placed =
        cloth_moved(setting->run->arena, piece, at.x, at.y);
    for (size_t i = 0; i < placed->faces.count; i++)
        add_face(setting, picture, placed->faces.items[i], cell->span);
}

struct picture *read_setting_picture(struct run *run, const struct sized *sized,
                                     const struct definition *quilt)
{
    struct setting setting = {.run = run, .sized = sized, .quilt = quilt};
    if (!read_rows(&setting) || !find_sizes(&setting))
        return NULL;
    struct picture *picture = ARENA_NEW(run->arena, struct picture);
    struct vertex at = {.y = rational_whole(0)};
    for (size_t row = 0; row < setting.down; row++) {
        at.x = rational_whole(0);
        for (size_t column = 0; column < setting.across; column++) {
            add_cell(&setting, picture, column, row, at);
            at.x = rational_add(at.x, setting.widths[column]);
        }
        at.y = rational_add(at.y, setting.heights[row]);
    }
    return picture;
}
