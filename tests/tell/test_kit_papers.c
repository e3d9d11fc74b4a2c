/* What the papers of an order say, as values: held against the plan, not
 * against other papers. Costs stay with the owner; no paper promises anything.
 */
#include "kit_papers.h"

#include <ctype.h>
#include <stdlib.h>

#include "../book/kit_order.h"
#include "buffer.h"

struct telling {
    struct arena *arena;
    struct wording w, german;
    const struct kits *kits;
};

/* The sample order is planned once for all tests. */
static int begin(void **state)
{
    struct arena *arena = arena_create();
    struct telling *t = ARENA_NEW(arena, struct telling);
    t->arena = arena;
    t->w = (struct wording){arena, NULL, NULL, true, phrases_load(arena, "en")};
    t->german =
        (struct wording){arena, NULL, NULL, true, phrases_load(arena, "de")};
    t->kits = sample_kits(arena);
    *state = t;
    return 0;
}

static int end(void **state)
{
    arena_destroy(((struct telling *)*state)->arena);
    return 0;
}

/* ---- all words of contents ---- */

static void add_table_words(struct buffer *out, const struct told_table *table)
{
    for (size_t i = 0; i < table->columns.count; i++)
        buffer_printf(out, "%s\n", table->columns.items[i].head);
    for (size_t r = 0; r < table->rows.count; r++)
        for (size_t i = 0; i < table->rows.items[r].cells.count; i++) {
            const struct told_cell *cell =
                &table->rows.items[r].cells.items[i];
            buffer_printf(out, "%s\n", cell->text.text);
            for (size_t k = 0; k < cell->others.count; k++)
                buffer_printf(out, "%s\n", cell->others.items[k]);
        }
}

/* All that is said, one text a line, so that a word can be looked for. */
static const char *words_of(struct arena *arena,
                            const struct contents *contents)
{
    struct buffer out = buffer_in(arena);
    for (size_t i = 0; i < contents->items.count; i++) {
        const struct content *content = &contents->items.items[i];
        if (content->kind == CONTENT_HEADING)
            buffer_printf(&out, "%s\n%s\n", content->as.heading.title,
                          content->as.heading.lead);
        else if (content->kind == CONTENT_PARAGRAPH)
            buffer_printf(&out, "%s\n",
                          content_words(arena, &content->as.paragraph));
        else if (content->kind == CONTENT_LIST)
            for (size_t k = 0; k < content->as.list.items.count; k++)
                buffer_printf(&out, "%s\n",
                              content->as.list.items.items[k].text);
        else if (content->kind == CONTENT_TABLE)
            add_table_words(&out, &content->as.table);
        else if (content->kind == CONTENT_FIGURE)
            buffer_printf(&out, "%s\n%s\n", content->as.figure.caption,
                          content->as.figure.told);
    }
    return buffer_string(&out);
}

static const struct told_table *table_of(const struct contents *contents,
                                         enum content_part part)
{
    const struct content *content = content_of(contents, part, CONTENT_TABLE);
    assert_non_null(content);
    return &content->as.table;
}

/* Fails where there is no such cell. */
static const char *cell_text(const struct told_table *table, size_t row,
                             size_t cell)
{
    assert_true(row < table->rows.count);
    assert_true(cell < table->rows.items[row].cells.count);
    return table->rows.items[row].cells.items[cell].text.text;
}

/* ---- for the owner ---- */

/* By supplier code, those without one last; the sum is that of the plan. */
static void purchase_is_sorted_and_summed(void **state)
{
    const struct telling *t = *state;
    const struct contents contents = tell_kit_purchase(&t->w, t->kits);
    const struct told_table *table = table_of(&contents, PART_PURCHASE);
    const size_t count = table->rows.count - 1;
    size_t bought = 0;
    for (size_t i = 0; i < t->kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &t->kits->cloths.items[i];
        bought += cloth->bought > 0;
        for (size_t k = 0; k < cloth->pieces.count; k++)
            bought += cloth->pieces.items[k].bought > 0;
    }
    assert_int_equal(count, bought);
    bool none = false;
    for (size_t i = 0; i < count; i++) {
        const char *code = cell_text(table, i, 1);
        const bool dash = strcmp(code, "\u2013") == 0;
        assert_true(dash || !none);
        none |= dash;
        if (i > 0 && !dash)
            assert_true(strcmp(cell_text(table, i - 1, 1), code) <= 0);
    }
    assert_true(none);
    const char *all = cell_text(table, count, 2);
    assert_string_equal(
        all, arena_printf(t->arena, "%s\u00a0EUR",
                          money_text(t->arena, t->kits->order,
                                     t->kits->bought_cost)));
}

/* The first row is a cloth sold by the half yard: 180 in are five yards. */
static void purchase_tells_as_a_shop_cuts(void **state)
{
    const struct telling *t = *state;
    const struct contents contents = tell_kit_purchase(&t->w, t->kits);
    const struct told_table *table = table_of(&contents, PART_PURCHASE);
    assert_string_equal(cell_text(table, 0, 2), "Gravel weave");
    assert_string_equal(cell_text(table, 0, 3), "5\u00a0yd (180\u00a0in)");
    assert_string_equal(cell_text(table, 0, 4), "4.90\u00a0EUR a half yard");
    assert_string_equal(cell_text(table, 0, 5), "49.00\u00a0EUR");
    const struct contents german = tell_kit_purchase(&t->german, t->kits);
    assert_string_equal(cell_text(table_of(&german, PART_PURCHASE), 0, 5),
                        "49,00\u00a0EUR");
}

/* What is not proved is told with its bound, and not as proved. */
static void proofs_are_told_as_they_are(void **state)
{
    const struct telling *t = *state;
    struct kits kits = *t->kits;
    struct kits_cloth cloth = kits.cloths.items[0];
    cloth.proven[BOLT_COST] = cloth.proven[BOLT_LOST] = false;
    cloth.bound[BOLT_COST] = cloth.merit[BOLT_COST] / 2;
    kits.cloths.items = &cloth;
    kits.cloths.count = 1;
    struct contents contents = tell_kit_purchase(&t->w, t->kits);
    assert_non_null(
        strstr(words_of(t->arena, &contents), "No: no plan costs less."));
    contents = tell_kit_purchase(&t->w, &kits);
    const char *words = words_of(t->arena, &contents);
    assert_null(strstr(words, "No: no plan costs less."));
    assert_non_null(strstr(words, "Perhaps: no plan costs less than 240"));
}

/* Printed as the plan rounds them. */
static void costs_are_those_of_the_plan(void **state)
{
    const struct telling *t = *state;
    const struct contents contents = tell_kit_costs(&t->w, t->kits);
    const struct told_table *table = table_of(&contents, PART_COSTS);
    assert_int_equal(table->rows.count, t->kits->order->lines.count + 1);
    for (size_t i = 0; i < t->kits->order->lines.count; i++)
        assert_string_equal(
            cell_text(table, i, 5),
            arena_printf(t->arena, "%s\u00a0EUR",
                         money_text(t->arena, t->kits->order,
                                    t->kits->lines[i].cost)));
}

/* Does a paper tell money at all? The currency stands behind each amount. */
static bool tells_money(const struct telling *t, struct contents contents)
{
    return strstr(words_of(t->arena, &contents), "EUR") != NULL;
}

/* Cards have the price and nothing else; the others have none. */
static void money_stays_with_the_owner(void **state)
{
    const struct telling *t = *state;
    assert_true(tells_money(t, tell_kit_purchase(&t->w, t->kits)));
    assert_true(tells_money(t, tell_kit_costs(&t->w, t->kits)));
    assert_false(tells_money(t, tell_kit_picking(&t->w, t->kits)));
    assert_false(tells_money(t, tell_kit_cutting(&t->w, t->kits)));
    assert_false(tells_money(t, tell_kit_count(&t->w, t->kits)));
    for (size_t i = 0; i < t->kits->order->lines.count; i++) {
        assert_false(tells_money(t, tell_kit_slip(&t->w, t->kits, i)));
        const struct contents card = tell_kit_card(&t->w, t->kits, i);
        const char *words = words_of(t->arena, &card);
        const char *price = arena_printf(
            t->arena, "%s\u00a0EUR",
            money_text(t->arena, t->kits->order,
                       t->kits->lines[i].asked->price));
        const char *first = strstr(words, "EUR");
        assert_non_null(strstr(words, price));
        assert_null(strstr(first + 1, "EUR"));
    }
    const struct told_labels labels = tell_kit_labels(&t->w, t->kits);
    for (size_t i = 0; i < labels.items.count; i++)
        assert_null(strstr(labels.items.items[i].bag, "EUR"));
}

/* ---- cutting ---- */

static bool meets(struct rational a, struct rational b)
{
    return rational_equal(a, b);
}

/* Each bar is filled from its end to its length without gap; cuts of it are as
 * long together as they are told; each has a row with its running length. */
static void bars_are_filled(void **state)
{
    const struct telling *t = *state;
    const struct contents contents = tell_kit_cutting(&t->w, t->kits);
    size_t bars = 0, flaws = 0;
    for (size_t i = 0; i < contents.items.count; i++) {
        const struct content *content = &contents.items.items[i];
        if (content->kind != CONTENT_FIGURE)
            continue;
        const struct told_roll *roll = content->as.figure.roll;
        struct rational filled = rational_whole(0);
        size_t cuts = 0;
        for (size_t k = 0; k < roll->stretches.count; k++) {
            const struct told_stretch *stretch = &roll->stretches.items[k];
            filled = rational_add(filled,
                                  rational_sub(stretch->to, stretch->from));
            cuts += stretch->kind == STRETCH_CUT;
            flaws += stretch->kind == STRETCH_FLAW;
            assert_true(rational_compare(stretch->to, roll->length) <= 0);
        }
        assert_true(meets(filled, roll->length));
        const struct content *table = content + 1;
        assert_int_equal(table->kind, CONTENT_TABLE);
        assert_true(table->as.table.rows.count >= cuts);
        bars++;
    }
    assert_true(bars > 10);
    assert_int_equal(flaws, 1);
}

/* All cuts of all bars, as often as a bar stands for rolls, are those of the
 * plan. */
static void each_cut_has_its_row(void **state)
{
    const struct telling *t = *state;
    const struct contents contents = tell_kit_cutting(&t->w, t->kits);
    size_t told = 0, planned = 0;
    for (size_t i = 0; i < contents.items.count; i++) {
        const struct content *content = &contents.items.items[i];
        if (content->kind != CONTENT_TABLE || content->part != PART_ROLLS)
            continue;
        for (size_t r = 0; r < content->as.table.rows.count; r++) {
            const struct told_row *row = &content->as.table.rows.items[r];
            const char *cut = row->cells.items[1].text.text;
            if (isdigit((unsigned char)cut[0]))
                told += (size_t)atoi(cut) * row->cells.items[0].ticks;
        }
    }
    for (size_t i = 0; i < t->kits->cloths.count; i++)
        for (size_t k = 0; k < t->kits->cloths.items[i].cuts.count; k++)
            planned += t->kits->cloths.items[i].cuts.items[k].count;
    assert_int_equal(told, planned);
}

/* ---- slips, counts, labels ---- */

/* Counts of a slip are those of the kit; a word that all is told stands there.
 */
static void slips_hold_what_the_kit_holds(void **state)
{
    const struct telling *t = *state;
    for (size_t i = 0; i < t->kits->order->lines.count; i++) {
        const struct kits_line *line = &t->kits->lines[i];
        const struct contents slip = tell_kit_slip(&t->w, t->kits, i);
        const struct told_table *table = table_of(&slip, PART_SLIP);
        size_t told = 0, held = line->asked->extras.count;
        for (size_t r = 0; r < table->rows.count; r++)
            told += (size_t)atoi(cell_text(table, r, 4));
        for (size_t k = 0; k < line->contents.count; k++) {
            const struct kits_content *content = &line->contents.items[k];
            held += content->pieces + (rational_sign(content->length) > 0);
            for (size_t n = 0; n < content->strips.count; n++)
                held += content->strips.items[n].count;
            for (size_t n = 0; n < content->bag.count; n++)
                held += content->bag.items[n].count;
        }
        assert_int_equal(told, held);
    }
}

/* Backing, batting and binding are told in or out, whichever it is. */
static void what_is_not_in_the_kit_is_told(void **state)
{
    const struct telling *t = *state;
    struct kits kits = *t->kits;
    struct kits_line line = kits.lines[0];
    struct order_line asked = *line.asked;
    line.asked = &asked;
    kits.lines = &line;
    for (int in = 0; in < 2; in++) {
        asked.backing = asked.batting = asked.binding = in == 1;
        const struct contents slip = tell_kit_slip(&t->w, &kits, 0);
        const struct contents card = tell_kit_card(&t->w, &kits, 0);
        static const char *const names[] = {"Backing", "Batting",
                                            "Fabric for the binding"};
        for (size_t i = 0; i < 3; i++) {
            const char *words = arena_printf(
                t->arena, "%s: %s the kit.", names[i], in ? "in" : "not in");
            assert_non_null(strstr(words_of(t->arena, &slip), words));
            assert_non_null(strstr(words_of(t->arena, &card), words));
        }
    }
}

/* A weight stands in the count exactly where it tells (n < 1/(2e), Steiner and
 * MacKay, "Scale counting"). */
static void weights_stand_where_they_tell(void **state)
{
    const struct telling *t = *state;
    const struct contents contents = tell_kit_count(&t->w, t->kits);
    size_t weights = 0, tells = 0, counts = 0, not_told = 0;
    for (size_t i = 0; i < contents.items.count; i++) {
        if (contents.items.items[i].kind != CONTENT_TABLE)
            continue;
        const struct told_table *table = &contents.items.items[i].as.table;
        for (size_t r = 0; r < table->rows.count; r++) {
            const size_t cells = table->rows.items[r].cells.count;
            const char *check = cell_text(table, r, cells - 1);
            weights += strstr(check, " g, \u00b1 ") != NULL;
            counts += strcmp(check, "count, do not weigh") == 0;
        }
    }
    for (size_t i = 0; i < t->kits->order->lines.count; i++)
        for (size_t k = 0; k < t->kits->lines[i].contents.count; k++) {
            tells += t->kits->lines[i].contents.items[k].weight_tells;
            not_told += !t->kits->lines[i].contents.items[k].weight_tells;
        }
    assert_int_equal(weights, tells);
    assert_int_equal(counts, not_told);
    assert_true(tells > 0 && not_told > 0);
}

/* A label for each kit, and one for each bag of pieces, numbered. */
static void labels_are_as_many_as_bags(void **state)
{
    const struct telling *t = *state;
    const struct told_labels labels = tell_kit_labels(&t->w, t->kits);
    size_t wanted = 0;
    for (size_t i = 0; i < t->kits->order->lines.count; i++) {
        size_t bags = 1;
        for (size_t k = 0; k < t->kits->lines[i].contents.count; k++)
            bags += t->kits->lines[i].contents.items[k].bag.count > 0;
        wanted += bags * t->kits->lines[i].asked->kits;
    }
    assert_int_equal(labels.items.count, wanted);
    assert_string_equal(labels.items.items[13].bag, "Kit 14 of 14");
    assert_string_equal(labels.items.items[24].bag,
                        "Bag A: 147 pieces, kit 1 of 6");
}

/* ---- no promises ---- */

/* Words that no paper may have: a claim, or an age. */
static bool promises(const char *text)
{
    static const char *const words[] = {
        "compliant", "complies", "certified", " safe ", "safely",
        "konform",   "geprüft",  "zertifiz",  "years",  "months",
        "Jahre",     "Monate",   "unbedenklich"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strstr(text, words[i]) != NULL)
            return true;
    return false;
}

/* All sentences of the papers in both languages; and the rule itself finds
 * what it looks for. */
static void no_paper_promises(void **state)
{
    const struct telling *t = *state;
    const struct phrases *const languages[] = {t->w.phrases,
                                               t->german.phrases};
    for (size_t l = 0; l < 2; l++)
        for (size_t i = 0; i < phrases_count(languages[l]); i++)
            if (strncmp(phrases_key(languages[l], i), "kit.", 4) == 0)
                assert_false(promises(phrases_text(languages[l], i)));
    assert_true(promises("This bag is safe for children from 3 years on."));
}

/* Each slip has the cautions for what lies in a bag, and defers to rules. */
static void slips_have_cautions(void **state)
{
    const struct telling *t = *state;
    const struct contents slip = tell_kit_slip(&t->w, t->kits, 0);
    const struct content *list =
        content_of(&slip, PART_CAUTIONS, CONTENT_LIST);
    assert_non_null(list);
    assert_int_equal(list->as.list.items.count, 4);
    assert_non_null(strstr(list->as.list.items.items[0].text, "plastic"));
    assert_non_null(strstr(list->as.list.items.items[3].text, "Rules"));
    const struct contents cutting = tell_kit_cutting(&t->w, t->kits);
    assert_non_null(
        strstr(words_of(t->arena, &cutting), "Rotary cutter. Close the blade"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(purchase_is_sorted_and_summed),
        cmocka_unit_test(purchase_tells_as_a_shop_cuts),
        cmocka_unit_test(proofs_are_told_as_they_are),
        cmocka_unit_test(costs_are_those_of_the_plan),
        cmocka_unit_test(money_stays_with_the_owner),
        cmocka_unit_test(bars_are_filled),
        cmocka_unit_test(each_cut_has_its_row),
        cmocka_unit_test(slips_hold_what_the_kit_holds),
        cmocka_unit_test(what_is_not_in_the_kit_is_told),
        cmocka_unit_test(weights_stand_where_they_tell),
        cmocka_unit_test(labels_are_as_many_as_bags),
        cmocka_unit_test(no_paper_promises),
        cmocka_unit_test(slips_have_cautions),
    };
    return cmocka_run_group_tests(tests, begin, end);
}
