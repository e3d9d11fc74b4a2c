/* An order as large as a shop's year: 200 lines over 50 patterns, 5,000 kits,
 * one line in four cut to pieces. What planning, proving and the tables take on
 * one core once the patterns are compiled. Run by `make bench`; the figures are
 * to be read, no test depends on them. */
#include <sys/resource.h>
#include <time.h>

#include "../kit/ordered.h"
#include "buffer.h"

enum { PATTERNS = 50, LINES = 200, KITS = 25, CLOTHS = 160 };

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec / 1e9;
}

static const char *code_of(struct arena *arena, int64_t number)
{
    return arena_printf(arena, "%s-%02d", number < 60 ? "N" : "P", (int)number);
}

/* A piece from 1 1/2 to 12 1/2 in eighths, many of the smaller ones. */
static void add_pieces(struct arena *arena, struct unit_random *random,
                       struct kit_fabric *fabric)
{
    fabric->pieces.count = 0;
    const int64_t count = 1 + unit_below(random, 8);
    for (int64_t i = 0; i < count; i++) {
        const int64_t width = 12 + unit_below(random, 88);
        const int64_t height = 12 + unit_below(random, (uint64_t)width - 11);
        *LIST_ADD(arena, &fabric->pieces) =
            (struct kit_piece){.label = arena_printf(arena, "A%d", (int)i + 1),
                               .width = rational_make(width, 8),
                               .height = rational_make(height, 8),
                               .count = 4 + (size_t)unit_below(random, 60),
                               .turns = true};
    }
}

/* Yardage of three to seven cloths, fat quarters of up to six. Grounds are
 * shared by many patterns. */
static struct kit_facts *one_pattern(struct arena *arena,
                                     struct unit_random *random, int number)
{
    const char *quilt = arena_printf(arena, "q%d", number);
    struct kit_facts *facts = facts_new(arena, quilt, "dusk");
    const int64_t yardage = 3 + unit_below(random, 5);
    const int64_t quarters = unit_below(random, 7);
    const int64_t from = unit_below(random, 60);
    for (int64_t i = 0; i < yardage; i++) {
        struct kit_fabric *fabric =
            facts_yardage(arena, facts, code_of(arena, (from + 7 * i) % 60),
                          2 + unit_below(random, 24));
        add_pieces(arena, random, fabric);
    }
    for (int64_t i = 0; i < quarters; i++)
        facts_quarters(arena, facts, code_of(arena, 60 + (from * 3 + i) % 100),
                       1);
    return facts;
}

static const char *order_text(struct arena *arena, struct unit_random *random)
{
    struct buffer out = buffer_in(arena);
    buffer_text(&out, "<order xmlns=\"urn:seamwright:pattern:1\" id=\"year\" "
                      "title=\"Year\" over=\"1/2\" spare=\"3\" "
                      "end-loss=\"2\">\n");
    for (int i = 0; i < LINES; i++)
        buffer_printf(&out,
                      "<line pattern=\"p.xml\" quilt=\"q%d\" "
                      "colorway=\"dusk\" kits=\"%d\" style=\"%s\"/>\n",
                      i % PATTERNS, KITS, i % 4 == 3 ? "cut" : "yardage");
    for (int i = 0; i < CLOTHS; i++)
        buffer_printf(
            &out, "<cloth code=\"%s\" %s price=\"%d.50\" width=\"42\"/>\n",
            code_of(arena, i), i < 60 ? "bolt=\"540\"" : "sold=\"half-yard\"",
            i < 60 ? 93 : 3);
    for (int i = 0; i < 120; i++)
        buffer_printf(&out, "<bolt of=\"%s\" length=\"%d %d/8\"/>\n",
                      code_of(arena, i % 60), 40 + (int)unit_below(random, 400),
                      1 + (int)unit_below(random, 7));
    buffer_text(&out, "</order>\n");
    return buffer_string(&out);
}

static void measure(uint64_t seed)
{
    struct arena *arena = arena_create();
    struct unit_random random = {seed};
    struct kit_facts *patterns[PATTERNS];
    for (int i = 0; i < PATTERNS; i++)
        patterns[i] = one_pattern(arena, &random, i);
    const char *text = order_text(arena, &random);
    const double start = seconds();
    const struct ordered ordered = ordered_of(arena, text);
    const struct kit_facts *facts[LINES];
    for (int i = 0; i < LINES; i++)
        facts[i] = patterns[i % PATTERNS];
    const double read = seconds();
    struct kits *kits = plan_kits(ordered.run, ordered.order, facts);
    const double planned = seconds();
    if (kits == NULL) {
        ordered_show(&ordered);
        arena_destroy(arena);
        return;
    }
    prove_kits(kits);
    const double proved = seconds();
    render_bolts_csv(arena, kits);
    render_slips_csv(arena, kits);
    render_purchase_csv(arena, kits);
    const double told = seconds();
    size_t proven = 0, rolls = 0, open[BOLT_MERITS] = {0};
    for (size_t i = 0; i < kits->cloths.count; i++) {
        bool all = true;
        for (int m = 0; m < BOLT_MERITS; m++) {
            const bool known = kits->cloths.items[i].cuts.count == 0 ||
                               kits->cloths.items[i].proven[m];
            open[m] += all && !known;
            all = all && known;
        }
        proven += all;
        rolls += kits->cloths.items[i].rolls.count;
    }
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("kits  seed %llu: %zu kits, %zu cloths, %zu bolts: read %.3f s, "
           "plan %.2f s, prove %.2f s, tables %.2f s, %ld MB; all merits "
           "proven of %zu cloths (open first: cost %zu, lost %zu, opened %zu, "
           "age %zu)\n",
           (unsigned long long)seed, kits->kit_count, kits->cloths.count, rolls,
           read - start, planned - read, proved - planned, told - proved,
           usage.ru_maxrss / 1024, proven, open[BOLT_COST], open[BOLT_LOST],
           open[BOLT_OPENED], open[BOLT_AGE]);
    arena_destroy(arena);
}

int main(void)
{
    for (uint64_t seed = 1; seed <= 3; seed++)
        measure(seed);
    return 0;
}
