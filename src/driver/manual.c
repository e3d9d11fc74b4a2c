/* Reads the manual. It is written for people, so only its fixed forms are
 * looked at: the list of pages in contents.md, headings `## Element ...`, and
 * below them the items "- `NAME` (VALUES; STATE): MEANING". A test holds these
 * to the grammar. Read next: explain.c. */
#include "manual.h"

#include <string.h>

#include "templates.h"

/* Lines of a text, one after the other. */
struct lines {
    const char *at;    /* of the next line */
    const char *line;  /* the line that was read */
    const char *limit; /* behind it, its line end not counted */
};

/* ensures: false at the end of the text. */
static bool next_line(struct lines *lines)
{
    if (*lines->at == '\0')
        return false;
    lines->line = lines->at;
    lines->limit = lines->at + strcspn(lines->at, "\n");
    lines->at = lines->limit + (*lines->limit == '\n');
    return true;
}

static bool begins(const char *line, const char *with)
{
    return strncmp(line, with, strlen(with)) == 0;
}

/* ensures: what stands on the line between the two signs, the first of each;
 * NULL where they are not there. */
static const char *between(struct arena *arena, const struct lines *lines,
                           const char *open, const char *close)
{
    const char *start = strstr(lines->line, open);
    if (start == NULL || start >= lines->limit)
        return NULL;
    start += strlen(open);
    const char *end = strstr(start, close);
    return end == NULL || end > lines->limit
               ? NULL
               : arena_copy(arena, start, (size_t)(end - start));
}

/* ensures: the text of a page, or NULL. Embedded files end with a NUL. */
static const char *page_text(struct arena *arena, const char *name)
{
    const struct template_file *file =
        template_find(arena_printf(arena, "manual/%s.md", name));
    return file == NULL ? NULL : (const char *)file->bytes;
}

/* "- [half-square](half-square.md): a square of two triangles" */
static void read_contents(struct arena *arena, struct manual *manual)
{
    const char *part = "", *text = page_text(arena, "contents");
    struct lines lines = {.at = text == NULL ? "" : text};
    while (next_line(&lines)) {
        if (begins(lines.line, "## "))
            part = between(arena, &lines, "## ", "\n");
        if (!begins(lines.line, "- ["))
            continue;
        struct manual_page *page = LIST_ADD(arena, &manual->pages);
        page->name = between(arena, &lines, "- [", "]");
        page->summary = between(arena, &lines, "): ", "\n");
        page->part = part;
        page->text = page_text(arena, page->name == NULL ? "" : page->name);
    }
}

/* Attributes stand below an element, or are those of every piece. */
static struct manual_entry *read_heading(struct arena *arena,
                                         struct manual *manual, size_t page,
                                         const struct lines *lines)
{
    const bool pieces = begins(lines->line, "## Every piece\n");
    if (!pieces && !begins(lines->line, "## Element "))
        return NULL;
    struct manual_entry *entry = LIST_ADD(arena, &manual->entries);
    const char *name = between(arena, lines, "`", "`");
    entry->page = page;
    entry->heading = between(arena, lines, "## ", "\n");
    entry->name = name == NULL ? "" : name;
    return entry;
}

/* An item goes on in lines that begin with blanks. */
static void read_item(struct arena *arena, struct manual *manual,
                      const struct manual_entry *section,
                      const struct lines *lines)
{
    struct lines end = *lines;
    while (begins(end.at, "  "))
        next_line(&end);
    const struct manual_entry item = {
        .page = section->page,
        .heading = section->heading,
        .name = between(arena, lines, "- `", "` ("),
        .attribute = true,
        .text = arena_copy(arena, lines->line, (size_t)(end.at - lines->line))};
    if (item.name != NULL)
        *LIST_ADD(arena, &manual->entries) = item;
}

/* A section ends where the next begins, or with the page. Adding to the list
 * moves it, so that the open section is kept by its index. */
static void read_page(struct arena *arena, struct manual *manual, size_t page)
{
    const char *text = manual->pages.items[page].text;
    struct lines lines = {.at = text == NULL ? "" : text};
    bool fenced = false, open = false;
    size_t section = 0;
    const char *start = NULL;
    while (next_line(&lines)) {
        fenced ^= begins(lines.line, "```");
        const bool heading = !fenced && begins(lines.line, "## ");
        if (open && heading)
            manual->entries.items[section].text =
                arena_copy(arena, start, (size_t)(lines.line - start));
        if (heading) {
            section = manual->entries.count;
            start = lines.line;
            open = read_heading(arena, manual, page, &lines) != NULL;
        } else if (open && !fenced && begins(lines.line, "- `")) {
            const struct manual_entry owner = manual->entries.items[section];
            read_item(arena, manual, &owner, &lines);
        }
    }
    if (open)
        manual->entries.items[section].text =
            arena_copy(arena, start, (size_t)(lines.at - start));
}

const struct manual *read_manual(struct arena *arena)
{
    struct manual *manual = ARENA_NEW(arena, struct manual);
    read_contents(arena, manual);
    for (size_t i = 0; i < manual->pages.count; i++)
        read_page(arena, manual, i);
    return manual;
}
