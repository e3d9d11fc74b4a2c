/* The manual is held to the program's own tables: every element with what it
 * holds, every attribute with its values and whether it must be there, every
 * message, and every number of the trade. What holds where an attribute is left
 * out is tried by run_defaults.sh. */
#include "../unit.h"

#include <stdio.h>
#include <string.h>

#include "../../src/driver/manual.h"
#include "../../src/read/grammar.h"
#include "diag.h"
#include "trade.h"

/* All that is wrong is told, not only the first. */
struct check {
    struct arena *arena;
    const struct manual *manual;
    int problems;
};

static struct check check_of(void **state)
{
    struct arena *arena = *state;
    return (struct check){.arena = arena, .manual = read_manual(arena)};
}

static void __attribute__((format(printf, 2, 3)))
problem(struct check *check, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    printf("# %s\n", arena_vprintf(check->arena, format, arguments));
    va_end(arguments);
    check->problems++;
}

/* Lines joined by one blank each. */
static const char *folded(struct arena *arena, const char *text)
{
    char *copy = arena_copy(arena, text, strlen(text));
    size_t length = 0;
    for (const char *c = text; *c != '\0'; c++) {
        const bool blank = *c == ' ' || *c == '\n';
        if (!blank)
            copy[length++] = *c;
        else if (length > 0 && copy[length - 1] != ' ')
            copy[length++] = ' ';
    }
    copy[length] = '\0';
    return copy;
}

/* What stands behind `open`, up to `close`; NULL where one is not there. */
static const char *part(struct arena *arena, const char *text, const char *open,
                        const char *close)
{
    const char *start = strstr(text, open);
    if (start == NULL)
        return NULL;
    start += strlen(open);
    const char *end = strstr(start, close);
    return end == NULL ? NULL : arena_copy(arena, start, (size_t)(end - start));
}

static const struct manual_page *page_named(const struct manual *manual,
                                            const char *name)
{
    for (size_t i = 0; i < manual->pages.count; i++)
        if (strcmp(manual->pages.items[i].name, name) == 0)
            return &manual->pages.items[i];
    fail_msg("there is no page %s", name);
    return NULL;
}

/* ---- pages ---- */

/* A page's title is its line in the contents; a message of the same name would
 * hide it. */
static void pages_are_whole(void **state)
{
    struct check check = check_of(state);
    for (size_t i = 0; i < check.manual->pages.count; i++) {
        const struct manual_page *page = &check.manual->pages.items[i];
        if (page->name == NULL || page->summary == NULL || page->text == NULL) {
            problem(&check, "line %zu of the contents has no page", i + 1);
            continue;
        }
        const char *title =
            arena_printf(check.arena, "# %s: %s\n", page->name, page->summary);
        if (strncmp(page->text, title, strlen(title)) != 0)
            problem(&check, "%s has another title than the contents",
                    page->name);
        for (int code = 0; code < DIAG_CODE_COUNT; code++)
            if (strcmp(diag_entry((enum diag_code)code)->name, page->name) == 0)
                problem(&check, "%s is a message, too", page->name);
    }
    assert_true(check.manual->pages.count > 20);
    assert_int_equal(check.problems, 0);
}

/* ---- elements ---- */

static const char *heading_of(struct arena *arena, enum element_kind kind)
{
    return arena_printf(arena, "Element `%s`%s", element_name(kind),
                        kind == ELEMENT_CLOTH_NAME    ? " in a text"
                        : kind == ELEMENT_ORDER_CLOTH ? " in an order"
                                                      : "");
}

/* ensures: the one section below the heading, or NULL. */
static const struct manual_entry *section_of(struct check *check,
                                             const char *heading)
{
    const struct manual_entry *found = NULL;
    for (size_t i = 0; i < check->manual->entries.count; i++) {
        const struct manual_entry *entry = &check->manual->entries.items[i];
        if (entry->attribute || strcmp(entry->heading, heading) != 0)
            continue;
        if (found != NULL)
            problem(check, "%s stands twice", heading);
        found = entry;
    }
    if (found == NULL)
        problem(check, "there is no section: %s", heading);
    return found;
}

/* Does the paragraph name it, and as needed? */
static bool names(struct arena *arena, const char *holds, const char *name,
                  bool needed)
{
    if (strstr(holds, name) == NULL)
        return false;
    const bool so =
        strstr(holds, arena_printf(arena, "%s (needed)", name)) ||
        strstr(holds, arena_printf(arena, "%s (at least one)", name));
    return so == needed;
}

/* How many names stand in code. */
static size_t count_names(const char *text)
{
    size_t marks = 0;
    for (; *text != '\0'; text++)
        marks += *text == '`';
    return marks / 2;
}

/* Pieces are told together where all of them may stand. */
static void check_children(struct check *check, enum element_kind kind,
                           const char *holds)
{
    const struct grammar_row *row = grammar_row(kind);
    const char *name = heading_of(check->arena, kind);
    size_t singly = 0;
    bool pieces = true;
    for (unsigned child = 0; child < ELEMENT_COUNT; child++)
        pieces = pieces && (!set_has(grammar_pieces(), child) ||
                            set_has(&row->children, child));
    if (pieces && !names(check->arena, holds, "piece", row->needs_piece) &&
        !names(check->arena, holds, "pieces", row->needs_piece))
        problem(check, "%s does not say that it holds pieces", name);
    for (unsigned child = 0; child < ELEMENT_COUNT; child++) {
        if (!set_has(&row->children, child) ||
            (pieces && set_has(grammar_pieces(), child)))
            continue;
        singly++;
        const char *quoted_name = arena_printf(
            check->arena, "`%s`", element_name((enum element_kind)child));
        if (!names(check->arena, holds, quoted_name,
                   set_has(&row->needs, child)))
            problem(check, "%s holds %s, needed or not", name, quoted_name);
    }
    if (count_names(holds) != singly)
        problem(check, "%s holds %zu kinds, not %zu", name, singly,
                count_names(holds));
}

static void every_element(void **state)
{
    struct check check = check_of(state);
    for (int i = 0; i < ELEMENT_COUNT; i++) {
        const enum element_kind kind = (enum element_kind)i;
        const char *heading = heading_of(check.arena, kind);
        const struct manual_entry *section = section_of(&check, heading);
        if (section == NULL)
            continue;
        const char *holds =
            part(check.arena, section->text, "\nHolds: ", "\n\n");
        if (holds == NULL)
            holds = part(check.arena, section->text, "\nHolds: ", ".\n");
        if (holds == NULL) {
            problem(&check, "%s does not say what it holds", heading);
            continue;
        }
        holds = folded(check.arena, holds);
        check_children(&check, kind, holds);
        const struct grammar_row *row = grammar_row(kind);
        if ((strncmp(holds, "text", 4) == 0) != (row->content == CONTENT_TEXT))
            problem(&check, "%s: is text read in it?", heading);
    }
    assert_int_equal(check.problems, 0);
}

/* ---- attributes ---- */

static const char *type_word(enum value_type type)
{
    switch (type) {
    case VALUE_TEXT:
        return "text";
    case VALUE_ID:
        return "name";
    case VALUE_KEY:
        return "letter";
    case VALUE_LENGTH:
        return "length";
    case VALUE_ROOM:
        return "length or 0";
    case VALUE_SIZE:
        return "size";
    case VALUE_WHOLE:
        return "whole number";
    case VALUE_COLOR:
        return "color";
    case VALUE_DATE:
        return "date";
    case VALUE_PRICE:
        return "price";
    case VALUE_PERCENT:
        return "percent";
    case VALUE_NUMBER:
        return "number";
    case VALUE_SHIFT:
        return "shift";
    case VALUE_LENGTHS:
        return "a length for each quilt";
    case VALUE_POINTS:
        return "points";
    case VALUE_WHOLES:
        return "a whole number for each quilt";
    case VALUE_CASTS:
        return "roles with their fabrics";
    case VALUE_NAMES:
        return "names";
    case VALUE_TIMES:
        return "whole number or `all`";
    case VALUE_CHOICE:
    case VALUE_CHOICES:
        break;
    }
    return "";
}

/* "`rising`, `falling`" of "rising falling". */
static const char *choice_words(struct arena *arena, const char *choices)
{
    const char *words = "";
    while (*choices != '\0') {
        const size_t length = strcspn(choices, " ");
        words =
            arena_printf(arena, "%s%s`%.*s`", words,
                         words[0] == '\0' ? "" : ", ", (int)length, choices);
        choices += length;
        choices += strspn(choices, " ");
    }
    return words;
}

/* A length may count squares, and a size may be one in squares: what an element
 * makes of it is no matter of its type. */
static bool value_fits(struct arena *arena, enum attribute_id id,
                       const char *told)
{
    const struct attribute_row *row = attribute_row(id);
    if (row->type == VALUE_CHOICE)
        return strcmp(told, choice_words(arena, row->choices)) == 0;
    if (row->type == VALUE_CHOICES)
        return strcmp(told,
                      arena_printf(arena, "%s, several with blanks between",
                                   choice_words(arena, row->choices))) == 0;
    return strcmp(told, type_word(row->type)) == 0 ||
           (row->type == VALUE_LENGTH && strcmp(told, "local length") == 0) ||
           (row->type == VALUE_SIZE && strcmp(told, "squares") == 0);
}

/* One name may be two attributes: the element of the heading tells which. */
static enum attribute_id attribute_of(struct arena *arena,
                                      const struct manual_entry *entry)
{
    for (unsigned kind = 0; kind < ELEMENT_COUNT; kind++)
        if (strcmp(entry->heading,
                   heading_of(arena, (enum element_kind)kind)) == 0)
            return attribute_in((enum element_kind)kind, entry->name);
    return attribute_in(ELEMENT_PATCH, entry->name); /* every piece */
}

/* "(VALUES; STATE)" or "(VALUES; STATE; a statement)". */
static void check_attribute(struct check *check,
                            const struct manual_entry *entry, bool required)
{
    const char *name =
        arena_printf(check->arena, "%s, `%s`", entry->heading, entry->name);
    const char *told =
        part(check->arena, folded(check->arena, entry->text), "` (", "): ");
    const char *values =
        told == NULL ? NULL : part(check->arena, told, "", ";");
    if (values == NULL) {
        problem(check, "%s has not the form of an attribute", name);
        return;
    }
    if (!value_fits(check->arena, attribute_of(check->arena, entry), values))
        problem(check, "%s does not take: %s", name, values);
    const char *state = told + strlen(values) + 2;
    const bool must = strcmp(state, "required") == 0;
    const bool may = strncmp(state, "optional", 8) == 0 ||
                     strncmp(state, "default ", 8) == 0 ||
                     strncmp(state, "one of ", 7) == 0;
    if (must != required || must == may)
        problem(check, "%s is %s", name, required ? "required" : "optional");
}

/* ensures: how often the attribute is told below the heading. */
static size_t check_told(struct check *check, const char *heading,
                         const char *name, bool required)
{
    size_t told = 0;
    for (size_t i = 0; i < check->manual->entries.count; i++) {
        const struct manual_entry *entry = &check->manual->entries.items[i];
        if (!entry->attribute || strcmp(entry->heading, heading) != 0 ||
            strcmp(entry->name, name) != 0)
            continue;
        told++;
        check_attribute(check, entry, required);
    }
    return told;
}

/* What every piece may have is told once for all of them. */
static void every_attribute(void **state)
{
    struct check check = check_of(state);
    size_t pairs = 0;
    for (unsigned kind = 0; kind < ELEMENT_COUNT; kind++) {
        const char *heading = heading_of(check.arena, (enum element_kind)kind);
        for (int i = 0; i < ATTRIBUTE_COUNT; i++) {
            const enum attribute_id id = (enum attribute_id)i;
            const char *name = attribute_name(id);
            const bool allowed = grammar_allows((enum element_kind)kind, id);
            const enum attribute_id meant =
                attribute_in((enum element_kind)kind, name);
            if (meant != id && meant != ATTRIBUTE_COUNT &&
                grammar_allows((enum element_kind)kind, meant))
                continue; /* another one of that name, told by itself */
            const bool required = set_has(
                &grammar_row((enum element_kind)kind)->required, (unsigned)i);
            size_t told = check_told(&check, heading, name, required);
            if (told == 0 && set_has(grammar_pieces(), kind))
                told = check_told(&check, "Every piece", name, required);
            if (told != (allowed ? 1 : 0))
                problem(&check, "%s tells `%s` %zu times, and it is %s",
                        heading, name, told, allowed ? "allowed" : "not");
            pairs += allowed;
        }
    }
    assert_true(pairs > 100);
    assert_int_equal(check.problems, 0);
}

/* Nothing is told of what is not there. */
static void no_other_attribute(void **state)
{
    struct check check = check_of(state);
    for (size_t i = 0; i < check.manual->entries.count; i++) {
        const struct manual_entry *entry = &check.manual->entries.items[i];
        if (entry->attribute &&
            attribute_of(check.arena, entry) == ATTRIBUTE_COUNT)
            problem(&check, "%s has no `%s`", entry->heading, entry->name);
        if (!entry->attribute && entry->name[0] != '\0' &&
            element_named(entry->name) == ELEMENT_COUNT)
            problem(&check, "there is no element: %s", entry->heading);
    }
    assert_int_equal(check.problems, 0);
}

/* The words for values are told in one place. */
static void every_value(void **state)
{
    struct check check = check_of(state);
    const char *text = page_named(check.manual, "language")->text;
    const char *values = strstr(text, "\n## Values\n");
    assert_non_null(values);
    for (int type = 0; type <= VALUE_TIMES; type++) {
        const char *word = type_word((enum value_type)type);
        if (word[0] != '\0' &&
            strstr(values, arena_printf(check.arena, "\n- **%s**: ", word)) ==
                NULL)
            problem(&check, "`language` does not tell what a %s is", word);
    }
    assert_int_equal(check.problems, 0);
}

/* ---- messages ---- */

static const char *level_word(enum diag_level level)
{
    return level == DIAG_ERROR     ? "error"
           : level == DIAG_WARNING ? "warning"
                                   : "remark";
}

/* In the words of the catalogue, each once. */
static void every_message(void **state)
{
    struct check check = check_of(state);
    const char *text =
        folded(check.arena, page_named(check.manual, "messages")->text);
    for (int code = 0; code < DIAG_CODE_COUNT; code++) {
        const struct diag_entry *entry = diag_entry((enum diag_code)code);
        const char *line =
            arena_printf(check.arena, " - `%s` (%s): %s.", entry->name,
                         level_word(entry->level), entry->summary);
        const char *found = strstr(text, line);
        if (found == NULL || strstr(found + 1, line) != NULL)
            problem(&check, "not once in `messages`:%s", line);
    }
    static const char *const levels[] = {
        "` (error): ", "` (warning): ", "` (remark): "};
    int told = 0;
    for (size_t i = 0; i < UNIT_COUNT(levels); i++)
        for (const char *at = text; (at = strstr(at, levels[i])) != NULL; at++)
            told++;
    assert_int_equal(told, DIAG_CODE_COUNT);
    assert_int_equal(check.problems, 0);
}

/* ---- numbers of the trade ---- */

static const char *const trade_words[TRADE_FACT_COUNT] = {
    [TRADE_SEAM] = "seam allowance",
    [TRADE_SCANT] = "scant seam, narrower by",
    [TRADE_CUTTING_STEP] = "cutting step",
    [TRADE_SQUARING] = "allowance for squaring up",
    [TRADE_RESERVE] = "reserve of a strip",
    [TRADE_BORDER_SPARE] = "spare of a border strip",
    [TRADE_MITRE_ROOM] = "room of a mitred border strip",
    [TRADE_TIGHT] = "least that a strip should have to spare",
    [TRADE_TRIM] = "room for trimming, of the shorter leg of a half-rectangle",
    [TRADE_STAR_GROWTH] =
        "what a star may grow by, where its strip is rounded",
    [TRADE_CLOTH_WIDTH] = "usable width of cloth",
    [TRADE_SOLD_STEP] = "step of yardage",
    [TRADE_MAT] = "depth of a mat",
    [TRADE_FAT_QUARTER] = "height of a fat quarter",
    [TRADE_FAT_EIGHTH] = "height of a fat eighth",
    [TRADE_TEN_INCH] = "side of a ten-inch square",
    [TRADE_FIVE_INCH] = "side of a five-inch square",
    [TRADE_STRIP] = "height of a strip sold by number",
    [TRADE_OVERAGE] = "overage of backing and batting",
    [TRADE_BACKING_SEAM] = "seam of the backing",
    [TRADE_BINDING] = "binding strip, as cut",
    [TRADE_BINDING_TAIL] = "binding beyond the perimeter",
    [TRADE_FOOT] = "foot of a machine, from needle to edge",
    [TRADE_START] = "travel that a start of quilting is worth",
    [TRADE_BOBBIN] = "thread on a bobbin",
    [TRADE_FOLD] = "fold of a seam pressed to a side, takes",
    [TRADE_FOLD_OPEN] = "fold of a seam pressed open, takes",
    [TRADE_THREAD] = "a thread, by which seams and cuts are off",
    [TRADE_TEST_STRIP] = "width of a test strip",
    [TRADE_OFF_BLOCK] = "most that a block may be off",
    [TRADE_OFF_TRIMMED] = "most that a trimmed unit may be off",
    [TRADE_OFF_TOP] = "most that a quilt top may be off",
};

/* Yardage and thread are told as a shop counts them. */
static const char *trade_text(struct arena *arena, enum trade_fact fact,
                              enum length_unit units)
{
    const enum length_unit unit =
        fact == TRADE_SOLD_STEP || fact == TRADE_BOBBIN ? trade_shop_unit(units)
                                                        : units;
    const struct rational value =
        rational_mul(trade_length(fact, units), length_factor(units, unit));
    return arena_printf(arena, "%s %s", length_plain(arena, value, unit),
                        length_unit_name(unit));
}

static void every_number_of_the_trade(void **state)
{
    struct check check = check_of(state);
    const char *text = page_named(check.manual, "trade")->text;
    for (int i = 0; i < TRADE_FACT_COUNT; i++) {
        const enum trade_fact fact = (enum trade_fact)i;
        assert_non_null(trade_words[i]);
        const char *line =
            arena_printf(check.arena, "\n- %s: %s, %s.", trade_words[i],
                         trade_text(check.arena, fact, UNIT_IN),
                         trade_text(check.arena, fact, UNIT_CM));
        if (strstr(text, line) == NULL)
            problem(&check, "`trade` has no line: %s", line + 1);
    }
    assert_int_equal(check.problems, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages_are_whole),
        cmocka_unit_test(every_element),
        cmocka_unit_test(every_attribute),
        cmocka_unit_test(no_other_attribute),
        cmocka_unit_test(every_value),
        cmocka_unit_test(every_message),
        cmocka_unit_test(every_number_of_the_trade),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
