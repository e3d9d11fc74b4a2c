/* The comma-separated tables by a reader of their own: a strict one of
 * RFC 4180, which knows nothing of how they were written. */
#include <stdlib.h>

#include "plans.h"

/* ---- a reader of RFC 4180 ---- */

struct record {
    LIST(const char *) fields;
};
struct csv {
    LIST(struct record) records;
};

/* One field from *at. ensures: *at behind it; fails where the text is not of
 * the grammar: quotes inside plain fields, half line ends. */
static const char *read_field(struct arena *arena, const char **at)
{
    const char *p = *at;
    char *field = ARENA_ARRAY(arena, char, strlen(p) + 1), *out = field;
    if (*p == '"') {
        for (p++; *p != '"' || p[1] == '"'; p++) {
            if (*p == '\0')
                fail_msg("a quoted field does not end");
            p += *p == '"';
            *out++ = *p;
        }
        p++;
    } else {
        for (; *p != ',' && *p != '\r' && *p != '\0'; p++) {
            if (*p == '"' || *p == '\n')
                fail_msg("a quote or line feed in a plain field");
            *out++ = *p;
        }
    }
    *out = '\0';
    *at = p;
    return field;
}

static struct csv read_csv(struct arena *arena, const char *text)
{
    struct csv csv = {0};
    while (*text != '\0') {
        struct record *record = LIST_ADD(arena, &csv.records);
        *record = (struct record){0};
        for (;;) {
            *LIST_ADD(arena, &record->fields) = read_field(arena, &text);
            if (*text != ',')
                break;
            text++;
        }
        if (text[0] != '\r' || text[1] != '\n')
            fail_msg("record %zu does not end with CR LF", csv.records.count);
        text += 2;
        if (record->fields.count != csv.records.items[0].fields.count)
            fail_msg("record %zu has %zu fields", csv.records.count,
                     record->fields.count);
    }
    return csv;
}

static size_t column(const struct csv *csv, const char *name)
{
    const struct record *head = &csv->records.items[0];
    for (size_t i = 0; i < head->fields.count; i++)
        if (strcmp(head->fields.items[i], name) == 0)
            return i;
    fail_msg("no column is called %s", name);
    return 0;
}

static const char *cell_of(const struct csv *csv, size_t row, const char *name)
{
    return csv->records.items[row].fields.items[column(csv, name)];
}

/* The reader itself, on the examples of the standard. */
static void test_the_reader(void **state)
{
    const struct csv csv = read_csv(
        *state, "a,b,c\r\n\"x\"\"y\",\"1,2\",\"l\r\nm\"\r\n,,\r\n");
    assert_int_equal(csv.records.count, 3);
    assert_string_equal(cell_of(&csv, 1, "a"), "x\"y");
    assert_string_equal(cell_of(&csv, 1, "b"), "1,2");
    assert_string_equal(cell_of(&csv, 1, "c"), "l\r\nm");
    assert_string_equal(cell_of(&csv, 2, "c"), "");
}

/* ---- tables ---- */

static const struct selection everything = {NULL, NULL};

typedef const char *table(struct arena *arena, const struct cutplans *plans,
                          const struct selection *selection);
static table *const tables[] = {render_materials_csv, render_cutting_csv};

static void test_no_cell_begins_like_a_formula(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        for (size_t t = 0; t < UNIT_COUNT(tables); t++) {
            const struct csv csv = read_csv(
                arena, tables[t](arena, sample.plans, &everything));
            for (size_t r = 0; r < csv.records.count; r++)
                for (size_t f = 0; f < csv.records.items[r].fields.count; f++) {
                    const char *text = csv.records.items[r].fields.items[f];
                    if (text[0] != '\0' &&
                        strchr("=+-@\t\r\n", text[0]) != NULL)
                        fail_msg("a cell begins like a formula: %s", text);
                }
        }
    }
}

/* What some programs pass over in front of a sign, and signs in full width. */
static void test_starts_that_are_guarded(void **state)
{
    static const char *const STARTS[] = {
        " =1", "\u00a0=1", "\u200b=1",  "\ufeff=1", "\u3000=1", "\u202f=1",
        "\uff1d1", "\uff0b1", "\uff0d1", "\uff201", "\u202e=1", "\u2003=1"};
    struct arena *arena = *state;
    for (size_t i = 0; i < UNIT_COUNT(STARTS); i++) {
        const struct sample sample = sample_text(
            arena, arena_printf(arena,
                                "<pattern xmlns=\"urn:seamwright:pattern:1\""
                                " id=\"p\" title=\"P\"><fabrics>"
                                "<fabric id=\"foam\" name=\"%s\"/></fabrics>"
                                "<colorway id=\"c\"><cloth fabric=\"foam\""
                                " color=\"#dfeaea\"/></colorway>"
                                "<quilt id=\"q\"><patch fabric=\"foam\""
                                " width=\"4\" height=\"4\"/></quilt></pattern>",
                                STARTS[i]));
        const struct csv csv = read_csv(
            arena, render_materials_csv(arena, sample.plans, &everything));
        assert_string_equal(cell_of(&csv, 1, "fabric"),
                            arena_printf(arena, "'%s", STARTS[i]));
    }
}

/* What was written comes back, behind its guard. */
static void test_hostile_names_come_back(void **state)
{
    struct arena *arena = *state;
    const struct sample sample = sample_text(arena, hostile);
    const struct csv csv = read_csv(
        arena, render_materials_csv(arena, sample.plans, &everything));
    assert_int_equal(csv.records.count, 1 + 4 + 1); /* and the backing */
    assert_string_equal(cell_of(&csv, 1, "fabric"), "'=SUM(A1:A9)");
    assert_string_equal(cell_of(&csv, 1, "cloth"), "\"");
    assert_string_equal(cell_of(&csv, 1, "price"), "11.80");
    assert_string_equal(cell_of(&csv, 2, "fabric"), "'+1 shade, \"warm\"");
    assert_string_equal(cell_of(&csv, 2, "cloth"), "a,b");
    assert_string_equal(cell_of(&csv, 2, "code"), "'=1+1");
    assert_string_equal(cell_of(&csv, 2, "cloth width"), "42 1/2");
    assert_string_equal(cell_of(&csv, 2, "price"), "0.05");
    assert_string_equal(cell_of(&csv, 3, "fabric"), "'-2");
    assert_string_equal(cell_of(&csv, 3, "unit"), "fat quarter");
    assert_string_equal(cell_of(&csv, 3, "price"), "");
    assert_string_equal(cell_of(&csv, 4, "fabric"), "'@home");
    assert_string_equal(cell_of(&csv, 5, "use"), "backing");
}

/* Row by row against the plan, lengths read back exactly. */
static void test_the_cutting_table_is_the_plan(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const enum length_unit unit = sample.design->pattern->units;
        const struct csv csv = read_csv(
            arena, render_cutting_csv(arena, sample.plans, &everything));
        size_t row = 0;
        for (size_t p = 0; p < sample.plans->items.count; p++) {
            const struct cutplan *plan = &sample.plans->items.items[p];
            for (size_t f = 0; f < sample.design->fabrics.count; f++)
                for (size_t i = 0; i < plan->fabrics[f].items.count; i++) {
                    const struct cut_item *item =
                        &plan->fabrics[f].items.items[i];
                    assert_true(++row < csv.records.count);
                    assert_string_equal(cell_of(&csv, row, "quilt"),
                                        plan->quilt->definition->id);
                    assert_string_equal(cell_of(&csv, row, "colorway"),
                                        plan->colorway->id);
                    assert_string_equal(cell_of(&csv, row, "label"),
                                        item->label);
                    assert_int_equal(
                        strtoul(cell_of(&csv, row, "pieces"), NULL, 10),
                        item->count);
                    assert_true(rational_equal(
                        plain_length(cell_of(&csv, row, "cut width"),
                                     unit),
                        item->width));
                    assert_true(rational_equal(
                        plain_length(cell_of(&csv, row, "cut height"),
                                     unit),
                        item->height));
                }
        }
        assert_int_equal(row + 1, csv.records.count);
    }
}

/* The pieces that are sewn, counted from the heaps of the quilt, are the
 * pieces that are cut. */
static void test_all_that_is_sewn_is_cut(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const struct csv csv = read_csv(
            arena, render_cutting_csv(arena, sample.plans, &everything));
        for (size_t p = 0; p < sample.plans->items.count; p++) {
            const struct cutplan *plan = &sample.plans->items.items[p];
            for (size_t h = 0; h < plan->quilt->heaps.count; h++) {
                const struct heap *heap = &plan->quilt->heaps.items[h];
                if (heap->technique != TECHNIQUE_CUT || heap->count == 0 ||
                    heap->of.cut.border > 0)
                    continue; /* strips of borders: test_finishing.c */
                size_t rows = 0, pieces = 0;
                for (size_t r = 1; r < csv.records.count; r++)
                    if (strcmp(cell_of(&csv, r, "quilt"),
                               plan->quilt->definition->id) == 0 &&
                        strcmp(cell_of(&csv, r, "colorway"),
                               plan->colorway->id) == 0 &&
                        strcmp(cell_of(&csv, r, "label"), heap->of.cut.label) == 0) {
                        rows++;
                        pieces += strtoul(cell_of(&csv, r, "pieces"), NULL, 10);
                    }
                assert_int_equal(rows, 1);
                assert_int_equal(pieces, heap->count);
            }
        }
    }
}

/* Amounts in yards or metres against the plan's inches or centimetres. */
static void test_the_materials_are_the_plan(void **state)
{
    struct arena *arena = *state;
    for (size_t s = 0; s <= SAMPLE_COUNT; s++) {
        const struct sample sample = any_sample(arena, s);
        const struct csv csv = read_csv(
            arena, render_materials_csv(arena, sample.plans, &everything));
        size_t row = 0;
        for (size_t p = 0; p < sample.plans->items.count; p++) {
            const struct cutplan *plan = &sample.plans->items.items[p];
            for (size_t f = 0; f < sample.design->fabrics.count; f++) {
                const struct fabric_plan *fabric = &plan->fabrics[f];
                if (fabric->items.count == 0)
                    continue;
                const char *amount = cell_of(&csv, ++row, "amount");
                if (fabric->bolt->sold != SOLD_YARDAGE)
                    assert_int_equal(strtoul(amount, NULL, 10),
                                     fabric->bought_sheets);
                else
                    assert_true(rational_equal(
                        rational_times(plain_length(amount, UNIT_YD), 36),
                        fabric->bought));
            }
            if (plan->backing.wanted)
                assert_true(rational_equal(
                    rational_times(
                        plain_length(cell_of(&csv, ++row, "amount"), UNIT_YD),
                        36),
                    plan->backing.bought));
            /* Threads stand behind the cloths. */
            while (row + 1 < csv.records.count &&
                   strcmp(cell_of(&csv, row + 1, "use"), "thread") == 0)
                row++;
        }
        assert_int_equal(row + 1, csv.records.count);
    }
}

/* A choice gives the rows of the whole table that it names, and no others. */
static void test_a_selection_is_a_part(void **state)
{
    struct arena *arena = *state;
    const struct sample sample = sample_file(SAMPLES[2]);
    const struct selection bed = {"bed", "heather"};
    for (size_t t = 0; t < UNIT_COUNT(tables); t++) {
        const struct csv whole =
            read_csv(arena, tables[t](arena, sample.plans, &everything));
        const struct csv part =
            read_csv(arena, tables[t](arena, sample.plans, &bed));
        size_t next = 1;
        for (size_t r = 1; r < whole.records.count; r++) {
            if (strcmp(cell_of(&whole, r, "quilt"), "bed") != 0 ||
                strcmp(cell_of(&whole, r, "colorway"), "heather") != 0)
                continue;
            assert_true(next < part.records.count);
            for (size_t f = 0; f < part.records.items[0].fields.count; f++)
                assert_string_equal(part.records.items[next].fields.items[f],
                                    whole.records.items[r].fields.items[f]);
            next++;
        }
        assert_true(next > 1);
        assert_int_equal(next, part.records.count);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_reader),
        cmocka_unit_test(test_no_cell_begins_like_a_formula),
        cmocka_unit_test(test_starts_that_are_guarded),
        cmocka_unit_test(test_hostile_names_come_back),
        cmocka_unit_test(test_the_cutting_table_is_the_plan),
        cmocka_unit_test(test_all_that_is_sewn_is_cut),
        cmocka_unit_test(test_the_materials_are_the_plan),
        cmocka_unit_test(test_a_selection_is_a_part),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
