/* Units, blocks and quilts; definitions inside themselves. Two rounds: first
 * every name, then every content, so that the order in the source is free. Ends
 * with no definition inside itself and none too deep inside others (uses.c),
 * which lets every later walk over uses recurse without a guard. Read next:
 * pieces.c. */
#include "resolver.h"

/* requires: one of the three elements that define. */
static enum definition_kind definition_kind_of(enum element_kind kind)
{
    return kind == ELEMENT_UNIT    ? DEFINE_UNIT
           : kind == ELEMENT_BLOCK ? DEFINE_BLOCK
                                   : DEFINE_QUILT;
}

/* A written grid makes the definition gridded even where it cannot be read: its
 * lengths were meant as squares. reports: squares that are not whole, or that
 * have a unit. */
static void read_grid(struct resolver *resolver, struct definition *definition)
{
    const struct value *grid = value_of(definition->element, ATTR_GRID);
    definition->gridded = written_value(definition->element, ATTR_GRID) != NULL;
    definition->grid_across = definition->grid_down = rational_unknown();
    if (grid == NULL)
        return;
    definition->grid_across = grid->number;
    definition->grid_down = grid->second;
    if (grid->number.den != 1 || grid->second.den != 1 || grid->has_unit)
        report_about(resolver, definition->element, DIAG_VALUE, grid->span,
                     "grid=%s is not a whole number of squares",
                     quoted(resolver->run->arena, grid->text));
}

/* reports: an id that is taken, whatever kind has it: steps name units, blocks
 * and quilts alike. */
static void note_name(struct resolver *resolver,
                      const struct definition *definition)
{
    struct design *design = resolver->design;
    size_t first = definition->index, found;
    for (int kind = 0; kind < DEFINE_COUNT; kind++)
        if (name_table_find(&design->named[kind], definition->id, &found) &&
            found < first)
            first = found;
    name_table_add(resolver->run->arena, &design->named[definition->kind],
                   definition->id, definition->index);
    if (first == definition->index)
        return;
    const struct element *element = definition->element;
    const struct element *other = design->definitions.items[first]->element;
    struct diagnostic *d = report_about(
        resolver, element, DIAG_DOUBLE_NAME, value_span(element, ATTR_ID),
        "the name `%s` is taken", definition->id);
    diag_note(resolver->run, d, value_span(other, ATTR_ID),
              "by the %s of that name", element_name(other->kind));
}

/* First all names, so that a use may stand before what it names. "?" stands for
 * an id that is missing, which was reported. */
static void name_definitions(struct resolver *resolver)
{
    struct design *design = resolver->design;
    const struct element *root = design->pattern->root;
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *element = root->children.items[i];
        if (element->kind != ELEMENT_UNIT && element->kind != ELEMENT_BLOCK &&
            element->kind != ELEMENT_QUILT)
            continue;
        struct definition *definition =
            ARENA_NEW(resolver->run->arena, struct definition);
        definition->kind = definition_kind_of(element->kind);
        definition->element = element;
        definition->id = text_of(element, ATTR_ID, "?");
        definition->name = text_of(element, ATTR_NAME, definition->id);
        definition->unsound = element->unsound;
        definition->index = design->definitions.count;
        *LIST_ADD(resolver->run->arena, &design->definitions) = definition;
        definition->width = stated_of(element, ATTR_WIDTH);
        definition->height = stated_of(element, ATTR_HEIGHT);
        definition->finished = stated_of(element, ATTR_FINISHED);
        read_grid(resolver, definition);
        if (definition->id[0] != '?')
            note_name(resolver, definition);
        resolve_roles(resolver, definition);
    }
}

/* Only the first piece counts as the root; reading has reported a second one.
 */
static void fill_definition(struct resolver *resolver,
                            struct definition *definition)
{
    const struct element *element = definition->element;
    const struct element *picture = NULL;
    resolver->within = definition;
    definition->backing_fabric = definition->binding_fabric = NO_FABRIC;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (child->kind == ELEMENT_BORDER) {
            read_border(resolver, definition, child);
        } else if (is_piece(child->kind)) {
            reject_times_alone(resolver, child);
            if (definition->root == NULL)
                definition->root = resolve_piece(resolver, definition, child);
        } else if (child->kind == ELEMENT_PICTURE) {
            picture = child;
        } else if (child->kind == ELEMENT_BACKING) {
            definition->backing = child;
            definition->backing_overage = length_of(child, ATTR_OVERAGE);
            definition->backing_together =
                choice_of(child, ATTR_BOUGHT, 0) == 1;
            definition->backing_fabric =
                bind_fabric(resolver, child, ATTR_FABRIC);
        } else if (child->kind == ELEMENT_BATTING) {
            definition->batting = child;
            definition->batting_overage = length_of(child, ATTR_OVERAGE);
            definition->batting_gap = length_of(child, ATTR_MAX_GAP);
        } else if (child->kind == ELEMENT_BINDING) {
            definition->binding = child;
            definition->binding_width = length_of(child, ATTR_WIDTH);
            definition->binding_fabric =
                bind_fabric(resolver, child, ATTR_FABRIC);
        }
    }
    /* It may name pieces of a quilt, wherever they stand. */
    if (picture != NULL)
        resolve_picture(resolver, definition, picture);
    place_borders(resolver, definition);
    resolver->within = NULL;
}

/* Pieces of cloth in one piece, everything that it uses counted; at most one
 * more than the limit. `counts` holds those of definitions, 0 for not yet. */
static size_t cloth_pieces(const struct piece *piece, size_t *counts);

static size_t definition_pieces(const struct definition *definition,
                                size_t *counts)
{
    size_t *count = &counts[definition->index];
    if (*count == 0 && definition->root != NULL)
        *count = cloth_pieces(definition->whole, counts);
    return *count;
}

static size_t cloth_pieces(const struct piece *piece, size_t *counts)
{
    size_t count = 1 + piece->corners.count;
    if (piece->target != NULL)
        count += definition_pieces(piece->target, counts);
    const struct piece *last = NULL;
    size_t each = 0;
    for (size_t i = 0; i < piece->cells.count && count <= LIMIT_PIECES; i++) {
        /* One child that is repeated is looked at once. */
        if (piece->cells.items[i].piece->first != last)
            each = cloth_pieces(piece->cells.items[i].piece, counts);
        last = piece->cells.items[i].piece->first;
        count += each;
    }
    return count > LIMIT_PIECES ? LIMIT_PIECES + 1 : count;
}

/* A quilt is sewn, a block is drawn beside its picture, each by itself: work is
 * that of all together. Where one alone is too much, that was told. */
static void check_all_pieces(struct resolver *resolver, const size_t *counts)
{
    const struct design *design = resolver->design;
    size_t quilts = 0, blocks = 0, most = 0;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const bool quilt = design->definitions.items[i]->kind == DEFINE_QUILT;
        *(quilt ? &quilts : &blocks) += counts[i];
        most = counts[i] > most ? counts[i] : most;
    }
    if (most <= LIMIT_PIECES &&
        (quilts > LIMIT_PIECES || blocks > LIMIT_PIECES))
        diag_report(resolver->run, DIAG_LIMIT, design->pattern->root->name,
                    "all %s together take more than %d pieces",
                    quilts > LIMIT_PIECES ? "quilts" : "units and blocks",
                    LIMIT_PIECES);
    else if (most <= LIMIT_PIECES &&
             quilts * design->colorways.count > LIMIT_DRAWN)
        diag_report(resolver->run, DIAG_LIMIT, design->pattern->root->name,
                    "all booklets together draw more than %d pieces: %zu in "
                    "all quilts, in %zu colorways",
                    LIMIT_DRAWN, quilts, design->colorways.count);
}

/* Units inside units double with each level: what no one could sew would also
 * keep the later stages busy for ever. Told where the limit is passed first;
 * not where repeats that are too many were told. */
static void check_pieces(struct resolver *resolver)
{
    const struct design *design = resolver->design;
    size_t *counts = ARENA_ARRAY(resolver->run->arena, size_t,
                                 design->definitions.count + 1);
    const bool told = design->repeats > LIMIT_PIECES;
    for (size_t i = 0; i < design->definitions.count; i++) {
        struct definition *definition = design->definitions.items[i];
        if (definition_pieces(definition, counts) <= LIMIT_PIECES)
            continue;
        bool inner = false;
        for (size_t k = 0; k < definition->uses.count; k++) {
            const struct piece *piece = definition->uses.items[k];
            inner |= piece->target != NULL &&
                     definition_pieces(piece->target, counts) > LIMIT_PIECES;
        }
        if (!inner && !told)
            report_about(resolver, definition->element, DIAG_LIMIT,
                         value_span(definition->element, ATTR_ID),
                         "one `%s` takes more than %d pieces", definition->id,
                         LIMIT_PIECES);
        definition->unsound = true;
    }
    if (!told)
        check_all_pieces(resolver, counts);
}

void resolve_definitions(struct resolver *resolver)
{
    name_definitions(resolver);
    for (size_t i = 0; i < resolver->design->definitions.count; i++)
        fill_definition(resolver, resolver->design->definitions.items[i]);
    check_uses(resolver);
    check_roles_used(resolver);
    check_pieces(resolver);
    check_casts(resolver);
}

/* The first of that id; a second one was reported. */
const struct definition *design_find(const struct design *design,
                                     const char *id, enum definition_kind kind)
{
    size_t index;
    return name_table_find(&design->named[kind], id, &index)
               ? design->definitions.items[index]
               : NULL;
}
