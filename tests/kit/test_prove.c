/* A plan that is wrong in one place is no plan: each change ends the program as
 * its own fault. */
#define _DEFAULT_SOURCE
#include "ordered.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

static struct kits *sound(struct arena *arena)
{
    struct kit_facts *facts = facts_new(arena, "q", "dusk");
    facts_yardage(arena, facts, "N-1", 8);
    facts_quarters(arena, facts, "P-1", 2);
    struct kit_facts *other = facts_new(arena, "r", "dusk");
    facts_yardage(arena, other, "N-1", 8);
    facts_yardage(arena, other, "N-2", 5);
    const struct kit_facts *all[] = {facts, other};
    const struct ordered ordered = ordered_of(
        arena,
        "<order xmlns=\"urn:seamwright:pattern:1\" id=\"o\" title=\"O\" "
        "over=\"1/2\" spare=\"5\" end-loss=\"2\">"
        "<line pattern=\"p.xml\" quilt=\"q\" colorway=\"dusk\" kits=\"7\"/>"
        "<line pattern=\"r.xml\" quilt=\"r\" colorway=\"dusk\" kits=\"4\" "
        "style=\"cut\"><extra name=\"Bag\" cost=\"0.18\"/></line>"
        "<cloth code=\"N-1\" bolt=\"360\" price=\"66\" width=\"42\"/>"
        "<cloth code=\"N-2\" sold=\"yard\" price=\"7\" width=\"42\"/>"
        "<cloth code=\"P-1\" sold=\"half-yard\" price=\"3\" width=\"42\"/>"
        "<bolt of=\"N-1\" length=\"120\"><flaw from=\"40\" to=\"41\"/></bolt>"
        "<fat-quarters of=\"P-1\" count=\"3\"/></order>");
    assert_non_null(ordered.order);
    struct kits *kits = ordered_plan(&ordered, all);
    assert_non_null(kits);
    return kits;
}

/* ensures: how a proof of the plan ends, in a process of its own. */
static int proof_of(const struct kits *kits)
{
    fflush(stdout);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        const int nowhere = open("/dev/null", O_WRONLY);
        dup2(nowhere, STDERR_FILENO);
        prove_kits(kits);
        _exit(0);
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static void add_one(struct rational *value)
{
    *value = rational_add(*value, rational_whole(1));
}

/* Changes of one cloth, by their numbers. ensures: false for others. */
static bool change_cloth(struct kits_cloth *cloth, int number)
{
    struct kits_roll *roll = &cloth->rolls.items[0];
    struct kits_run *run = &roll->runs.items[0];
    struct kits_strip *strip = &cloth->cutting.strips.items[0];
    struct rational *const longer[] = {&run->to,
                                       &roll->left,
                                       &cloth->cuts.items[0].length,
                                       &cloth->ledger.lost,
                                       &cloth->ledger.shelf,
                                       &cloth->ends.items[0].length};
    size_t *const more[] = {&run->count, &cloth->cuts.items[0].spare,
                            &cloth->bought, &strip->repeat,
                            &strip->segments.items[0].count};
    const int lengths = (int)UNIT_COUNT(longer), counts = (int)UNIT_COUNT(more);
    if (number < lengths)
        add_one(longer[number]);
    else if (number < lengths + counts)
        ++*more[number - lengths];
    else if (number == lengths + counts)
        run->line = 1 - run->line;
    else if (number == lengths + counts + 1)
        roll->from = rational_make(81, 2); /* on the flaw */
    return number <= lengths + counts + 1;
}

/* Changes of what kits hold and cost. ensures: false behind the last one. */
static bool change_kits(struct kits *kits, int number)
{
    struct kits_pieces *pieces = &kits->cloths.items[1].pieces.items[0];
    struct kits_content *content = &kits->lines[0].contents.items[0];
    struct rational *const longer[] = {&content->length, &content->cost,
                                       &kits->bought_cost};
    size_t *const more[] = {
        &pieces->left, &pieces->needed, &pieces->shelf,
        &kits->lines[1].contents.items[0].bag.items[0].count};
    const int lengths = (int)UNIT_COUNT(longer);
    if (number < lengths)
        add_one(longer[number]);
    else if (number < lengths + (int)UNIT_COUNT(more))
        ++*more[number - lengths];
    return number < lengths + (int)UNIT_COUNT(more);
}

/* Makes so many plans until there is no further change. */
static int changes_found(struct arena *arena, bool of_cloth)
{
    for (int number = 0;; number++) {
        struct kits *kits = sound(arena);
        if (of_cloth ? !change_cloth(&kits->cloths.items[0], number)
                     : !change_kits(kits, number))
            return number;
        if (proof_of(kits) != 5)
            fail_msg("change %d is not found", number);
    }
}

static void each_change_is_found(void **state)
{
    assert_int_equal(proof_of(sound(*state)), 0);
    assert_int_equal(changes_found(*state, true), 13);
    assert_int_equal(changes_found(*state, false), 7);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_change_is_found)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
