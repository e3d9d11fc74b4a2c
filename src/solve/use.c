/* Uses of units and blocks: sizes. Read next: system.c. */
#include "solver.h"

/* A block with a grid, whatever its size. */
static void keep_shape(struct system *system, const struct piece *piece,
                       variable across, variable down)
{
    const struct definition *target = piece->target;
    const struct real_size squares = squares_of(system->own, target);
    if (rational_equal(squares.width, squares.height)) {
        system_equal(system, across, down);
    } else if (rational_known(squares.width)) {
        struct sum *sum = system_sum(system, across, piece->element, "wide");
        system_term(system, sum, down,
                    rational_div(squares.width, squares.height),
                    target->element);
    } else if (!piece->finished.usable) {
        system_silence(system, across); /* its grid could not be read */
        system_silence(system, down);
    }
}

/* Only outwards: while definitions are measured by themselves, a unit takes
 * nothing from where it is used. */
static void own_facts(struct system *system, const struct piece *piece,
                      variable across, variable down)
{
    const struct definition *target = piece->target;
    const struct real_size own = system->own->size[target->index];
    const char *what = element_name(target->element->kind);
    if (rational_known(own.width))
        system_fact(system, across, own.width, piece->element->name, what);
    if (rational_known(own.height))
        system_fact(system, down, own.height, piece->element->name, what);
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
        struct diagnostic *d = report_in(
            system->run, system->sound, piece->owner, DIAG_GRID_UNIT,
            value_span(piece->element, ATTR_BLOCK),
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
    if (!system->own->measuring && !local_grid &&
        report_misfit(system, piece)) {
        system_silence(system, across);
        system_silence(system, down);
    } else if (target->gridded) {
        keep_shape(system, piece, across, down);
    } else if (system->own->measuring) {
        own_facts(system, piece, across, down);
    } else {
        system_equal(system, across, width_of(target->root));
        system_equal(system, down, height_of(target->root));
    }
}

const struct sizing sizing_use = {.sizes = use_sizes};
