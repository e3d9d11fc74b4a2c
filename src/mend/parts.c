/* Pieces that may lack somewhere, as they are written: those that are there,
 * units that are not used, patches, what a picture draws. Read next: lacking.c.
 */
#include <string.h>

#include "lacking.h"

/* Lengths and counts do not part one kind of piece from another. */
static bool parts_kinds(enum attribute_id id)
{
    return id != ATTR_WIDTH && id != ATTR_HEIGHT && id != ATTR_CUT &&
           id != ATTR_UNFINISHED && id != ATTR_COUNT && id != ATTR_ID;
}

/* The same but for sizes, children included. */
static bool same_kind(const struct element *a, const struct element *b)
{
    if (a->kind != b->kind || a->children.count != b->children.count)
        return false;
    for (size_t i = 0; i < a->value_count; i++) {
        const struct value *value = written(b, a->values[i].id);
        if (parts_kinds(a->values[i].id) &&
            (value == NULL || strcmp(value->text, a->values[i].text) != 0))
            return false;
    }
    for (size_t i = 0; i < b->value_count; i++)
        if (parts_kinds(b->values[i].id) && !written(a, b->values[i].id))
            return false;
    for (size_t i = 0; i < a->children.count; i++)
        if (!same_kind(a->children.items[i], b->children.items[i]))
            return false;
    return true;
}

/* On one line, as messages name lines. */
const char *flat_text(const struct mender *mender,
                      const struct element *element)
{
    const char *text = span_text(mender, whole_element(mender, element));
    char *flat = arena_copy(mender->arena, text, strlen(text));
    size_t length = 0;
    for (const char *c = text; *c != '\0'; c++) {
        const bool blank = *c == '\n' || *c == '\r' || *c == '\t' || *c == ' ';
        if (!blank)
            flat[length++] = *c;
        else if (length > 0 && flat[length - 1] != ' ')
            flat[length++] = ' ';
    }
    flat[length] = '\0';
    return flat;
}

/* A piece of its own, no heap of others. */
bool is_single(const struct element *element)
{
    return is_part(element) && element->kind != ELEMENT_ROW &&
           element->kind != ELEMENT_COLUMN && element->kind != ELEMENT_GRID;
}

/* Rows of a column are no patches. */
bool holds_single(const struct element *parent)
{
    for (size_t i = 0; i < parent->children.count; i++)
        if (is_single(parent->children.items[i]))
            return true;
    return false;
}

void add_kind(struct lack *lack, struct kind_of_piece kind)
{
    for (size_t i = 0; i < lack->count; i++)
        if (strcmp(lack->kinds[i].text, kind.text) == 0)
            return;
    if (lack->count < PIECES_MOST)
        lack->kinds[lack->count++] = kind;
}

/* Those of the parent come first. */
static void add_pieces(struct mender *mender, struct lack *lack,
                       const struct element *element)
{
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        const struct value *fabric = written(child, ATTR_FABRIC);
        const bool plain = child->kind == ELEMENT_PATCH &&
                           child->children.count == 0 && fabric != NULL;
        if (is_single(child))
            add_kind(lack,
                     (struct kind_of_piece){flat_text(mender, child), child,
                                            plain ? fabric->text : NULL});
    }
    for (size_t i = 0; i < element->children.count; i++)
        add_pieces(mender, lack, element->children.items[i]);
}

/* A unit that nothing uses was meant to be used. */
static void add_unused_units(struct mender *mender, struct lack *lack)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        if (one->kind == DEFINE_UNIT && !one->used && one->id != NULL &&
            one->element != top_of(mender, lack->parent))
            add_kind(lack, (struct kind_of_piece){
                               arena_printf(mender->arena, "<use unit=\"%s\"/>",
                                            one->id),
                               NULL, NULL});
    }
}

/* A patch that takes what is left of its row. */
struct kind_of_piece patch_of(const struct mender *mender, size_t fabric)
{
    const char *id = fabric_id(mender->sized->design, (int)fabric);
    return (struct kind_of_piece){
        arena_printf(mender->arena, "<patch fabric=\"%s\"/>", id), NULL, id};
}

/* Units that are not used, pieces as they are written, then plain patches. */
void fill_kinds(struct mender *mender, struct lack *lack)
{
    const struct design *design = mender->sized->design;
    add_unused_units(mender, lack);
    add_pieces(mender, lack, lack->parent);
    add_pieces(mender, lack, top_of(mender, lack->parent));
    for (size_t i = 0; holds_single(lack->parent) && i < fabric_numbers(design);
         i++)
        if (fabric_name(mender, lack->parent, i) != NULL)
            add_kind(lack, patch_of(mender, i));
}

/* A role hides a fabric of its letter, and stands behind all fabrics. */
static const char *id_of_key(const struct mender *mender,
                             const struct element *picture, char key)
{
    const struct design *design = mender->sized->design;
    for (size_t i = fabric_numbers(design); i-- > 0;)
        if (fabric_key(design, (int)i) == key &&
            fabric_name(mender, picture, i) != NULL)
            return fabric_id(design, (int)i);
    return NULL;
}

/* The piece that a cell of a picture is drawn as: triangles, where it is of
 * several fabrics. NULL where it is of one. */
const char *drawn_text(const struct mender *mender, struct span cell)
{
    const char *c = span_text(mender, cell);
    const struct element *picture = element_at(mender, cell.start);
    const char *ids[4];
    const size_t length = strlen(c);
    for (size_t i = 0; i < 4; i++)
        ids[i] = 2 * i < length ? id_of_key(mender, picture, c[2 * i]) : NULL;
    if (ids[0] == NULL || ids[1] == NULL)
        return NULL;
    if (length == 3 && (c[1] == '/' || c[1] == '\\'))
        return arena_printf(
            mender->arena,
            "<half-square line=\"%s\" left=\"%s\" right=\"%s\"/>",
            c[1] == '/' ? "rising" : "falling", ids[0], ids[1]);
    if (length == 7 && c[1] == '+' && ids[2] != NULL && ids[3] != NULL)
        return arena_printf(mender->arena,
                            "<quarter-square top=\"%s\" right=\"%s\" "
                            "bottom=\"%s\" left=\"%s\"/>",
                            ids[0], ids[1], ids[2], ids[3]);
    return NULL;
}

/* But for sizes. */
bool alike(const struct kind_of_piece *a, const struct kind_of_piece *b)
{
    if (a->fabric != NULL && b->fabric != NULL)
        return strcmp(a->fabric, b->fabric) == 0;
    return a->like != NULL && b->like != NULL && same_kind(a->like, b->like);
}

/* ---- one tag, changed ---- */

/* The tag with another value of the attribute, written or not, or without it
 * where the value is empty. NULL for what has children. */
const char *with_value(const struct mender *mender, const char *tag,
                       const char *name, const char *value)
{
    const char *end = strchr(tag, '>');
    if (end == NULL || end[-1] != '/' || end[1] != '\0')
        return NULL;
    const char *set = arena_printf(mender->arena, " %s=\"", name);
    const char *found = strstr(tag, set);
    if (found == NULL && value[0] == '\0')
        return tag;
    if (found == NULL)
        return arena_printf(mender->arena, "%.*s%s%s\"/>", (int)(end - 1 - tag),
                            tag, set, value);
    const char *tail = strchr(found + strlen(set), '"');
    if (value[0] == '\0')
        return arena_printf(mender->arena, "%.*s%s", (int)(found - tag), tag,
                            tail + 1);
    return arena_printf(mender->arena, "%.*s%s%s%s", (int)(found - tag), tag,
                        set, value, tail);
}

/* What the tag has for the attribute, or NULL. */
const char *value_in(const struct mender *mender, const char *tag,
                     const char *name)
{
    const char *set = arena_printf(mender->arena, " %s=\"", name);
    const char *found = strstr(tag, set);
    return found == NULL ? NULL
                         : arena_copy(mender->arena, found + strlen(set),
                                      strcspn(found + strlen(set), "\""));
}
