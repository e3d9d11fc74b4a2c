/* The list of candidates, and what all that make one ask of the source. Read
 * next: rings.c, then lengths.c. */
#include <string.h>

#include "mender.h"

/* A copy in the arena of the mender, ended by 0. */
const char *span_text(const struct mender *mender, struct span span)
{
    return arena_copy(mender->arena, mender->run->source->bytes + span.start,
                      span.end - span.start);
}

/* Byte by byte, blanks too: a copy by hand keeps them. */
bool same_text(const struct mender *mender, struct span a, struct span b)
{
    const char *bytes = mender->run->source->bytes;
    return a.end - a.start == b.end - b.start &&
           memcmp(bytes + a.start, bytes + b.start, a.end - a.start) == 0;
}

/* With its children and its end tag. */
struct span whole_element(const struct mender *mender,
                          const struct element *element)
{
    return element_span(mender->run->source, element);
}

/* NULL where the attribute is not in the source; defaults are no values here.
 */
const struct value *written(const struct element *element, enum attribute_id id)
{
    for (size_t i = 0; i < element->value_count; i++)
        if (element->values[i].id == id)
            return &element->values[i];
    return NULL;
}

/* The innermost element whose bytes hold the place; the root where none of its
 * children does. */
const struct element *element_at(const struct mender *mender, uint32_t at)
{
    const struct element *found = mender->root;
    for (size_t i = 0; found != NULL && i < found->children.count; i++) {
        const struct element *child = found->children.items[i];
        const struct span span = whole_element(mender, child);
        if (at < span.start || at >= span.end)
            continue;
        found = child;
        i = (size_t)-1; /* on to its children */
    }
    return found;
}

/* The child of the root that it lies in: a definition, a quilt, a colorway. */
const struct element *top_of(const struct mender *mender,
                             const struct element *element)
{
    while (element->parent != NULL && element->parent != mender->root)
        element = element->parent;
    return element;
}

/* NULL for a colorway or a list of fabrics, which define nothing that is sewn.
 */
const struct definition *defined_by(const struct mender *mender,
                                    const struct element *element)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < design->definitions.count; i++)
        if (design->definitions.items[i]->element == element)
            return design->definitions.items[i];
    return NULL;
}

bool has_plenty(const struct mender *mender)
{
    enum { CANDIDATES_MANY = 40000 };
    return mender->candidates.count >= CANDIDATES_MANY;
}

/* Two ways to one text, offered by different rules, are one candidate. */
static bool same_edit(const struct edit *a, const struct edit *b)
{
    return a->span.start == b->span.start && a->span.end == b->span.end &&
           strcmp(a->text, b->text) == 0;
}

/* Where candidates of this edit are found again: large sources offer many. The
 * sum is that of Fowler, Noll and Vo (FNV-1a). */
static size_t *sum_of(struct mender *mender, const struct edit *edit)
{
    enum { SUMS = 1 << 14 };
    uint64_t sum = UINT64_C(14695981039346656037) ^ edit->span.start;
    for (const char *c = edit->text; *c != '\0'; c++)
        sum = (sum ^ (unsigned char)*c) * UINT64_C(1099511628211);
    if (mender->sums == NULL)
        mender->sums = ARENA_ARRAY(mender->arena, size_t, SUMS);
    return &mender->sums[(sum ^ sum >> 32) % SUMS];
}

/* requires: spans of the source as it is on disk. ensures: a new candidate, the
 * one that makes the same edit, or NULL where the edit changes nothing or leads
 * from one file into another. What a
 * message proposed itself keeps its place in the order of trials, but takes the
 * better words of a rule. */
struct candidate *offer(struct mender *mender, struct candidate candidate)
{
    const struct edit *edit = &candidate.edit;
    const struct span span = edit->span;
    if (!source_together(mender->run->source, span.start, span.end))
        return NULL;
    if (strlen(edit->text) == span.end - span.start &&
        memcmp(mender->run->source->bytes + span.start, edit->text,
               span.end - span.start) == 0)
        return NULL;
    size_t *last = sum_of(mender, edit);
    for (size_t at = *last; at > 0;) {
        struct candidate *other = &mender->candidates.items[at - 1];
        at = other->alike;
        if (!same_edit(&other->edit, edit))
            continue;
        if (other->kind == KIND_OWN) {
            candidate.own = other->own;
            candidate.program = other->program;
            candidate.ring = other->ring;
            candidate.rank = other->rank;
            candidate.alike = other->alike;
            candidate.tried = other->tried;
            candidate.outcome = other->outcome;
            *other = candidate;
        }
        return other;
    }
    candidate.ring = mender->ring;
    candidate.rank = mender->rank;
    candidate.alike = *last;
    struct candidate *added = LIST_ADD(mender->arena, &mender->candidates);
    *added = candidate;
    *last = mender->candidates.count;
    return added;
}

/* Turns, mirrors and ways to point are settings, written or not. */
static bool has_default(enum attribute_id id)
{
    return id == ATTR_TURN || id == ATTR_MIRROR || id == ATTR_POINTS_TO ||
           id == ATTR_OUTER;
}

/* Changes the value where it is written; else the attribute is put behind the
 * name of the element. What has a default counts as changed, not as added. */
void offer_value(struct mender *mender, const struct element *element,
                 enum attribute_id id, const char *text, struct rational number)
{
    const struct value *value = written(element, id);
    const uint32_t behind = element->name.end;
    struct candidate candidate = {
        .manner =
            value != NULL || has_default(id) ? MANNER_VALUE : MANNER_INSERT,
        .kind = KIND_ATTRIBUTE,
        .element = element,
        .attribute = id,
        .number = number,
        .far = mender->far,
        .place = value != NULL ? value->span : element->name,
        .edit = {{behind, behind}, text}};
    if (value != NULL)
        candidate.edit.span = value->span;
    else
        candidate.edit.text =
            arena_printf(mender->arena, " %s=\"%s\"", attribute_name(id), text);
    offer(mender, candidate);
}

/* One edit from the first span to the end of the second, with what lies
 * between. Spans that overlap, as a piece and its child do, cannot be
 * exchanged. */
void offer_exchange(struct mender *mender, const struct element *element,
                    struct span a, struct span b)
{
    if (same_text(mender, a, b))
        return;
    if (b.start < a.start) {
        const struct span first = b;
        b = a;
        a = first;
    }
    if (a.end > b.start ||
        !source_together(mender->run->source, a.start, b.start))
        return;
    const char *text = arena_printf(
        mender->arena, "%s%s%s", span_text(mender, b),
        span_text(mender, (struct span){a.end, b.start}), span_text(mender, a));
    offer(mender, (struct candidate){.manner = MANNER_VALUE,
                                     .kind = KIND_EXCHANGE,
                                     .element = element,
                                     .number = rational_unknown(),
                                     .place = a,
                                     .other = b,
                                     .edit = {{a.start, b.end}, text}});
}
