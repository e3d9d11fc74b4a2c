/* Lists of names: which fabrics play the roles of a unit or block, "point=red
 * center=gold", and names alone, "flame night". They are looked for in the
 * resolving stage. */
#include "reader.h"

#include <string.h>

#include "identifier.h"

static const char blanks[] = " \t\r\n";

/* A name from *at on, with its place; *at is then behind it. NULL for none. */
static const char *read_name(struct run *run, const struct value *value,
                             size_t *at, struct span *span)
{
    const size_t start = *at;
    const size_t length = strcspn(value->text + start, " \t\r\n=");
    const char *name = arena_copy(run->arena, value->text + start, length);
    *at += length;
    *span = value_part(value, start, *at);
    return length > 0 && identifier_length(name) == length ? name : NULL;
}

/* Blanks may stand around the sign, too. */
void read_casts(struct run *run, const char *name, struct value *value)
{
    const char *text = value->text;
    size_t at = strspn(text, blanks);
    do {
        struct cast_text cast;
        cast.role = read_name(run, value, &at, &cast.role_span);
        at += strspn(text + at, blanks);
        const bool sign = text[at] == '=';
        at += sign;
        at += strspn(text + at, blanks);
        cast.fabric = read_name(run, value, &at, &cast.fabric_span);
        if (cast.role == NULL || !sign || cast.fabric == NULL) {
            value_not_usable(run, name, value,
                             "roles with their fabrics, such as "
                             "\"points=red center=gold\"");
            return;
        }
        *LIST_ADD(run->arena, &value->casts) = cast;
        at += strspn(text + at, blanks);
    } while (text[at] != '\0');
}

/* One at least. */
void read_names(struct run *run, const char *name, struct value *value)
{
    const char *text = value->text;
    size_t at = strspn(text, blanks);
    do {
        struct name_text one;
        one.text = read_name(run, value, &at, &one.span);
        if (one.text == NULL) {
            value_not_usable(run, name, value,
                             "one or more names, such as \"flame night\"");
            return;
        }
        *LIST_ADD(run->arena, &value->names) = one;
        at += strspn(text + at, blanks);
    } while (text[at] != '\0');
}
