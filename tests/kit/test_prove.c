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

/* The change of that number. ensures: false behind the last one. */
static bool change(struct kits *kits, int number)
{
    struct kits_cloth *cloth = &kits->cloths.items[0];
    struct kits_roll *roll = &cloth->rolls.items[0];
    struct kits_pieces *pieces = &kits->cloths.items[1].pieces.items[0];
    struct kits_content *content = &kits->lines[0].contents.items[0];
    switch (number) {
    case 0:
        add_one(&roll->runs.items[0].to);
        return true;
    case 1:
        roll->runs.items[0].count++;
        return true;
    case 2:
        add_one(&roll->left);
        return true;
    case 3:
        roll->runs.items[0].line = 1 - roll->runs.items[0].line;
        return true;
    case 4:
        add_one(&cloth->cuts.items[0].length);
        return true;
    case 5:
        cloth->cuts.items[0].spare++;
        return true;
    case 6:
        add_one(&cloth->ledger.lost);
        return true;
    case 7:
        add_one(&cloth->ledger.shelf);
        return true;
    case 8:
        add_one(&cloth->ends.items[0].length);
        return true;
    case 9:
        pieces->left++;
        return true;
    case 10:
        pieces->needed++;
        return true;
    case 11:
        pieces->shelf++;
        return true;
    case 12:
        add_one(&content->length);
        return true;
    case 13:
        add_one(&content->cost);
        return true;
    case 14:
        add_one(&kits->bought_cost);
        return true;
    case 15:
        cloth->bought++;
        return true;
    case 16:
        kits->lines[1].contents.items[0].bag.items[0].count++;
        return true;
    case 17:
        cloth->cutting.strips.items[0].repeat++;
        return true;
    case 18:
        cloth->cutting.strips.items[0].segments.items[0].count++;
        return true;
    case 19:
        roll->from = rational_make(81, 2); /* on the flaw */
        return true;
    default:
        return false;
    }
}

static void each_change_is_found(void **state)
{
    assert_int_equal(proof_of(sound(*state)), 0);
    int number = 0;
    for (;; number++) {
        struct kits *kits = sound(*state);
        if (!change(kits, number))
            break;
        if (proof_of(kits) != 5)
            fail_msg("change %d is not found", number);
    }
    assert_true(number > 15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_change_is_found)};
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
