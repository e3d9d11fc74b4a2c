/* How contents grow. Values are copied into lists of the arena, so they last as
 * long as it does. Read next: section_glance.c. */
#include "contents.h"

#include <string.h>

/* ---- lists of texts ---- */

void texts_add(const struct wording *w, struct texts *texts, const char *text)
{
    *LIST_ADD(w->arena, &texts->items) = text;
}

/* Lists of words are short, so a walk is quick enough. */
void texts_add_once(const struct wording *w, struct texts *texts,
                    const char *text)
{
    for (size_t i = 0; i < texts->items.count; i++)
        if (strcmp(texts->items.items[i], text) == 0)
            return;
    texts_add(w, texts, text);
}

/* As one sentence part, where there is no room for a list. */
const char *texts_listed(const struct wording *w, const struct texts *texts)
{
    return texts->items.count == 0
               ? ""
               : word_list(w, texts->items.items, texts->items.count);
}

/* ---- adding ---- */

static struct content *add_content(const struct wording *w,
                                   struct contents *contents,
                                   enum content_kind kind,
                                   enum content_part part)
{
    struct content *content = LIST_ADD(w->arena, &contents->items);
    content->kind = kind;
    content->part = part;
    return content;
}

void add_heading(const struct wording *w, struct contents *contents,
                 enum content_part part, const char *title)
{
    add_content(w, contents, CONTENT_HEADING, part)->as.heading =
        (struct told_heading){.level = 2, .title = title, .lead = ""};
}

/* A section has one, the first of its contents. */
void add_title(const struct wording *w, struct contents *contents,
               const char *title, const char *lead)
{
    add_content(w, contents, CONTENT_HEADING, PART_MAIN)->as.heading =
        (struct told_heading){.level = 1, .title = title, .lead = lead};
}

void add_paragraph(const struct wording *w, struct contents *contents,
                   enum content_part part, const char *text)
{
    struct told_text *run = ARENA_NEW(w->arena, struct told_text);
    run->text = text;
    add_content(w, contents, CONTENT_PARAGRAPH, part)->as.paragraph =
        (struct told_paragraph){run, 1};
}

struct told_list *add_list(const struct wording *w, struct contents *contents,
                           enum content_part part, const struct texts *texts)
{
    struct told_list list = {.items = {0}};
    for (size_t i = 0; i < texts->items.count; i++)
        *LIST_ADD(w->arena, &list.items) =
            (struct told_point){.label = "", .text = texts->items.items[i]};
    struct content *content = add_content(w, contents, CONTENT_LIST, part);
    content->as.list = list;
    return &content->as.list;
}

struct told_figure *add_figure(const struct wording *w,
                               struct contents *contents,
                               enum content_part part,
                               struct told_figure figure)
{
    struct content *content = add_content(w, contents, CONTENT_FIGURE, part);
    content->as.figure = figure;
    return &content->as.figure;
}

void add_table(const struct wording *w, struct contents *contents,
               enum content_part part, struct told_table table)
{
    add_content(w, contents, CONTENT_TABLE, part)->as.table = table;
}

void add_sections(const struct wording *w, struct contents *contents)
{
    add_content(w, contents, CONTENT_SECTIONS, PART_SECTIONS);
}

struct told_work *add_work(const struct wording *w, struct contents *contents,
                           enum content_part part, size_t number,
                           const char *title)
{
    struct content *content = add_content(w, contents, CONTENT_WORK, part);
    content->as.work = (struct told_work){
        .number = number, .title = title, .made = "", .other = ""};
    return &content->as.work;
}

struct told_cloth *add_cloth(const struct wording *w, struct contents *contents)
{
    return &add_content(w, contents, CONTENT_CLOTH, PART_CLOTHS)->as.cloth;
}

/* ---- cells ---- */

void add_column(const struct wording *w, struct told_table *table,
                enum column_kind kind, const char *head)
{
    *LIST_ADD(w->arena, &table->columns) = (struct told_column){kind, head};
}

struct told_row *add_row(const struct wording *w, struct told_table *table)
{
    return LIST_ADD(w->arena, &table->rows);
}

struct told_cell *add_words_cell(const struct wording *w, struct told_row *row,
                                 const char *text)
{
    struct told_cell *cell = LIST_ADD(w->arena, &row->cells);
    cell->text.text = text;
    return cell;
}

/* Most shops have no code. */
void add_cloth_cell(const struct wording *w, struct told_row *row,
                    const struct colorway *colorway, int fabric)
{
    const struct bolt *bolt = &colorway->bolts[fabric];
    struct told_cell *cell = add_words_cell(w, row, bolt->name);
    cell->colorway = colorway;
    cell->fabric = fabric;
    if (bolt->code[0] != '\0')
        *LIST_ADD(w->arena, &cell->others) = bolt->code;
}

/* ---- for those who read them ---- */

const struct content *content_of(const struct contents *contents,
                                 enum content_part part, enum content_kind kind)
{
    for (size_t i = 0; i < contents->items.count; i++)
        if (contents->items.items[i].part == part &&
            contents->items.items[i].kind == kind)
            return &contents->items.items[i];
    return NULL;
}

/* Most have one run, whose text then needs no copy. */
const char *content_words(struct arena *arena,
                          const struct told_paragraph *paragraph)
{
    const char *text = paragraph->count == 0 ? "" : paragraph->runs[0].text;
    for (size_t i = 1; i < paragraph->count; i++)
        text = arena_printf(arena, "%s%s", text, paragraph->runs[i].text);
    return text;
}
