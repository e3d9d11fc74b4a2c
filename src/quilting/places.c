/* What words of places mean: which of the places that walk.c found, in which
 * rows, columns and borders. */
#include <math.h>

#include "quilter.h"

/* ---- the setting ---- */

/* A spot in a border has no cell of its own; people look for it from the
 * nearest block. */
const struct setting_cell *nearest_cell(const struct quilter *quilter,
                                        struct spot at)
{
    const struct setting_cell *best = NULL;
    double least = 0;
    for (size_t i = 0; i < quilter->cells.count; i++) {
        const struct setting_cell *cell = &quilter->cells.items[i];
        const double way = fmax(0, extent_off(cell->extent, at));
        if (best != NULL && way >= least)
            continue;
        best = cell;
        least = way;
    }
    return best;
}

/* Does a cell of that row and column, 0 for any, hold the spot? */
static bool cell_holds(const struct quilter *quilter, size_t row, size_t column,
                       struct spot at)
{
    for (size_t i = 0; i < quilter->cells.count; i++) {
        const struct setting_cell *cell = &quilter->cells.items[i];
        if ((row == 0 || cell->row == row) &&
            (column == 0 || cell->column == column) &&
            extent_has(cell->extent, at))
            return true;
    }
    return false;
}

/* ---- what words mean ---- */

/* Words that name nothing, or the quilt itself, mean all of it. */
static bool is_whole_top(const struct quilter *quilter,
                         const struct quilting_place *place)
{
    return place->piece == NULL &&
           (place->of == NULL || place->of == quilter->plan->quilt->definition);
}

/* Is it a place of what the words name? */
static bool names(const struct quilting_place *place,
                  const struct placement *placement)
{
    return place->of != NULL ? placement->definition == place->of
                             : placement->piece != NULL &&
                                   placement->piece == place->piece->first;
}

/* Which name a place has; NULL for a piece without any. */
static const char *name_of(const struct placement *placement)
{
    return placement->definition != NULL ? placement->definition->id
           : placement->piece != NULL    ? placement->piece->id
                                         : NULL;
}

/* The first of the names that do lie in the quilt. */
static void help_place(struct quilter *quilter, struct diagnostic *d)
{
    for (size_t i = 0; i < quilter->placements.count; i++) {
        const char *name = name_of(&quilter->placements.items[i]);
        if (name == NULL)
            continue;
        diag_help(quilter->run, d,
                  "of=\"%s\" is there; without `of` the whole top is meant",
                  name);
        return;
    }
    diag_help(quilter->run, d, "without `of` the whole top is meant");
}

/* A number that is too large, and the largest that there is. */
static void say_beyond(struct quilter *quilter, const struct element *element,
                       enum attribute_id attribute, const char *what, size_t asked,
                       size_t most)
{
    const struct span span = value_span(element, attribute);
    const bool border = attribute == ATTR_BORDER;
    struct diagnostic *d = say_error(
        quilter, DIAG_NO_SHAPE, span, "there is no %s %zu: %s%s%s has %zu",
        what, asked, border ? "`" : "",
        border ? quilter->plan->quilt->definition->id : "the setting",
        border ? "`" : "", most);
    if (most > 0)
        diag_mend(quilter->run, d, span,
                  arena_printf(quilter->arena, "%zu", most),
                  "%s=\"%zu\" is the last", what, most);
}

/* reports: what the quilt takes none of, or no place in that row. */
static void say_no_place(struct quilter *quilter,
                         const struct quilting_place *place, size_t named)
{
    const struct element *element = place->element;
    const char *id = place->of != NULL ? place->of->id : place->piece->id;
    if (named == 0) {
        struct diagnostic *d = say_error(
            quilter, DIAG_NO_SHAPE, value_span(element, place->attribute),
            "`%s` has no `%s`", quilter->plan->quilt->definition->id, id);
        diag_note(quilter->run, d, (struct span){0, 0},
                  "it lies nowhere in this quilt");
        help_place(quilter, d);
        return;
    }
    struct diagnostic *d =
        say_error(quilter, DIAG_NO_SHAPE,
                  value_span(element, place->row > 0 ? ATTR_ROW : ATTR_COLUMN),
                  "no `%s` lies in that %s of the setting", id,
                  place->row == 0      ? "column"
                  : place->column == 0 ? "row"
                                       : "cell");
    for (size_t i = 0; i < quilter->placements.count; i++) {
        const struct placement *placement = &quilter->placements.items[i];
        if (!names(place, placement))
            continue;
        const struct setting_cell *cell =
            nearest_cell(quilter, extent_middle(placement->extent));
        diag_note(quilter->run, d, (struct span){0, 0},
                  "one of %zu lies in row %zu, column %zu", named, cell->row,
                  cell->column);
        return;
    }
}

/* reports: a border, a row or a column that the quilt has not. */
static bool outside_setting(struct quilter *quilter,
                            const struct quilting_place *place)
{
    const struct element *element = place->element;
    size_t rows = 0, columns = 0;
    for (size_t i = 0; i < quilter->cells.count; i++) {
        const struct setting_cell *cell = &quilter->cells.items[i];
        rows = cell->row > rows ? cell->row : rows;
        columns = cell->column > columns ? cell->column : columns;
    }
    if (place->border > quilter->border_count)
        say_beyond(quilter, element, ATTR_BORDER, "border", place->border,
                   quilter->border_count);
    else if (place->row > rows)
        say_beyond(quilter, element, ATTR_ROW, "row", place->row, rows);
    else if (place->column > columns)
        say_beyond(quilter, element, ATTR_COLUMN, "column", place->column,
                   columns);
    else
        return false;
    return true;
}

/* Rows and columns are asked of the middle, as a place may reach over cells
 * where a sashing lies. */
placement_list places_of(struct quilter *quilter,
                         const struct quilting_place *place)
{
    placement_list found = {0};
    size_t named = 0;
    if (outside_setting(quilter, place))
        return found;
    if (is_whole_top(quilter, place)) {
        *LIST_ADD(quilter->arena, &found) =
            (struct placement){.definition = quilter->plan->quilt->definition,
                               .extent = quilter->ground->extent};
        return found;
    }
    for (size_t i = 0; i < quilter->placements.count; i++) {
        const struct placement *placement = &quilter->placements.items[i];
        if (!names(place, placement))
            continue;
        named++;
        if ((place->row == 0 && place->column == 0) ||
            cell_holds(quilter, place->row, place->column,
                       extent_middle(placement->extent)))
            *LIST_ADD(quilter->arena, &found) = *placement;
    }
    if (found.count == 0)
        say_no_place(quilter, place, named);
    return found;
}

/* Inside, not on the rim. */
static bool inside_of(struct extent extent, struct spot at)
{
    return extent_off(extent, at) < -1e-6;
}

/* A border is a ring: in its outer rectangle and not inside its inner one;
 * the seams on both rims are its own. */
bool place_holds(const struct quilter *quilter,
                 const struct quilting_place *place,
                 const struct placement *placement, struct spot at)
{
    const size_t border = place->border;
    if (!extent_has(placement->extent, at))
        return false;
    if (border > quilter->border_count ||
        (border > 0 && (!extent_has(quilter->levels[border], at) ||
                        inside_of(quilter->levels[border - 1], at))))
        return false;
    return (place->row == 0 && place->column == 0) ||
           cell_holds(quilter, place->row, place->column, at);
}
