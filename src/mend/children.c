/* Children that repeat the one before, are exchanged, moved, forgotten or too
 * many. Read next: lacking.c. */
#include <string.h>

#include "mender.h"

/* What can stand in each other's place. */
enum group { GROUP_NONE, GROUP_PIECE, GROUP_CORNER, GROUP_BORDER, GROUP_STEP };

/* Only children of one group may change places: a corner is no piece of a row.
 * Expanded from the list of pieces, so that a new technique is never forgotten
 * here. */
static enum group group_of(const struct element *element)
{
#define PIECE_GROUP(kind, element, name)                          \
    if (element_kind == (element) && (element) != ELEMENT_BORDER) \
        return GROUP_PIECE;
    const enum element_kind element_kind = element->kind;
    PIECE_LIST(PIECE_GROUP)
#undef PIECE_GROUP
    return element_kind == ELEMENT_CORNER   ? GROUP_CORNER
           : element_kind == ELEMENT_BORDER ? GROUP_BORDER
           : element_kind == ELEMENT_STEP   ? GROUP_STEP
                                            : GROUP_NONE;
}

bool is_part(const struct element *element)
{
    return group_of(element) == GROUP_PIECE;
}

/* From the first byte of its tag to the last of its end tag. */
static struct span child_span(const struct mender *mender,
                              const struct element *parent, size_t i)
{
    return whole_element(mender, parent->children.items[i]);
}

/* The manner tells why it may be one too many: because it repeats its
 * neighbour, or without such a sign. */
static void offer_removal(struct mender *mender, const struct element *parent,
                          size_t i, enum manner manner)
{
    const struct span span = child_span(mender, parent, i);
    offer(mender, (struct candidate){.manner = manner,
                                     .kind = KIND_REMOVAL,
                                     .element = parent->children.items[i],
                                     .number = rational_unknown(),
                                     .place = parent->children.items[i]->name,
                                     .edit = {span, ""}});
}

/* The usual slip with rows is one piece too few; a copy of a neighbour is the
 * likeliest. Of some that are alike, the last is copied. */
void offer_copy(struct mender *mender, const struct element *parent, size_t i)
{
    const struct span span = child_span(mender, parent, i);
    if (i + 1 < parent->children.count &&
        same_text(mender, span, child_span(mender, parent, i + 1)))
        return;
    offer(mender,
          (struct candidate){.manner = MANNER_INSERT,
                             .kind = KIND_COPY,
                             .element = parent->children.items[i],
                             .number = rational_unknown(),
                             .place = parent->children.items[i]->name,
                             .edit = {{span.end, span.end},
                                      arena_printf(mender->arena, " %s",
                                                   span_text(mender, span))}});
}

/* The step goes to the place of step `to`; those between close up. */
static void offer_move(struct mender *mender, const struct element *parent,
                       size_t from, size_t to)
{
    const struct span span = child_span(mender, parent, from);
    const struct span other = child_span(mender, parent, to);
    const char *step = span_text(mender, span);
    struct candidate candidate = {.manner = MANNER_VALUE,
                                  .kind = KIND_MOVE,
                                  .element = parent->children.items[from],
                                  .number = rational_unknown(),
                                  .place = parent->children.items[from]->name,
                                  .other = parent->children.items[to]->name};
    if (to < from) {
        candidate.edit.span = (struct span){other.start, span.end};
        candidate.edit.text = arena_printf(
            mender->arena, "%s %s", step,
            span_text(mender, (struct span){other.start, span.start}));
    } else {
        candidate.edit.span = (struct span){span.start, other.end};
        candidate.edit.text = arena_printf(
            mender->arena, "%s %s",
            span_text(mender, (struct span){span.end, other.end}), step);
    }
    offer(mender, candidate);
}

/* A step that stands at the wrong place: moved by two or more, as a move by one
 * is an exchange of neighbours. Short moves come first. */
static void offer_moves(struct mender *mender, const struct element *parent)
{
    const size_t count = parent->children.count;
    for (size_t by = 2; by < count; by++)
        for (size_t i = 0; i + by < count; i++) {
            offer_move(mender, parent, i + by, i);
            offer_move(mender, parent, i, i + by);
        }
}

/* The same text twice in a row is often pasted twice. Rows repeat pieces on
 * purpose, so trying tells which one is too many. */
void offer_repeats(struct mender *mender, const struct element *parent)
{
    for (size_t i = 1; i < parent->children.count; i++)
        if (group_of(parent->children.items[i]) != GROUP_NONE &&
            same_text(mender, child_span(mender, parent, i - 1),
                      child_span(mender, parent, i)))
            offer_removal(mender, parent, i, MANNER_REPEAT);
}

/* Near neighbours first: the trials may end before all pairs are tried. */
static void offer_exchanges(struct mender *mender, const struct element *parent)
{
    const size_t count = parent->children.count;
    for (size_t by = 1; by < count; by++)
        for (size_t i = 0; i + by < count; i++) {
            const struct element *a = parent->children.items[i];
            const struct element *b = parent->children.items[i + by];
            if (group_of(a) != GROUP_NONE && group_of(a) == group_of(b))
                offer_exchange(mender, a, child_span(mender, parent, i),
                               child_span(mender, parent, i + by));
        }
}

/* Something may be too many or too few where things are added up or counted. */
static bool counted(const struct mender *mender)
{
    for (size_t i = 0; i < mender->error_count; i++) {
        const enum diag_code code = mender->errors[i]->code;
        if (of_picture(code) || of_steps(code) || code == DIAG_GRID_COUNT ||
            code == DIAG_SEAM_SUM || code == DIAG_STATEMENT ||
            code == DIAG_SIZE_NEGATIVE)
            return true;
    }
    return false;
}

/* Pairs grow with the square of the children, hence the limit: a row of more
 * than 40 children would use up the trials of all other places. Ranks tell what
 * is tried first; 0 is the likeliest. */
void offer_children(struct mender *mender, const struct element *parent)
{
    enum { CHILDREN_MOST = 40 };
    if (parent->children.count > CHILDREN_MOST || has_plenty(mender))
        return;
    mender->rank = 0;
    offer_repeats(mender, parent);
    mender->rank = 3;
    offer_exchanges(mender, parent);
    if (parent->kind == ELEMENT_ASSEMBLY)
        offer_moves(mender, parent);
    mender->rank = 4;
    for (size_t i = 0; counted(mender) && i < parent->children.count; i++) {
        if (group_of(parent->children.items[i]) == GROUP_NONE)
            continue;
        offer_copy(mender, parent, i);
        offer_removal(mender, parent, i, MANNER_REMOVE);
    }
    mender->rank = 0;
}

/* ---- corners ---- */

/* The sizes that corners have, as they are written; few. */
enum { SIZES_MOST = 4 };
struct sizes {
    const char *texts[SIZES_MOST];
    size_t count;
};

/* Each size once, as it is written. A few are enough: corners of a block seldom
 * have more than two sizes. */
static void add_size(struct sizes *sizes, const char *text)
{
    for (size_t i = 0; i < sizes->count; i++)
        if (strcmp(sizes->texts[i], text) == 0)
            return;
    if (sizes->count < SIZES_MOST)
        sizes->texts[sizes->count++] = text;
}

/* The last place is kept for a cell. */
static void collect_sizes(const struct mender *mender,
                          const struct element *element, struct sizes *sizes)
{
    const struct value *size =
        element->kind == ELEMENT_CORNER ? written(element, ATTR_SIZE) : NULL;
    if (size != NULL && sizes->count + 1 < SIZES_MOST)
        add_size(sizes, size->text);
    for (size_t i = 0; i < element->children.count; i++)
        collect_sizes(mender, element->children.items[i], sizes);
}

/* One cell of the picture that differs: a corner of which there is only one is
 * of no size that stands elsewhere. */
static void add_cell_size(const struct mender *mender, struct sizes *sizes)
{
    const struct definition *drawn = differing_picture(mender);
    if (drawn == NULL || !rational_known(drawn->grid_across))
        return;
    const struct rational cell =
        drawn->picture_cells > 0
            ? rational_div(drawn->grid_across,
                           rational_whole(drawn->picture_cells))
            : rational_whole(1);
    add_size(sizes, length_written(mender->arena, cell,
                                 mender->sized->design->pattern->units));
}

/* Behind the last child, as corners are written in the order of sewing. Where
 * there is none, a tag that ends in `/>` is opened for it and closed again
 * behind it. */
static void offer_corner(struct mender *mender, const struct element *patch,
                         const char *at, const char *fabric, const char *size)
{
    const uint32_t end = patch->tag.end;
    const bool closed = mender->run->source->bytes[end - 2] == '/';
    const struct element *last =
        patch->children.count > 0
            ? patch->children.items[patch->children.count - 1]
            : NULL;
    const uint32_t behind =
        last != NULL ? whole_element(mender, last).end : end;
    const char *corner = arena_printf(mender->arena,
                                      "<corner at=\"%s\" fabric=\"%s\" "
                                      "size=\"%s\"/>",
                                      at, fabric, size);
    offer(mender,
          (struct candidate){
              .manner = MANNER_INSERT,
              .kind = KIND_CORNER,
              .element = patch,
              .number = rational_unknown(),
              .place = last != NULL ? last->name : patch->name,
              .edit = {{closed ? end - 2 : behind, behind},
                       closed ? arena_printf(mender->arena, "> %s </%s>",
                                             corner, element_name(patch->kind))
                              : arena_printf(mender->arena, " %s", corner)}});
}

/* A corner of the patch takes one square. */
static bool has_corner(const struct element *patch, const char *at)
{
    for (size_t i = 0; i < patch->children.count; i++) {
        const struct value *place = written(patch->children.items[i], ATTR_AT);
        if (place != NULL && strcmp(place->text, at) == 0)
            return true;
    }
    return false;
}

/* The cell that a picture is told to differ at; empty where none is. */
static const char *wanted_cell(const struct mender *mender)
{
    for (size_t i = 0; i < mender->before.count; i++)
        if (mender->before.items[i].code == DIAG_PICTURE)
            return span_text(mender,
                             (struct span){mender->before.items[i].at,
                                           mender->before.items[i].end});
    return "";
}

/* Of a fabric that the cell asks for, and the patch is not of. */
static bool may_lack(const struct mender *mender, const struct element *patch,
                     size_t fabric, const char *cell)
{
    const struct value *own = written(patch, ATTR_FABRIC);
    const char *name = fabric_name(mender, patch, fabric);
    const char key = fabric_key(mender->sized->design, (int)fabric);
    return name != NULL && key != '\0' && strchr(cell, key) != NULL &&
           (own == NULL || strcmp(own->text, name) != 0);
}

/* Only pictures tell of one, and a quilt has none. */
void offer_corners(struct mender *mender, const struct element *patch)
{
    static const char *const places[] = {"top-left", "top-right",
                                         "bottom-right", "bottom-left"};
    const struct design *design = mender->sized->design;
    struct sizes sizes = {.count = 0};
    const char *cell = wanted_cell(mender);
    if (cell[0] == '\0' || top_of(mender, patch)->kind == ELEMENT_QUILT)
        return;
    collect_sizes(mender, top_of(mender, patch), &sizes);
    collect_sizes(mender, mender->root, &sizes);
    add_cell_size(mender, &sizes);
    mender->rank = 2;
    for (size_t s = 0; s < sizes.count; s++)
        for (size_t f = 0; f < fabric_numbers(design); f++)
            for (size_t i = 0; i < 4; i++)
                if (!has_corner(patch, places[i]) &&
                    may_lack(mender, patch, f, cell))
                    offer_corner(mender, patch, places[i],
                                 fabric_name(mender, patch, f), sizes.texts[s]);
    mender->rank = 0;
}
