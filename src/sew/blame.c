/* Which mistake makes a block differ from its picture? Every single change is
 * tried on the solved geometry: the one after which the picture comes out is
 * the mistake, and the mend is proven by having been tried. Search, not rules:
 * changes are tried one at a time, the best is kept, and the search goes on
 * from there, so several slips in one block are told one by one. May assume a
 * block whose sizes are known and whose picture could be read. Read next:
 * design_faces.c. */
#include <string.h>

#include "blame.h"

/* More slips than this are no slips. WORK_LIMIT bounds the faces that all
 * trials of one block look at, ALL_WORK_LIMIT those of all blocks: a block
 * beyond it is told without a cause, rather than after a long wait. */

/* ensures: how much differs from the picture with the first `count` changes;
 * flags what. A scratch arena a trial: thousands of them would fill the run's.
 */
static size_t measure(struct blame *blame, size_t count, bool *differs)
{
    struct arena *scratch = arena_create();
    struct cloth *cloth =
        design_faces(scratch, blame->sized, pictured_piece(blame->block),
                     blame->changes, count);
    const size_t differences =
        picture_compare(scratch, cloth, blame->wanted, differs);
    blame->work += cloth->faces.count + picture_parts(blame->wanted);
    arena_destroy(scratch);
    return differences;
}

/* Nothing more is tried: the change is found, or the work is done. */
static bool enough(const struct blame *blame)
{
    return blame->work > WORK_LIMIT ||
           blame->before + blame->work > ALL_WORK_LIMIT ||
           blame->best_differences == 0;
}

/* Better is: fewer differences, and no cell that was right is wrong now. The
 * first of two equal ones stays: likelier slips are tried first. */
static void try_change(struct slips *slips, struct change change)
{
    struct blame *blame = (struct blame *)slips; /* its first member */
    if (enough(blame))
        return;
    blame->changes[blame->change_count] = change;
    const size_t left = measure(blame, blame->change_count + 1, blame->trial);
    if (left >= blame->best_differences)
        return;
    for (size_t i = 0; i < picture_parts(blame->wanted); i++)
        if (blame->trial[i] && !blame->differs[i])
            return;
    blame->best = change;
    blame->best_differences = left;
}

/* A cell that is told in a map points at its word, not at the piece. */
static bool from_map(const struct cell *cell)
{
    return cell->span.start != cell->piece->element->name.start;
}

static void try_swaps(struct blame *blame, const struct piece *piece)
{
    const struct sized *sized = blame->sized;
    for (size_t i = 0; i < piece->cells.count; i++) {
        for (size_t k = i + 1; k < piece->cells.count && !enough(blame); k++) {
            const struct piece *a = piece->cells.items[i].piece;
            const struct piece *b = piece->cells.items[k].piece;
            const bool same_size = rational_equal(sized->width[a->index],
                                                  sized->width[b->index]) &&
                                   rational_equal(sized->height[a->index],
                                                  sized->height[b->index]);
            if (a->first != b->first &&
                (same_size || piece->kind != PIECE_GRID))
                try_change(&blame->slips, (struct change){.kind = CHANGE_SWAP,
                                                          .piece = piece,
                                                          .first = i,
                                                          .second = k});
        }
    }
}

/* Cells of a map have turns and mirrors of their own. */
static void try_cells(struct blame *blame, const struct piece *piece)
{
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        if (!from_map(cell))
            continue;
        const bool square =
            rational_equal(blame->sized->width[cell->piece->index],
                           blame->sized->height[cell->piece->index]);
        for (unsigned n = 1; n < 8; n++) {
            struct orientation o = cell->orientation;
            o.turn = (o.turn + n) % 4;
            o.mirror = n >= 4 ? !o.mirror : o.mirror;
            if (square || n % 2 == 0)
                try_change(&blame->slips, (struct change){.kind = CHANGE_CELL,
                                                          .piece = piece,
                                                          .first = i,
                                                          .orientation = o});
        }
    }
}

/* What its craft says, then what any piece may have: corners and cells. */
static void try_piece(struct blame *blame, const struct piece *piece)
{
    if (craft_of(piece)->slips != NULL)
        craft_of(piece)->slips(&blame->slips, piece);
    craft_corners.slips(&blame->slips, piece);
    if (piece->triangles != NULL) {
        try_places(blame, piece);
        return;
    }
    try_cells(blame, piece);
    try_swaps(blame, piece);
}

/* A block of a quilt that has a picture was held to that. */
static bool is_searched(const struct blame *blame,
                        const struct definition *target)
{
    return target != NULL &&
           (blame->block->kind != DEFINE_QUILT || target->picture == NULL);
}

/* All pieces of a definition and of what it uses, each once. A slip inside a
 * unit shows in the block, so units are searched, too, after the block's own
 * pieces. */
static void try_definition(struct blame *blame,
                           const struct definition *definition, bool *seen)
{
    const struct design *design = blame->sized->design;
    if (seen[definition->index] || enough(blame))
        return;
    seen[definition->index] = true;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->owner == definition && piece->first == piece)
            try_piece(blame, piece);
    }
    for (size_t i = 0; i < definition->uses.count; i++)
        if (is_searched(blame, definition->uses.items[i]->target))
            try_definition(blame, definition->uses.items[i]->target, seen);
}

/* A picture in which no cell can show the cloth says nothing of it, unless one
 * piece is merely in a wrong place. Another fabric would only hide the seam.
 * ensures: true where it was reported. */
static bool report_hidden(struct blame *blame)
{
    if (blame->change_count > 0 || blame->wanted->painted.count > 0 ||
        (blame->best_differences == 0 && blame->best.kind != CHANGE_FABRIC &&
         blame->best.kind != CHANGE_CORNER_FABRIC))
        return false;
    struct arena *arena = blame->run->arena;
    const struct cloth *cloth = design_faces(
        arena, blame->sized, pictured_piece(blame->block), NULL, 0);
    struct picture *made = picture_of(arena, cloth, blame->wanted);
    if (!picture_hides(made))
        return false;
    for (size_t i = 0; i < made->across * made->down; i++)
        made->cells[i].span = blame->wanted->cells[i].span;
    say_hidden(blame, cloth, made);
    return true;
}

enum { CELLS_FEW = 4 };

/* Its word, or its shape. */
static struct span part_span(const struct picture *picture, size_t i)
{
    return picture->painted.count > 0 ? picture->painted.items[i].span
                                      : picture->cells[i].span;
}

/* So many words of the picture differ, at most one more than a few: a group may
 * repeat each. */
static size_t words_differing(const struct blame *blame)
{
    uint32_t seen[CELLS_FEW];
    size_t count = 0;
    for (size_t i = 0; i < picture_parts(blame->wanted) && count <= CELLS_FEW;
         i++) {
        const uint32_t at = part_span(blame->wanted, i).start;
        size_t k = 0;
        while (blame->differs[i] && k < count && seen[k] != at)
            k++;
        if (!blame->differs[i] || k < count)
            continue;
        if (count < CELLS_FEW)
            seen[count] = at;
        count++;
    }
    return count;
}

/* On trial each cell that differs is an error of its own, so that a change is
 * seen to mend some of them. A few tell what the cloth shows. */
static void report_cells(struct blame *blame)
{
    struct run *run = blame->run;
    const struct picture *wanted = blame->wanted, *made = NULL;
    const bool painted = wanted->painted.count > 0;
    const size_t count =
        painted && !wanted->triangles ? 0 : words_differing(blame);
    if (!painted && count > 0 && count <= CELLS_FEW)
        made = picture_of(run->arena,
                          design_faces(run->arena, blame->sized,
                                       pictured_piece(blame->block), NULL, 0),
                          wanted);
    for (size_t i = 0; i < picture_parts(wanted); i++) {
        if (!blame->differs[i])
            continue;
        const struct span span = part_span(wanted, i);
        struct diagnostic *d =
            diag_report(run, DIAG_PICTURE, span, "part %zu differs", i);
        if (made != NULL)
            diag_mend(
                run, d, span,
                cell_text(run->arena, blame->sized->design, &made->cells[i]),
                "as the cloth is");
        else if (count > 0 && count <= CELLS_FEW)
            mend_row_part(blame, d, i);
    }
}

/* Each round finds one change and keeps it; what still differs is the next
 * round's. Fewer differences each time, so it ends. */
static void find_mistakes(struct blame *blame)
{
    struct arena *arena = blame->run->arena;
    blame->differs = ARENA_ARRAY(arena, bool, picture_parts(blame->wanted));
    blame->trial = ARENA_ARRAY(arena, bool, picture_parts(blame->wanted));
    blame->differences = measure(blame, 0, blame->differs);
    if (blame->run->trial) {
        report_cells(blame);
        return;
    }
    while (blame->differences > 0) {
        bool *seen =
            ARENA_ARRAY(arena, bool, blame->sized->design->definitions.count);
        blame->best = (struct change){.kind = CHANGE_NONE};
        blame->best_differences = blame->differences;
        if (blame->change_count + 1 < MOST_CHANGES)
            try_definition(blame, blame->block, seen);
        if (report_hidden(blame))
            return;
        if (blame->best.kind == CHANGE_NONE) {
            say_rest(blame);
            return;
        }
        say_change(blame, &blame->best);
        blame->changes[blame->change_count++] = blame->best;
        blame->differences =
            measure(blame, blame->change_count, blame->differs);
    }
}

/* A corner's stated line is the one that its place gives. Stated for the
 * reader's sake: `at` alone decides. */
static void check_corner_lines(struct run *run, const struct design *design)
{
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        for (size_t k = 0; piece->first == piece && k < piece->corners.count;
             k++) {
            const struct corner *corner = &piece->corners.items[k];
            const enum line_direction right = corner_line(corner->at);
            if (!corner->line_stated || corner->line == right)
                continue;
            const struct span span = value_span(corner->element, ATTR_LINE);
            struct diagnostic *d =
                diag_report(run, DIAG_LINE_DIRECTION, span,
                            "the line across the %s corner runs %s, not %s",
                            corner_name(corner->at), line_name(right),
                            line_name(corner->line));
            diag_note(run, d, value_span(corner->element, ATTR_AT),
                      "a line that cuts off the %s corner is %s, seen from "
                      "either side "
                      "as the square lies in place",
                      corner_name(corner->at), line_name(right));
            diag_mend(run, d, span, line_name(right), "line=\"%s\" holds",
                      line_name(right));
        }
    }
}

/* Without a picture nothing can be checked, which is a remark and no mistake.
 */
void check_pictures(struct run *run, const struct sized *sized)
{
    const struct design *design = sized->design;
    check_corner_lines(run, design);
    const bool *sound = sound_throughout(run->arena, sized);
    size_t work = 0;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *block = design->definitions.items[i];
        if (block->kind == DEFINE_UNIT || !sound[block->index] ||
            (block->kind == DEFINE_QUILT && block->picture == NULL))
            continue;
        if (block->picture == NULL) {
            diag_report(
                run, DIAG_NO_PICTURE, value_span(block->element, ATTR_ID),
                "`%s` has no picture to check its cloth against", block->id);
            continue;
        }
        struct blame blame = {.slips = {sized, try_change},
                              .run = run,
                              .sized = sized,
                              .block = block,
                              .before = work};
        blame.wanted = read_picture(run, sized, block);
        if (blame.wanted != NULL)
            find_mistakes(&blame);
        /* One look at each block is not searching. */
        if (blame.change_count > 0 || blame.differences > 0)
            work += blame.work;
    }
}
