/* Rows of triangles at 60 degrees. A map tells them place by place: a key is a
 * triangle, a key with .2 a diamond over two places, with .3 half a hexagon
 * over three. Half a triangle at each end, which nobody told, makes the edge
 * upright. Read next: map.c. */
#include "sashing.h"

#include <string.h>

struct setting {
    struct resolver *resolver;
    struct piece *piece;
    struct triangle_rows *rows;
    bool lined; /* the map has a line for each row, so that its lines are them */
    int ends; /* the fabric of halves at the ends; NO_FABRIC: their neighbors'
               */
    /* Pieces made so far: of each patch, by its shape. */
    LIST(const struct piece *) made;
    LIST(size_t) place;
};

/* What covers so many places from this one on, whose triangle points up or
 * down; a shape that points the other way lies turned by half. */
static enum patch_shape shape_of(size_t places, bool down)
{
    return places == 1   ? PATCH_TRIANGLE
           : places == 3 ? PATCH_HALF_HEXAGON
           : down        ? PATCH_DIAMOND_LEFT
                         : PATCH_DIAMOND_RIGHT;
}

/* The patch of this element and fabric, cut in that shape: one piece for all of
 * its places. */
static const struct piece *shaped(struct setting *setting,
                                  const struct piece *patch,
                                  enum patch_shape shape, int fabric)
{
    struct arena *arena = setting->resolver->run->arena;
    for (size_t i = 0; i < setting->made.count; i++) {
        const struct piece *other = setting->made.items[i];
        if (other->element == patch->element && other->shape == shape &&
            other->fabrics.items[0].fabric == fabric)
            return other;
    }
    struct piece *piece = new_piece_of_kind(setting->resolver, patch->owner,
                                            patch->element, PIECE_PATCH);
    piece->width = piece->height = piece->finished = piece->unfinished =
        (struct stated){.written = false};
    piece->shape = shape;
    piece->id = NULL;
    piece->press = press_by_rule(patch->element);
    *LIST_ADD(arena, &piece->fabrics) =
        (struct piece_fabric){patch->fabrics.items[0].attribute, fabric};
    *LIST_ADD(arena, &setting->made) = piece;
    return piece;
}

/* A cell as it was told, and the place at which its piece begins. */
static void put(struct setting *setting, const struct piece *piece,
                const struct cell *told, unsigned turn, size_t place)
{
    struct cell *cell =
        add_cell(setting->resolver, setting->piece, piece, told->span);
    cell->orientation.turn = turn;
    cell->line = told->line;
    *LIST_ADD(setting->resolver->run->arena, &setting->place) = place;
}

/* Half a triangle of the told fabric, or of the neighbor's. Its right angle is
 * above where the triangle beside it points up. */
static void put_end(struct setting *setting, const struct cell *beside,
                    bool right, bool down)
{
    const int fabric = setting->ends != NO_FABRIC
                           ? setting->ends
                           : beside->piece->fabrics.items[0].fabric;
    const enum patch_shape shape =
        right != down ? PATCH_END_RIGHT : PATCH_END_LEFT;
    put(setting, shaped(setting, beside->piece, shape, fabric), beside,
        down ? 2 : 0, right ? setting->rows->across : 0);
}

/* Does the triangle of a place point down? */
static bool points_down(const struct triangle_rows *rows, size_t row,
                        size_t place)
{
    return rows->down != ((row + place) % 2 == 1);
}

/* How many places a word of the map covers: ".2" and ".3" say so. */
static size_t places_of(const struct resolver *resolver,
                        const struct cell *cell)
{
    const char *text = resolver->run->source->bytes + cell->span.start;
    const size_t length = cell->span.end - cell->span.start;
    return length == 3 && text[1] == '.' && (text[2] == '2' || text[2] == '3')
               ? (size_t)(text[2] - '0')
               : 1;
}

/* reports: a row whose pieces cover more places than it has, or fewer. */
static void report_row(struct setting *setting, size_t row, size_t covered,
                       struct span span)
{
    struct run *run = setting->resolver->run;
    struct diagnostic *d = report_about(
        setting->resolver, setting->piece->element, DIAG_GRID_COUNT, span,
        "row %zu covers %zu triangle%s, but the rows are %zu across", row + 1,
        covered, covered == 1 ? "" : "s", setting->rows->across);
    diag_note(
        run, d, setting->piece->element->name,
        "a diamond (.2) covers two places, half a hexagon (.3) three; the "
        "halves at both ends are not told");
    diag_help(run, d, "make the row %zu wide", setting->rows->across);
}

/* Does the row that began with `first` go on with this cell? */
static bool in_row(const struct setting *setting, const struct cell *first,
                   const struct cell *cell, const struct cell *end)
{
    return cell < end && (!setting->lined || cell->line == first->line);
}

/* One row, from cell `from` of those that were told. ensures: the cell behind
 * it; NULL where that was reported. */
static const struct cell *put_row(struct setting *setting, size_t row,
                                  const struct cell *from,
                                  const struct cell *end)
{
    struct triangle_rows *rows = setting->rows;
    const struct cell *first = from;
    size_t place = 0;
    put_end(setting, from, false, points_down(rows, row, 0));
    for (; in_row(setting, first, from, end) &&
           (setting->lined || place < rows->across);
         from++) {
        const size_t places = places_of(setting->resolver, from);
        const bool down = points_down(rows, row, place);
        const enum patch_shape shape = shape_of(places, down);
        put(setting,
            shaped(setting, from->piece, shape,
                   from->piece->fabrics.items[0].fabric),
            from, down && places != 2 ? 2 : 0, place);
        place += places;
    }
    if (place != rows->across) {
        report_row(setting, row, place,
                   (struct span){first->span.start, from[-1].span.end});
        return NULL;
    }
    put_end(setting, from - 1, true, points_down(rows, row, place - 1));
    return from;
}

/* All rows. ensures: false where one was reported. */
static bool put_rows(struct setting *setting, const struct cell *told,
                     size_t count)
{
    struct triangle_rows *rows = setting->rows;
    const struct cell *end = told + count;
    setting->lined = count > 0 && told[0].line > 0 &&
                     end[-1].line - told[0].line + 1 == rows->rows;
    size_t *first =
        ARENA_ARRAY(setting->resolver->run->arena, size_t, rows->rows + 1);
    for (size_t row = 0; row < rows->rows; row++) {
        first[row] = setting->piece->cells.count;
        if (told == end) {
            report_row(setting, row, 0, setting->piece->element->name);
            return false;
        }
        told = put_row(setting, row, told, end);
        if (told == NULL)
            return false;
    }
    first[rows->rows] = setting->piece->cells.count;
    rows->first = first;
    rows->place = setting->place.items;
    if (told == end)
        return true;
    report_row(setting, rows->rows, (size_t)(end - told), told->span);
    return false;
}

/* Patches alone: what is pieced has no slanted edges. */
static bool are_patches(struct setting *setting)
{
    for (size_t i = 0; i < setting->piece->cells.count; i++) {
        const struct piece *piece = setting->piece->cells.items[i].piece;
        if (piece->kind == PIECE_PATCH && piece->corners.count == 0 &&
            piece->fabrics.items[0].fabric != NO_FABRIC)
            continue;
        if (piece->kind != PIECE_PATCH || piece->corners.count > 0) {
            struct diagnostic *d = report_about(
                setting->resolver, piece->element, DIAG_UNKNOWN_ELEMENT,
                piece->element->name, "rows of triangles hold patches alone");
            diag_help(setting->resolver->run, d,
                      "write <patch fabric=\"...\" key=\"...\"/>");
        }
        return false;
    }
    return setting->piece->cells.count > 0;
}

/* A setting of which something was reported has no cells: sizes stay silent. */
void set_triangles(struct resolver *resolver, struct piece *piece)
{
    struct triangle_rows *rows =
        ARENA_NEW(resolver->run->arena, struct triangle_rows);
    *rows = (struct triangle_rows){
        .across = piece->across,
        .rows = piece->down,
        .down = choice_of(piece->element, ATTR_FIRST_POINTS, 0) == 1};
    struct setting setting = {
        .resolver = resolver,
        .piece = piece,
        .rows = rows,
        .ends = value_of(piece->element, ATTR_ENDS) == NULL
                    ? NO_FABRIC
                    : add_fabric(resolver, piece, ATTR_ENDS)};
    const bool sound = !piece->broken && rows->across > 0 && rows->rows > 0 &&
                       are_patches(&setting);
    const struct cell *told = piece->cells.items;
    const size_t count = piece->cells.count;
    piece->cells.items = NULL;
    piece->cells.count = piece->cells.capacity = 0;
    if (sound && put_rows(&setting, told, count)) {
        piece->triangles = rows;
        return;
    }
    piece->cells.count = 0;
    break_piece(resolver, piece);
    mark_definition(resolver, piece->element);
}
