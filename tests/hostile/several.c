/* Sources of several files that include each other: sound ones that were parted
 * and harmed, and files made up, in circles, twice, broken, or not there. */
#include <string.h>

#include "hostile.h"

#define NAMESPACE " xmlns=\"urn:seamwright:pattern:1\""

/* ---- samples in several files ---- */

/* The next child of the root, as lines that begin with two blanks and a tag.
 * ensures: its length, or 0 where none begins here. */
static size_t child_at(const char *text)
{
    if (strncmp(text, "  <", 3) != 0 || text[3] == '!' || text[3] == '/')
        return 0;
    const size_t name = strcspn(text + 3, " >");
    for (const char *end = text; (end = strstr(end, "</")) != NULL; end++) {
        /* Its own end tag stands in its first line, or begins a line. */
        const bool own =
            strncmp(end + 2, text + 3, name) == 0 && end[2 + name] == '>';
        const char *line = memchr(text, '\n', (size_t)(end - text));
        if (own && (line == NULL || strncmp(end - 3, "\n  ", 3) == 0))
            return (size_t)(end - text) + strcspn(end, "\n");
    }
    return 0;
}

static bool is_shared(const char *child)
{
    static const char *const names[] = {"fabrics", "colorway", "unit", "block",
                                        "assembly"};
    for (size_t i = 0; i < UNIT_COUNT(names); i++)
        if (strncmp(child + 3, names[i], strlen(names[i])) == 0)
            return true;
    return false;
}

/* Moves what may be shared into some of the files, each of which the source or
 * the one before includes. */
static void part(struct making *m, const char *text, struct buffer *files,
                 size_t count)
{
    for (const char *at = text; *at != '\0';) {
        const size_t length = child_at(at);
        const size_t to = length > 0 && is_shared(at) && below(m, 5) > 0
                              ? below(m, count)
                              : 0;
        const size_t bytes = length > 0 ? length : strcspn(at, "\n");
        buffer_add(&files[to], at, bytes);
        buffer_char(&files[to], '\n');
        at += bytes;
        at += *at == '\n';
    }
}

/* Some of it is another, or lost. */
static void harm(struct making *m, struct buffer *file)
{
    if (file->length == 0)
        return;
    const size_t at = below(m, file->length);
    const size_t way = below(m, 5);
    if (way == 0)
        file->length = at;
    else if (way == 1)
        file->bytes[at] = (char)below(m, 256);
    else if (way == 2)
        file->bytes[at] = "<>&\"'/= x0"[below(m, 10)];
    else
        for (char *c = file->bytes + at; c < file->bytes + file->length; c++)
            if (*c >= '1' && *c < '9') {
                ++*c;
                break;
            }
}

static void add_file(struct buffer *out, size_t number,
                     const struct buffer *file)
{
    buffer_printf(out, "%spart-%zu.xml\n", FILE_MARK, number);
    buffer_add(out, file->bytes, file->length);
}

static void parted(struct making *m, struct buffer *out)
{
    enum { MOST = 5 };
    const char *text = m->samples[below(m, m->sample_count)];
    const size_t count = below(m, MOST - 1) + 2;
    struct buffer files[MOST];
    for (size_t i = 0; i < count; i++)
        files[i] = buffer_in(m->arena);
    part(m, text, files, count);
    const char *end = strstr(buffer_string(&files[0]), "</pattern>");
    struct buffer source = buffer_in(m->arena);
    buffer_add(&source, files[0].bytes,
               end == NULL ? files[0].length : (size_t)(end - files[0].bytes));
    struct buffer shared[MOST];
    for (size_t i = 1; i < count; i++) {
        shared[i] = buffer_in(m->arena);
        buffer_text(&shared[i], "<shared" NAMESPACE ">\n");
        buffer_printf(i > 1 && below(m, 2) == 0 ? &shared[i - 1] : &source,
                      "<include href=\"part-%zu.xml\"/>\n", i);
        buffer_add(&shared[i], buffer_string(&files[i]), files[i].length);
    }
    for (size_t i = 1; i < count; i++)
        buffer_text(&shared[i], "</shared>\n");
    buffer_text(&source, "</pattern>\n");
    struct buffer *harmed =
        below(m, 3) == 0 ? &source : &shared[below(m, count - 1) + 1];
    if (below(m, 6) > 0)
        harm(m, harmed);
    buffer_add(out, source.bytes, source.length);
    for (size_t i = 1; i < count; i++)
        add_file(out, i, &shared[i]);
}

/* ---- files made up ---- */

/* The file of that number, mostly. */
static void put_include(struct making *m, struct buffer *out, size_t number)
{
    static const char *const ways[] = {"",    "./",      "no/../", "../", "/",
                                       "no/", "http://", ".\\",    "err/"};
    const char *way = below(m, 30) == 0 ? PICK(m, ways) : "";
    if (below(m, 60) == 0)
        buffer_printf(out, "<include href=\"%s\"/>", hostile_value(m));
    else
        buffer_printf(out, "<include href=\"%spart-%zu.xml\"/>", way,
                      below(m, 60) == 0 ? below(m, 140) : number);
}

static void broken_file(struct making *m, struct buffer *out)
{
    static const char *const texts[] = {
        "",
        "  \n",
        "\xEF\xBB\xBF",
        "\xEF\xBB\xBF<shared" NAMESPACE "/>",
        "<shared/>",
        "<pattern" NAMESPACE "/>",
        "<!DOCTYPE shared [<!ENTITY a \"&a;&a;\">]><shared>&a;</shared>",
        "<?xml version=\"1.0\" encoding=\"UTF-16\"?><shared" NAMESPACE "/>",
        "<shared" NAMESPACE ">text</shared>",
        "<shared" NAMESPACE "><unit>",
        "<shared" NAMESPACE "></pattern>",
        "<shared" NAMESPACE "/><shared/>",
        "\xFF\xFE<\0s",
        "no source"};
    const char *text = PICK(m, texts);
    buffer_text(out, text);
    if (below(m, 4) == 0)
        buffer_add(out, "\0<shared/>", 10);
}

static void made_up(struct making *m, struct buffer *out)
{
    const size_t counts[] = {1, 2, 5, 12, 101, 130};
    const size_t count = counts[below(m, UNIT_COUNT(counts))];
    buffer_text(out, "<pattern" NAMESPACE " id=\"p\" title=\"T\">");
    const size_t own = below(m, count) + 1;
    for (size_t i = 1; i <= own; i++)
        put_include(m, out, i);
    buffer_text(out,
                "<fabrics><fabric id=\"f\"/></fabrics><colorway id=\"c\">"
                "<cloth fabric=\"f\" color=\"#336699\"/></colorway>"
                "<quilt id=\"q\"><row><use unit=\"u1\"/><patch fabric=\"f\" "
                "width=\"2\" height=\"2\"/></row></quilt></pattern>");
    for (size_t i = 1; i <= count; i++) {
        struct buffer file = buffer_in(m->arena);
        if (below(m, 4 * count) == 0) {
            broken_file(m, &file);
        } else {
            buffer_printf(&file,
                          "<shared" NAMESPACE "><unit id=\"u%zu\" width=\"2\" "
                          "height=\"2\"><patch fabric=\"%s\"/></unit>",
                          below(m, 8 * count) == 0 ? 1 : i,
                          below(m, 8 * count) == 0 ? hostile_text(m) : "f");
            /* Most lead on, some back. */
            if (below(m, 3) == 0)
                put_include(m, &file,
                            below(m, 3 * count) == 0 ? below(m, count) + 1
                                                     : i + 1);
            buffer_text(&file, "</shared>");
        }
        if (below(m, 4 * count) > 0)
            add_file(out, i, &file);
    }
}

const struct kind *several_kinds(size_t *count)
{
    static const struct kind kinds[] = {{"parted", parted, HOSTILE_SOURCE},
                                        {"included", made_up, HOSTILE_SOURCE}};
    *count = UNIT_COUNT(kinds);
    return kinds;
}
