/* Sound sources that were damaged: bytes lost, doubled, exchanged; attributes
 * dropped or given another value; elements moved where they do not belong. */
#include <string.h>

#include "hostile.h"
#include "pattern.h"

static const char *sample(struct making *m)
{
    return m->samples[below(m, m->sample_count)];
}

/* A place in the text and how many bytes from there, at most `most`. */
static size_t place(struct making *m, const char *text, size_t most,
                    size_t *length)
{
    const size_t all = strlen(text), at = below(m, all);
    *length = below(m, (all - at < most ? all - at : most) + 1);
    return at;
}

/* ensures: where the n-th of the sign stands, counted by chance; or NULL. */
static const char *some(struct making *m, const char *text, char sign)
{
    size_t count = 0;
    for (const char *c = text; *c != '\0'; c++)
        count += *c == sign;
    size_t wanted = count == 0 ? 0 : below(m, count) + 1;
    for (const char *c = text; wanted > 0 && *c != '\0'; c++)
        if (*c == sign && --wanted == 0)
            return c;
    return NULL;
}

/* The value between quotes that some `=` begins. ensures: false without one. */
static bool some_value(struct making *m, const char *text, size_t *start,
                       size_t *end)
{
    const char *sign = some(m, text, '=');
    if (sign == NULL || sign[1] != '"' || strchr(sign + 2, '"') == NULL)
        return false;
    *start = (size_t)(sign + 2 - text);
    *end = (size_t)(strchr(sign + 2, '"') - text);
    return true;
}

static void put_around(struct buffer *out, const char *text, size_t start,
                       size_t end, const char *between)
{
    buffer_add(out, text, start);
    buffer_text(out, between);
    buffer_text(out, text + end);
}

static void cut_off(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    buffer_add(out, text, below(m, strlen(text)));
}

static void cut_out(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t length;
    const size_t at = place(m, text, 200, &length);
    put_around(out, text, at, at + length, "");
}

static void doubled(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t length;
    const size_t at = place(m, text, 600, &length);
    buffer_add(out, text, at + length);
    buffer_text(out, text + at);
}

static void exchanged(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t a, b;
    const size_t first = place(m, text, 100, &a);
    const size_t second = place(m, text + first + a, 100, &b) + first + a;
    buffer_add(out, text, first);
    buffer_add(out, text + second, b);
    buffer_add(out, text + first + a, second - first - a);
    buffer_add(out, text + first, a);
    buffer_text(out, text + second + b);
}

static void other_bytes(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    buffer_text(out, text);
    for (size_t i = below(m, 12) + 1; i > 0; i--)
        out->bytes[below(m, out->length)] = (char)below(m, 256);
}

static void attribute_dropped(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t start, end;
    if (!some_value(m, text, &start, &end)) {
        buffer_text(out, text);
        return;
    }
    size_t from = start - 2;
    while (from > 0 && strchr(" <\n", text[from]) == NULL)
        from--;
    put_around(out, text, from, end + 1, "");
}

/* Several, as one bad value hides what lies behind it. */
static void other_values(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    for (size_t i = below(m, 3) + 1; i > 0; i--) {
        size_t start, end;
        if (!some_value(m, text, &start, &end))
            continue;
        struct buffer next = buffer_in(m->arena);
        put_around(&next, text, start, end, hostile_value(m));
        text = buffer_string(&next);
    }
    buffer_text(out, text);
}

/* Two values of the source change places: each is right elsewhere. */
static void values_exchanged(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t start, end, from, to;
    if (!some_value(m, text, &start, &end) ||
        !some_value(m, text, &from, &to)) {
        buffer_text(out, text);
        return;
    }
    const char *other = arena_copy(m->arena, text + from, to - from);
    put_around(out, text, start, end, other);
}

/* A whole number, fraction or count, where the writer had another. */
static void other_numbers(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    for (size_t i = below(m, 3) + 1; i > 0; i--) {
        size_t at = below(m, strlen(text)), end;
        while (text[at] != '\0' && (text[at] < '0' || text[at] > '9'))
            at++;
        for (end = at; text[end] >= '0' && text[end] <= '9';)
            end++;
        struct buffer next = buffer_in(m->arena);
        put_around(&next, text, at, end, end > at ? hostile_number(m) : "");
        text = buffer_string(&next);
    }
    buffer_text(out, text);
}

/* ensures: some tag of the text, from < to behind >. */
static bool some_tag(struct making *m, const char *text, size_t *start,
                     size_t *end)
{
    const char *open = some(m, text, '<');
    const char *close = open == NULL ? NULL : strchr(open, '>');
    if (close == NULL)
        return false;
    *start = (size_t)(open - text);
    *end = (size_t)(close + 1 - text);
    return true;
}

static void tag_dropped(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t start = 0, end = 0;
    some_tag(m, text, &start, &end);
    put_around(out, text, start, end, "");
}

/* A tag of one place, put into another: most stand where they may not. */
static void tag_moved(struct making *m, struct buffer *out)
{
    const char *text = sample(m), *other = sample(m);
    size_t start = 0, end = 0, from = 0, to = 0;
    some_tag(m, text, &start, &end);
    some_tag(m, other, &from, &to);
    put_around(out, text, end, end,
               arena_copy(m->arena, other + from, to - from));
}

static void tag_renamed(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t start = 0, end = 0;
    some_tag(m, text, &start, &end);
    const size_t name = start + 1 + (text[start + 1] == '/');
    put_around(out, text, name, name + strcspn(text + name, " />\n"),
               element_name((enum element_kind)below(m, ELEMENT_COUNT)));
}

/* Text where a picture, a map or prose stands, or where none may. */
static void other_text(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    const char *after = some(m, text, '>');
    const size_t start = after == NULL ? 0 : (size_t)(after + 1 - text);
    size_t end = start + strcspn(text + start, "<");
    if (below(m, 2) == 0)
        end = start;
    put_around(out, text, start, end, hostile_text(m));
}

/* In one value, or anywhere. */
static void text_trap(struct making *m, struct buffer *out)
{
    const char *text = sample(m);
    size_t start, end;
    if (!some_value(m, text, &start, &end) || below(m, 3) == 0)
        start = end = below(m, strlen(text));
    else
        start = end = start + below(m, end - start + 1);
    put_around(out, text, start, end, hostile_text(m));
}

const struct kind *harmed_kinds(size_t *count)
{
    static const struct kind kinds[] = {
        {"cut-off", cut_off, HOSTILE_SOURCE},
        {"cut-out", cut_out, HOSTILE_SOURCE},
        {"doubled", doubled, HOSTILE_SOURCE},
        {"exchanged", exchanged, HOSTILE_SOURCE},
        {"other-bytes", other_bytes, HOSTILE_SOURCE},
        {"attribute-dropped", attribute_dropped, HOSTILE_SOURCE},
        {"other-values", other_values, HOSTILE_SOURCE},
        {"values-exchanged", values_exchanged, HOSTILE_SOURCE},
        {"other-numbers", other_numbers, HOSTILE_SOURCE},
        {"tag-dropped", tag_dropped, HOSTILE_SOURCE},
        {"tag-moved", tag_moved, HOSTILE_SOURCE},
        {"tag-renamed", tag_renamed, HOSTILE_SOURCE},
        {"other-text", other_text, HOSTILE_SOURCE},
        {"text-trap", text_trap, HOSTILE_SOURCE},
    };
    *count = UNIT_COUNT(kinds);
    return kinds;
}
