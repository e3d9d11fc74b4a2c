/* The designer's words as runs of text between references. The parser hands out
 * text without places, so the bytes are read once more: comments and
 * instructions are passed over, CDATA and references to characters taken as
 * what they stand for. May assume well-formed XML without a document type, as
 * the parser has been over it. */
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "character.h"
#include "reader.h"

/* A run that grows: its bytes, and for each where it comes from. */
struct growing {
    struct arena *arena;
    struct element *element;
    struct buffer text;
    LIST(uint32_t) places;
    bool blank;        /* a blank was met and not yet written */
    uint32_t blank_at; /* where */
};

/* Bytes and places grow together. */
static void put_byte(struct growing *g, char byte, uint32_t place)
{
    buffer_char(&g->text, byte);
    *LIST_ADD(g->arena, &g->places) = place;
}

/* The blanks of XML become one; those at the start of all stay away. */
static void take_byte(struct growing *g, char byte, uint32_t place)
{
    if (strchr(" \t\r\n", byte) != NULL && byte != '\0') {
        if (!g->blank)
            g->blank_at = place;
        g->blank = true;
        return;
    }
    if (g->blank && (g->text.length > 0 || g->element->runs.count > 0))
        put_byte(g, ' ', g->blank_at);
    g->blank = false;
    put_byte(g, byte, place);
}

/* Closes the run before a child, or at the end where `child` is NULL. One place
 * more than there are bytes: the end can be pointed at, too. */
static void end_run(struct growing *g, const struct element *child,
                    uint32_t place)
{
    const bool inside = g->text.length > 0 || g->element->runs.count > 0;
    if (g->blank && inside && child != NULL)
        put_byte(g, ' ', g->blank_at);
    g->blank = false;
    *LIST_ADD(g->arena, &g->places) = place;
    *LIST_ADD(g->arena, &g->element->runs) =
        (struct text_run){.text = buffer_string(&g->text),
                          .length = g->text.length,
                          .places = g->places.items,
                          .child = child};
    g->text = buffer_in(g->arena);
    g->places.items = NULL;
    g->places.count = g->places.capacity = 0;
}

/* What stands in the source as itself, one character at a time: a separator of
 * lines is a blank like all others. ensures: the place behind it. */
static uint32_t take_written(struct growing *g, const char *bytes, uint32_t at,
                             uint32_t limit)
{
    const struct character c = character_at(bytes + at, limit - at);
    if (character_breaks(c))
        take_byte(g, ' ', at);
    else
        for (uint32_t i = at; i < at + c.size; i++)
            take_byte(g, bytes[i], i);
    return at + c.size;
}

/* One character as UTF-8. All its bytes come from the same place, so that a
 * caret stands under the reference. */
static void take_character(struct growing *g, unsigned long code,
                           uint32_t place)
{
    static const unsigned leads[] = {0, 0, 0xC0, 0xE0, 0xF0};
    if (character_breaks((struct character){.code = (uint32_t)code})) {
        take_byte(g, ' ', place);
        return;
    }
    const unsigned size = code < 0x80      ? 1
                          : code < 0x800   ? 2
                          : code < 0x10000 ? 3
                                           : 4;
    if (size == 1) {
        take_byte(g, (char)code, place);
        return;
    }
    take_byte(g, (char)(leads[size] | code >> (6 * (size - 1))), place);
    for (unsigned left = size - 1; left-- > 0;)
        take_byte(g, (char)(0x80 | (code >> (6 * left) & 0x3F)), place);
}

/* requires: at an ampersand. Without a document type there are five names.
 * The parser has refused all other names, so the question mark is for a fault
 * of ours: it is seen and does no harm. */
static uint32_t take_reference(struct growing *g, const char *bytes,
                               uint32_t at)
{
    static const struct {
        const char *name;
        unsigned long code;
    } names[] = {{"amp;", '&'},
                 {"lt;", '<'},
                 {"gt;", '>'},
                 {"apos;", '\''},
                 {"quot;", '"'}};
    const char *name = bytes + at + 1;
    unsigned long code = '?';
    if (name[0] == '#' && name[1] == 'x')
        code = strtoul(name + 2, NULL, 16);
    else if (name[0] == '#')
        code = strtoul(name + 1, NULL, 10);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strncmp(name, names[i].name, strlen(names[i].name)) == 0)
            code = names[i].code;
    take_character(g, code, at);
    return at + 1 + (uint32_t)strcspn(name, ";") + 1;
}

/* ensures: the place behind the next `end`, at most `limit`.
 * The source goes on behind the element, and what is looked for may only stand
 * there; so the limit. */
static uint32_t behind(const char *bytes, uint32_t at, const char *end,
                       uint32_t limit)
{
    const char *found = strstr(bytes + at, end);
    const uint32_t place =
        found == NULL ? limit : (uint32_t)(found - bytes + (long)strlen(end));
    return place > limit ? limit : place;
}

/* All of it is text, also what looks like markup. Its blanks are folded as all
 * others are. */
static uint32_t take_cdata(struct growing *g, const char *bytes, uint32_t at,
                           uint32_t limit)
{
    const uint32_t end = behind(bytes, at, "]]>", limit);
    for (uint32_t i = at + 9; i + 3 < end;)
        i = take_written(g, bytes, i, end - 3);
    return end;
}

/* The place behind a child's own tags. An empty element has one. */
static uint32_t behind_child(const char *bytes, const struct element *child,
                             uint32_t limit)
{
    return bytes[child->tag.end - 2] == '/'
               ? child->tag.end
               : behind(bytes, child->content.end, ">", limit);
}

/* What begins with < inside the text. *child counts the children that were
 * met; an element that is none of them was reported, its tags are passed. */
static uint32_t take_markup(struct growing *g, const char *bytes, uint32_t at,
                            uint32_t limit, size_t *child)
{
    const struct element *element = g->element;
    if (strncmp(bytes + at, "<!--", 4) == 0)
        return behind(bytes, at + 4, "-->", limit);
    if (strncmp(bytes + at, "<?", 2) == 0)
        return behind(bytes, at, "?>", limit);
    if (strncmp(bytes + at, "<![CDATA[", 9) == 0)
        return take_cdata(g, bytes, at, limit);
    if (*child < element->children.count &&
        element->children.items[*child]->tag.start == at) {
        const struct element *found = element->children.items[(*child)++];
        end_run(g, found, at);
        return behind_child(bytes, found, limit);
    }
    return behind(bytes, at, ">", limit);
}

/* reports: a text that no page holds. Told here, as a comment or a fold of
 * blanks is no part of it. */
static void check_prose(struct run *run, struct element *element)
{
    size_t characters = 0;
    for (size_t i = 0; i < element->runs.count; i++)
        characters += character_count(element->runs.items[i].text,
                                      element->runs.items[i].length);
    if (characters <= LIMIT_PROSE)
        return;
    mark_unsound(element);
    diag_report(
        run, DIAG_LIMIT, element->name,
        "the text of `%s` has %zu characters, but at most %d fit a page",
        element_name(element->kind), characters, LIMIT_PROSE);
}

/* A run before each child, and one behind the last, perhaps empty. */
void read_runs(struct run *run, struct element *element)
{
    struct growing g = {
        .arena = run->arena, .element = element, .text = buffer_in(run->arena)};
    const char *bytes = run->source->bytes;
    const uint32_t limit = element->content.end;
    size_t child = 0;
    for (uint32_t at = element->content.start; at < limit;) {
        if (bytes[at] == '<')
            at = take_markup(&g, bytes, at, limit, &child);
        else if (bytes[at] == '&')
            at = take_reference(&g, bytes, at);
        else
            at = take_written(&g, bytes, at, limit);
    }
    end_run(&g, NULL, limit);
    check_prose(run, element);
}
