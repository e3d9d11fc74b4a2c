/* What elements state becomes a fact of the design, once: from here on nobody
 * asks an element for a value. What could not be read was reported by the
 * reader, and is told from what was not written, as sums that it would fix must
 * stay silent. */
#include "resolver.h"

/* A number counts as a value, too: counts are compared as sizes are. */
struct stated stated_of(const struct element *element, enum attribute_id id)
{
    const struct value *value = written_value(element, id);
    if (value == NULL)
        return (struct stated){0};
    struct stated stated = {.written = true,
                            .usable = value->usable,
                            .has_unit = value->has_unit,
                            .text = value->text,
                            .span = value->span};
    if (value->usable && value->whole > 0)
        stated.value = rational_whole(value->whole);
    else if (value->usable)
        stated.value = value->number;
    if (value->usable)
        stated.second = value->second;
    return stated;
}

struct rational length_of(const struct element *element, enum attribute_id id)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? rational_unknown() : value->number;
}

long whole_of(const struct element *element, enum attribute_id id)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? 0 : value->whole;
}

int choice_of(const struct element *element, enum attribute_id id,
              int otherwise)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? otherwise : value->choice;
}

struct stated_amounts amounts_of(const struct element *element,
                                 enum attribute_id id)
{
    const struct value *value = value_of(element, id);
    if (value == NULL)
        return (struct stated_amounts){0};
    return (struct stated_amounts){.items = value->list.items,
                                   .count = value->list.count,
                                   .name = value->name,
                                   .span = value->span};
}
