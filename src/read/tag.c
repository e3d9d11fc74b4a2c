/* The bytes of a start tag, and names in it that nothing has. No library tells
 * places of attributes, so they are read again from the source. May assume a
 * tag that the parser took. */
#include <string.h>

#include "buffer.h"
#include "reader.h"

/* ---- bytes ---- */

static bool is_name_byte(char c)
{
    return c != '\0' && strchr(" \t\r\n=/>\"'", c) == NULL;
}

struct span word_at(const char *bytes, size_t start)
{
    size_t end = start;
    while (is_name_byte(bytes[end]))
        end++;
    return (struct span){(uint32_t)start, (uint32_t)end};
}

bool next_attribute(const char *bytes, size_t *at, size_t end,
                    struct span *name, struct span *value)
{
    while (*at < end && !is_name_byte(bytes[*at]))
        (*at)++;
    if (*at >= end)
        return false;
    *name = word_at(bytes, *at);
    size_t i = name->end;
    while (i < end && bytes[i] != '"' && bytes[i] != '\'')
        i++;
    size_t close = i + 1;
    while (close < end && bytes[close] != bytes[i])
        close++;
    *value = (struct span){(uint32_t)i + 1, (uint32_t)close};
    *at = close + 1;
    return true;
}

bool declares_namespace(const char *bytes, struct span name)
{
    return strncmp(bytes + name.start, "xmlns", 5) == 0 &&
           (name.end - name.start == 5 || bytes[name.start + 5] == ':');
}

/* ---- unknown names ---- */

/* Which names may stand in this place, as texts. */
static size_t allowed_children(const struct element *parent, const char **names)
{
    const struct set *allowed = &grammar_row(parent->kind)->children;
    size_t count = 0;
    for (unsigned kind = 0; kind < ELEMENT_COUNT; kind++)
        if (set_has(allowed, kind))
            names[count++] = element_name((enum element_kind)kind);
    return count;
}

void report_unknown_element(struct run *run, const struct element *parent,
                            const char *name, struct span span, bool empty)
{
    const char *names[ELEMENT_COUNT];
    const size_t count = allowed_children(parent, names);
    const bool known = element_named(name) != ELEMENT_COUNT;
    struct diagnostic *d =
        diag_report(run, DIAG_UNKNOWN_ELEMENT, span,
                    known ? "`%s` has no place in `%s`"
                          : "no element is called `%s` in `%s`",
                    name, element_name(parent->kind));
    const char *near = known ? NULL : nearest_name(name, names, count);
    /* A program can mend an empty element only: others have an end tag. */
    if (near != NULL && empty)
        diag_mend(run, d, span, near, "did you mean `%s`?", near);
    else if (near != NULL)
        diag_help(run, d, "did you mean `%s`?", near);
    if (near != NULL)
        return;
    struct buffer list = buffer_in(run->arena);
    for (size_t i = 0; i < count; i++)
        buffer_printf(&list, "%s`%s`", i == 0 ? "" : ", ", names[i]);
    if (count > 0)
        diag_note(run, d, (struct span){0, 0}, "`%s` may hold %s",
                  element_name(parent->kind), buffer_string(&list));
}

/* What is written already cannot be meant by a misspelt name beside it. */
static bool stands_in_tag(const char *bytes, const struct element *element,
                          const char *name)
{
    struct span found, value;
    size_t at = element->name.end;
    while (next_attribute(bytes, &at, element->tag.end, &found, &value))
        if (found.end - found.start == strlen(name) &&
            strncmp(bytes + found.start, name, strlen(name)) == 0)
            return true;
    return false;
}

void report_unknown_attribute(struct run *run, struct element *element,
                              const char *name, struct span span)
{
    const char *names[ATTRIBUTE_COUNT];
    size_t count = 0;
    for (int i = 0; i < ATTRIBUTE_COUNT; i++) {
        const enum attribute_id id = (enum attribute_id)i;
        if (grammar_allows(element->kind, id) &&
            !stands_in_tag(run->source->bytes, element, attribute_name(id)))
            names[count++] = attribute_name(id);
    }
    mark_faulty(element);
    struct diagnostic *d = diag_report(
        run, DIAG_UNKNOWN_ATTRIBUTE, span, "`%s` has no attribute %s",
        element_name(element->kind), quoted(run->arena, name));
    const char *near = nearest_name(name, names, count);
    if (near != NULL) {
        diag_mend(run, d, span, near, "did you mean `%s`?", near);
        return;
    }
    struct buffer list = buffer_in(run->arena);
    for (size_t i = 0; i < count; i++)
        buffer_printf(&list, "%s`%s`", i == 0 ? "" : ", ", names[i]);
    diag_note(run, d, (struct span){0, 0}, "`%s` may have %s",
              element_name(element->kind),
              count == 0 ? "none" : buffer_string(&list));
    if ((element->kind == ELEMENT_UNIT || element->kind == ELEMENT_BLOCK) &&
        strcmp(name, attribute_name(ATTR_FINISHED)) == 0)
        diag_help(run, d,
                  "how large it is sewn stands where it is used, as in <use "
                  "%s=\"...\" finished=\"6\"/>; here `width` and `height`%s "
                  "say how many squares it has",
                  element_name(element->kind),
                  element->kind == ELEMENT_BLOCK ? ", or `grid`," : "");
}
