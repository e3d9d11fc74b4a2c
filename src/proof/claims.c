/* The contents of all sections, walked in the order of the booklet: each text
 * that has a digit or a direction, and all that a step or a cutting line says,
 * is a claim. A
 * figure of a cutting line tells that line again. What belongs to one
 * statement, as a row of a table or a figure with its labels, is one. Read
 * next: least.c. */
#include "claims.h"

#include <string.h>

#include "buffer.h"
#include "marks.h"
#include "measured.h"

struct claiming {
    const struct wording *w;
    const struct cutplan *plan;
    struct claims *claims;
    const char *section;
    bool inside; /* a cloth or a step, which the next heading ends */
};

/* Vulgar fractions are numbers, too: U+00BC to U+00BE, U+2150 to U+215E. */
static bool has_number(const char *text)
{
    static const char *const signs[] = {"\u00bc", "\u00bd", "\u00be",
                                        "\xe2\x85"};
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++)
        if (strstr(text, signs[i]) != NULL)
            return true;
    return strpbrk(text, "0123456789") != NULL;
}

/* Small letters of A to Z; what begins a word stands behind no letter. */
static char small_letter(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Letters of other alphabets are bytes from 0x80 on. */
static bool in_word(char c)
{
    c = small_letter(c);
    return (c >= 'a' && c <= 'z') || (unsigned char)c >= 0x80;
}

/* Does a word of the text begin with the first `length` bytes of `stem`? */
static bool has_stem(const char *text, const char *stem, size_t length)
{
    for (const char *at = text; *at != '\0'; at++) {
        size_t same = 0;
        while (same < length && small_letter(at[same]) == stem[same])
            same++;
        if (same == length && (at == text || !in_word(at[-1])))
            return true;
    }
    return false;
}

/* Left and right, up and down, a line's way, a mirror image: what each language
 * says a direction with, by how its words begin. */
static bool has_direction(const struct wording *w, const char *text)
{
    const char *stem = say(w->arena, w->phrases, "claim.directions", NULL);
    while (*stem != '\0') {
        const size_t length = strcspn(stem, " ");
        if (has_stem(text, stem, length))
            return true;
        stem += length;
        stem += strspn(stem, " ");
    }
    return false;
}

static void claim(struct claiming *claiming, enum claim_kind kind,
                  const char *text)
{
    struct claims *claims = claiming->claims;
    if (text == NULL || text[0] == '\0')
        return;
    struct claim *one = LIST_ADD(claiming->w->arena, &claims->items);
    *one = (struct claim){.number = claims->items.count,
                          .kind = kind,
                          .section = claiming->section,
                          .text = text};
}

/* What tells neither a number nor a direction cannot be wrong as these can. */
static void claim_facts(struct claiming *claiming, const char *text)
{
    if (text != NULL &&
        (has_number(text) || has_direction(claiming->w, text)))
        claim(claiming, CLAIM_SHOWN, text);
}

/* Parts of one statement, those that are not empty. */
static void join(struct buffer *out, const char *text)
{
    if (text == NULL || text[0] == '\0')
        return;
    if (out->length > 0)
        buffer_text(out, " \u00b7 ");
    buffer_text(out, text);
}

/* ---- tables, lists, figures ---- */

/* Each row of a table is a claim of its own, so that one slip is one tick. */
static void claim_table(struct claiming *claiming,
                        const struct told_table *table)
{
    struct buffer head = buffer_in(claiming->w->arena);
    for (size_t i = 0; i < table->columns.count; i++)
        join(&head, table->columns.items[i].head);
    claim_facts(claiming, buffer_string(&head));
    for (size_t r = 0; r < table->rows.count; r++) {
        const struct told_row *row = &table->rows.items[r];
        struct buffer text = buffer_in(claiming->w->arena);
        for (size_t i = 0; i < row->cells.count; i++) {
            join(&text, row->cells.items[i].text.text);
            for (size_t k = 0; k < row->cells.items[i].others.count; k++)
                join(&text, row->cells.items[i].others.items[k]);
        }
        claim_facts(claiming, buffer_string(&text));
    }
}

/* Entries of a list, one by one. */
static void claim_list(struct claiming *claiming, const struct told_list *list)
{
    for (size_t i = 0; i < list->items.count; i++) {
        struct buffer text = buffer_in(claiming->w->arena);
        join(&text, list->items.items[i].label);
        join(&text, list->items.items[i].text);
        claim_facts(claiming, buffer_string(&text));
    }
}

/* Under a figure stands what its marks say, and what its caption does. */
static void claim_figure(struct claiming *claiming,
                         const struct told_figure *figure, bool always)
{
    struct buffer text = buffer_in(claiming->w->arena);
    join(&text, figure->caption);
    if (figure->told != NULL && figure->caption != NULL &&
        strcmp(figure->told, figure->caption) != 0)
        join(&text, figure->told);
    for (size_t i = 0; i < figure->labels.count; i++)
        join(&text, figure->labels.items[i]);
    join(&text, marks_of_path(claiming->w, figure));
    if (always)
        claim(claiming, CLAIM_SHOWN, buffer_string(&text));
    else
        claim_facts(claiming, buffer_string(&text));
}

/* ---- cutting ---- */

/* A cloth: its lines as they are cut, then what closes them. */
static void claim_cloth(struct claiming *claiming,
                        const struct told_cloth *cloth)
{
    const struct wording *w = claiming->w;
    const struct fabric_plan *plan = &claiming->plan->fabrics[cloth->fabric];
    struct buffer head = buffer_in(w->arena);
    join(&head, fabric_letter(w->arena, cloth->fabric));
    join(&head, cloth->name);
    join(&head, cloth->amount);
    claiming->section = buffer_string(&head);
    claiming->inside = true;
    claim(claiming, CLAIM_SHOWN, claiming->section);
    for (size_t i = 0; i < cloth->warnings.count; i++)
        claim_facts(claiming, cloth->warnings.items[i].text);
    for (size_t i = 0; i < cloth->lines.count; i++) {
        const struct told_cutting *line = &cloth->lines.items[i];
        struct buffer text = buffer_in(w->arena);
        buffer_printf(&text, "%zu. %s", i + 1, whole_line(w, &line->words));
        join(&text, line->words.gives);
        for (size_t k = 0; k < line->figures.count; k++)
            join(&text, marks_of_strip(w, plan, &line->figures.items[k]));
        claim(claiming, CLAIM_SHOWN, buffer_string(&text));
    }
    claim_facts(claiming, cloth->count);
    for (size_t i = 0; i < cloth->joined.count; i++)
        claim_facts(claiming, cloth->joined.items[i]);
    claim_facts(claiming, cloth->notes);
}

/* ---- steps ---- */

static void claim_note(struct claiming *claiming, const struct told_note *note)
{
    struct buffer text = buffer_in(claiming->w->arena);
    join(&text, note->lead);
    join(&text, note->text);
    claim(claiming, CLAIM_SHOWN, buffer_string(&text));
}

static void claim_entry(struct claiming *claiming,
                        const struct told_entry *entry)
{
    struct buffer text = buffer_in(claiming->w->arena);
    join(&text, entry->label.text);
    join(&text, entry->words);
    join(&text, entry->count);
    claim(claiming, CLAIM_SHOWN, buffer_string(&text));
}

/* A step: what lies there, what is said, and its frames in their order. */
static void claim_work(struct claiming *claiming, const struct told_work *work)
{
    struct arena *arena = claiming->w->arena;
    claiming->section =
        arena_printf(arena, "%zu. %s", work->number, work->title);
    claiming->inside = true;
    struct buffer head = buffer_in(arena);
    join(&head, claiming->section);
    join(&head, work->made);
    join(&head, marks_of_work(claiming->w, work));
    claim(claiming, CLAIM_SHOWN, buffer_string(&head));
    for (size_t i = 0; i < work->parts.count; i++)
        claim_entry(claiming, &work->parts.items[i]);
    for (size_t i = 0; i < work->before.count; i++)
        claim_note(claiming, &work->before.items[i]);
    for (size_t i = 0; i < work->ahead.count; i++)
        claim_note(claiming, &work->ahead.items[i]);
    for (size_t i = 0; i < work->frames.count; i++)
        claim_figure(claiming, &work->frames.items[i], true);
    claim(claiming, CLAIM_SHOWN, work->other);
    for (size_t i = 0; i < work->others.count; i++)
        claim_figure(claiming, &work->others.items[i], true);
    for (size_t i = 0; i < work->tables.count; i++)
        claim_table(claiming, &work->tables.items[i]);
    for (size_t i = 0; i < work->after.count; i++)
        claim_note(claiming, &work->after.items[i]);
}

/* ---- sections ---- */

static void claim_heading(struct claiming *claiming,
                          const struct told_heading *heading)
{
    if (heading->level == 1 || claiming->inside)
        claiming->section = heading->title;
    claiming->inside = false;
    claim_facts(claiming, heading->title);
    claim_facts(claiming, heading->lead);
}

static void claim_content(struct claiming *claiming,
                          const struct content *content)
{
    switch (content->kind) {
    case CONTENT_HEADING:
        claim_heading(claiming, &content->as.heading);
        break;
    case CONTENT_PARAGRAPH:
        claim_facts(claiming,
                    content_words(claiming->w->arena, &content->as.paragraph));
        break;
    case CONTENT_LIST:
        claim_list(claiming, &content->as.list);
        break;
    case CONTENT_TABLE:
        claim_table(claiming, &content->as.table);
        break;
    case CONTENT_FIGURE:
        claim_figure(claiming, &content->as.figure, false);
        break;
    case CONTENT_CLOTH:
        claim_cloth(claiming, &content->as.cloth);
        break;
    case CONTENT_WORK:
        claim_work(claiming, &content->as.work);
        break;
    case CONTENT_SECTIONS:
        break;
    }
}

/* All that a section tells, in the order of the page. */
static void claim_section(struct claiming *claiming,
                          const struct contents contents)
{
    for (size_t i = 0; i < contents.items.count; i++)
        claim_content(claiming, &contents.items.items[i]);
}

/* What no cloth in a machine can tell, of each step and each cloth. */
static void ask(struct claiming *claiming, const struct cutplan *plan)
{
    const struct wording *w = claiming->w;
    const struct told_steps steps = tell_steps(w);
    claiming->section = say(w->arena, w->phrases, "claim.asked", NULL);
    for (size_t i = 0; i < steps.items.count; i++) {
        const char *number = say_count(w->arena, steps.items.items[i].number);
        claim(claiming, CLAIM_ASKED,
              say(w->arena, w->phrases, "claim.clear", "step", number, NULL));
        claim(claiming, CLAIM_ASKED,
              say(w->arena, w->phrases, "claim.flat", "step", number, NULL));
    }
    for (size_t f = 0; f < w->design->fabrics.count; f++)
        if (plan->fabrics[f].items.count > 0)
            claim(claiming, CLAIM_ASKED,
                  say(w->arena, w->phrases, "claim.enough", "letter",
                      fabric_letter(w->arena, (int)f), NULL));
    claim(claiming, CLAIM_ASKED,
          say(w->arena, w->phrases, "claim.nothing-missing", NULL));
}

struct claims claims_of(const struct wording *w, const struct cutplan *plan)
{
    struct claims claims = {.items = {0}};
    struct claiming claiming = {w, plan, &claims, "", false};
    claim_section(&claiming, tell_cover(w, plan));
    claim_section(&claiming, tell_glance(w, plan));
    claim_section(&claiming, tell_cutting(w, plan));
    claim_section(&claiming, tell_scale(w));
    claim_section(&claiming, tell_sewing(w, plan));
    claim_section(&claiming, tell_quilting(w, plan));
    claim_section(&claiming, tell_quilting_marks(w, plan));
    claim_section(&claiming, tell_finishing(w, plan));
    claim_section(&claiming, tell_coloring(w));
    claim_section(&claiming, tell_back(w, plan));
    ask(&claiming, plan);
    claim_measures(w, &claims);
    return claims;
}

/* The second of the two goes further with each round through the testers. */
bool claim_is_for(const struct claim *claim, size_t testers, size_t tester)
{
    if (testers <= 2 || claim->kind == CLAIM_STRIPS ||
        claim->kind == CLAIM_SIZE)
        return true;
    const size_t place = claim->number - 1;
    const size_t first = place % testers;
    const size_t second =
        (first + 1 + place / testers % (testers - 1)) % testers;
    return tester - 1 == first || tester - 1 == second;
}

/* One list for who writes the table and who reads it. */
const char *claims_column_name(enum claims_column column)
{
#define COLUMN_NAME(id, name) name,
    static const char *const names[] = {CLAIMS_COLUMN_LIST(COLUMN_NAME)};
#undef COLUMN_NAME
    return names[column];
}

/* Words of a table, the same in every language. */
const char *claim_kind_name(enum claim_kind kind)
{
    static const char *const names[] = {
        [CLAIM_SHOWN] = "shown",
        [CLAIM_ASKED] = "asked",
        [CLAIM_STRIPS] = "strips",
        [CLAIM_SIZE] = "size",
    };
    return names[kind];
}
