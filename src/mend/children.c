/* Children that repeat the one before, are exchanged, moved, forgotten or too
 * many. Read next: rings.c. */
#include "mender.h"

/* What can stand in each other's place. */
enum group { GROUP_NONE, GROUP_PIECE, GROUP_CORNER, GROUP_BORDER, GROUP_STEP };

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

static struct span child_span(const struct mender *mender,
                              const struct element *parent, size_t i)
{
    return whole_element(mender, parent->children.items[i]);
}

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

static void offer_copy(struct mender *mender, const struct element *parent,
                       size_t i)
{
    const struct span span = child_span(mender, parent, i);
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

static void offer_moves(struct mender *mender, const struct element *parent)
{
    const size_t count = parent->children.count;
    for (size_t by = 2; by < count; by++)
        for (size_t i = 0; i + by < count; i++) {
            offer_move(mender, parent, i + by, i);
            offer_move(mender, parent, i, i + by);
        }
}

static void offer_repeats(struct mender *mender, const struct element *parent)
{
    for (size_t i = 1; i < parent->children.count; i++)
        if (group_of(parent->children.items[i]) != GROUP_NONE &&
            same_text(mender, child_span(mender, parent, i - 1),
                      child_span(mender, parent, i)))
            offer_removal(mender, parent, i, MANNER_REPEAT);
}

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

void offer_children(struct mender *mender, const struct element *parent)
{
    enum { CHILDREN_MOST = 40 };
    if (parent->children.count > CHILDREN_MOST)
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
