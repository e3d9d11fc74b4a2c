/* Sashing: strips between the cells of a grid, and cornerstones where they
 * cross. The grid becomes rows, one below the other: of the cells that the
 * designer told, and of strips and cornerstones; without cornerstones the
 * strips between rows go all the way across. Pieces that nobody wrote point to
 * the element of the sashing. Read next: orientation.c.
 */
#include "sashing.h"

/* A grid with its sashing, before they are put together. */
struct sashed {
    struct sashing of;
    bool outer;          /* around the whole, too */
    size_t across, down; /* cells of the grid before */
    const struct cell *cells;
};

const struct element *child_of_kind(const struct element *element,
                                    enum element_kind kind)
{
    for (size_t i = 0; i < element->children.count; i++)
        if (element->children.items[i]->kind == kind)
            return element->children.items[i];
    return NULL;
}

/* ---- what it is made of ---- */

/* The piece that the sashing or its cornerstone holds, or NULL. */
static const struct element *held_piece(const struct element *element)
{
    for (size_t i = 0; i < element->children.count; i++)
        if (is_piece(element->children.items[i]->kind))
            return element->children.items[i];
    return NULL;
}

/* reports: neither a fabric nor a piece, or both. */
static bool is_told(struct resolver *resolver, const struct element *element,
                    bool needs_width)
{
    const bool fabric = written_value(element, ATTR_FABRIC) != NULL;
    const bool width = written_value(element, ATTR_WIDTH) != NULL;
    const bool piece = held_piece(element) != NULL;
    if (element->faulty ||
        (piece ? !fabric && !width : fabric && (width || !needs_width)))
        return !element->faulty;
    struct diagnostic *d = report_about(
        resolver, element, DIAG_MISSING_ATTRIBUTE, element->name,
        piece         ? "`%s` has a piece, and a fabric or a width beside it"
        : needs_width ? "`%s` needs `fabric` and `width`, or a piece of its own"
                      : "`%s` needs `fabric`, or a piece of its own",
        element_name(element->kind));
    diag_help(resolver->run, d,
              piece ? "leave out what the piece says for itself"
                    : "write fabric=\"...\"%s, or put a patch, a row or a use "
                      "inside",
              needs_width ? " width=\"...\"" : "");
    return false;
}

struct press press_by_rule(const struct element *element)
{
    return (struct press){
        .side = PRESS_RULE, .fabric = NO_FABRIC, .element = element};
}

/* A patch of the element's fabric, whose width is that of a strip which lies
 * upright or level; a cornerstone's size follows from both. */
static const struct piece *strip_patch(struct resolver *resolver,
                                       const struct definition *owner,
                                       const struct element *element,
                                       bool level)
{
    struct piece *patch =
        new_piece_of_kind(resolver, owner, element, PIECE_PATCH);
    if (level) {
        patch->height = patch->width;
        patch->width = (struct stated){.written = false};
    }
    patch->press = press_by_rule(element);
    add_fabric(resolver, patch, ATTR_FABRIC);
    return patch;
}

bool read_sashing(struct resolver *resolver, const struct piece *whole,
                  struct sashing *sashing)
{
    const struct definition *owner = whole->owner;
    const struct element *held = held_piece(sashing->element);
    sashing->stone = child_of_kind(sashing->element, ELEMENT_CORNERSTONE);
    if (!is_told(resolver, sashing->element, true) ||
        (sashing->stone != NULL && !is_told(resolver, sashing->stone, false)))
        return false;
    sashing->turned = held != NULL;
    if (held != NULL) {
        sashing->upright = sashing->level =
            resolve_piece(resolver, owner, held);
    } else {
        sashing->upright =
            strip_patch(resolver, owner, sashing->element, false);
        sashing->level = strip_patch(resolver, owner, sashing->element, true);
    }
    if (sashing->stone == NULL)
        return true;
    held = held_piece(sashing->stone);
    sashing->crossing =
        held != NULL ? resolve_piece(resolver, owner, held)
                     : strip_patch(resolver, owner, sashing->stone, false);
    return true;
}

/* ---- where it lies ---- */

static void add_strip(struct resolver *resolver, const struct sashed *sashed,
                      struct piece *container, const struct piece *strip,
                      bool level)
{
    struct cell *cell = LIST_ADD(resolver->run->arena, &container->cells);
    *cell = (struct cell){.piece = strip, .span = strip->element->name};
    cell->orientation.turn = level && sashed->of.turned ? 1 : 0;
}

/* A row of the cells that were told, with upright strips between them. */
static void add_told_row(struct resolver *resolver,
                         const struct sashed *sashed, struct piece *container,
                         size_t row)
{
    for (size_t i = 0; i < sashed->across; i++) {
        if (i > 0 || sashed->outer)
            add_strip(resolver, sashed, container, sashed->of.upright, false);
        *LIST_ADD(resolver->run->arena, &container->cells) =
            sashed->cells[row * sashed->across + i];
    }
    if (sashed->outer)
        add_strip(resolver, sashed, container, sashed->of.upright, false);
}

/* Level strips, one above each cell, with cornerstones between them. */
static void add_stone_row(struct resolver *resolver,
                          const struct sashed *sashed,
                          struct piece *container)
{
    for (size_t i = 0; i < sashed->across; i++) {
        if (i > 0 || sashed->outer)
            add_strip(resolver, sashed, container, sashed->of.crossing, false);
        add_strip(resolver, sashed, container, sashed->of.level, true);
    }
    if (sashed->outer)
        add_strip(resolver, sashed, container, sashed->of.crossing, false);
}

/* A row as a piece of its own, as the designer might have written it: rows are
 * sewn first, and like ones are one heap. */
static struct piece *add_row_piece(struct resolver *resolver,
                                   const struct sashed *sashed,
                                   struct piece *grid)
{
    struct piece *piece =
        new_piece_of_kind(resolver, grid->owner, grid->element, PIECE_ROW);
    piece->width = piece->height = piece->finished = piece->unfinished =
        (struct stated){.written = false};
    piece->id = NULL;
    piece->name = NULL;
    piece->equal = false;
    if ((sashed->across == 1 && !sashed->outer) ||
        piece->press.side == PRESS_UP || piece->press.side == PRESS_DOWN)
        piece->press = press_by_rule(sashed->of.element);
    *LIST_ADD(resolver->run->arena, &grid->cells) =
        (struct cell){.piece = piece, .span = grid->element->name};
    return piece;
}

static void add_level(struct resolver *resolver, const struct sashed *sashed,
                      struct piece *grid)
{
    if (sashed->of.stone != NULL)
        add_stone_row(resolver, sashed,
                      add_row_piece(resolver, sashed, grid));
    else
        add_strip(resolver, sashed, grid, sashed->of.level, true);
}

/* From the cells that were told to rows, one below the other. Those that meet
 * are pressed in turns. */
static void place(struct resolver *resolver, const struct sashed *sashed,
                  struct piece *grid)
{
    grid->cells.items = NULL;
    grid->cells.count = grid->cells.capacity = 0;
    for (size_t row = 0; row < sashed->down; row++) {
        if (row > 0 || sashed->outer)
            add_level(resolver, sashed, grid);
        add_told_row(resolver, sashed, add_row_piece(resolver, sashed, grid),
                     row);
    }
    if (sashed->outer)
        add_level(resolver, sashed, grid);
    grid->across = 1;
    grid->down = grid->cells.count;
    grid->aligned = true;
    if (sashed->of.stone != NULL)
        link_rows(resolver, grid);
    if (grid->press.side == PRESS_LEFT || grid->press.side == PRESS_RIGHT)
        grid->press = press_by_rule(sashed->of.element); /* its rows have it */
}

/* reports: `equal`, which would make strips as wide as blocks. */
static void reject_equal(struct resolver *resolver, struct piece *grid,
                         const struct element *sashing)
{
    const struct value *equal = written_value(grid->element, ATTR_EQUAL);
    if (equal == NULL || !grid->equal)
        return;
    grid->equal = false;
    struct diagnostic *d =
        report_about(resolver, grid->element, DIAG_UNKNOWN_ATTRIBUTE,
                     equal->name, "a grid with sashing is not `equal`");
    diag_note(resolver->run, d, sashing->name,
              "its strips are cells as well; the others are as large as their "
              "pieces");
    diag_help(resolver->run, d, "leave it out");
}

void add_sashing(struct resolver *resolver, struct piece *grid)
{
    struct sashed sashed = {
        .of = {.element = child_of_kind(grid->element, ELEMENT_SASHING)},
        .across = grid->across,
        .down = grid->down,
        .cells = grid->cells.items};
    const struct element *element = sashed.of.element;
    if (element == NULL || grid->cells.count == 0 ||
        grid->cells.count != grid->across * grid->down)
        return;
    reject_equal(resolver, grid, element);
    sashed.outer = choice_of(element, ATTR_OUTER, 0) == 1;
    if ((sashed.across * 2 + 1) * (sashed.down * 2 + 1) > LIMIT_CELLS) {
        report_about(resolver, element, DIAG_LIMIT, element->name,
                     "more than %d cells in a grid with its sashing",
                     LIMIT_CELLS);
        return;
    }
    if (!read_sashing(resolver, grid, &sashed.of)) {
        mark_definition(resolver, grid->element);
        return;
    }
    place(resolver, &sashed, grid);
}
