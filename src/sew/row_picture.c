/* The picture of rows of triangles: a word is the fabric of one triangle. Where
 * each lies follows from the picture alone, by the size of what is pictured, so
 * that a wrong number of rows or a wrong first triangle shows. Halves at the
 * ends have words of their own, or are of the fabric beside them. Read next:
 * picture.c. */
#include "picture.h"

struct rows {
    struct run *run;
    const struct definition *block;
    struct rational half, height; /* half a side; a row */
    size_t across, down;          /* whole triangles in a row; rows */
    size_t words;                 /* in each row: `across`, or two more */
};

static void report_token(struct run *run, const struct picture_cell *cell)
{
    const struct span span = cell->span;
    const char *token = arena_copy(run->arena, run->source->bytes + span.start,
                                   span.end - span.start);
    struct diagnostic *d = diag_report(
        run, DIAG_PICTURE_TOKEN, span,
        "the picture has %s, which names no cloth", quoted(run->arena, token));
    diag_note(run, d, (struct span){0, 0},
              "a cell is one triangle, which is of one cloth: the key of a "
              "fabric");
}

/* The size tells how many triangles a row has: a side is the row's height times
 * 2 / sqrt 3. reports: rows that make no whole number of them. */
static bool measure_rows(struct rows *rows, const struct sized *sized)
{
    const struct definition *block = rows->block;
    const struct piece *piece = pictured_piece(block);
    const struct rational width = sized->width[piece->index];
    rows->down = block->cells.items[block->cells.count - 1].row;
    rows->height = rational_div(sized->height[piece->index],
                                rational_whole((int64_t)rows->down));
    rows->half = rational_div(rational_mul(rows->height, rational_root(3)),
                              rational_whole(3));
    const struct rational halves = rational_div(width, rows->half);
    const int64_t whole = rational_known(halves) ? rational_floor(halves) : 0;
    rows->across = whole < 2 ? 0 : (size_t)whole - 1;
    if (rows->across > 0 && rational_equal(halves, rational_whole(whole)))
        return true;
    struct diagnostic *d = diag_report(
        rows->run, DIAG_PICTURE_SIZE, block->picture->name,
        "the picture has %zu row%s of triangles, which do not make `%s`",
        rows->down, rows->down == 1 ? "" : "s", block->id);
    if (piece->triangles != NULL)
        diag_note(rows->run, d, value_span(piece->element, ATTR_DOWN),
                  "it has %zu row%s", piece->triangles->rows,
                  piece->triangles->rows == 1 ? "" : "s");
    else
        diag_note(rows->run, d, piece->element->name,
                  "rows of triangles with equal sides, of the height of this "
                  "in %zu, do not fill its width",
                  rows->down);
    return false;
}

/* Halves are told in all rows or in none: as most rows have it. */
static size_t words_in_row(const struct rows *rows)
{
    const struct picture_cell *cells = rows->block->cells.items;
    const size_t count = rows->block->cells.count;
    size_t with = 0, without = 0;
    for (size_t first = 0, end; first < count; first = end) {
        for (end = first; end < count && cells[end].row == cells[first].row;)
            end++;
        with += end - first == rows->across + 2;
        without += end - first == rows->across;
    }
    return rows->across + (with > without ? 2 : 0);
}

/* reports: words that cannot be read, rows that are too long or too short. */
static bool rows_fit(struct rows *rows)
{
    const struct picture_cell *cells = rows->block->cells.items;
    const size_t count = rows->block->cells.count;
    size_t row = 0;
    rows->words = words_in_row(rows);
    for (size_t first = 0, end; first < count; first = end) {
        row++;
        for (end = first; end < count && cells[end].row == cells[first].row;
             end++) {
            if (cells[end].readable)
                continue;
            report_token(rows->run, &cells[end]);
            return false;
        }
        if (end - first == rows->words)
            continue;
        struct diagnostic *d = diag_report(
            rows->run, DIAG_PICTURE_SIZE,
            (struct span){cells[first].span.start, cells[end - 1].span.end},
            "the picture has %zu cell%s in row %zu, but `%s` asks for %zu",
            end - first, end - first == 1 ? "" : "s", row, rows->block->id,
            rows->words);
        diag_note(rows->run, d, (struct span){0, 0},
                  "%zu triangles are in a row; the halves at its ends are %s",
                  rows->across,
                  rows->words > rows->across ? "told, too" : "not told");
        return false;
    }
    return true;
}

/* On a line between rows. */
static struct vertex corner(const struct rows *rows, size_t halves, size_t line)
{
    return (struct vertex){rational_times(rows->half, (int64_t)halves),
                           rational_times(rows->height, (int64_t)line)};
}

/* Part 0 and the last one are halves: their tip lies on the edge, in the middle
 * of what would be a whole triangle. */
static void paint_part(const struct rows *rows, struct picture *picture,
                       size_t row, size_t part)
{
    const size_t last = rows->across + 1;
    const bool down = rows->block->picture_down != ((row + part + 1) % 2 == 1);
    const size_t tip = down ? row + 1 : row, base = down ? row : row + 1;
    const bool told = rows->words > rows->across;
    const size_t word = told           ? part
                        : part == 0    ? 0
                        : part == last ? rows->across - 1
                                       : part - 1;
    const struct picture_cell *cell =
        &rows->block->cells.items[row * rows->words + word];
    struct vertex *points = ARENA_ARRAY(rows->run->arena, struct vertex, 3);
    points[0] = corner(rows, part == 0 ? 0 : part - 1, base);
    points[1] = corner(rows, part, tip);
    points[2] = corner(rows, part == last ? last : part + 1, base);
    const struct face face = {
        .fabric = cell->quarters[0], .points = points, .count = 3};
    const size_t order = picture->painted.count;
    *LIST_ADD(rows->run->arena, &picture->painted) =
        (struct painted){face, cell->span, whole_box_of(face), order};
}

struct picture *read_row_picture(struct run *run, const struct sized *sized,
                                 const struct definition *block)
{
    struct rows rows = {.run = run, .block = block};
    if (block->cells.count == 0 || !measure_rows(&rows, sized) ||
        !rows_fit(&rows))
        return NULL;
    struct picture *picture = ARENA_NEW(run->arena, struct picture);
    picture->triangles = true;
    picture->first_down = block->picture_down;
    picture->ends = rows.words > rows.across;
    picture->across = rows.across + 2;
    picture->down = rows.down;
    for (size_t row = 0; row < rows.down; row++)
        for (size_t part = 0; part < picture->across; part++)
            paint_part(&rows, picture, row, part);
    return picture;
}

const char *row_place(struct arena *arena, const struct picture *picture,
                      size_t part)
{
    const size_t row = part / picture->across, place = part % picture->across;
    if (place == 0 || place + 1 == picture->across)
        return arena_printf(arena, "the half at the %s end of row %zu",
                            place == 0 ? "left" : "right", row + 1);
    const bool down = picture->first_down != ((row + place + 1) % 2 == 1);
    return arena_printf(arena, "triangle %zu (%s) of row %zu", place,
                        down ? "down" : "up", row + 1);
}
