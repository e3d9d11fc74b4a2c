/* The reading stage: source to pattern. Requires a run with a source. Order:
 * prescan refuses what must not reach the parser, xml.c makes the elements, and
 * here the finished tree is asked what is missing, which no single event could
 * tell. Read next: xml.c. */
#include "reader.h"

#include <string.h>

#include "buffer.h"
#include "trade.h"

/* A list and not a table by attribute: a tag has a handful of them, and a
 * source may have many thousand tags. */
const struct value *written_value(const struct element *element,
                                  enum attribute_id id)
{
    for (size_t i = 0; i < element->value_count; i++)
        if (element->values[i].id == id)
            return &element->values[i];
    return NULL;
}

/* A value that was reported counts as missing: nobody asks about it twice. */
const struct value *value_of(const struct element *element,
                             enum attribute_id id)
{
    const struct value *value = written_value(element, id);
    return value != NULL && value->usable ? value : NULL;
}

const char *text_of(const struct element *element, enum attribute_id id,
                    const char *otherwise)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? otherwise : value->text;
}

/* Also the place of a value that could not be read: it was written there. */
struct span value_span(const struct element *element, enum attribute_id id)
{
    const struct value *value = written_value(element, id);
    return value == NULL ? element->name : value->span;
}

struct span element_span(const struct source *source,
                         const struct element *element)
{
    const char *bytes = source->bytes;
    if (bytes[element->tag.end - 2] == '/')
        return element->tag;
    const char *end = strchr(bytes + element->content.end, '>');
    return (struct span){element->tag.start, end == NULL
                                                 ? element->content.end
                                                 : (uint32_t)(end - bytes) + 1};
}

/* As deep as elements nest, which prescan.c bounds. */
void mark_unsound(struct element *element)
{
    for (; element != NULL; element = element->parent)
        element->unsound = true;
}

void mark_faulty(struct element *element)
{
    element->faulty = true;
    mark_unsound(element);
}

/* reports: the first required attribute that was not written. A faulty element
 * is left alone: a misspelt name is mostly the one that is missing here. */
void check_attributes(struct run *run, struct element *element)
{
    const struct set *required = &grammar_row(element->kind)->required;
    for (unsigned id = 0; id < ATTRIBUTE_COUNT; id++) {
        if (!set_has(required, id) ||
            written_value(element, (enum attribute_id)id) != NULL)
            continue;
        /* A misspelt name was reported already: one cause, one message. */
        if (!element->faulty)
            diag_report(run, DIAG_MISSING_ATTRIBUTE, element->name,
                        "`%s` needs the attribute `%s`",
                        element_name(element->kind),
                        attribute_name((enum attribute_id)id));
        mark_faulty(element);
    }
}

/* True where a child is of one of these kinds. */
static bool has_child(const struct element *element, const struct set *kinds)
{
    for (size_t i = 0; i < element->children.count; i++)
        if (set_has(kinds, element->children.items[i]->kind))
            return true;
    return false;
}

/* reports: `what` is missing, once an element; what follows would be noise. A
 * note may tell more. */
static void report_missing(struct run *run, struct element *element,
                           const char *what, const char *note)
{
    if (!element->faulty) {
        struct diagnostic *d =
            diag_report(run, DIAG_MISSING_ELEMENT, element->name,
                        "`%s` needs %s", element_name(element->kind), what);
        if (note != NULL)
            diag_note(run, d, (struct span){0, 0}, "%s", note);
    }
    mark_faulty(element);
}

/* "a patch, row or use": all that makes cloth, in the order of the list. */
static const char *piece_list(struct arena *arena)
{
    const struct set *pieces = grammar_pieces();
    size_t left = 0;
    for (unsigned kind = 0; kind < ELEMENT_COUNT; kind++)
        left += set_has(pieces, kind);
    const char *text = "a";
    const char *between = " ";
    for (unsigned kind = 0; kind < ELEMENT_COUNT; kind++) {
        if (!set_has(pieces, kind))
            continue;
        text = arena_printf(arena, "%s%s%s", text, between,
                            element_name((enum element_kind)kind));
        between = --left == 1 ? " or " : ", ";
    }
    return text;
}

/* reports: children that must be there. */
static void check_children(struct run *run, struct element *element)
{
    const struct grammar_row *row = grammar_row(element->kind);
    if (row->needs_piece && !has_child(element, grammar_pieces()))
        report_missing(
            run, element, "a piece",
            arena_printf(run->arena, "a piece is %s", piece_list(run->arena)));
    struct set there = {{0}};
    for (size_t i = 0; i < element->children.count; i++)
        set_add(&there, element->children.items[i]->kind);
    for (unsigned kind = 0; kind < ELEMENT_COUNT; kind++)
        if (set_has(&row->needs, kind) && !set_has(&there, kind))
            report_missing(run, element,
                           arena_printf(run->arena, "a `%s` in it",
                                        element_name((enum element_kind)kind)),
                           NULL);
}

/* `there`: the name of what it is the second in. */
static void report_second(struct run *run, struct element *parent,
                          const struct element *child, enum element_kind there)
{
    diag_report(run, DIAG_UNKNOWN_ELEMENT, child->name, "a second `%s` in `%s`",
                element_name(child->kind), element_name(there));
    mark_faulty(parent);
}

/* Each file may have a list of fabrics. reports: a second one in a file. */
static void check_fabrics(struct run *run, struct element *root)
{
    const struct source *source = run->source;
    bool *seen = ARENA_ARRAY(run->arena, bool, source->parts.count);
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *child = root->children.items[i];
        if (child->kind != ELEMENT_FABRICS)
            continue;
        const size_t file = (size_t)(source_part(source, child->tag.start) -
                                     source->parts.items);
        if (seen[file])
            report_second(run, root, child,
                          file == 0 ? ELEMENT_PATTERN : ELEMENT_SHARED);
        seen[file] = true;
    }
}

/* Definitions hold one piece; what else they hold comes once, too. reports: the
 * second one. */
static void check_single(struct run *run, struct element *element)
{
    const bool definition =
        element->kind == ELEMENT_UNIT || element->kind == ELEMENT_BLOCK ||
        element->kind == ELEMENT_QUILT || element->kind == ELEMENT_SASHING ||
        element->kind == ELEMENT_CORNERSTONE;
    static const struct set once =
        SET(ELEMENT_PICTURE, ELEMENT_MAP, ELEMENT_BACKING, ELEMENT_BATTING,
            ELEMENT_BINDING, ELEMENT_ABOUT, ELEMENT_SUMMARY, ELEMENT_SASHING,
            ELEMENT_CORNERSTONE, ELEMENT_QUILTING, ELEMENT_FILL,
            ELEMENT_LABELS);
    struct set seen = {{0}};
    const struct element *first_piece = NULL;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        struct diagnostic *d;
        if (definition && set_has(grammar_pieces(), child->kind)) {
            if (first_piece != NULL) {
                d = diag_report(run, DIAG_UNKNOWN_ELEMENT, child->name,
                                "a second piece in `%s`",
                                element_name(element->kind));
                diag_note(run, d, first_piece->name, "the first piece");
                diag_help(run, d,
                          "put both in a `row`, a `column` or a `grid`");
                mark_faulty(element);
            }
            first_piece = child;
        } else if (set_has(&once, child->kind) && set_has(&seen, child->kind)) {
            report_second(run, element, child, element->kind);
        }
        set_add(&seen, child->kind);
    }
}

/* Walks the whole tree; its depth is bounded by LIMIT_DEPTH, which prescan
 * holds. */
static void check_element(struct run *run, struct element *element)
{
    check_attributes(run, element);
    check_children(run, element);
    check_single(run, element);
    if (mixes_text(element->kind))
        read_runs(run, element);
    for (size_t i = 0; i < element->children.count; i++) {
        element->children.items[i]->place = i;
        check_element(run, element->children.items[i]);
    }
}

/* After parsing, as no child can be missed before its parent has ended. */
void check_structure(struct run *run, struct element *root)
{
    check_element(run, root);
    check_fabrics(run, root);
}

/* A pattern-wide length, or what the trade has for it. All of these are real
 * lengths in the pattern's unit. */
static struct rational length_or(const struct pattern *pattern,
                                 enum attribute_id id, enum trade_fact fact)
{
    const struct value *value = value_of(pattern->root, id);
    return value == NULL ? trade_length(fact, pattern->units) : value->number;
}

size_t layers_of(const struct element *element, size_t otherwise)
{
    static const size_t layers[] = {1, 2, 4};
    const struct value *value = value_of(element, ATTR_LAYERS);
    return value == NULL ? otherwise : layers[value->choice];
}

/* The pattern-wide values are filled in with the defaults of its units, so
 * later stages never ask whether one was written. */
struct pattern *read_pattern(struct run *run)
{
    struct source_reader all = {
        .run = run, .root = ELEMENT_PATTERN, .units = UNIT_IN};
    const struct opened *file = open_first(&all);
    struct element *root =
        prescan(run, file) ? parse_elements(&all, file) : NULL;
    /* What lacks would be missed everywhere. */
    if (root == NULL || all.incomplete)
        return NULL;
    check_structure(run, root);
    struct pattern *pattern = ARENA_NEW(run->arena, struct pattern);
    const struct value *units = value_of(root, ATTR_UNITS);
    pattern->root = root;
    pattern->units = units != NULL && units->choice == 1 ? UNIT_CM : UNIT_IN;
    pattern->seam = length_or(pattern, ATTR_SEAM, TRADE_SEAM);
    pattern->cutting_step =
        length_or(pattern, ATTR_CUTTING_STEP, TRADE_CUTTING_STEP);
    pattern->allowance = length_or(pattern, ATTR_ALLOWANCE, TRADE_SQUARING);
    pattern->reserve = length_or(pattern, ATTR_RESERVE, TRADE_RESERVE);
    pattern->layers = layers_of(root, 4);
    const struct value *effort = value_of(root, ATTR_EFFORT);
    pattern->language = text_of(root, ATTR_LANGUAGE, "en");
    pattern->simple = effort != NULL && effort->choice == 1;
    return pattern;
}
