/* What is said of a mistake that blame.c has found. */
#include "blame.h"

#include <string.h>

#include "buffer.h"

static size_t first_difference(const struct blame *blame)
{
    size_t i = 0;
    while (i < picture_parts(blame->wanted) && !blame->differs[i])
        i++;
    return i;
}

/* Which part of a cell differs, in words: two quarters beside each other are a
 * corner. Quarters: top, right, bottom, left. */
static const char *place_of(const bool differs[4])
{
    static const char *const corners[] = {"top-right", "bottom-right",
                                          "bottom-left", "top-left"};
    static const char *const sides[] = {"top", "right", "bottom", "left"};
    size_t count = 0;
    for (int i = 0; i < 4; i++)
        count += differs[i];
    for (int i = 0; i < 4; i++) {
        if (count == 2 && differs[i] && differs[(i + 1) % 4])
            return corners[i];
        if (count == 1 && differs[i])
            return sides[i];
    }
    return NULL;
}

/* ": `night` at the bottom-left instead of `flame`", where one pair of fabrics
 * tells it all; else nothing. */
static const char *difference_text(const struct blame *blame,
                                   const struct picture_cell *wanted,
                                   const struct picture_cell *made)
{
    const struct design *design = blame->sized->design;
    bool differs[4] = {false};
    int first = -1;
    for (int i = 0; i < 4; i++) {
        if (wanted->quarters[i] == made->quarters[i])
            continue;
        first = first < 0 ? i : first;
        differs[i] = wanted->quarters[i] == wanted->quarters[first] &&
                     made->quarters[i] == made->quarters[first];
    }
    const char *place = place_of(differs);
    if (place == NULL || made->quarters[first] < 0)
        return "";
    return arena_printf(blame->run->arena, ": `%s` at the %s instead of `%s`",
                        fabric_id(design, made->quarters[first]), place,
                        fabric_id(design, wanted->quarters[first]));
}

/* What the cloth shows with the mistakes found so far mended. */
static const struct picture *made_picture(const struct blame *blame)
{
    struct arena *arena = blame->run->arena;
    const struct cloth *cloth =
        design_faces(arena, blame->sized, pictured_piece(blame->block),
                     blame->changes, blame->change_count);
    return picture_of(arena, cloth, blame->wanted);
}

/* What the picture is told as, where not as the cells of a block. */
static const char *part_word(const struct blame *blame)
{
    return blame->block->shapes.count > 0 ? "shape" : "cell";
}

/* "row 1, column 3 of the picture asks for n/f; the cloth shows n\f" */
static void note_cell(struct blame *blame, struct diagnostic *d)
{
    if (blame->wanted->triangles) {
        note_row_part(blame, d, first_difference(blame));
        return;
    }
    if (blame->wanted->painted.count > 0) {
        const struct painted *part =
            &blame->wanted->painted.items[first_difference(blame)];
        diag_note(blame->run, d, part->span,
                  "the picture of `%s` asks for `%s` in this %s",
                  blame->block->id,
                  fabric_id(blame->sized->design, part->face.fabric),
                  part_word(blame));
        return;
    }
    struct arena *arena = blame->run->arena;
    const struct design *design = blame->sized->design;
    const struct picture *made = made_picture(blame);
    const size_t i = first_difference(blame);
    diag_note(
        blame->run, d, blame->wanted->cells[i].span,
        "row %zu, column %zu of the picture of `%s` asks for %s; the "
        "cloth shows %s%s",
        i / blame->wanted->across + 1, i % blame->wanted->across + 1,
        blame->block->id, cell_text(arena, design, &blame->wanted->cells[i]),
        cell_text(arena, design, &made->cells[i]),
        difference_text(blame, &blame->wanted->cells[i], &made->cells[i]));
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

/* A mend that sets the turn or the mirror, whether it is there or not. */
static void mend_orientation(struct run *run, struct diagnostic *d,
                             const struct piece *piece, enum attribute_id id,
                             const char *text)
{
    const struct element *element = piece->element;
    const bool there =
        id == ATTR_TURN ? piece->turn_written : piece->mirror_written;
    const struct span behind = {element->name.end, element->name.end};
    const char *whole =
        arena_printf(run->arena, " %s=\"%s\"", attribute_name(id), text);
    diag_mend(run, d, there ? value_span(element, id) : behind,
              there ? text : whole, "%s=\"%s\" makes the picture",
              attribute_name(id), text);
}

static struct diagnostic *say_orientation(struct blame *blame,
                                          const struct piece *piece,
                                          struct orientation right)
{
    struct run *run = blame->run;
    const bool turned = right.turn != piece->orientation.turn;
    const bool mirrored = right.mirror != piece->orientation.mirror;
    const enum attribute_id id = turned ? ATTR_TURN : ATTR_MIRROR;
    struct diagnostic *d = diag_report(
        run, DIAG_USE_TURN, value_span(piece->element, id),
        "`%s` lies %s here, but the picture needs it %s", piece->target->id,
        orientation_text(run->arena, piece->orientation),
        orientation_text(run->arena, right));
    const char *turn = arena_printf(run->arena, "%u", right.turn * 90);
    const char *mirror = right.mirror ? "yes" : "no";
    if (turned && mirrored)
        diag_help(run, d, "turn=\"%s\" mirror=\"%s\" makes the picture", turn,
                  mirror);
    else
        mend_orientation(run, d, piece, id, turned ? turn : mirror);
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

/* A word that says which way a piece points. The mend writes it where it stands
 * nowhere yet. */
static struct diagnostic *say_word(struct blame *blame,
                                   const struct change *change)
{
    const struct element *element = change->piece->element;
    const char *name = attribute_name(change->attribute);
    const struct span span = value_span(element, change->attribute);
    const bool there = span.start != element->name.start;
    const struct span behind = {element->name.end, element->name.end};
    struct diagnostic *d = diag_report(
        blame->run, DIAG_WRONG_DIRECTION, span,
        "the `%s` has %s=\"%s\", but the picture needs %s=\"%s\"",
        element_name(element->kind), name, change->found, name, change->word);
    diag_mend(blame->run, d, there ? span : behind,
              there ? change->word
                    : arena_printf(blame->run->arena, " %s=\"%s\"", name,
                                   change->word),
              "%s=\"%s\" makes the picture", name, change->word);
    return d;
}

static struct diagnostic *say_fabric(struct blame *blame,
                                     const struct element *element,
                                     enum attribute_id id, int found, int right)
{
    const struct design *design = blame->sized->design;
    const struct span span = value_span(element, id);
    const char *name = fabric_id(design, right);
    struct diagnostic *d = diag_report(
        blame->run, DIAG_WRONG_FABRIC, span,
        "the `%s` is of `%s`, but the picture needs `%s`",
        element_name(element->kind), fabric_id(design, found), name);
    diag_mend(blame->run, d, span, name, "%s=\"%s\" makes the picture",
              attribute_name(id), name);
    return d;
}

/* Two places of the source change places. requires: they do not overlap. */
static void mend_exchange(struct run *run, struct diagnostic *d, struct span a,
                          struct span b)
{
    const char *bytes = run->source->bytes;
    if (b.start < a.start) {
        const struct span first = b;
        b = a;
        a = first;
    }
    diag_mend(run, d, (struct span){a.start, b.end},
              arena_printf(run->arena, "%.*s%.*s%.*s", (int)(b.end - b.start),
                           bytes + b.start, (int)(b.start - a.end),
                           bytes + a.end, (int)(a.end - a.start),
                           bytes + a.start),
              "exchanged, they make the picture");
}

/* The word of a map, or the whole element. */
static struct span cell_source(const struct run *run, const struct cell *cell)
{
    const struct element *element = cell->piece->element;
    return cell->span.start == element->name.start
               ? element_span(run->source, element)
               : cell->span;
}

/* As it is counted in the source, which does not tell the halves at the ends of
 * rows of triangles. */
static size_t number_of_cell(const struct piece *piece, size_t i)
{
    size_t number = i + 1;
    for (size_t row = 0; piece->triangles != NULL &&
                         row < piece->triangles->rows &&
                         piece->triangles->first[row] < i;
         row++)
        number -= row == 0 ? 1 : 2;
    return number;
}

static struct diagnostic *say_swap(struct blame *blame,
                                   const struct change *change)
{
    const struct cell *first = &change->piece->cells.items[change->first];
    const struct cell *second = &change->piece->cells.items[change->second];
    struct diagnostic *d = diag_report(
        blame->run, DIAG_SWAPPED, first->span,
        "number %zu and number %zu of this `%s` are in each other's place",
        number_of_cell(change->piece, change->first),
        number_of_cell(change->piece, change->second),
        element_name(change->piece->element->kind));
    diag_note(blame->run, d, second->span, "the other one");
    mend_exchange(blame->run, d, cell_source(blame->run, first),
                  cell_source(blame->run, second));
    return d;
}

static void say_exchanged(struct blame *blame, const struct change *change)
{
    const struct piece_fabric *fabrics = change->piece->fabrics.items;
    const struct element *element = change->piece->element;
    const enum attribute_id first = fabrics[change->first].attribute;
    struct diagnostic *d =
        diag_report(blame->run, DIAG_SWAPPED, value_span(element, first),
                    "`%s` and `%s` of the %s are in each other's place",
                    attribute_name(first),
                    attribute_name(fabrics[change->second].attribute),
                    element_name(element->kind));
    note_cell(blame, d);
    note_uses(blame, d, change->piece->owner);
    mend_exchange(blame->run, d, value_span(element, first),
                  value_span(element, fabrics[change->second].attribute));
}

void say_change(struct blame *blame, const struct change *change)
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
        d = say_fabric(blame, piece->element,
                       piece->fabrics.items[change->first].attribute,
                       piece->fabrics.items[change->first].fabric,
                       change->fabric);
        break;
    case CHANGE_CORNER_FABRIC:
        d = say_fabric(blame, piece->corners.items[change->first].element,
                       ATTR_FABRIC, piece->corners.items[change->first].fabric,
                       change->fabric);
        break;
    case CHANGE_CELL:
        d = say_cell(blame, change);
        break;
    case CHANGE_SWAP:
        d = say_swap(blame, change);
        break;
    case CHANGE_PATCH:
        d = say_patch(blame, change);
        break;
    case CHANGE_WORD:
        d = say_word(blame, change);
        break;
    case CHANGE_FABRICS_EXCHANGED:
        say_exchanged(blame, change);
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
        "the picture asks for `%s` in this %s, but the cloth shows something "
        "else",
        fabric_id(blame->sized->design, part->face.fabric), part_word(blame));
    diag_note(blame->run, d, (struct span){0, 0},
              "no other line, turn, fabric or place of one piece of `%s` mends "
              "it",
              blame->block->id);
}

/* reports: what no change mends, with the first cell that differs. Of a single
 * cell it may be the picture that is wrong. */
void say_rest(struct blame *blame)
{
    if (blame->wanted->triangles) {
        say_row_part(blame, first_difference(blame));
        return;
    }
    if (blame->wanted->painted.count > 0) {
        say_shape(blame);
        return;
    }
    size_t cells = 0;
    for (size_t i = 0; i < picture_parts(blame->wanted); i++)
        cells += blame->differs[i];
    struct arena *arena = blame->run->arena;
    const struct design *design = blame->sized->design;
    const struct picture *made = made_picture(blame);
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
        "%zu cell%s of `%s` differ%s; no other line, turn, fabric or place of "
        "one piece mends %s",
        cells, cells == 1 ? "" : "s", blame->block->id, cells == 1 ? "s" : "",
        cells == 1 ? "it" : "them all");
    const char *shown = cell_text(arena, design, &made->cells[i]);
    if (cells == 1 && strchr(shown, '?') == NULL)
        diag_mend(blame->run, d, blame->wanted->cells[i].span, shown,
                  "if the cloth is right, write %s in the picture", shown);
}
