/* An order of two patterns in three palettes, 40 kits, that was worked out by
 * hand: to the inch, the fat quarter and the
 * cent. */
#include "ordered.h"

#define HEAD                                                   \
    "<order xmlns=\"urn:seamwright:pattern:1\" id=\"worked\" " \
    "title=\"Worked\" "                                        \
    "currency=\"EUR\" over=\"1/2\" spare=\"5\" end-loss=\"2\" keep=\"18\">\n"

#define LINE(pattern, colorway, kits, price)                        \
    "<line pattern=\"" pattern ".xml\" quilt=\"" pattern            \
    "\" colorway=\"" colorway "\" kits=\"" kits "\" price=\"" price \
    "\"><extra name=\"Booklet\" cost=\"1.10\"/>"                    \
    "<extra name=\"Bag\" cost=\"0.18\"/></line>\n"

#define BOLT_CLOTH(code) \
    "<cloth code=\"" code "\" bolt=\"540\" price=\"93.00\" width=\"42\"/>\n"
#define PRINT(code)       \
    "<cloth code=\"" code \
    "\" sold=\"half-yard\" price=\"3.10\" width=\"42\"/>\n"

static const char order_text[] = HEAD LINE("mill-race", "dusk", "12", "54.00")
    LINE("mill-race", "meadow", "8",
         "54.00") LINE("lantern-row", "dusk", "12",
                       "46.00") LINE("lantern-row", "harbor", "8", "46.00")
        BOLT_CLOTH("C1") BOLT_CLOTH("C2") BOLT_CLOTH("C3") BOLT_CLOTH("C4")
            BOLT_CLOTH("C5") BOLT_CLOTH("C6") PRINT("P1") PRINT("P2")
                PRINT("P3") PRINT("P4") PRINT("P5") PRINT("P6") PRINT("Q1")
                    PRINT("Q2") PRINT("Q3") PRINT("Q4") PRINT("Q5") PRINT(
                        "Q6") "<bolt of=\"C1\" length=\"210\"/><bolt of=\"C1\" "
                              "length=\"96\"/>"
                              "<bolt of=\"C3\" length=\"300\"/>"
                              "<bolt of=\"C5\" length=\"150\"/><bolt of=\"C5\" "
                              "length=\"185 1/2\"/>"
                              "<fat-quarters of=\"P1\" count=\"5\"/></order>\n";

static struct kit_facts *mill_race(struct arena *arena, const char *colorway,
                                   const char *accent)
{
    struct kit_facts *facts = facts_new(arena, "mill-race", colorway);
    facts_yardage(arena, facts, "C1", 18);
    facts_yardage(arena, facts, accent, 7);
    facts_yardage(arena, facts, "C4", 5);
    return facts;
}

static struct kit_facts *lantern_row(struct arena *arena, const char *colorway,
                                     const char *ground, const char *border,
                                     const char *const *prints)
{
    struct kit_facts *facts = facts_new(arena, "lantern-row", colorway);
    facts_yardage(arena, facts, ground, 8);
    facts_yardage(arena, facts, border, 6);
    for (size_t i = 0; i < 6; i++)
        facts_quarters(arena, facts, prints[i], 1);
    return facts;
}

static struct kits *worked(struct arena *arena)
{
    static const char *const dusk[] = {"P1", "P2", "P3", "P4", "P5", "P6"};
    static const char *const harbor[] = {"Q1", "Q2", "Q3", "Q4", "Q5", "Q6"};
    const struct ordered ordered = ordered_of(arena, order_text);
    assert_non_null(ordered.order);
    const struct kit_facts *facts[] = {
        mill_race(arena, "dusk", "C2"), mill_race(arena, "meadow", "C3"),
        lantern_row(arena, "dusk", "C1", "C4", dusk),
        lantern_row(arena, "harbor", "C5", "C6", harbor)};
    struct kits *kits = ordered_plan(&ordered, facts);
    assert_non_null(kits);
    return kits;
}

/* 2.3: cuts with spare, inches, what is bought, lost and left. */
static void cloths_come_out(void **state)
{
    static const struct {
        const char *code;
        size_t cuts, others; /* of the longer length, of the other one */
        int64_t halves;      /* all cuts, in half inches */
        size_t bought;
        int64_t lost, left; /* in half inches */
    } rows[] = {
        {"C1", 21, 13, 4372, 4, 0, 544}, {"C2", 13, 0, 832, 1, 0, 244},
        {"C3", 9, 0, 576, 0, 24, 0},     {"C4", 13, 21, 1681, 2, 0, 471},
        {"C5", 9, 0, 657, 0, 14, 0},     {"C6", 9, 0, 495, 1, 0, 581}};
    const struct kits *kits = worked(*state);
    for (size_t i = 0; i < UNIT_COUNT(rows); i++) {
        const struct kits_cloth *cloth = cloth_named(kits, rows[i].code);
        const struct kits_ledger *l = &cloth->ledger;
        assert_int_equal(cloth->cuts.items[0].count, rows[i].cuts);
        if (rows[i].others > 0)
            assert_int_equal(cloth->cuts.items[1].count, rows[i].others);
        assert_rational(rational_add(l->kits, l->spare), rows[i].halves, 2);
        assert_int_equal(cloth->bought, rows[i].bought);
        assert_rational(l->lost, rows[i].lost, 2);
        assert_rational(l->left, rows[i].left, 2);
        assert_true(cloth->proven[BOLT_COST] && cloth->proven[BOLT_LOST]);
    }
}

/* 2.4: five are opened, the 96 among those that are not. */
static void ground_opens_five(void **state)
{
    const struct kits *kits = worked(*state);
    const struct kits_cloth *cloth = cloth_named(kits, "C1");
    assert_int_equal(cloth->rolls.count, 5);
    assert_int_equal(cloth->merit[BOLT_OPENED], 5);
    assert_true(cloth->proven[BOLT_OPENED]);
    for (size_t i = 0; i < cloth->rolls.count; i++)
        if (cloth->rolls.items[i].bolt != NULL)
            assert_rational(cloth->rolls.items[i].bolt->length, 210, 1);
    assert_rational(cloth->ends.items[0].length, 96, 1);
    assert_true(cloth->ends.items[0].whole);
}

/* 2.5: the six cloths together. */
static void ledger_of_lengths(void **state)
{
    static const char *const codes[] = {"C1", "C2", "C3", "C4", "C5", "C6"};
    const struct kits *kits = worked(*state);
    const struct rational none = rational_whole(0);
    struct kits_ledger sum = {none, none, none, none, none,
                              none, none, none, none};
    for (size_t i = 0; i < UNIT_COUNT(codes); i++) {
        const struct kits_ledger *l = &cloth_named(kits, codes[i])->ledger;
        sum.shelf = rational_add(sum.shelf, l->shelf);
        sum.bought = rational_add(sum.bought, l->bought);
        sum.kits = rational_add(sum.kits, l->kits);
        sum.spare = rational_add(sum.spare, l->spare);
        sum.end_loss = rational_add(sum.end_loss, l->end_loss);
        sum.lost = rational_add(sum.lost, l->lost);
        sum.left = rational_add(sum.left, l->left);
    }
    assert_rational(sum.shelf, 1883, 2);
    assert_rational(sum.bought, 4320, 1);
    assert_rational(sum.kits, 4010, 1);
    assert_rational(sum.spare, 593, 2);
    assert_rational(sum.end_loss, 16, 1);
    assert_rational(sum.lost, 19, 1);
    assert_rational(sum.left, 920, 1);
}

/* 2.6: 5 + 138 = 120 + 12 + 11, of 69 half yards. */
static void ledger_of_quarters(void **state)
{
    const struct kits *kits = worked(*state);
    size_t shelf = 0, cut = 0, needed = 0, spare = 0, left = 0, lengths = 0;
    for (size_t i = 0; i < kits->cloths.count; i++)
        for (size_t k = 0; k < kits->cloths.items[i].pieces.count; k++) {
            const struct kits_pieces *pieces =
                &kits->cloths.items[i].pieces.items[k];
            shelf += pieces->shelf;
            cut += pieces->cut;
            needed += pieces->needed;
            spare += pieces->spare;
            left += pieces->left;
            lengths += pieces->lengths;
        }
    assert_int_equal(shelf, 5);
    assert_int_equal(cut, 138);
    assert_int_equal(needed, 120);
    assert_int_equal(spare, 12);
    assert_int_equal(left, 11);
    assert_int_equal(lengths, 69);
}

/* 2.7: 74 in are sold as 2 1/2 yd, 129 1/2 as 4, 92 1/2 as 3. */
static void purchase(void **state)
{
    const struct kits *kits = worked(*state);
    assert_rational(cloth_named(kits, "P1")->bought_length, 90, 1);
    assert_rational(cloth_named(kits, "P2")->bought_length, 144, 1);
    assert_rational(cloth_named(kits, "Q6")->bought_length, 108, 1);
    assert_int_equal(cloth_named(kits, "P2")->bought, 8);
    assert_rational(cloth_named(kits, "P2")->cost, 2480, 100);
    assert_string_equal(money_text(*state, kits->order, kits->bought_cost),
                        "995.10");
}

/* 2.8: exact up to the line of the document. */
static void costs(void **state)
{
    const struct kits *kits = worked(*state);
    struct arena *arena = *state;
    assert_string_equal(money_text(arena, kits->order, kits->lines[0].cost),
                        "24.79");
    assert_string_equal(money_text(arena, kits->order, kits->lines[3].cost),
                        "21.86");
    assert_string_equal(money_text(arena, kits->order, kits->kits_cost),
                        "932.98");
    assert_rational(kits->lines[0].cost, 29746, 1200);
    const struct order tenths = {.digits = 1};
    assert_string_equal(
        money_text(arena, &tenths, rational_times(kits->lines[0].margin, 100)),
        "54.1");
    assert_string_equal(
        money_text(arena, &tenths, rational_times(kits->lines[2].margin, 100)),
        "52.5");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(cloths_come_out),
                                       cmocka_unit_test(ground_opens_five),
                                       cmocka_unit_test(ledger_of_lengths),
                                       cmocka_unit_test(ledger_of_quarters),
                                       cmocka_unit_test(purchase),
                                       cmocka_unit_test(costs)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
