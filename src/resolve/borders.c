/* Borders: from the inside out, in the order of the source. As a piece, each
 * has what it goes round in its first cell, so that whoever walks a quilt from
 * its outermost border meets everything. Read next: orientation.c. */
#include "resolver.h"

/* One piece stands for all four corners, turned so that each looks at the
 * center as the first one does, which lies at the top left; four stand each for
 * its own, as written. */
static void take_corners(struct resolver *resolver,
                         const struct definition *definition,
                         struct piece *piece)
{
    const struct element *element = piece->element;
    const size_t written = element->children.count;
    const struct piece *corner = NULL;
    for (unsigned i = 0; i < 4; i++) {
        if (i < written) {
            reject_times_alone(resolver, element->children.items[i]);
            corner =
                resolve_piece(resolver, definition, element->children.items[i]);
        }
        *LIST_ADD(resolver->run->arena, &piece->cells) = (struct cell){
            corner, {written == 1 ? i : 0, false}, corner->element->name, 0};
    }
}

/* reports: corners that are too many or too few for what the border says. */
static bool corners_fit(struct resolver *resolver, const struct border *border)
{
    const struct element *element = border->element;
    const size_t count = element->children.count;
    if (border->blocks ? count == 1 || count == 4 : count == 0)
        return true;
    struct diagnostic *d =
        border->blocks
            ? report_about(resolver, element, DIAG_BORDER_CORNERS,
                           value_span(element, ATTR_CORNERS),
                           "corners=\"blocks\" needs one piece, or four; there "
                           "%s",
                           count == 0 ? "is none"
                                      : arena_printf(resolver->run->arena,
                                                     "are %zu", count))
            : report_about(resolver, element, DIAG_BORDER_CORNERS,
                           element->children.items[0]->name,
                           "a piece at the corners needs corners=\"blocks\"");
    diag_note(resolver->run, d, (struct span){0, 0},
              "one is laid at all four corners, turned so that each looks at "
              "the center; four are laid as written, from the top left "
              "clockwise");
    return false;
}

/* reports: a pair that is sewn first where no strip reaches over another. */
static void reject_first(struct resolver *resolver,
                         const struct element *element)
{
    struct diagnostic *d = report_about(
        resolver, element, DIAG_BORDER_CORNERS, value_span(element, ATTR_FIRST),
        "`first` says nothing of a border whose corners are mitred");
    diag_note(resolver->run, d, value_span(element, ATTR_CORNERS),
              "its strips meet at 45 degrees; none reaches over another");
    diag_help(resolver->run, d,
              "leave `first` out, or write corners=\"butted\"");
}

void read_border(struct resolver *resolver, struct definition *definition,
                 const struct element *element)
{
    struct border *border =
        LIST_ADD(resolver->run->arena, &definition->borders);
    border->element = element;
    border->number = definition->borders.count;
    border->width = length_of(element, ATTR_WIDTH);
    border->lengthwise = choice_of(element, ATTR_GRAIN, 0) == 1;
    border->blocks = choice_of(element, ATTR_CORNERS, 0) == 1;
    border->mitred = choice_of(element, ATTR_CORNERS, 0) == 2;
    border->matched =
        border->mitred && border->number > 1 && (border - 1)->mitred;
    border->ends_first = choice_of(element, ATTR_FIRST, 0) == 1;
    border->straight_joins = choice_of(element, ATTR_JOINS, 0) == 1;
    if (border->mitred && value_of(element, ATTR_FIRST) != NULL)
        reject_first(resolver, element);
    border->finished = stated_of(element, ATTR_FINISHED);
    border->unfinished = stated_of(element, ATTR_UNFINISHED);
}

/* The list of borders no longer moves, and the root is known. */
void place_borders(struct resolver *resolver, struct definition *definition)
{
    definition->whole = definition->root;
    if (definition->kind != DEFINE_QUILT)
        return; /* a border elsewhere was told when it was read */
    /* Each is a step with figures of the whole top. */
    enum { MOST_BORDERS = 40 };
    if (definition->borders.count > MOST_BORDERS) {
        const struct element *element =
            definition->borders.items[MOST_BORDERS].element;
        report_about(resolver, element, DIAG_LIMIT, element->name,
                     "more than %d borders around a quilt", MOST_BORDERS);
        definition->borders.count = MOST_BORDERS;
    }
    for (size_t i = 0; i < definition->borders.count; i++) {
        struct border *border = &definition->borders.items[i];
        struct piece *piece = new_piece(resolver, definition, border->element);
        piece->border = border;
        /* What it states is the border's, not a size of its own. */
        piece->width = piece->finished = piece->unfinished = (struct stated){0};
        border->piece = piece;
        border->fabric = add_fabric(resolver, piece, ATTR_FABRIC);
        if (definition->whole == NULL)
            continue; /* a quilt without a center: told when it was read */
        *LIST_ADD(resolver->run->arena, &piece->cells) =
            (struct cell){definition->whole, {0, false}, border->element->name, 0};
        if (!corners_fit(resolver, border))
            piece->broken = true;
        else if (border->blocks)
            take_corners(resolver, definition, piece);
        definition->whole = piece;
    }
}
