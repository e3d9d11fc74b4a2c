/* Which mistake makes a block differ from its picture? Every single change is
 * tried on the solved geometry: the one after which the picture comes out is
 * the mistake, and the mend is proven by having been tried. Search, not rules:
 * changes are tried one at a time, the best is kept, and the search goes on
 * from there, so several slips in one block are told one by one. May assume a
 * block whose sizes are known and whose picture could be read. Read next:
 * design_faces.c. */
#include <string.h>

#include "design_faces.h"
#include "picture.h"

/* More slips than this are no slips. WORK_LIMIT bounds the faces that all
 * trials of one block look at: a block beyond it is told without a cause,
 * rather than after a long wait. */
enum { MOST_CHANGES = 8, WORK_LIMIT = 3000000 };

struct blame {
    struct run *run;
    const struct sized *sized;
    const struct definition *block;
    const struct picture *wanted;
    struct change changes[MOST_CHANGES]; /* mistakes found so far */
    size_t change_count;
    bool *differs; /* cells that differ, with those changes */
    size_t differences;
    bool *trial; /* the same for the change on trial */
    /* the best change of this round */
    struct change best;
    size_t best_differences;
    size_t work; /* faces looked at */
};

static size_t cell_count(const struct blame *blame)
{
    return picture_parts(blame->wanted);
}

/* ensures: how much differs from the picture with the first `count` changes;
 * flags what. A scratch arena a trial: thousands of them would fill the run's.
 */
static size_t measure(struct blame *blame, size_t count, bool *differs)
{
    struct arena *scratch = arena_create();
    struct cloth *cloth = design_faces(scratch, blame->sized, blame->block,
                                       blame->changes, count);
    const size_t differences =
        picture_compare(scratch, cloth, blame->wanted, differs);
    blame->work += cloth->faces.count + cell_count(blame);
    arena_destroy(scratch);
    return differences;
}

/* Better is: fewer differences, and no cell that was right is wrong now. The
 * first of two equal ones stays: likelier slips are tried first. */
static void try_change(struct blame *blame, struct change change)
{
    if (blame->work > WORK_LIMIT || blame->best_differences == 0)
        return;
    blame->changes[blame->change_count] = change;
    const size_t left = measure(blame, blame->change_count + 1, blame->trial);
    if (left >= blame->best_differences)
        return;
    for (size_t i = 0; i < cell_count(blame); i++)
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

/* Eight ways less the one it lies in. What is written is the likelier slip:
 * with only `mirror` written, mirrors come before turns. A quarter turn of what
 * is not square would not fit its place. */
static void try_orientations(struct blame *blame, const struct piece *piece)
{
    const bool square = rational_equal(blame->sized->width[piece->index],
                                       blame->sized->height[piece->index]);
    const bool mirror_first = piece->element->values[ATTR_MIRROR] != NULL &&
                              piece->element->values[ATTR_TURN] == NULL;
    for (unsigned n = 0; n < 8; n++) {
        const unsigned i = mirror_first ? (n + 4) % 8 : n;
        struct orientation o = piece->orientation;
        o.turn = (o.turn + i) % 4;
        o.mirror = i >= 4 ? !o.mirror : o.mirror;
        if (i == 0 || (i % 2 == 1 && !square))
            continue;
        try_change(blame, (struct change){.kind = CHANGE_ORIENTATION,
                                          .piece = piece,
                                          .orientation = o});
    }
}

static void try_corners(struct blame *blame, const struct piece *piece)
{
    for (size_t i = 0; i < piece->corners.count; i++) {
        for (unsigned at = 0; at < 4; at++)
            if (at != (unsigned)piece->corners.items[i].at)
                try_change(blame, (struct change){.kind = CHANGE_CORNER_PLACE,
                                                  .piece = piece,
                                                  .at = (enum corner_place)at,
                                                  .first = i});
        for (size_t f = 0; f < blame->sized->design->fabrics.count; f++)
            if ((int)f != piece->corners.items[i].fabric)
                try_change(blame, (struct change){.kind = CHANGE_CORNER_FABRIC,
                                                  .piece = piece,
                                                  .fabric = (int)f,
                                                  .first = i});
    }
}

static void try_swaps(struct blame *blame, const struct piece *piece)
{
    const struct sized *sized = blame->sized;
    for (size_t i = 0; i < piece->cells.count; i++) {
        for (size_t k = i + 1; k < piece->cells.count; k++) {
            const struct piece *a = piece->cells.items[i].piece;
            const struct piece *b = piece->cells.items[k].piece;
            const bool same_size = rational_equal(sized->width[a->index],
                                                  sized->width[b->index]) &&
                                   rational_equal(sized->height[a->index],
                                                  sized->height[b->index]);
            if (a != b && (same_size || piece->kind != PIECE_GRID))
                try_change(blame, (struct change){.kind = CHANGE_SWAP,
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
                try_change(blame, (struct change){.kind = CHANGE_CELL,
                                                  .piece = piece,
                                                  .first = i,
                                                  .orientation = o});
        }
    }
}

/* What can be wrong with this kind. A container has nothing but its cells and
 * corners. */
static void try_piece(struct blame *blame, const struct piece *piece)
{
    switch (piece->kind) {
    case PIECE_DIAGONAL:
        try_change(blame, (struct change){.kind = CHANGE_LINE, .piece = piece});
        break;
    case PIECE_HALF_SQUARE:
        try_change(blame, (struct change){.kind = CHANGE_LINE, .piece = piece});
        try_change(blame, (struct change){.kind = CHANGE_HALF_FABRICS,
                                          .piece = piece});
        break;
    case PIECE_USE:
        try_orientations(blame, piece);
        break;
    case PIECE_PATCH:
        for (size_t f = 0; f < blame->sized->design->fabrics.count; f++)
            if ((int)f != piece->fabric)
                try_change(blame, (struct change){.kind = CHANGE_FABRIC,
                                                  .piece = piece,
                                                  .fabric = (int)f});
        break;
    case PIECE_ROW:
    case PIECE_COLUMN:
    case PIECE_GRID:
        break;
    }
    try_corners(blame, piece);
    try_cells(blame, piece);
    try_swaps(blame, piece);
}

/* All pieces of a definition and of what it uses, each once. A slip inside a
 * unit shows in the block, so units are searched, too, after the block's own
 * pieces. */
static void try_definition(struct blame *blame,
                           const struct definition *definition, bool *seen)
{
    const struct design *design = blame->sized->design;
    if (seen[definition->index])
        return;
    seen[definition->index] = true;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->owner == definition)
            try_piece(blame, piece);
    }
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->owner == definition && piece->target != NULL)
            try_definition(blame, piece->target, seen);
    }
}

/* ---- what is said of the mistake ---- */

static size_t first_difference(const struct blame *blame)
{
    size_t i = 0;
    while (i < cell_count(blame) && !blame->differs[i])
        i++;
    return i;
}

/* "row 1, column 3 of the picture asks for n/f; the cloth shows n\f" */
static void note_cell(struct blame *blame, struct diagnostic *d)
{
    if (blame->wanted->painted.count > 0) {
        const struct painted *part =
            &blame->wanted->painted.items[first_difference(blame)];
        diag_note(blame->run, d, part->span,
                  "the picture of `%s` asks for `%s` in this shape",
                  blame->block->id,
                  blame->sized->design->fabrics.items[part->face.fabric].id);
        return;
    }
    struct arena *arena = blame->run->arena;
    const struct design *design = blame->sized->design;
    const struct picture *made =
        picture_of(arena,
                   design_faces(arena, blame->sized, blame->block,
                                blame->changes, blame->change_count),
                   blame->wanted);
    const size_t i = first_difference(blame);
    diag_note(blame->run, d, blame->wanted->cells[i].span,
              "row %zu, column %zu of the picture of `%s` asks for %s; the "
              "cloth shows %s",
              i / blame->wanted->across + 1, i % blame->wanted->across + 1,
              blame->block->id,
              cell_text(arena, design, &blame->wanted->cells[i]),
              cell_text(arena, design, &made->cells[i]));
}

/* Where the piece's unit is used in the block: the mirror in between. */
static void note_uses(struct blame *blame, struct diagnostic *d,
                      const struct definition *owner)
{
    const struct design *design = blame->sized->design;
    size_t told = 0;
    for (size_t i = 0;
         owner != blame->block && i < design->pieces.count && told < 2; i++) {
        const struct piece *use = design->pieces.items[i];
        if (use->target != owner || use->owner != blame->block)
            continue;
        diag_note(blame->run, d, use->element->name, "`%s` is used here%s%s%s",
                  owner->id, use->orientation.mirror ? ", mirrored" : "",
                  use->orientation.turn > 0 ? ", turned " : "",
                  use->orientation.turn == 0   ? ""
                  : use->orientation.turn == 1 ? "90"
                  : use->orientation.turn == 2 ? "180"
                                               : "270");
        told++;
    }
}

static struct diagnostic *say_line(struct blame *blame,
                                   const struct piece *piece)
{
    const char *found = line_name(piece->line);
    const char *right =
        line_name(piece->line == LINE_RISING ? LINE_FALLING : LINE_RISING);
    const struct span span = value_span(piece->element, ATTR_LINE);
    struct diagnostic *d = diag_report(
        blame->run, DIAG_LINE_DIRECTION, span,
        "the diagonal is drawn %s, but the picture needs it %s", found, right);
    diag_label(blame->run, d, "%s", found);
    diag_mend(blame->run, d, span, right, "line=\"%s\" makes the picture",
              right);
    return d;
}

static const char *orientation_text(struct arena *arena, struct orientation o)
{
    if (o.turn == 0)
        return o.mirror ? "mirrored" : "as it is";
    return arena_printf(arena, "%sturned %u", o.mirror ? "mirrored and " : "",
                        o.turn * 90);
}

/* A mend that sets an attribute, whether it is there or not. */
static void mend_attribute(struct run *run, struct diagnostic *d,
                           const struct element *element, enum attribute_id id,
                           const char *text, const char *why)
{
    const struct value *value = element->values[id];
    const struct span behind = {element->name.end, element->name.end};
    const char *written =
        arena_printf(run->arena, " %s=\"%s\"", attribute_name(id), text);
    diag_mend(run, d, value != NULL ? value->span : behind,
              value != NULL ? text : written, "%s=\"%s\" %s",
              attribute_name(id), text, why);
}

static struct diagnostic *say_orientation(struct blame *blame,
                                          const struct piece *piece,
                                          struct orientation right)
{
    struct run *run = blame->run;
    const struct element *element = piece->element;
    const bool turned = right.turn != piece->orientation.turn;
    const bool mirrored = right.mirror != piece->orientation.mirror;
    const enum attribute_id id = turned ? ATTR_TURN : ATTR_MIRROR;
    struct diagnostic *d = diag_report(
        run, DIAG_USE_TURN, value_span(element, id),
        "`%s` lies %s here, but the picture needs it %s", piece->target->id,
        orientation_text(run->arena, piece->orientation),
        orientation_text(run->arena, right));
    const char *turn = arena_printf(run->arena, "%u", right.turn * 90);
    const char *mirror = right.mirror ? "yes" : "no";
    if (turned && mirrored)
        diag_help(run, d, "turn=\"%s\" mirror=\"%s\" makes the picture", turn,
                  mirror);
    else
        mend_attribute(run, d, element, id, turned ? turn : mirror,
                       "makes the picture");
    return d;
}

static struct diagnostic *say_cell(struct blame *blame,
                                   const struct change *change)
{
    struct run *run = blame->run;
    const struct cell *cell = &change->piece->cells.items[change->first];
    const struct orientation o = change->orientation;
    struct diagnostic *d =
        diag_report(run, DIAG_USE_TURN, cell->span,
                    "this cell lies %s, but the picture needs it %s",
                    orientation_text(run->arena, cell->orientation),
                    orientation_text(run->arena, o));
    const char *turn =
        o.turn == 0 ? "" : arena_printf(run->arena, "%u", o.turn * 90);
    const char *word = arena_printf(
        run->arena, "%c%s%s%s", run->source->bytes[cell->span.start],
        o.turn > 0 || o.mirror ? "." : "", o.mirror ? "m" : "", turn);
    diag_mend(run, d, cell->span, word, "%s makes the picture", word);
    return d;
}

static struct diagnostic *say_corner(struct blame *blame,
                                     const struct piece *piece,
                                     const struct change *change)
{
    const struct corner *corner = &piece->corners.items[change->first];
    const struct span span = value_span(corner->element, ATTR_AT);
    const char *right = corner_name(change->at);
    struct diagnostic *d = diag_report(
        blame->run, DIAG_CORNER_PLACE, span,
        "the corner lies at the %s, but the picture needs it at the %s",
        corner_name(corner->at), right);
    diag_note(blame->run, d, (struct span){0, 0},
              "its line would run %s instead of %s as it lies on the piece",
              line_name(corner_line(change->at)),
              line_name(corner_line(corner->at)));
    diag_mend(blame->run, d, span, right, "at=\"%s\" makes the picture", right);
    return d;
}

static struct diagnostic *say_fabric(struct blame *blame,
                                     const struct element *element, int found,
                                     int right)
{
    const struct design *design = blame->sized->design;
    const struct span span = value_span(element, ATTR_FABRIC);
    const char *name = design->fabrics.items[right].id;
    struct diagnostic *d = diag_report(
        blame->run, DIAG_WRONG_FABRIC, span,
        "the `%s` is of `%s`, but the picture needs `%s`",
        element_name(element->kind), design->fabrics.items[found].id, name);
    diag_mend(blame->run, d, span, name, "fabric=\"%s\" makes the picture",
              name);
    return d;
}

static struct diagnostic *say_swap(struct blame *blame,
                                   const struct change *change)
{
    const struct cell *first = &change->piece->cells.items[change->first];
    const struct cell *second = &change->piece->cells.items[change->second];
    struct diagnostic *d = diag_report(
        blame->run, DIAG_SWAPPED, first->span,
        "number %zu and number %zu of this `%s` are in each other's place",
        change->first + 1, change->second + 1,
        element_name(change->piece->element->kind));
    diag_note(blame->run, d, second->span, "the other one");
    diag_help(blame->run, d, "exchanged, they make the picture");
    return d;
}

static void say_halves(struct blame *blame, const struct piece *piece)
{
    struct diagnostic *d = diag_report(
        blame->run, DIAG_SWAPPED, value_span(piece->element, ATTR_LEFT),
        "`left` and `right` of the half-square are in each other's place");
    note_cell(blame, d);
    note_uses(blame, d, piece->owner);
    diag_help(blame->run, d, "exchanged, they make the picture");
}

static void say_change(struct blame *blame, const struct change *change)
{
    struct diagnostic *d = NULL;
    const struct piece *piece = change->piece;
    switch (change->kind) {
    case CHANGE_LINE:
        d = say_line(blame, piece);
        break;
    case CHANGE_ORIENTATION:
        d = say_orientation(blame, piece, change->orientation);
        break;
    case CHANGE_CORNER_PLACE:
        d = say_corner(blame, piece, change);
        break;
    case CHANGE_FABRIC:
        d = say_fabric(blame, piece->element, piece->fabric, change->fabric);
        break;
    case CHANGE_CORNER_FABRIC:
        d = say_fabric(blame, piece->corners.items[change->first].element,
                       piece->corners.items[change->first].fabric,
                       change->fabric);
        break;
    case CHANGE_CELL:
        d = say_cell(blame, change);
        break;
    case CHANGE_SWAP:
        d = say_swap(blame, change);
        break;
    case CHANGE_HALF_FABRICS:
        say_halves(blame, piece);
        return;
    case CHANGE_NONE:
        return;
    }
    note_cell(blame, d);
    note_uses(blame, d, piece->owner);
}

static void say_shape(struct blame *blame)
{
    const struct painted *part =
        &blame->wanted->painted.items[first_difference(blame)];
    struct diagnostic *d = diag_report(
        blame->run, DIAG_PICTURE, part->span,
        "the picture asks for `%s` in this shape, but the cloth shows "
        "something else",
        blame->sized->design->fabrics.items[part->face.fabric].id);
    diag_note(blame->run, d, (struct span){0, 0},
              "no single change to a piece of `%s` mends it", blame->block->id);
}

/* reports: what no change mends, with the first cell that differs. Of a single
 * cell it may be the picture that is wrong. */
static void say_rest(struct blame *blame)
{
    if (blame->wanted->painted.count > 0) {
        say_shape(blame);
        return;
    }
    size_t cells = 0;
    for (size_t i = 0; i < cell_count(blame); i++)
        cells += blame->differs[i];
    struct arena *arena = blame->run->arena;
    const struct design *design = blame->sized->design;
    const struct picture *made =
        picture_of(arena,
                   design_faces(arena, blame->sized, blame->block,
                                blame->changes, blame->change_count),
                   blame->wanted);
    const size_t i = first_difference(blame);
    struct diagnostic *d = diag_report(
        blame->run, DIAG_PICTURE, blame->wanted->cells[i].span,
        "the picture asks for %s in row %zu, column %zu, but the cloth shows "
        "%s",
        cell_text(arena, design, &blame->wanted->cells[i]),
        i / blame->wanted->across + 1, i % blame->wanted->across + 1,
        cell_text(arena, design, &made->cells[i]));
    diag_note(
        blame->run, d, (struct span){0, 0},
        "%zu cell%s of `%s` differ%s, and no single change to a piece mends %s",
        cells, cells == 1 ? "" : "s", blame->block->id, cells == 1 ? "s" : "",
        cells == 1 ? "it" : "them all");
    if (cells == 1)
        diag_help(blame->run, d,
                  "if the cloth is right, write %s in the picture",
                  cell_text(arena, design, &made->cells[i]));
}

/* Each round finds one change and keeps it; what still differs is the next
 * round's. Fewer differences each time, so it ends. */
static void find_mistakes(struct blame *blame)
{
    struct arena *arena = blame->run->arena;
    blame->differs = ARENA_ARRAY(arena, bool, cell_count(blame));
    blame->trial = ARENA_ARRAY(arena, bool, cell_count(blame));
    blame->differences = measure(blame, 0, blame->differs);
    while (blame->differences > 0) {
        bool *seen =
            ARENA_ARRAY(arena, bool, blame->sized->design->definitions.count);
        blame->best = (struct change){.kind = CHANGE_NONE};
        blame->best_differences = blame->differences;
        if (blame->change_count + 1 < MOST_CHANGES)
            try_definition(blame, blame->block, seen);
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

/* Whether everything down to the last unit has sizes to draw with. */
static bool uses_sound(const struct sized *sized,
                       const struct definition *definition)
{
    if (!sized->sound[definition->index])
        return false;
    const struct design *design = sized->design;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->owner == definition && piece->target != NULL &&
            !uses_sound(sized, piece->target))
            return false;
    }
    return true;
}

/* A corner's stated line is the one that its place gives. Stated for the
 * reader's sake: `at` alone decides. */
static void check_corner_lines(struct run *run, const struct design *design)
{
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        for (size_t k = 0; k < piece->corners.count; k++) {
            const struct corner *corner = &piece->corners.items[k];
            const struct value *stated = value_of(corner->element, ATTR_LINE);
            if (stated == NULL || value_of(corner->element, ATTR_AT) == NULL)
                continue;
            const enum line_direction right = corner_line(corner->at);
            if (stated->choice == (int)right)
                continue;
            struct diagnostic *d = diag_report(
                run, DIAG_LINE_DIRECTION, stated->span,
                "the line across the %s corner runs %s, not %s",
                corner_name(corner->at), line_name(right), stated->text);
            diag_note(run, d, value_span(corner->element, ATTR_AT),
                      "a line that cuts off the %s corner is %s, seen from "
                      "either side "
                      "as the square lies in place",
                      corner_name(corner->at), line_name(right));
            diag_mend(run, d, stated->span, line_name(right),
                      "line=\"%s\" holds", line_name(right));
        }
    }
}

/* Without a picture nothing can be checked, which is a remark and no mistake.
 */
void check_pictures(struct run *run, const struct sized *sized)
{
    const struct design *design = sized->design;
    check_corner_lines(run, design);
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *block = design->definitions.items[i];
        if (block->kind != DEFINE_BLOCK || !uses_sound(sized, block))
            continue;
        if (block->picture == NULL) {
            diag_report(
                run, DIAG_NO_PICTURE, value_span(block->element, ATTR_ID),
                "`%s` has no picture to check its cloth against", block->id);
            continue;
        }
        struct blame blame = {.run = run, .sized = sized, .block = block};
        blame.wanted = read_picture(run, sized, block);
        if (blame.wanted != NULL)
            find_mistakes(&blame);
    }
}
