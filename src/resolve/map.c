/* Maps: a grid set in letters. May assume that all pieces of the grid are made.
 * Read next: orientation.c. */
#include "resolver.h"

#include <string.h>

#include "buffer.h"

/* The key that may have been meant, where only that is wrong with the word. */
static void offer_keys(struct resolver *resolver, struct diagnostic *d,
                       const struct piece *const *keyed, struct span word)
{
    struct arena *arena = resolver->run->arena;
    const char *names[256];
    size_t count = 0;
    for (size_t i = 0; i < 256; i++)
        if (keyed[i] != NULL)
            names[count++] = text_of(keyed[i]->element, ATTR_KEY, "?");
    const char *wrong =
        arena_copy(arena, resolver->run->source->bytes + word.start, 1);
    const char *near = near_names(arena, wrong, names, count);
    const struct span letter = {word.start, word.start + 1};
    if (near != NULL)
        diag_mend(resolver->run, d, letter, nearest_name(wrong, names, count),
                  "did you mean %s?", near);
}

bool read_lie(const char *text, size_t length, struct orientation *lie)
{
    static const char *const turns[] = {"", "90", "180", "270"};
    size_t at = 1;
    *lie = (struct orientation){0, false};
    if (length == 0)
        return true;
    if (text[0] != '.' || length == 1)
        return false;
    lie->mirror = text[at] == 'm';
    at += lie->mirror;
    while (lie->turn < 4 &&
           (strlen(turns[lie->turn]) != length - at ||
            strncmp(turns[lie->turn], text + at, length - at) != 0))
        lie->turn++;
    return lie->turn < 4;
}

/* A setting in letters: `L`, `L.90`, `L.m`, `L.m90`. The key is one byte, as
 * values.c holds. */
static bool read_map_word(struct resolver *resolver, struct piece *piece,
                          const struct piece *const *keyed,
                          const struct drawn_word *told)
{
    const struct span span = told->span;
    const char *word = resolver->run->source->bytes + span.start;
    const size_t length = span.end - span.start;
    const struct piece *child = keyed[(unsigned char)word[0]];
    struct orientation o;
    const bool shape = piece->kind == PIECE_TRIANGLES && length == 3 &&
                       word[1] == '.' && (word[2] == '2' || word[2] == '3');
    if (shape)
        o = (struct orientation){0, false};
    if ((!shape && !read_lie(word + 1, length - 1, &o)) ||
        (piece->kind == PIECE_TRIANGLES && !shape && length > 1) ||
        child == NULL) {
        struct diagnostic *d = report_about(
            resolver, piece->element, DIAG_MAP, span,
            "the map has %s, which names no piece of the grid",
            quoted(resolver->run->arena,
                   arena_copy(resolver->run->arena, word, length)));
        diag_note(
            resolver->run, d, (struct span){0, 0}, "%s",
            piece->kind == PIECE_TRIANGLES
                ? "a cell is a patch's key, a triangle; with .2 it is a "
                  "diamond, with .3 half a hexagon: L, L.2, L.3"
                : "a cell is a piece's key, or the key with a turn and a "
                  "mirror: L, L.90, L.m, L.m90");
        if (child == NULL)
            offer_keys(resolver, d, keyed, span);
        return false;
    }
    struct cell *cell = add_cell(resolver, piece, child, span);
    cell->orientation = o;
    cell->line = told->row;
    return true;
}

/* ensures: the pieces of the grid by their keys; false where a key stood twice.
 * reports: that. */
static bool read_keys(struct resolver *resolver, const struct piece *piece,
                      const struct piece **keyed)
{
    bool sound = true;
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct piece *child = piece->cells.items[i].piece;
        const char *key = text_of(child->element, ATTR_KEY, "");
        if (key[0] == '\0')
            continue;
        const struct piece *other = keyed[(unsigned char)key[0]];
        if (other != NULL) {
            report_second(resolver, child->element, other->element, ATTR_KEY,
                          arena_printf(resolver->run->arena,
                                       "the key `%s` stands for two pieces",
                                       key));
            sound = false;
        }
        keyed[(unsigned char)key[0]] = child;
    }
    return sound;
}

static bool map_names(const struct piece *grid, const struct piece *child)
{
    for (size_t i = 0; i < grid->cells.count; i++)
        if (grid->cells.items[i].piece == child)
            return true;
    return false;
}

/* reports: a piece that was made for the map and lies nowhere. `keys` are those
 * that the map names, in its order. */
static void report_left_out(struct resolver *resolver,
                            const struct piece *child, const char *const *keys,
                            size_t count)
{
    struct run *run = resolver->run;
    const struct element *element = child->element;
    const struct value *key = value_of(element, ATTR_KEY);
    struct diagnostic *d =
        key == NULL
            ? report_about(resolver, element, DIAG_KEY_NOT_USED, element->name,
                           "this `%s` has no key, so the map cannot name it",
                           element_name(element->kind))
            : report_about(resolver, element, DIAG_KEY_NOT_USED, key->span,
                           "no cell of the map names the key %s",
                           quoted(run->arena, key->text));
    struct buffer list = buffer_in(run->arena);
    for (size_t i = 0; i < count; i++)
        buffer_printf(&list, "%s`%s`", i == 0 ? "" : ", ", keys[i]);
    diag_note(run, d, (struct span){0, 0}, "the map names %s",
              buffer_string(&list));
    const char *near =
        key == NULL ? NULL : near_names(run->arena, key->text, keys, count);
    if (near != NULL)
        diag_help(run, d, "is %s meant to be %s in some cells?", near,
                  quoted(run->arena, key->text));
    else if (key == NULL)
        diag_help(run, d, "give it a key, or delete it");
}

/* Looked at where all cells are right, as one that was told may be the very
 * cell that is missed. */
static void check_left_out(struct resolver *resolver, const struct piece *grid,
                           const struct piece *const *stock, size_t count)
{
    const char **keys = ARENA_ARRAY(resolver->run->arena, const char *, count);
    size_t named = 0;
    for (size_t i = 0; i < count; i++)
        if (map_names(grid, stock[i]))
            keys[named++] = text_of(stock[i]->element, ATTR_KEY, "?");
    for (size_t i = 0; i < count; i++)
        if (!map_names(grid, stock[i]))
            report_left_out(resolver, stock[i], keys, named);
}

/* A row of the map with another number of words than the grid is across. */
struct odd_row {
    struct span span; /* its words */
    size_t row, words;
    size_t like; /* so many rows are of that line */
};

/* The one line of the map whose rows are odd: a group may repeat it. ensures:
 * false where there is none, or several. */
static bool find_odd_row(const struct piece *grid,
                         const struct drawn_text *drawing, struct odd_row *odd)
{
    size_t rows = 0, words = 0;
    struct span line = {0, 0};
    *odd = (struct odd_row){.like = 0};
    for (size_t i = 0; i < drawing->words.count; i++) {
        const struct drawn_word *word = &drawing->words.items[i];
        line.start = words++ == 0 ? word->span.start : line.start;
        line.end = word->span.end;
        if (i + 1 < drawing->words.count && word[1].row == word->row)
            continue;
        rows++;
        if (words != map_row_cells(grid, rows - 1)) {
            if (odd->like == 0)
                *odd = (struct odd_row){line, rows, words, 0};
            else if (line.start != odd->span.start)
                return false;
            odd->like++;
        }
        words = 0;
    }
    return odd->like > 0 && rows == map_rows(grid) && rows > 1;
}

/* reports: a map with another number of cells than its grid, at the row that
 * lacks some where one row does. */
static void report_map_count(struct resolver *resolver,
                             const struct piece *piece,
                             const struct element *map,
                             const struct drawn_text *drawing)
{
    struct odd_row odd;
    const bool one = find_odd_row(piece, drawing, &odd);
    static const char grid[] = "grid";
    const char *whole = piece->kind == PIECE_GRID ? grid : "setting";
    struct diagnostic *d =
        !one ? report_about(resolver, map, DIAG_GRID_COUNT, map->name,
                            "the map has %zu cells, but the %s has %zu",
                            piece->cells.count, whole, map_cells(piece))
             : report_about(resolver, map, DIAG_GRID_COUNT, odd.span,
                            "row %zu of the map has %zu cell%s, but the %s "
                            "is %zu across%s",
                            odd.row, odd.words, odd.words == 1 ? "" : "s",
                            whole, map_row_cells(piece, odd.row - 1),
                            whole == grid ? "" : " there");
    if (one && odd.like > 1)
        diag_note(resolver->run, d, (struct span){0, 0},
                  "it stands in a group: %zu rows of the map are like it",
                  odd.like);
    if (whole == grid)
        diag_note(resolver->run, d, piece->element->name,
                  "%zu across x %zu down = %zu cells", piece->across,
                  piece->down, map_cells(piece));
    else
        diag_note(resolver->run, d, piece->element->name,
                  "lines of %zu and of %zu in turns: %zu across x %zu down and "
                  "%zu x %zu between them = %zu cells",
                  piece->across, piece->across - 1, piece->across, piece->down,
                  piece->across - 1, piece->down - 1, map_cells(piece));
}

bool resolve_drawing(struct resolver *resolver, const struct element *element,
                     enum diag_code code, struct drawn_text *drawing)
{
    struct run *run = resolver->run;
    if (read_drawing(run->arena, run->source, element->content, drawing))
        return may_repeat(resolver, element, element->name,
                          drawing->words.count - drawing->written);
    struct diagnostic *d = report_about(resolver, element, code, drawing->span,
                                        "%s", drawing->fault);
    diag_note(run, d, (struct span){0, 0},
              "8*A is A, eight times; 8*(A B) is A B, eight times");
    if (drawing->text != NULL)
        diag_mend(run, d, drawing->edited, drawing->text, "%s", drawing->help);
    else
        diag_help(run, d, "%s", drawing->help);
    return false;
}

void read_map(struct resolver *resolver, struct piece *piece,
              const struct element *map)
{
    const struct piece *keyed[256] = {NULL};
    const bool sound = read_keys(resolver, piece, keyed);
    const size_t count = piece->cells.count;
    const struct piece **stock =
        ARENA_ARRAY(resolver->run->arena, const struct piece *, count + 1);
    for (size_t i = 0; i < count; i++)
        stock[i] = piece->cells.items[i].piece;
    piece->cells.count = 0;
    struct drawn_text drawing;
    bool named = resolve_drawing(resolver, map, DIAG_MAP, &drawing);
    for (size_t i = 0; named && i < drawing.words.count; i++)
        named =
            read_map_word(resolver, piece, keyed, &drawing.words.items[i]);
    if (!named) {
        piece->cells.count = 0; /* one cause, one message */
        break_piece(resolver, piece);
        return;
    }
    /* Rows of triangles are counted where they are set. */
    if (piece->kind == PIECE_TRIANGLES ||
        piece->cells.count == map_cells(piece)) {
        if (sound)
            check_left_out(resolver, piece, stock, count);
        return;
    }
    report_map_count(resolver, piece, map, &drawing);
}
