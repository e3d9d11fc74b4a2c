/* What fixes what: one function a kind of piece. Each function adds equalities,
 * facts and sums for one kind; none of them solves anything. May assume cells
 * that are bound or reported. A mistake that was reported elsewhere is made
 * silent here rather than left open. To add a kind of piece: a function, and a
 * case in piece_sizes. Read next: system.c. */
#include "solver.h"

/* How messages name the piece that fixes a size. */
static const char *quoted_kind(struct system *system,
                               const struct element *element)
{
    return arena_printf(system->run->arena, "`%s`",
                        element_name(element->kind));
}

/* A written size in the local unit of `element`'s definition. An attribute that
 * was written but not readable silences what it fixes. */
static void length_fact(struct system *system, variable v,
                        const struct element *element,
                        const struct stated *stated)
{
    if (stated->usable)
        system_fact(system, v, stated->value, stated->span,
                    quoted_kind(system, element));
    else if (stated->written)
        system_silence(system, v);
}

/* A real size, less what it counts beyond `across` and `down`. It serves only
 * where nothing harder fixes them; what cannot be read silences them. */
static void size_facts(struct system *system, variable across, variable down,
                       const struct element *element,
                       const struct stated *stated, struct rational beyond)
{
    if (!stated->written)
        return;
    if (!stated->usable || !rational_known(beyond)) {
        system_silence(system, across);
        system_silence(system, down);
        return;
    }
    const char *what = quoted_kind(system, element);
    system_soft_fact(system, across, rational_sub(stated->value, beyond),
                     stated->span, what);
    system_soft_fact(system, down, rational_sub(stated->second, beyond),
                     stated->span, what);
}

/* reports: a unit behind a number of grid squares. Only called where the local
 * unit is the square. */
static void report_unit(struct system *system, const struct stated *stated,
                        enum attribute_id id)
{
    if (!stated->usable || !stated->has_unit)
        return;
    struct diagnostic *d = diag_report(
        system->run, DIAG_GRID_UNIT, stated->span,
        "%s=%s is a number of grid squares, not a length", attribute_name(id),
        quoted(system->run->arena, stated->text));
    diag_help(system->run, d,
              "leave the unit out, or leave out the block's `grid`");
}

/* `finished` and `unfinished` are real lengths, so they fix sizes only where
 * the local unit is real; elsewhere they are checked at each scale. Sizes of a
 * use are stated as its unit or block lies before the turn, while variables are
 * those of the place that it fills, so a quarter turn exchanges the two. */
static void real_size_facts(struct system *system, const struct piece *piece)
{
    const bool swapped =
        piece->kind == PIECE_USE && piece->orientation.turn % 2 == 1;
    const variable across = swapped ? height_of(piece) : width_of(piece);
    const variable down = swapped ? width_of(piece) : height_of(piece);
    size_facts(system, across, down, piece->element, &piece->finished,
               rational_whole(0));
    size_facts(system, across, down, piece->element, &piece->unfinished,
               rational_times(system->design->pattern->seam, 2));
}

/* As the cell lies in its container: a map may turn it. */
static variable cell_width(const struct cell *cell)
{
    return cell->orientation.turn % 2 == 1 ? height_of(cell->piece)
                                           : width_of(cell->piece);
}

/* As cell_width, for the other side. */
static variable cell_height(const struct cell *cell)
{
    return cell->orientation.turn % 2 == 1 ? width_of(cell->piece)
                                           : height_of(cell->piece);
}

/* A row is as high as each of its cells, and as wide as all together. Seams do
 * not appear: finished sizes add up exactly. */
static void row_sizes(struct system *system, const struct piece *piece)
{
    struct sum *sum =
        system_sum(system, width_of(piece), piece->element, "wide");
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        system_equal(system, height_of(piece), cell_height(cell));
        system_term(system, sum, cell_width(cell), rational_whole(1),
                    cell->piece->element);
    }
}

/* The row's rule, turned. */
static void column_sizes(struct system *system, const struct piece *piece)
{
    struct sum *sum =
        system_sum(system, height_of(piece), piece->element, "high");
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        system_equal(system, width_of(piece), cell_width(cell));
        system_term(system, sum, cell_height(cell), rational_whole(1),
                    cell->piece->element);
    }
}

/* Something in the piece was reported: its sums would only echo that. Its
 * members are found by the source, as a grid may lack a cell for one. */
static void silence_all(struct system *system, const struct piece *piece)
{
    const struct design *design = system->design;
    system_silence(system, width_of(piece));
    system_silence(system, height_of(piece));
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *member = design->pieces.items[i];
        if (member->element->parent != piece->element)
            continue;
        system_silence(system, width_of(member));
        system_silence(system, height_of(member));
    }
}

/* A unit that is not square, as its own width and height say. Asked before
 * anything is solved, so only a unit that states both sides can be told to be
 * oblong. */
static bool oblong(const struct piece *piece)
{
    if (piece->target == NULL || piece->target->gridded)
        return false;
    const struct stated *width = &piece->target->width;
    const struct stated *height = &piece->target->height;
    return width->usable && height->usable &&
           !rational_equal(width->value, height->value);
}

/* Whether the unit lies turned by a quarter, by its map's turn and its own. */
static bool lies_across(const struct cell *cell)
{
    return (cell->orientation.turn + cell->piece->orientation.turn) % 2 == 1;
}

/* In one row of a grid an oblong unit lies one way only. Said here, because the
 * sums of all rows and columns would only echo it. ensures: false where it
 * reported. */
static bool row_turns_agree(struct system *system, const struct piece *piece,
                            size_t row)
{
    const struct cell *cells = &piece->cells.items[row * piece->across];
    for (size_t i = 1; i < piece->across; i++) {
        const struct definition *target = cells[i].piece->target;
        if (!oblong(cells[i].piece) || target != cells[0].piece->target ||
            lies_across(&cells[i]) == lies_across(&cells[0]))
            continue;
        /* Of two ways the rarer one is the slip. */
        size_t like_first = 0;
        for (size_t k = 0; k < piece->across; k++)
            like_first += cells[k].piece->target == target &&
                          lies_across(&cells[k]) == lies_across(&cells[0]);
        const struct cell *wrong =
            like_first * 2 >= piece->across ? &cells[i] : &cells[0];
        const struct cell *other = wrong == &cells[0] ? &cells[i] : &cells[0];
        struct diagnostic *d = diag_report(
            system->run, DIAG_USE_TURN,
            value_span(wrong->piece->element, ATTR_TURN),
            "`%s` does not fit its row: its neighbors lie a quarter turn "
            "otherwise",
            target->id);
        diag_note(system->run, d, other->span, "a neighbor in row %zu",
                  row + 1);
        return false;
    }
    return true;
}

/* Every row is as high as its first cell and every column as wide as its top
 * one. Sums run along the first row and the first column only: by these
 * equalities any other would say the same. */
static void grid_sizes(struct system *system, const struct piece *piece)
{
    if (piece->cells.count == 0 ||
        piece->cells.count != piece->across * piece->down) {
        silence_all(system, piece); /* its cells were reported */
        return;
    }
    for (size_t row = 0; row < piece->down; row++) {
        if (!row_turns_agree(system, piece, row)) {
            silence_all(system, piece);
            return;
        }
    }
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        const size_t row = i / piece->across, column = i % piece->across;
        system_equal(system, cell_width(&piece->cells.items[column]),
                     cell_width(cell));
        system_equal(system,
                     cell_height(&piece->cells.items[row * piece->across]),
                     cell_height(cell));
    }
    struct sum *sum =
        system_sum(system, width_of(piece), piece->element, "wide");
    for (size_t i = 0; i < piece->across; i++)
        system_term(system, sum, cell_width(&piece->cells.items[i]),
                    rational_whole(1), piece->cells.items[i].piece->element);
    sum = system_sum(system, height_of(piece), piece->element, "high");
    for (size_t i = 0; i < piece->down; i++) {
        const struct cell *cell = &piece->cells.items[i * piece->across];
        system_term(system, sum, cell_height(cell), rational_whole(1),
                    cell->piece->element);
    }
}

/* Strips joined by diagonal seams: each join takes one strip width, corner to
 * corner of the overlap (derived). Derived: the overlap is a square of the
 * strip's width, sewn corner to corner, and both strips lie in it once. */
static void diagonal_sizes(struct system *system, const struct piece *piece)
{
    const bool across = piece->horizontal;
    const variable length = across ? width_of(piece) : height_of(piece);
    const variable width = across ? height_of(piece) : width_of(piece);
    struct sum *sum =
        system_sum(system, length, piece->element, across ? "wide" : "high");
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct piece *member = piece->cells.items[i].piece;
        system_equal(system, width,
                     across ? height_of(member) : width_of(member));
        system_term(system, sum, across ? width_of(member) : height_of(member),
                    rational_whole(1), member->element);
    }
    const int64_t joins = (int64_t)piece->cells.count - 1;
    if (joins > 0)
        system_term(system, sum, width, rational_whole(-joins), piece->element);
}

/* Square by nature; `size` fixes both sides. */
static void half_square_sizes(struct system *system, const struct piece *piece)
{
    system_equal(system, width_of(piece), height_of(piece));
    length_fact(system, width_of(piece), piece->element, &piece->size);
}

/* A unit, or a block without a grid, comes at the size it is; a block with a
 * grid only keeps its proportion, as the size of a square is the quilt's affair
 * (scales.c). */
static void use_sizes(struct system *system, const struct piece *piece,
                      bool local_grid)
{
    const struct definition *target = piece->target;
    if (target != NULL && local_grid && target->kind == DEFINE_BLOCK &&
        !target->gridded) {
        struct diagnostic *d = diag_report(
            system->run, DIAG_GRID_UNIT, value_span(piece->element, ATTR_BLOCK),
            "`%s` has real lengths and cannot stand among grid squares",
            target->id);
        diag_help(system->run, d, "give the block `%s` a grid of its own",
                  target->id);
        target = NULL;
    }
    if (target == NULL || target->root == NULL) {
        system_silence(system, width_of(piece));
        system_silence(system, height_of(piece));
        return;
    }
    const bool swapped = piece->orientation.turn % 2 == 1;
    const variable across = swapped ? height_of(piece) : width_of(piece);
    const variable down = swapped ? width_of(piece) : height_of(piece);
    if (!target->gridded) {
        system_equal(system, across, width_of(target->root));
        system_equal(system, down, height_of(target->root));
    } else if (rational_equal(target->grid_across, target->grid_down)) {
        system_equal(system, across, down);
    } else if (rational_known(target->grid_across)) {
        struct sum *sum = system_sum(system, across, piece->element, "wide");
        system_term(system, sum, down,
                    rational_div(target->grid_across, target->grid_down),
                    target->element);
    } else if (!piece->finished.usable) {
        system_silence(system, across); /* its grid could not be read */
        system_silence(system, down);
    }
}

/* `local_grid` tells whether lengths of the piece are grid squares. A faulty
 * element may lack the very size that a sum needs, so all of it is silent. */
static void piece_sizes(struct system *system, const struct piece *piece,
                        bool local_grid)
{
    length_fact(system, width_of(piece), piece->element, &piece->width);
    length_fact(system, height_of(piece), piece->element, &piece->height);
    if (piece->element->faulty || piece->broken) {
        silence_all(system, piece);
        return;
    }
    if (local_grid) {
        report_unit(system, &piece->width, ATTR_WIDTH);
        report_unit(system, &piece->height, ATTR_HEIGHT);
        report_unit(system, &piece->size, ATTR_SIZE);
        for (size_t i = 0; i < piece->corners.count; i++)
            report_unit(system, &piece->corners.items[i].stated_size,
                        ATTR_SIZE);
    } else {
        real_size_facts(system, piece);
    }
    switch (piece->kind) {
    case PIECE_PATCH:
        break;
    case PIECE_ROW:
        row_sizes(system, piece);
        break;
    case PIECE_COLUMN:
        column_sizes(system, piece);
        break;
    case PIECE_GRID:
        grid_sizes(system, piece);
        break;
    case PIECE_USE:
        use_sizes(system, piece, local_grid);
        break;
    case PIECE_DIAGONAL:
        diagonal_sizes(system, piece);
        break;
    case PIECE_HALF_SQUARE:
        half_square_sizes(system, piece);
        break;
    }
}

/* The centre of a quilt is what `finished` leaves inside the borders. It comes
 * after all else: mostly the blocks fix the quilt, and `finished` is checked.
 * Butted borders add twice their width each way. */
static void quilt_sizes(struct system *system, const struct definition *quilt)
{
    struct rational borders = rational_whole(0);
    for (size_t i = 0; i < quilt->borders.count; i++)
        borders = rational_add(
            borders, rational_times(quilt->borders.items[i].width, 2));
    size_facts(system, width_of(quilt->root), height_of(quilt->root),
               quilt->element, &quilt->finished, borders);
}

/* A block with a grid is as large as its grid says, in squares. Quilts come
 * last of all (build_system). */
static void definition_sizes(struct system *system,
                             const struct definition *definition)
{
    const struct piece *root = definition->root;
    if (root == NULL)
        return;
    if (definition->kind == DEFINE_QUILT)
        return;
    if (definition->gridded && rational_known(definition->grid_across)) {
        const struct span grid = value_span(definition->element, ATTR_GRID);
        const char *what = quoted_kind(system, definition->element);
        system_fact(system, width_of(root), definition->grid_across, grid,
                    what);
        system_fact(system, height_of(root), definition->grid_down, grid, what);
    } else if (definition->gridded) {
        system_silence(system, width_of(root));
        system_silence(system, height_of(root));
    }
    length_fact(system, width_of(root), definition->element,
                &definition->width);
    length_fact(system, height_of(root), definition->element,
                &definition->height);
}

/* A unit that both a gridded block and a plain one use counts as gridded: its
 * numbers then mean squares everywhere. */
bool *find_local_grids(struct run *run, const struct design *design)
{
    bool *local = ARENA_ARRAY(run->arena, bool, design->definitions.count + 1);
    for (size_t i = 0; i < design->definitions.count; i++)
        local[i] = design->definitions.items[i]->gridded;
    /* Units may use units: once a round for each level is enough. */
    for (size_t round = 0; round < design->definitions.count; round++) {
        bool changed = false;
        for (size_t i = 0; i < design->pieces.count; i++) {
            const struct piece *piece = design->pieces.items[i];
            if (piece->target == NULL || piece->target->kind != DEFINE_UNIT ||
                !local[piece->owner->index] || local[piece->target->index])
                continue;
            local[piece->target->index] = changed = true;
        }
        if (!changed)
            break;
    }
    return local;
}

/* The order of facts is the order of trust: of two that contradict, the later
 * one is reported. Definitions speak first, then pieces in the order of the
 * source, and quilts last. */
void build_system(struct system *system, const bool *local_grid)
{
    const struct design *design = system->design;
    for (size_t i = 0; i < 2 * design->pieces.count; i++)
        system_fresh(system);
    for (size_t i = 0; i < design->definitions.count; i++)
        definition_sizes(system, design->definitions.items[i]);
    for (size_t i = 0; i < design->pieces.count; i++)
        piece_sizes(system, design->pieces.items[i],
                    local_grid[design->pieces.items[i]->owner->index]);
    for (size_t i = 0; i < design->definitions.count; i++)
        if (design->definitions.items[i]->kind == DEFINE_QUILT &&
            design->definitions.items[i]->root != NULL)
            quilt_sizes(system, design->definitions.items[i]);
}
