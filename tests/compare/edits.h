/* Single edits of a source, each of a kind whose harm is known before anything
 * is compared. A base is a sample without what it states twice (pictures,
 * amounts, counts, finished sizes that nothing needs), as else nearly every
 * edit would be refused, and with one more fabric. */
#ifndef SEAMWRIGHT_TESTS_EDITS_H
#define SEAMWRIGHT_TESTS_EDITS_H

#include <stdio.h>

#include "buffer.h"
#include "compiled.h"

enum edit_kind {
    EDIT_LENGTH,
    EDIT_FABRIC,
    EDIT_COUNT,
    EDIT_LAID, /* a line, a turn, a mirror, a place, two cells exchanged */
    EDIT_PRESS,
    EDIT_CORNER_METHOD,
    EDIT_METHOD,
    EDIT_ORDER,
    EDIT_CLOTH,
    EDIT_QUILTING,
    EDIT_ID,
    EDIT_NAME,
    EDIT_TEXT,
    EDIT_SAY,
    EDIT_COLOR,
    EDIT_PRICE,
    EDIT_CODE,
    EDIT_LABELS,
    EDIT_KINDS
};

static const char *const edit_names[EDIT_KINDS] = {
    "length", "fabric", "count",  "laid", "press", "corner method",
    "method", "order",  "cloth",  "quilting", "id", "name",
    "text",   "say",    "color",  "price", "code", "labels"};

struct edit {
    enum edit_kind kind;
    const char *text; /* the whole source */
    const char *what; /* for messages */
};
struct edits {
    struct arena *arena;
    const char *base;
    const struct pattern *pattern;
    LIST(struct edit) items;
};

/* ---- texts ---- */

static inline const char *spliced(struct arena *arena, const char *text,
                                  size_t start, size_t end, const char *by)
{
    return arena_printf(arena, "%.*s%s%s", (int)start, text, by, text + end);
}

static inline void add_edit(struct edits *edits, enum edit_kind kind,
                            size_t start, size_t end, const char *by)
{
    size_t from = start;
    while (from > 0 && edits->base[from - 1] != '<' && start - from < 60)
        from--;
    *LIST_ADD(edits->arena, &edits->items) = (struct edit){
        kind, spliced(edits->arena, edits->base, start, end, by),
        arena_printf(edits->arena, "%.*s [%s] for [%.*s]", (int)(start - from),
                     edits->base + from, by, (int)(end - start),
                     edits->base + start)};
}

static inline void replace_value(struct edits *edits, enum edit_kind kind,
                                 const struct value *value, const char *by)
{
    if (strcmp(value->text, by) != 0)
        add_edit(edits, kind, value->span.start, value->span.end, by);
}

static inline void insert_value(struct edits *edits, enum edit_kind kind,
                                const struct element *element,
                                enum attribute_id id, const char *by)
{
    if (written_value(element, id) == NULL)
        add_edit(edits, kind, element->name.end, element->name.end,
                 arena_printf(edits->arena, " %s=\"%s\"", attribute_name(id),
                              by));
}

static inline void exchange(struct edits *edits, enum edit_kind kind,
                            struct span a, struct span b)
{
    struct arena *arena = edits->arena;
    const char *one = arena_copy(arena, edits->base + a.start, a.end - a.start);
    const char *two = arena_copy(arena, edits->base + b.start, b.end - b.start);
    const char *between =
        arena_copy(arena, edits->base + a.end, b.start - a.end);
    if (strcmp(one, two) != 0)
        add_edit(edits, kind, a.start, b.end,
                 arena_printf(arena, "%s%s%s", two, between, one));
}

/* ---- bases ---- */

/* What a source says twice. */
static inline bool is_statement(const struct element *element,
                                enum attribute_id id)
{
    if (id == ATTR_COUNT)
        return element->kind == ELEMENT_STEP;
    return id == ATTR_UNFINISHED || id == ATTR_YARDS ||
           id == ATTR_FAT_QUARTERS || id == ATTR_SHEETS || id == ATTR_CUT ||
           (id == ATTR_FINISHED && element->kind != ELEMENT_USE);
}

struct spans {
    LIST(struct span) items;
};
static inline void collect_statements(const struct source *source,
                                      const struct element *element,
                                      struct arena *arena, struct spans *found)
{
    if (element->kind == ELEMENT_PICTURE) {
        *LIST_ADD(arena, &found->items) = element_span(source, element);
        return;
    }
    for (size_t i = 0; i < element->value_count; i++)
        if (is_statement(element, element->values[i].id))
            *LIST_ADD(arena, &found->items) =
                (struct span){element->values[i].name.start - 1,
                              element->values[i].span.end + 1};
    for (size_t i = 0; i < element->children.count; i++)
        collect_statements(source, element->children.items[i], arena, found);
}

/* One more fabric, and a cloth of it in every colorway. */
static inline const char *with_spare(struct arena *arena, const char *text)
{
    static const char *const marks[2] = {"</fabrics>", "</colorway>"};
    static const char *const adds[2] = {
        "<fabric id=\"spare-cloth\" name=\"Spare\"/>",
        "<cloth fabric=\"spare-cloth\" name=\"Spare cotton\" "
        "color=\"#8a8f3c\"/>"};
    for (int k = 0; k < 2; k++) {
        struct buffer out = buffer_in(arena);
        const char *at = text;
        for (const char *next; (next = strstr(at, marks[k])) != NULL;
             at = next + strlen(marks[k])) {
            buffer_add(&out, at, (size_t)(next - at));
            buffer_text(&out, adds[k]);
            buffer_text(&out, marks[k]);
        }
        buffer_text(&out, at);
        text = buffer_string(&out);
    }
    return text;
}

/* From the last statement on, so that places before it stay. */
static inline const char *base_of(struct arena *arena, const char *path)
{
    const struct file_content file = file_read(arena, path);
    const char *text = with_spare(arena, file.bytes);
    const struct compiled first = compile_text(arena, text);
    struct spans found = {.items = {0}};
    collect_statements(first.run->source, first.pattern->root, arena, &found);
    for (size_t i = found.items.count; i-- > 0;) {
        struct arena *trial = arena_create();
        const struct span at = found.items.items[i];
        const char *without = spliced(arena, text, at.start, at.end, "");
        if (compile_text(trial, without).plans != NULL)
            text = without;
        arena_destroy(trial);
    }
    return text;
}

/* ---- edits of attributes ---- */

static inline const char *plus(const struct edits *edits,
                               const struct value *value, int64_t num,
                               int64_t den)
{
    return length_plain(edits->arena,
                        rational_add(value->number, rational_make(num, den)),
                        edits->pattern->units);
}

static inline void edit_choices(struct edits *edits, enum edit_kind kind,
                                const struct element *element,
                                enum attribute_id id, const char *choices)
{
    char word[40];
    for (int used; sscanf(choices, " %39s%n", word, &used) == 1;
         choices += used) {
        const struct value *value = written_value(element, id);
        if (value != NULL)
            replace_value(edits, kind, value, word);
        else
            insert_value(edits, kind, element, id,
                         arena_copy(edits->arena, word, strlen(word)));
    }
}

/* The id wherever it is named. */
static inline void rename_in(const struct element *element, const char *id,
                             struct arena *arena, struct spans *found)
{
    for (size_t i = 0; i < element->value_count; i++)
        if (strcmp(element->values[i].text, id) == 0 &&
            element->values[i].id != ATTR_NAME)
            *LIST_ADD(arena, &found->items) = element->values[i].span;
    for (size_t i = 0; i < element->children.count; i++)
        rename_in(element->children.items[i], id, arena, found);
}

static inline void edit_id(struct edits *edits, const struct value *value)
{
    struct spans found = {.items = {0}};
    const char *text = edits->base;
    rename_in(edits->pattern->root, value->text, edits->arena, &found);
    for (size_t i = found.items.count; i-- > 0;)
        text = spliced(edits->arena, text, found.items.items[i].start,
                       found.items.items[i].end,
                       arena_printf(edits->arena, "%s-new", value->text));
    *LIST_ADD(edits->arena, &edits->items) =
        (struct edit){EDIT_ID, text, value->text};
}

/* Another shade that is as dark to the eye. */
static inline void edit_color(struct edits *edits, const struct value *value)
{
    char *color = arena_copy(edits->arena, value->text, strlen(value->text));
    color[6] = color[6] == '0' ? '1' : '0';
    replace_value(edits, EDIT_COLOR, value, color);
}

static inline bool is_piece(const struct element *element)
{
    const enum element_kind k = element->kind;
    return k == ELEMENT_PATCH || k == ELEMENT_ROW || k == ELEMENT_COLUMN ||
           k == ELEMENT_GRID || k == ELEMENT_USE || k == ELEMENT_DIAGONAL ||
           k == ELEMENT_HALF_SQUARE || k == ELEMENT_FLYING_GEESE ||
           k == ELEMENT_SQUARE_IN_SQUARE || k == ELEMENT_QUARTER_SQUARE ||
           k == ELEMENT_HALF_RECTANGLE || k == ELEMENT_STAR;
}

static inline void edit_fabric(struct edits *edits,
                               const struct element *element,
                               const struct value *value)
{
    const enum edit_kind kind =
        element->kind == ELEMENT_BACKING                           ? EDIT_CLOTH
        : is_piece(element) || element->kind == ELEMENT_CORNER ||
                element->kind == ELEMENT_BORDER ||
                element->kind == ELEMENT_ROLE ||
                element->kind == ELEMENT_BINDING ||
                element->kind == ELEMENT_SASHING ||
                element->kind == ELEMENT_ON_POINT ||
                element->kind == ELEMENT_CORNERSTONE
            ? EDIT_FABRIC
            : EDIT_QUILTING;
    replace_value(edits, kind, value, "spare-cloth");
    const struct element *fabrics = edits->pattern->root;
    for (size_t i = 0; i < fabrics->children.count; i++)
        if (fabrics->children.items[i]->kind == ELEMENT_FABRICS)
            replace_value(
                edits, kind, value,
                fabrics->children.items[i]->children.items[0]->values[0].text);
}

static inline void edit_value(struct edits *edits,
                              const struct element *element,
                              const struct value *value)
{
    const enum attribute_id id = value->id;
    const bool cloth = element->kind == ELEMENT_CLOTH;
    if (element->kind == ELEMENT_STEP || element->kind == ELEMENT_ASSEMBLY)
        return;
    if (cloth && id == ATTR_WIDTH) {
        replace_value(edits, EDIT_CLOTH, value, plus(edits, value, -4, 1));
        replace_value(edits, EDIT_CLOTH, value, plus(edits, value, 2, 1));
    } else if (id == ATTR_WIDTH || id == ATTR_HEIGHT || id == ATTR_SIZE ||
               id == ATTR_FINISHED || id == ATTR_SEAM) {
        replace_value(edits, EDIT_LENGTH, value, plus(edits, value, 1, 8));
        replace_value(edits, EDIT_LENGTH, value, plus(edits, value, 1, 1));
        replace_value(edits, EDIT_LENGTH, value, plus(edits, value, 2, 1));
    } else if (!cloth &&
               (id == ATTR_FABRIC || id == ATTR_LEFT || id == ATTR_RIGHT ||
                id == ATTR_TOP || id == ATTR_BOTTOM || id == ATTR_GOOSE ||
                id == ATTR_SKY || id == ATTR_CENTER ||
                id == ATTR_CORNER_FABRIC)) {
        edit_fabric(edits, element, value);
    } else if (id == ATTR_ACROSS || id == ATTR_DOWN || id == ATTR_TIMES) {
        for (long more = -1; more < 2; more += 2)
            replace_value(edits, EDIT_COUNT, value,
                          arena_printf(edits->arena, "%ld",
                                       value->whole + more));
    } else if (id == ATTR_COLOR && cloth) {
        edit_color(edits, value);
    } else if (id == ATTR_PRICE && cloth) {
        replace_value(edits, EDIT_PRICE, value, "13.75");
    } else if (id == ATTR_CODE && cloth) {
        replace_value(edits, EDIT_CODE, value, "QX-917");
    } else if (id == ATTR_SPACING) {
        replace_value(edits, EDIT_QUILTING, value, plus(edits, value, 1, 4));
    }
}

/* Names, and words beside them. */
static inline void edit_words(struct edits *edits,
                              const struct element *element,
                              const struct value *value)
{
    const enum attribute_id id = value->id;
    const enum element_kind k = element->kind;
    if (id == ATTR_ID && (k == ELEMENT_PATTERN || k == ELEMENT_FABRIC ||
                          k == ELEMENT_COLORWAY || k == ELEMENT_UNIT ||
                          k == ELEMENT_BLOCK || k == ELEMENT_QUILT))
        edit_id(edits, value);
    else if (id == ATTR_NAME && !is_piece(element) && k != ELEMENT_SPOOL)
        replace_value(edits, EDIT_NAME, value,
                      arena_printf(edits->arena, "%s anew", value->text));
    else if (id == ATTR_TITLE || id == ATTR_DESIGNER || id == ATTR_PUBLISHER)
        replace_value(edits, EDIT_TEXT, value,
                      arena_printf(edits->arena, "%s anew", value->text));
    else if (id == ATTR_SKILL)
        replace_value(edits, EDIT_TEXT, value, "beginner");
}

/* ---- edits of elements ---- */

static inline void edit_laid(struct edits *edits,
                             const struct element *element)
{
    if (element->kind == ELEMENT_USE) {
        edit_choices(edits, EDIT_LAID, element, ATTR_TURN, "0 90 180 270");
        edit_choices(edits, EDIT_LAID, element, ATTR_MIRROR, "no yes");
    }
    if (written_value(element, ATTR_LINE) != NULL)
        edit_choices(edits, EDIT_LAID, element, ATTR_LINE, "rising falling");
    if (written_value(element, ATTR_AT) != NULL)
        edit_choices(edits, EDIT_LAID, element, ATTR_AT,
                     "top-left top-right bottom-right bottom-left");
    if (written_value(element, ATTR_POINTS_TO) != NULL)
        edit_choices(edits, EDIT_LAID, element, ATTR_POINTS_TO,
                     "up right down left");
    if (written_value(element, ATTR_PLAIN) != NULL)
        edit_choices(edits, EDIT_LAID, element, ATTR_PLAIN,
                     "top-left top-right bottom-right bottom-left");
    /* Cells that lie beside each other. */
    for (size_t i = 1; i < element->children.count; i++) {
        const struct element *a = element->children.items[i - 1];
        const struct element *b = element->children.items[i];
        const struct source *source =
            source_create(edits->arena, "base", edits->base,
                          strlen(edits->base));
        if (is_piece(element) && is_piece(a) && is_piece(b))
            exchange(edits, EDIT_LAID, element_span(source, a),
                     element_span(source, b));
        if (a->kind == ELEMENT_FABRIC && b->kind == ELEMENT_FABRIC)
            exchange(edits, EDIT_LABELS, element_span(source, a),
                     element_span(source, b));
        if (a->kind == ELEMENT_STEP && b->kind == ELEMENT_STEP)
            exchange(edits, EDIT_ORDER, element_span(source, a),
                     element_span(source, b));
    }
}

/* Two words of a map. */
static inline void edit_map(struct edits *edits, const struct element *element)
{
    const struct source *source = source_create(
        edits->arena, "base", edits->base, strlen(edits->base));
    uint32_t at = element->content.start;
    struct span word, last = {0, 0};
    size_t lines;
    while (next_word(source, element->content, &at, &word, &lines)) {
        if (last.end > 0)
            exchange(edits, EDIT_LAID, last, word);
        last = word;
    }
}

static inline void edit_element(struct edits *edits,
                                const struct element *element)
{
    for (size_t i = 0; i < element->value_count; i++) {
        edit_value(edits, element, &element->values[i]);
        edit_words(edits, element, &element->values[i]);
    }
    edit_laid(edits, element);
    if (is_piece(element) || element->kind == ELEMENT_CORNER)
        edit_choices(edits, EDIT_PRESS, element, ATTR_PRESS,
                     "open left right up down");
    if (element->kind == ELEMENT_CORNER)
        edit_choices(edits, EDIT_CORNER_METHOD, element, ATTR_CORNER_METHOD,
                     "drawn cut-first");
    if (element->kind == ELEMENT_HALF_SQUARE)
        edit_choices(edits, EDIT_METHOD, element, ATTR_METHOD,
                     "one two four eight");
    if (element->kind == ELEMENT_FLYING_GEESE)
        edit_choices(edits, EDIT_METHOD, element, ATTR_GOOSE_METHOD,
                     "corners four");
    if (element->kind == ELEMENT_BORDER) {
        edit_choices(edits, EDIT_METHOD, element, ATTR_FIRST, "sides ends");
        edit_choices(edits, EDIT_CLOTH, element, ATTR_GRAIN,
                     "crosswise lengthwise");
    }
    if (element->kind == ELEMENT_CLOTH) {
        insert_value(edits, EDIT_CLOTH, element, ATTR_SHRINKAGE, "9");
        insert_value(edits, EDIT_CLOTH, element, ATTR_SOLD, "fat-quarter");
        insert_value(edits, EDIT_CLOTH, element, ATTR_WIDTH, "39");
    }
    if (element->kind == ELEMENT_PATTERN)
        insert_value(edits, EDIT_CLOTH, element, ATTR_ALLOWANCE, "5");
    if (element->kind == ELEMENT_BACKING || element->kind == ELEMENT_BATTING)
        edit_choices(edits, EDIT_CLOTH, element, ATTR_OVERAGE, "3 6");
    if (element->kind == ELEMENT_BATTING)
        edit_choices(edits, EDIT_CLOTH, element, ATTR_MAX_GAP, "7 10");
    if (element->kind == ELEMENT_SAY || element->kind == ELEMENT_SUMMARY)
        add_edit(edits,
                 element->kind == ELEMENT_SAY ? EDIT_SAY : EDIT_TEXT,
                 element->content.end, element->content.end, " So be it.");
    if (element->kind == ELEMENT_MAP)
        edit_map(edits, element);
    for (size_t i = 0; i < element->children.count; i++)
        edit_element(edits, element->children.items[i]);
}

static inline struct edits edits_of(struct arena *arena, const char *base,
                                    const struct pattern *pattern)
{
    struct edits edits = {.arena = arena, .base = base, .pattern = pattern};
    edit_element(&edits, pattern->root);
    return edits;
}

#endif
