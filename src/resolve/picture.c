/* Pictures of blocks: tokens and shapes, their keys and names bound. Whether a
 * picture fits its block is asked where sizes are known (sew/picture.c). Read
 * next: words.c. */
#include "resolver.h"

/* Roles come behind fabrics and hide their keys, hence backwards. ensures:
 * NO_FABRIC for a letter that is no key here. */
static int fabric_of_key(const struct resolver *resolver, char key)
{
    const struct design *design = resolver->design;
    for (size_t i = fabric_numbers(design); i-- > 0;)
        if (may_name_fabric(design, resolver->within, (int)i) &&
            fabric_key(design, (int)i) == key)
            return (int)i;
    return NO_FABRIC;
}

static void set_quarters(struct picture_cell *cell, int top, int right,
                         int bottom, int left)
{
    cell->quarters[0] = top;
    cell->quarters[1] = right;
    cell->quarters[2] = bottom;
    cell->quarters[3] = left;
}

/* `n`, `n/f`, `n\f`, `n+f+g+f`: keys at even places, signs between. With `/`
 * the first key is on the left, so also at the top; with `\` it is on the left,
 * too, so at the bottom. Keys are one byte, as values.c holds. */
static bool parse_token(const struct resolver *resolver, const char *token,
                        size_t length, struct picture_cell *cell)
{
    int fabrics[4];
    if (length % 2 == 0 || length > 7)
        return false;
    for (size_t i = 0; i < length; i += 2) {
        fabrics[i / 2] = fabric_of_key(resolver, token[i]);
        if (fabrics[i / 2] == NO_FABRIC)
            return false;
    }
    const int a = fabrics[0], b = length > 2 ? fabrics[1] : a;
    if (length == 1)
        set_quarters(cell, a, a, a, a);
    else if (length == 3 && token[1] == '/')
        set_quarters(cell, a, b, b, a);
    else if (length == 3 && token[1] == '\\')
        set_quarters(cell, b, b, a, a);
    else if (length == 7 && token[1] == '+' && token[3] == '+' &&
             token[5] == '+')
        set_quarters(cell, a, b, fabrics[2], fabrics[3]);
    else
        return false;
    return true;
}

/* The same unit or block in the same cast, however it lies here. */
static bool are_one(const struct piece *a, const struct piece *b)
{
    if (a->target == NULL || a->target != b->target)
        return false;
    for (size_t i = 0; i < a->target->role_count; i++)
        if (a->cast[i] != b->cast[i])
            return false;
    return true;
}

/* The pieces of the quilt by their keys, the first of each. reports: a key that
 * stands for two that are not the same. */
static void key_pieces(struct resolver *resolver,
                       const struct definition *quilt,
                       const struct piece **keyed)
{
    const struct design *design = resolver->design;
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        const char *key = text_of(piece->element, ATTR_KEY, "");
        if (piece->owner != quilt || key[0] == '\0' || piece->first != piece)
            continue;
        const struct piece **place = &keyed[(unsigned char)key[0]];
        if (*place == NULL)
            *place = piece;
        else if (!are_one(*place, piece))
            report_second(resolver, piece->element, (*place)->element, ATTR_KEY,
                          arena_printf(resolver->run->arena,
                                       "the key `%s` stands for two pieces",
                                       key));
    }
}

/* `L`, `L.90`: a piece of the quilt. */
static bool parse_piece(const struct piece *const *keyed, const char *token,
                        size_t length, struct picture_cell *cell)
{
    cell->piece = keyed[(unsigned char)token[0]];
    return cell->piece != NULL &&
           read_lie(token + 1, length - 1, &cell->orientation);
}

/* Each line of text is a row. What cannot be read is kept as that: whether it
 * is worth a message depends on the block. A picture told as shapes has no text
 * of its own. */
static void read_cells(struct resolver *resolver, struct definition *definition,
                       const struct element *picture)
{
    const struct source *source = resolver->run->source;
    struct drawn_text drawing;
    if (picture->children.count > 0 ||
        !resolve_drawing(resolver, picture, DIAG_PICTURE_TOKEN, &drawing))
        return;
    const struct piece *keyed[256] = {NULL};
    if (definition->kind == DEFINE_QUILT && definition->picture_cells == 0 &&
        !definition->picture_triangles)
        key_pieces(resolver, definition, keyed);
    for (size_t i = 0; i < drawing.words.count; i++) {
        const struct drawn_word *word = &drawing.words.items[i];
        struct picture_cell *cell =
            LIST_ADD(resolver->run->arena, &definition->cells);
        cell->span = word->span;
        cell->row = word->row;
        const char *token = source->bytes + word->span.start;
        const size_t length = word->span.end - word->span.start;
        cell->readable = parse_piece(keyed, token, length, cell);
        if (cell->piece == NULL)
            cell->readable =
                (length == 1 || !definition->picture_triangles) &&
                parse_token(resolver, token, length, cell);
    }
}

/* Each shape is cut into triangles and compared with all others: work grows
 * with the squares of both. reports: more than anybody draws. */
static bool shapes_within(struct resolver *resolver,
                          const struct element *picture)
{
    if (picture->children.count > LIMIT_SHAPES) {
        report_about(resolver, picture, DIAG_LIMIT, picture->name,
                     "more than %d shapes in a picture", LIMIT_SHAPES);
        return false;
    }
    bool within = true;
    const bool before = resolver->corners <= LIMIT_ALL_CORNERS;
    for (size_t i = 0; i < picture->children.count; i++) {
        const struct element *shape = picture->children.items[i];
        const struct value *points = value_of(shape, ATTR_POINTS);
        resolver->corners += points == NULL ? 0 : points->list.count / 2;
        if (points == NULL || points->list.count / 2 <= LIMIT_CORNERS)
            continue;
        report_about(resolver, shape, DIAG_LIMIT, points->span,
                     "more than %d corners in a shape", LIMIT_CORNERS);
        within = false;
    }
    if (before && resolver->corners > LIMIT_ALL_CORNERS)
        report_about(resolver, picture, DIAG_LIMIT, picture->name,
                     "the shapes of all pictures have more than %d corners "
                     "together",
                     LIMIT_ALL_CORNERS);
    return within && resolver->corners <= LIMIT_ALL_CORNERS;
}

/* Triangles are measured by the height of their rows, and lie in the center of
 * a quilt alone. reports: what says how squares or shapes lie. */
static void resolve_triangle_cells(struct resolver *resolver,
                                   struct definition *definition,
                                   const struct element *picture)
{
    static const enum attribute_id others[] = {ATTR_CELLS, ATTR_BORDERS};
    definition->picture_triangles =
        value_of(picture, ATTR_TRIANGLE_CELLS) != NULL;
    definition->picture_down = choice_of(picture, ATTR_TRIANGLE_CELLS, 0) == 1;
    if (!definition->picture_triangles)
        return;
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++)
        if (value_of(picture, others[i]) != NULL)
            report_about(resolver, picture, DIAG_UNKNOWN_ATTRIBUTE,
                         value_span(picture, others[i]),
                         "a picture of triangles has no `%s`",
                         attribute_name(others[i]));
    if (picture->children.count > 0)
        report_about(resolver, picture, DIAG_UNKNOWN_ATTRIBUTE,
                     value_span(picture, ATTR_TRIANGLE_CELLS),
                     "a picture of shapes has no `triangles`");
}

/* Shapes are kept in order, as later ones are painted over earlier ones
 * (sew/paint.c). A picture in cells has none. */
void resolve_picture(struct resolver *resolver, struct definition *definition,
                     const struct element *picture)
{
    definition->picture = picture;
    const struct value *cells = value_of(picture, ATTR_CELLS);
    definition->picture_borders = choice_of(picture, ATTR_BORDERS, 0) == 1;
    definition->picture_cells = cells == NULL ? 0 : cells->whole;
    resolve_triangle_cells(resolver, definition, picture);
    read_cells(resolver, definition, picture);
    if (!shapes_within(resolver, picture))
        return;
    for (size_t i = 0; i < picture->children.count; i++) {
        struct picture_shape *shape =
            LIST_ADD(resolver->run->arena, &definition->shapes);
        shape->element = picture->children.items[i];
        shape->fabric = bind_fabric(resolver, shape->element, ATTR_FABRIC);
        const struct value *points = value_of(shape->element, ATTR_POINTS);
        if (points != NULL) {
            shape->points = points->list.items;
            shape->point_count = points->list.count / 2;
        }
    }
}
