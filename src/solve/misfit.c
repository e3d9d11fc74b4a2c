/* Grids that are not what their pieces make, and sizes that a unit or a block
 * cannot have, told once a cause at the place to mend. May assume what own.c
 * has found. Read next: system.c. */
#include "solver.h"

#include <string.h>

#include "buffer.h"

/* "9", or "8 x 9" where it is not a square or is told beside one that is not.
 */
static const char *size_text(struct system *system, struct real_size size,
                             bool both)
{
    const char *width = local_length(system, size.width);
    if (!both && rational_equal(size.width, size.height))
        return width;
    return arena_printf(system->run->arena, "%s x %s", width,
                        local_length(system, size.height));
}

static bool oblong(struct real_size size)
{
    return !rational_equal(size.width, size.height);
}

/* The words in which the use states its size. */
static const struct stated *asking(const struct piece *use)
{
    return use->finished.usable ? &use->finished : &use->unfinished;
}

/* As the use would state it: with seams where it says how large it lies
 * unfinished. */
static const char *stated_text(struct system *system, const struct piece *use,
                               struct real_size finished)
{
    const struct rational seams =
        use->finished.usable ? rational_whole(0)
                             : rational_times(system->design->pattern->seam, 2);
    finished.width = rational_add(finished.width, seams);
    finished.height = rational_add(finished.height, seams);
    return arena_printf(
        system->run->arena, "%s=\"%s\"",
        attribute_name(use->finished.usable ? ATTR_FINISHED : ATTR_UNFINISHED),
        size_text(system, finished, false));
}

/* ---- grids that pieces speak against ---- */

/* Where the size of one side of the pieces comes from. */
static const struct sum *sum_of(struct system *system, variable v)
{
    const long sum = system->from_sum[system_root(system, v)];
    return sum == NOT_FROM_SUM ? NULL : &system->sums.items[sum];
}

static const char *sum_words(struct system *system, variable v)
{
    const struct sum *sum = sum_of(system, v);
    return sum == NULL ? "" : sum_text(system, sum, system_value(system, v));
}

/* The sums of both sides are mostly the same. */
static void note_pieces(struct system *system, struct diagnostic *d,
                        const struct piece *root)
{
    const variable sides[2] = {width_of(root), height_of(root)};
    for (size_t i = 0; i < 2; i++) {
        const struct sum *sum = sum_of(system, sides[i]);
        if (sum == NULL || (i == 1 && strcmp(sum_words(system, sides[0]),
                                             sum_words(system, sides[1])) == 0))
            continue;
        note_sum(system, d, sum, system_value(system, sides[i]));
    }
}

/* The first use that says how large the block is, and what a square is then. */
static void note_use(struct system *system, struct diagnostic *d,
                     const struct definition *block, struct real_size squares)
{
    for (size_t i = 0; i < system->design->pieces.count; i++) {
        const struct piece *use = system->design->pieces.items[i];
        const struct real_size asked = asked_size(system->design, use);
        if (use->target != block || !rational_known(asked.width) ||
            system->own->local_grid[use->owner->index])
            continue;
        const struct rational square = rational_div(asked.width, squares.width);
        if (rational_known(square) && same_shape(asked, squares))
            diag_note(system->run, d, asking(use)->span,
                      "%s is asked for here: %s squares of %s",
                      size_text(system, asked, false),
                      size_text(system, squares, false),
                      local_length(system, square));
        else
            diag_note(system->run, d, asking(use)->span, "%s is asked for here",
                      size_text(system, asked, false));
        return;
    }
}

/* "make 9", or what they are of one side where they leave the other open. */
static const char *made_words(struct system *system,
                              const struct definition *block, bool both)
{
    const struct real_size own = system->own->size[block->index];
    struct arena *arena = system->run->arena;
    if (!rational_known(own.height))
        return arena_printf(arena, "are %s wide",
                            local_length(system, own.width));
    if (!rational_known(own.width))
        return arena_printf(arena, "are %s high",
                            local_length(system, own.height));
    return arena_printf(arena, "make %s", size_text(system, own, both));
}

static void report_grid(struct system *system, const struct definition *block)
{
    const struct real_size grid = {block->grid_across, block->grid_down};
    const struct real_size squares = squares_of(system->own, block);
    const bool both = oblong(grid) || oblong(squares);
    const struct span span = value_span(block->element, ATTR_GRID);
    struct diagnostic *d = report_in(
        system->run, system->sound, block, DIAG_SEAM_SUM, span,
        "the grid of `%s` is %s squares, but its pieces %s", block->id,
        size_text(system, grid, both), made_words(system, block, both));
    note_pieces(system, d, block->root);
    note_use(system, d, block, squares);
    const char *right = size_text(system, squares, false);
    diag_mend(system->run, d, span, right, "grid=\"%s\" fits them", right);
}

void report_grids(struct system *system)
{
    const struct design *design = system->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *block = design->definitions.items[i];
        /* Squares that are not whole were reported where they stand. */
        if (system->own->wrong_grid[i] && block->grid_across.den == 1 &&
            block->grid_down.den == 1)
            report_grid(system, block);
    }
}

/* ---- sizes that a target cannot have ---- */

/* A unit, or a block without a grid: its lengths are what they are. */
static void report_otherwise(struct system *system, const struct piece *use,
                             struct real_size own)
{
    const struct definition *target = use->target;
    const bool unit = target->kind == DEFINE_UNIT;
    const struct real_size asked = asked_size(system->design, use);
    const char *size = !rational_known(own.height)
                           ? arena_printf(system->run->arena, "%s wide",
                                          local_length(system, own.width))
                       : !rational_known(own.width)
                           ? arena_printf(system->run->arena, "%s high",
                                          local_length(system, own.height))
                           : size_text(system, own, true);
    struct diagnostic *d =
        report_in(system->run, system->sound, use->owner, DIAG_STATEMENT,
                  asking(use)->span, "`%s` is %s finished, not %s: %s",
                  target->id, size, size_text(system, asked, false),
                  unit ? "a unit comes at its own size"
                       : "a block without a grid comes at its own size");
    diag_note(system->run, d, value_span(target->element, ATTR_ID),
              "`%s` is made here", target->id);
    diag_help(system->run, d,
              unit ? "to sew it at another size, wrap it in a block with a grid"
                   : "to sew it at another size, give it a grid");
}

/* Sizes of the block's shape that keep one side of what is asked for, where a
 * ruler cuts their squares. ensures: "" for none. */
static const char *near_sizes(struct system *system, const struct piece *use,
                              struct real_size squares)
{
    const struct real_size asked = asked_size(system->design, use);
    const struct rational sides[2] = {
        rational_div(asked.height, squares.height),
        rational_div(asked.width, squares.width)};
    struct buffer text = buffer_in(system->run->arena);
    for (size_t i = 0; i < 2; i++) {
        const struct rational steps =
            rational_div(sides[i], system->design->pattern->cutting_step);
        const struct real_size near = {rational_mul(sides[i], squares.width),
                                       rational_mul(sides[i], squares.height)};
        if (steps.den == 1 && rational_known(near.width))
            buffer_printf(&text, "%s%s", buffer_string(&text)[0] ? " or " : "",
                          stated_text(system, use, near));
    }
    return buffer_string(&text);
}

/* Pieces and grid agree, so it is the use that asks for another shape. */
static void report_asked_shape(struct system *system, const struct piece *use)
{
    const struct definition *block = use->target;
    const struct real_size squares = squares_of(system->own, block);
    const struct real_size asked = asked_size(system->design, use);
    struct diagnostic *d = report_in(
        system->run, system->sound, use->owner, DIAG_STATEMENT,
        asking(use)->span, "`%s` is %s squares, which cannot be %s finished",
        block->id, size_text(system, squares, true),
        size_text(system, asked, true));
    diag_note(system->run, d, value_span(block->element, ATTR_GRID),
              "the grid, which its pieces fill");
    const char *near = near_sizes(system, use, squares);
    if (near[0] != '\0')
        diag_help(system->run, d, "%s keeps its shape", near);
}

/* Grids of the shape that is asked for, with one side of the written one. Sides
 * that pieces fix are kept. */
static const char *near_grids(struct system *system,
                              const struct definition *block,
                              struct real_size asked)
{
    const struct real_size own = system->own->size[block->index];
    const struct real_size grids[2] = {
        {block->grid_across,
         rational_div(rational_mul(block->grid_across, asked.height),
                      asked.width)},
        {rational_div(rational_mul(block->grid_down, asked.width),
                      asked.height),
         block->grid_down}};
    struct buffer text = buffer_in(system->run->arena);
    for (size_t i = 0; i < 2; i++)
        if (grids[i].width.den == 1 && grids[i].height.den == 1 &&
            !rational_known(i == 0 ? own.height : own.width))
            buffer_printf(&text, "%sgrid=\"%s\"",
                          buffer_string(&text)[0] ? " or " : "",
                          size_text(system, grids[i], false));
    return buffer_string(&text);
}

/* Nothing but the grid gives the block its shape, and that is another one. */
static void report_grid_shape(struct system *system, const struct piece *use)
{
    const struct definition *block = use->target;
    const struct real_size grid = {block->grid_across, block->grid_down};
    const struct real_size asked = asked_size(system->design, use);
    const bool both = oblong(grid) || oblong(asked);
    struct diagnostic *d = report_in(
        system->run, system->sound, block, DIAG_SEAM_SUM,
        value_span(block->element, ATTR_GRID),
        "the grid of `%s` is %s squares, but %s is asked for", block->id,
        size_text(system, grid, both), size_text(system, asked, both));
    diag_note(system->run, d, asking(use)->span, "%s is asked for here",
              size_text(system, asked, false));
    const char *near = near_grids(system, block, asked);
    if (near[0] != '\0')
        diag_help(system->run, d, "%s has that shape", near);
}

static bool differs(struct rational own, struct rational asked)
{
    return rational_known(own) && !rational_equal(own, asked);
}

bool report_misfit(struct system *system, const struct piece *use)
{
    const struct definition *target = use->target;
    const struct real_size asked = asked_size(system->design, use);
    const struct real_size own = system->own->size[target->index];
    if (!rational_known(asked.width) || !rational_known(asked.height) ||
        rational_sign(asked.width) <= 0 || rational_sign(asked.height) <= 0)
        return false;
    const struct real_size squares = squares_of(system->own, target);
    if (target->gridded
            ? !rational_known(squares.width) || same_shape(squares, asked)
            : !differs(own.width, asked.width) &&
                  !differs(own.height, asked.height))
        return false;
    system->misfit[use->index] = true;
    /* What the target leaves open might have been this size. */
    if (!target->gridded && !rational_known(own.width))
        system_silence(system, width_of(target->root));
    if (!target->gridded && !rational_known(own.height))
        system_silence(system, height_of(target->root));
    if (system->own->told[target->index])
        return true;
    system->own->told[target->index] = true;
    if (!target->gridded)
        report_otherwise(system, use, own);
    else if (rational_known(own.width) && rational_known(own.height))
        report_asked_shape(system, use);
    else
        report_grid_shape(system, use);
    return true;
}
