/* Roles: what may play one in a use, which names there are for fabrics in a
 * unit or block, and what its sashing may lack. Read next: children.c. */
#include <string.h>

#include "mender.h"

enum { RANK_CAST = 2, RANK_LACK = 3 };

/* ---- names ---- */

const char *fabric_name(const struct mender *mender,
                        const struct element *element, size_t fabric)
{
    const struct design *design = mender->sized->design;
    const struct role *role = design_role(design, (int)fabric);
    return role == NULL || role->owner->element == top_of(mender, element)
               ? fabric_id(design, (int)fabric)
               : NULL;
}

/* The unit or block that a use is of, or NULL. */
static const struct definition *used_by(const struct mender *mender,
                                        const struct element *use)
{
    const struct design *design = mender->sized->design;
    const struct value *unit = written(use, ATTR_UNIT);
    const struct value *name = unit != NULL ? unit : written(use, ATTR_BLOCK);
    for (size_t i = 0; name != NULL && i < design->definitions.count; i++) {
        const struct definition *one = design->definitions.items[i];
        if (one->id != NULL && strcmp(one->id, name->text) == 0 &&
            one->kind == (unit != NULL ? DEFINE_UNIT : DEFINE_BLOCK))
            return one;
    }
    return NULL;
}

/* What the value gives to the role, or NULL. */
static const struct cast_text *given_to(const struct value *with,
                                        const char *role)
{
    for (size_t i = 0; with != NULL && i < with->casts.count; i++)
        if (strcmp(with->casts.items[i].role, role) == 0)
            return &with->casts.items[i];
    return NULL;
}

/* ---- one use ---- */

/* The value with another text in place of a part of it. */
static const char *with_part(const struct mender *mender,
                             const struct value *with, struct span part,
                             const char *text)
{
    return arena_printf(
        mender->arena, "%s%s%s",
        span_text(mender, (struct span){with->span.start, part.start}), text,
        span_text(mender, (struct span){part.end, with->span.end}));
}

void offer_cast(struct mender *mender, const struct element *use,
                const char *role, const char *fabric, enum manner lacking)
{
    const struct value *with = written(use, ATTR_WITH);
    const struct cast_text *given = given_to(with, role);
    const uint32_t behind = use->name.end;
    const char *more = arena_printf(mender->arena, "%s=%s", role, fabric);
    if (given != NULL) {
        offer_value(mender, use, ATTR_WITH,
                    with_part(mender, with, given->fabric_span, fabric),
                    rational_unknown());
        return;
    }
    offer(
        mender,
        (struct candidate){
            .manner = lacking,
            .kind = KIND_ATTRIBUTE,
            .element = use,
            .attribute = ATTR_WITH,
            .number = rational_unknown(),
            .place = with != NULL ? with->span : use->name,
            .edit = {with != NULL ? with->span : (struct span){behind, behind},
                     with != NULL
                         ? arena_printf(mender->arena, "%s %s",
                                        span_text(mender, with->span), more)
                         : arena_printf(mender->arena, " with=\"%s\"", more)}});
}

/* Another role for what is given, and two of a use exchanged. */
static void offer_roles(struct mender *mender, const struct element *use,
                        const struct value *with,
                        const struct definition *target)
{
    const struct design *design = mender->sized->design;
    for (size_t i = 0; i < with->casts.count; i++) {
        const struct cast_text *one = &with->casts.items[i];
        for (size_t r = 0; r < target->role_count; r++)
            offer_value(
                mender, use, ATTR_WITH,
                with_part(mender, with, one->role_span,
                          design->roles.items[target->first_role + r].id),
                rational_unknown());
        for (size_t k = i + 1; k < with->casts.count; k++)
            offer_exchange(mender, use, one->fabric_span,
                           with->casts.items[k].fabric_span);
    }
}

void offer_casts(struct mender *mender, const struct element *use)
{
    const struct design *design = mender->sized->design;
    const struct definition *target = used_by(mender, use);
    const struct value *with = written(use, ATTR_WITH);
    if (target == NULL || (with != NULL && !with->usable))
        return;
    for (size_t r = 0; r < target->role_count && !has_plenty(mender); r++) {
        const char *role = design->roles.items[target->first_role + r].id;
        mender->rank = given_to(with, role) != NULL ? RANK_CAST : RANK_LACK;
        for (size_t f = 0; f < fabric_numbers(design); f++)
            if (fabric_name(mender, use, f) != NULL)
                offer_cast(mender, use, role, fabric_name(mender, use, f),
                           MANNER_INSERT);
    }
    mender->rank = RANK_CAST;
    if (with != NULL)
        offer_roles(mender, use, with, target);
    mender->rank = 0;
}

/* As likely as the cells themselves, where what they are a picture of uses few.
 */
void offer_drawn_casts(struct mender *mender)
{
    enum { USES_MOST = 12 };
    const struct definition *drawn = differing_picture(mender);
    const size_t count = mender->candidates.count;
    if (drawn == NULL || drawn->uses.count > USES_MOST)
        return;
    for (size_t i = 0; i < drawn->uses.count; i++)
        offer_casts(mender, drawn->uses.items[i]->element);
    for (size_t i = count; i < mender->candidates.count; i++)
        mender->candidates.items[i].program = true;
}

/* ---- several uses ---- */

/* What can be exchanged with its like: a fabric, or all that a use says. */
struct given {
    const struct element *use;
    struct span span;
    const struct definition *whole; /* of what all is said; else NULL */
};
typedef LIST(struct given) given_list;

static void collect_given(struct mender *mender, const struct element *element,
                          given_list *list)
{
    const struct value *with = written(element, ATTR_WITH);
    for (size_t i = 0; with != NULL && i < with->casts.count; i++)
        *LIST_ADD(mender->arena, list) =
            (struct given){element, with->casts.items[i].fabric_span, NULL};
    if (with != NULL)
        *LIST_ADD(mender->arena, list) =
            (struct given){element, with->span, used_by(mender, element)};
    for (size_t i = 0; i < element->children.count; i++)
        collect_given(mender, element->children.items[i], list);
}

void offer_cast_exchanges(struct mender *mender, const struct element *top)
{
    enum { GIVEN_MOST = 16 }; /* pairs grow with their square */
    given_list list = {0};
    collect_given(mender, top, &list);
    const size_t count = list.count < GIVEN_MOST ? list.count : GIVEN_MOST;
    mender->rank = RANK_CAST;
    for (size_t by = 1; by < count; by++)
        for (size_t i = 0; i + by < count; i++)
            if (list.items[i].whole == list.items[i + by].whole)
                offer_exchange(mender, list.items[i].use, list.items[i].span,
                               list.items[i + by].span);
    mender->rank = 0;
}

/* ---- amounts ---- */

void each_cast(const struct mender *mender, const struct element *use,
               visit_cast *visit, void *context)
{
    const struct design *design = mender->sized->design;
    const struct definition *target =
        use->kind == ELEMENT_USE ? used_by(mender, use) : NULL;
    for (size_t i = 0; target != NULL && i < target->role_count; i++) {
        const struct role *role = &design->roles.items[target->first_role + i];
        visit(context, use, role, given_to(written(use, ATTR_WITH), role->id));
    }
}

/* ---- sashing ---- */

void offer_stone(struct mender *mender, const struct element *sashing)
{
    const struct design *design = mender->sized->design;
    const uint32_t end = sashing->tag.end;
    const bool closed = mender->run->source->bytes[end - 2] == '/';
    for (size_t i = 0; i < sashing->children.count; i++)
        if (sashing->children.items[i]->kind == ELEMENT_CORNERSTONE)
            return;
    mender->rank = RANK_LACK;
    for (size_t f = 0; f < fabric_numbers(design); f++) {
        const char *id = fabric_name(mender, sashing, f);
        const uint32_t behind = closed ? end : sashing->content.end;
        if (id == NULL)
            continue;
        const char *stone =
            arena_printf(mender->arena, "<cornerstone fabric=\"%s\"/>", id);
        offer(mender,
              (struct candidate){
                  .manner = MANNER_INSERT,
                  .kind = KIND_STONE,
                  .element = sashing,
                  .number = rational_unknown(),
                  .place = sashing->name,
                  .edit = {{closed ? end - 2 : behind, behind},
                           closed ? arena_printf(mender->arena,
                                                 "> %s </sashing>", stone)
                                  : stone}});
    }
    mender->rank = 0;
}
