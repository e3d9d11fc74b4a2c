/* Data of a build that were mangled, each beside the sound ones: bytes lost,
 * values of another kind or at an edge, keys dropped, doubled, renamed, lists
 * without end. What is compared with it tells the same pattern. */
#include <string.h>

#include "hostile.h"

/* Also the other side of the comparison. */
static const char *sound(struct making *m)
{
    return m->data[below(m, m->data_count)];
}

static void add_sound(struct buffer *out, const char *text)
{
    buffer_text(out, FILE_MARK DATA_SOUND "\n");
    buffer_text(out, text);
}

/* Bytes, as those of a source: the harm that asks for no XML. */
static void bytes(struct making *m, struct buffer *out)
{
    static const char *const ways[] = {"cut-off",     "cut-out",
                                       "doubled",     "exchanged",
                                       "other-bytes", "other-numbers"};
    const char *text = sound(m), *way = PICK(m, ways);
    size_t count;
    const struct kind *kinds = harmed_kinds(&count);
    struct making once = *m;
    once.samples = &text;
    once.sample_count = 1;
    for (size_t i = 0; i < count; i++)
        if (strcmp(kinds[i].name, way) == 0)
            kinds[i].make(&once, out);
    add_sound(out, text);
}

/* A value behind some `: `, up to its end; of a list or an object only the
 * sign that opens it. */
static void some_value(struct making *m, const char *text, size_t *start,
                       size_t *end)
{
    const size_t length = strlen(text);
    const char *colon = strchr(text + below(m, length), ':');
    if (colon == NULL)
        colon = strchr(text, ':');
    const char *at = colon + 1 + strspn(colon + 1, " \n");
    const char *behind = at + strcspn(at, ",}]\n");
    if (*at == '"')
        for (behind = at + 1; *behind != '"' && *behind != '\0'; behind++)
            behind += *behind == '\\' && behind[1] != '\0';
    *start = (size_t)(at - text);
    *end = (size_t)(behind - text) + (*at == '"');
}

static void put_text(struct buffer *out, const char *text)
{
    buffer_char(out, '"');
    for (; *text != '\0'; text++)
        if (*text == '"' || *text == '\\')
            buffer_printf(out, "\\%c", *text);
        else if ((unsigned char)*text < ' ')
            buffer_printf(out, "\\u%04x", (unsigned)*text);
        else
            buffer_char(out, *text);
    buffer_char(out, '"');
}

static void put_value(struct making *m, struct buffer *out)
{
    static const char *const values[] = {"null",
                                         "true",
                                         "false",
                                         "[]",
                                         "{}",
                                         "[[]]",
                                         "[null]",
                                         "{\"a\":1}",
                                         "0",
                                         "-1",
                                         "1",
                                         "2",
                                         "3",
                                         "-0",
                                         "1.5",
                                         "1e9",
                                         "1e308",
                                         "1e-400",
                                         "1E999",
                                         "2147483647",
                                         "2147483648",
                                         "9223372036854775807",
                                         "9223372036854775808",
                                         "\"\\u0000\"",
                                         "\"\\ud800\"",
                                         "\"\\udc00\\ud800\"",
                                         "\"\\u202e\"",
                                         "NaN",
                                         "Infinity",
                                         "01",
                                         "0x1",
                                         "'a'",
                                         "\"\t\"",
                                         ""};
    if (below(m, 3) == 0)
        buffer_text(out, PICK(m, values));
    else
        put_text(out, hostile_value(m));
}

static void values(struct making *m, struct buffer *out)
{
    const char *text = sound(m), *changed = text;
    for (size_t i = below(m, 3) + 1; i > 0; i--) {
        size_t start, end;
        struct buffer next = buffer_in(m->arena);
        some_value(m, changed, &start, &end);
        buffer_add(&next, changed, start);
        put_value(m, &next);
        buffer_text(&next, changed + end);
        changed = buffer_string(&next);
    }
    buffer_text(out, changed);
    add_sound(out, text);
}

/* Two values change places: each is right elsewhere. */
static void exchanged(struct making *m, struct buffer *out)
{
    const char *text = sound(m);
    size_t from, to, start, end;
    some_value(m, text, &from, &to);
    some_value(m, text, &start, &end);
    buffer_add(out, text, start);
    buffer_add(out, text + from, to - from);
    buffer_text(out, text + end);
    add_sound(out, text);
}

/* A line of the file is lost, doubled or moved; each has one member or item. */
static void lines(struct making *m, struct buffer *out)
{
    const char *text = sound(m);
    const size_t way = below(m, 3);
    const char *line = strchr(text + below(m, strlen(text)), '\n');
    line = line == NULL ? text : line + 1;
    const size_t length = strcspn(line, "\n");
    const char *to =
        way == 2 ? strchr(text + below(m, strlen(text)), '\n') : NULL;
    to = to == NULL ? line : to + 1;
    for (const char *c = text;; c++) {
        if (c == to && way > 0)
            buffer_printf(out, "%.*s\n", (int)length, line);
        if (c == line && way != 1)
            c += length;
        if (*c == '\0')
            break;
        buffer_char(out, *c);
    }
    add_sound(out, text);
}

/* A key has the name of another one, or none that is known. */
static void keys(struct making *m, struct buffer *out)
{
    const char *text = sound(m);
    size_t start, end, from, to;
    some_value(m, text, &start, &end);
    some_value(m, text, &from, &to);
    const char *names[2] = {text + start, text + from};
    size_t lengths[2];
    for (int i = 0; i < 2; i++) {
        const char *close = names[i];
        while (close > text && *close != ':')
            close--;
        while (close > text && *close != '"')
            close--;
        const char *open = close;
        while (open > text && open[-1] != '"')
            open--;
        names[i] = open;
        lengths[i] = (size_t)(close - open);
    }
    buffer_add(out, text, (size_t)(names[0] - text));
    if (below(m, 3) == 0)
        buffer_text(out, "x");
    else
        buffer_add(out, names[1], lengths[1]);
    buffer_text(out, names[0] + lengths[0]);
    add_sound(out, text);
}

/* An item of a list, which begins and ends with a line of its own.
 * ensures: its bytes, without a comma; NULL where there is none. */
static const char *some_item(struct making *m, const char *text, size_t *length)
{
    const char *from = text + below(m, strlen(text));
    const char *open = strstr(from, " {\n");
    const char *line = open;
    while (line != NULL && line > text && line[-1] == ' ')
        line--;
    if (line == NULL || line == text || line[-1] != '\n')
        return NULL;
    const int indent = (int)(open + 1 - line);
    const char *end =
        strstr(open, arena_printf(m->arena, "\n%*s}", indent, ""));
    *length = end == NULL ? 0 : (size_t)(end - line) + (size_t)indent + 2;
    return end == NULL ? NULL : line;
}

/* An item stands there again and again, up to the most that is read. */
static void many(struct making *m, struct buffer *out)
{
    static const size_t counts[] = {1, 40, 300, 3000, 1000000};
    enum { MOST = 16 * 1024 * 1024 };
    const char *text = sound(m);
    size_t length = 0, count = counts[below(m, UNIT_COUNT(counts))];
    const char *item = some_item(m, text, &length);
    if (item == NULL)
        item = text, count = 0;
    if (count * (length + 2) > MOST - strlen(text))
        count = (MOST - strlen(text)) / (length + 2);
    buffer_add(out, text, (size_t)(item - text));
    for (size_t i = 0; i < count; i++)
        buffer_printf(out, "%.*s,\n", (int)length, item);
    buffer_text(out, item);
    add_sound(out, text);
}

/* A list in a list in a list, in the place of some value. */
static void deep(struct making *m, struct buffer *out)
{
    static const size_t depths[] = {2, 300, 2040, 2048, 2049, 100000};
    const char *text = sound(m);
    const size_t depth = depths[below(m, UNIT_COUNT(depths))];
    const bool closed = below(m, 4) > 0;
    const char *open = below(m, 2) == 0 ? "[" : "{\"a\":";
    size_t start, end;
    some_value(m, text, &start, &end);
    buffer_add(out, text, start);
    for (size_t i = 0; i < depth; i++)
        buffer_text(out, open);
    buffer_text(out, "1");
    for (size_t i = 0; i < depth && closed; i++)
        buffer_char(out, open[0] == '[' ? ']' : '}');
    buffer_text(out, text + end);
    add_sound(out, text);
}

const struct kind *data_kinds(size_t *count)
{
    static const struct kind kinds[] = {
        {"data-bytes", bytes, HOSTILE_DATA},
        {"data-values", values, HOSTILE_DATA},
        {"data-exchanged", exchanged, HOSTILE_DATA},
        {"data-lines", lines, HOSTILE_DATA},
        {"data-keys", keys, HOSTILE_DATA},
        {"data-many", many, HOSTILE_DATA},
        {"data-deep", deep, HOSTILE_DATA},
    };
    *count = UNIT_COUNT(kinds);
    return kinds;
}
