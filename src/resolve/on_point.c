/* Settings on point. The blocks that the designer tells in level lines become
 * diagonal rows, as they are sewn, with triangles at their ends, strips and
 * cornerstones between them, and a triangle at each corner. Pieces that nobody
 * wrote point to the element of the setting or of its sashing. Rows run from
 * the upper left to the lower right and are counted from the top right corner.
 *
 * A setting of 3 across and 2 down, as it is told: level lines of m and of m -
 * 1 blocks in turns, 2n - 1 of them.
 *
 *        a     b     c
 *           d     e
 *        f     g     h
 *
 * And as it is sewn: each row goes down to the right, the next one lies below
 * it on the left. < and > stand for triangles at its ends.
 *
 *        row 1      < c >
 *        row 2      < b  e  h
 *        row 3      a  d  g >
 *        row 4      < f >
 *
 * The row through the top left corner of the quilt (row 3) begins with a block,
 * the one through the bottom right corner (row 2) ends with one: the triangles
 * of the corners lie there, and at the upper side of the first row and the
 * lower side of the last. In this file a row is told by how far it lies from
 * the one through the top left corner: -2, -1, 0, 1 here.
 *
 * With sashing a row of strips and cornerstones lies above each row of blocks
 * and below the last. Their ends reach to the edge of the quilt: a cornerstone
 * there has its middle on the edge, and half of it is trimmed off.
 *
 * Read next: sashing.c.
 */
#include "sashing.h"

/* A setting while its cells are placed. `m` and `n`: blocks across and down. */
struct setting {
    struct resolver *resolver;
    struct piece *piece;
    struct on_point *on_point;
    long m, n;
    struct span span; /* of cells that nobody wrote */
};

size_t map_rows(const struct piece *piece)
{
    return piece->kind == PIECE_ON_POINT ? 2 * piece->down - 1 : piece->down;
}

size_t map_row_cells(const struct piece *piece, size_t row)
{
    return piece->kind == PIECE_ON_POINT ? piece->across - row % 2
                                         : piece->across;
}

size_t map_cells(const struct piece *piece)
{
    const size_t all = piece->across * piece->down;
    return piece->kind == PIECE_ON_POINT
               ? all + (piece->across - 1) * (piece->down - 1)
               : all;
}

/* ---- blocks ---- */

/* reports: neither one piece, nor two, nor a map of them. */
static void report_pieces(struct setting *setting, size_t found)
{
    struct piece *piece = setting->piece;
    struct run *run = setting->resolver->run;
    break_piece(setting->resolver, piece);
    struct diagnostic *d = report_about(
        setting->resolver, piece->element, DIAG_GRID_COUNT,
        piece->element->name,
        "the setting has %zu places on point, but %zu pieces fill it",
        map_cells(piece), found);
    diag_note(run, d, (struct span){0, 0},
              "%zu across x %zu down, and %zu x %zu between them",
              piece->across, piece->down, piece->across - 1, piece->down - 1);
    diag_help(run, d,
              "give one piece for all places; two, of which the second lies "
              "between the first; or a map, line by line");
}

/* One piece fills all places; of two, the second lies between the first. */
static bool fill_blocks(struct setting *setting)
{
    struct piece *piece = setting->piece;
    const size_t found = piece->cells.count, total = map_cells(piece);
    if (found == total)
        return true;
    if (found != 1 && found != 2) {
        report_pieces(setting, found);
        return false;
    }
    const struct cell told[2] = {piece->cells.items[0],
                                 piece->cells.items[found - 1]};
    piece->cells.count = 0;
    for (size_t line = 0; line < map_rows(piece); line++)
        for (size_t i = 0; i < map_row_cells(piece, line); i++)
            add_cell(setting->resolver, piece, told[line % 2].piece,
                     told[line % 2].span);
    return true;
}

/* The block in place `column` of diagonal row `row`, both counted along the
 * diagonals: of the level lines, or of those between them. Going on along a row
 * is half a block to the right and one line down; going to the next row is half
 * a block to the left and one line down. So block i of line 2k (of m blocks)
 * has column i + k and row k - i, and one of line 2k + 1 (of m - 1) has a
 * column of one more. */
static struct cell block_at(const struct setting *setting, long row,
                            long column)
{
    const bool between = (column - row) % 2 != 0;
    const long i = (column - row - between) / 2;
    const long line = (column + row - between) / 2;
    return setting->on_point
        ->blocks[line * (2 * setting->m - 1) + (between ? setting->m : 0) + i];
}

/* ---- pieces that nobody wrote ---- */

/* A triangle of the setting's own fabric. */
static const struct piece *add_triangle(struct setting *setting,
                                        enum patch_shape shape)
{
    const struct piece *whole = setting->piece;
    struct piece *piece = new_piece_of_kind(setting->resolver, whole->owner,
                                            whole->element, PIECE_PATCH);
    piece->width = piece->height = piece->finished = piece->unfinished =
        (struct stated){.written = false};
    piece->id = piece->name = NULL;
    piece->press = press_by_rule(whole->element);
    piece->shape = shape;
    add_fabric(setting->resolver, piece, ATTR_FABRIC);
    return piece;
}

/* ensures: false where there is a sashing that cannot be sewn. reports: one
 * without cornerstones, or beside `float`. */
static bool add_sashes(struct setting *setting)
{
    struct on_point *on_point = setting->on_point;
    const struct element *whole = setting->piece->element;
    struct sashing sashing = {.element = child_of_kind(whole, ELEMENT_SASHING)};
    if (sashing.element == NULL)
        return true;
    if (!read_sashing(setting->resolver, setting->piece, &sashing))
        return false;
    if (sashing.stone == NULL) {
        struct diagnostic *d = report_about(
            setting->resolver, sashing.element, DIAG_MISSING_ELEMENT,
            sashing.element->name, "sashing on point needs cornerstones");
        diag_help(setting->resolver->run, d,
                  "put <cornerstone fabric=\"...\"/> inside: those at the edge "
                  "are trimmed to triangles; with the fabric of the strips "
                  "they are not seen");
        return false;
    }
    if (rational_sign(on_point->excess) > 0) {
        struct diagnostic *d =
            report_about(setting->resolver, whole, DIAG_UNKNOWN_ATTRIBUTE,
                         written_value(whole, ATTR_FLOAT)->name,
                         "a setting with sashing does not float");
        diag_note(setting->resolver->run, d, sashing.element->name,
                  "its cornerstones lie on the edge, half of each is trimmed "
                  "off");
        diag_help(setting->resolver->run, d, "leave `float` out");
        return false;
    }
    on_point->sashed = true;
    on_point->upright = sashing.upright;
    on_point->level = sashing.level;
    on_point->crossing = sashing.crossing;
    on_point->turned = sashing.turned;
    return true;
}

/* ---- diagonal rows ---- */

/* A cell that nobody wrote. */
static void add_turned(struct setting *setting, const struct piece *piece,
                       unsigned turn)
{
    add_cell(setting->resolver, setting->piece, piece, setting->span)
        ->orientation.turn = turn;
}

/* Nothing where there is no sashing. */
static void add_upright(struct setting *setting)
{
    if (setting->on_point->sashed)
        add_turned(setting, setting->on_point->upright, 0);
}

/* A triangle at either end, but where a corner of the quilt is: its long edge
 * lies left or above, and right or below. */
static void add_block_row(struct setting *setting, long row)
{
    const long m = setting->m, n = setting->n;
    const long outer =
        row >= 0 ? (m < n - row ? m : n - row) : (m + row < n ? m + row : n);
    const long first = row < 0 ? -row : row;
    if (row != 0)
        add_turned(setting, setting->on_point->side, row > 0 ? 1 : 2);
    add_upright(setting);
    for (long column = first; column < first + 2 * outer - 1; column++) {
        *LIST_ADD(setting->resolver->run->arena, &setting->piece->cells) =
            block_at(setting, row, column);
        add_upright(setting);
    }
    if (row != n - m)
        add_turned(setting, setting->on_point->side, row < n - m ? 3 : 0);
}

/* Below diagonal row `row`: strips between cornerstones, from edge to edge of
 * the quilt. */
static void add_strip_row(struct setting *setting, long row)
{
    const long m = setting->m, n = setting->n;
    const long strips =
        row >= 0 ? (2 * m < 2 * n - 2 * row - 1 ? 2 * m : 2 * n - 2 * row - 1)
                 : (2 * m + 2 * row + 1 < 2 * n ? 2 * m + 2 * row + 1 : 2 * n);
    add_turned(setting, setting->on_point->crossing, 0);
    for (long i = 0; i < strips; i++) {
        add_turned(setting, setting->on_point->level,
                   setting->on_point->turned ? 1 : 0);
        add_turned(setting, setting->on_point->crossing, 0);
    }
}

/* The next cell is the first of a row. */
static void begin_row(struct setting *setting, size_t *first)
{
    first[setting->on_point->rows++] = setting->piece->cells.count;
}

/* From the level lines to the diagonal rows; the corners last. */
static void place(struct setting *setting)
{
    struct on_point *on_point = setting->on_point;
    struct piece *piece = setting->piece;
    const long m = setting->m, n = setting->n;
    size_t *first = ARENA_ARRAY(setting->resolver->run->arena, size_t,
                                2 * (size_t)(m + n) + 1);
    on_point->first = first;
    on_point->blocks = piece->cells.items;
    on_point->block_count = piece->cells.count;
    piece->cells.items = NULL;
    piece->cells.count = piece->cells.capacity = 0;
    for (long row = -m; row < n; row++) {
        if (row > -m) {
            begin_row(setting, first);
            add_block_row(setting, row);
        }
        if (on_point->sashed) {
            begin_row(setting, first);
            add_strip_row(setting, row);
        }
    }
    first[on_point->rows] = piece->cells.count;
    for (unsigned turn = 0; turn < 4; turn++)
        add_turned(setting, on_point->corner, turn);
}

/* ---- what is read ---- */

/* reports: a setting that is not the center of a quilt, or that is too large.
 */
static bool may_stand(struct resolver *resolver, const struct piece *piece)
{
    const struct element *element = piece->element;
    if (element->parent->kind != ELEMENT_QUILT) {
        const bool block = piece->owner->kind != DEFINE_QUILT;
        struct diagnostic *d =
            report_about(resolver, element, DIAG_UNKNOWN_ELEMENT, element->name,
                         "`on-point` is the center of a quilt, and has no "
                         "place in `%s`",
                         element_name(element->parent->kind));
        diag_help(resolver->run, d,
                  block ? "a square on point inside a block is a "
                          "`square-in-square`"
                        : "put it right into the `quilt`, and borders behind "
                          "it");
        return false;
    }
    if (piece->across == 0 || piece->down == 0)
        return false; /* reported as values */
    if ((piece->across * 2 + 1) * (piece->down * 2 + 1) * 4 <= LIMIT_CELLS)
        return true;
    report_about(resolver, element, DIAG_LIMIT, element->name,
                 "more than %d cells in a setting on point", LIMIT_CELLS);
    return false;
}

/* A setting of which something was reported has no cells: its sizes are silent.
 */
static void leave_empty(struct resolver *resolver, struct piece *piece)
{
    piece->cells.count = 0;
    break_piece(resolver, piece);
    mark_definition(resolver, piece->element);
}

void set_on_point(struct resolver *resolver, struct piece *piece)
{
    struct on_point *on_point =
        ARENA_NEW(resolver->run->arena, struct on_point);
    const struct value *excess = value_of(piece->element, ATTR_FLOAT);
    *on_point = (struct on_point){
        .across = piece->across,
        .down = piece->down,
        .excess = excess == NULL ? rational_whole(0)
                                 : length_of(piece->element, ATTR_FLOAT),
        .about = stated_of(piece->element, ATTR_ABOUT)};
    struct setting setting = {.resolver = resolver,
                              .piece = piece,
                              .on_point = on_point,
                              .m = (long)piece->across,
                              .n = (long)piece->down,
                              .span = piece->element->name};
    if (piece->broken || !may_stand(resolver, piece) ||
        !fill_blocks(&setting) || !add_sashes(&setting)) {
        leave_empty(resolver, piece);
        return;
    }
    piece->on_point = on_point;
    on_point->corner = add_triangle(&setting, PATCH_HALVED);
    if (setting.m + setting.n > 2)
        on_point->side = add_triangle(&setting, PATCH_QUARTERED);
    place(&setting);
}
