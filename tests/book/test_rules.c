/* The rules of a printed page, one line each, and which samples hold them: what
 * a program can check is looked at, the rest is left to an eye and said so. The
 * table is printed; a rule that was held and is broken fails. */
#include "check_contrast.h"
#include "check_cutting.h"
#include "check_design.h"
#include "check_figures.h"
#include "check_layout.h"
#include "check_legend.h"
#include "check_lines.h"
#include "check_pdf.h"
#include "check_results.h"
#include "check_rules.h"
#include "check_structure.h"
#include "check_terms.h"
#include "check_text.h"
#include "check_threshold.h"
#include "check_words.h"

enum { LOOKS = 3, SAMPLES_LOOKED_AT = 10 };

/* `pdf`: the rule by which programs look at the file, too, or "H" for all of
 * its structure. `looks`: none for what only an eye can judge. `broken`:
 * letters of the samples that break it today: L, T, V, G, E, O, B (the lone
 * beacon), P (the pools), N and R. */
static const struct rule {
    const char *id, *says;
    visitor *looks[LOOKS];
    const char *pdf;
    const char *broken;
} rules[] = {
    {"A1", "each step has a figure of its own", {look_at_steps}, NULL, ""},
    {"A2",
     "steps are numbered, read down the page",
     {look_at_steps, look_at_order},
     NULL,
     ""},
    {"A3", "a step is one operation", {look_at_one_operation}, NULL, ""},
    {"A4",
     "order inside a step is numbered (departure)",
     {look_at_numbers},
     NULL,
     ""},
    {"A5", "parts that are added are seen", {look_at_seen_parts}, NULL, ""},
    {"A6",
     "seams and folds are drawn",
     {look_at_marks, look_at_numbers},
     NULL,
     ""},
    {"A7",
     "figures show the action",
     {look_at_presses, look_at_part_gaps},
     NULL,
     "PN"},
    {"A8", "before and after, in one scale", {look_at_scales}, NULL, ""},
    {"A9", "a turn is marked", {look_at_turns}, NULL, ""},
    {"A10",
     "units are shown as one, with their name",
     {look_at_label_names, look_at_places},
     NULL,
     ""},
    {"A11",
     "like work is one step with its count",
     {look_at_like_steps, look_at_counts},
     NULL,
     ""},
    {"A12",
     "few new things in a step",
     {look_at_few_things},
     NULL,
     "TVGEOBPNR"},
    {"A13",
     "parts are listed at their step",
     {look_at_label_names, look_at_named_parts},
     NULL,
     ""},
    {"A14", "which of several alike is taken", {look_at_choices}, NULL, ""},
    {"A15",
     "mirror images have names that differ",
     {look_at_all_names, look_at_mirrors},
     NULL,
     ""},
    {"A16",
     "a size to measure closes each step",
     {look_at_captions, look_at_result_sizes},
     NULL,
     ""},
    {"A17", "a warning stands before its action", {look_at_notes}, NULL, ""},
    {"A18",
     "words and figure on one page, near",
     {look_at_steps, look_at_nearness},
     NULL,
     ""},
    {"A19", "no step sends to another page", {look_at_references}, NULL, ""},
    {"A20", "an overview names all units first", {look_at_overview}, NULL, ""},
    {"B1", "parts move apart by equal gaps", {look_at_equal_gaps}, NULL, ""},
    {"B2", "gaps are 10 to 25 % of a part", {look_at_gap_share}, NULL, ""},
    {"B3", "guide lines end where parts meet", {look_at_guides}, NULL, ""},
    {"B4",
     "an arrow means one thing, in the legend",
     {look_at_signs},
     NULL,
     ""},
    {"B5", "a press arrow crosses its seam", {look_at_presses}, NULL, "PN"},
    {"B6", "pressed open has two heads", {look_at_presses}, NULL, "PN"},
    {"B7", "heads are filled, slender, alike", {look_at_heads}, NULL, ""},
    {"B8",
     "arrows touch nothing",
     {look_between_arrows, look_at_clear_labels, look_at_crossings},
     NULL,
     ""},
    {"B9",
     "a flip has its bow, then another face",
     {look_at_signs, look_at_fills},
     NULL,
     ""},
    {"B10",
     "the wrong side has its own fill",
     {look_at_fills, look_at_paths},
     NULL,
     ""},
    {"B11",
     "a diagonal is drawn as it lies",
     {look_at_captions, look_at_fills},
     NULL,
     ""},
    {"B12",
     "a diagonal is told along its line",
     {look_at_line_labels},
     NULL,
     ""},
    {"B13", "what is trimmed off is shown", {look_at_waste}, NULL, ""},
    {"B14",
     "dashed is what is not an edge",
     {look_at_paths, look_at_kinds},
     NULL,
     ""},
    {"B15",
     "each role keeps its line",
     {look_at_marks, look_at_kinds},
     NULL,
     ""},
    {"C1", "widths are 1 : 2 : 4", {look_at_line_widths}, NULL, ""},
    {"C2", "widths are of the series", {look_at_line_widths}, NULL, ""},
    {"C3",
     "outlines are broader than what measures",
     {look_at_outline_widths, look_at_line_widths},
     NULL,
     ""},
    {"C4",
     "parallel lines keep 0.7 mm apart",
     {look_at_parallels},
     NULL,
     "TVEOBPNR"},
    {"C5", "dashes have fixed forms (departure)", {look_at_paths}, NULL, ""},
    {"C6", "dashed lines end with a dash", {NULL}, "C6", ""},
    {"C7", "where lines coincide, edges win", {look_at_edges}, NULL, ""},
    {"C8", "no line under 0.17 mm", {look_at_line_widths}, NULL, ""},
    {"D1", "each size once in a figure", {look_at_result_sizes}, NULL, ""},
    {"D2",
     "only sizes that define the piece",
     {look_at_result_sizes},
     NULL,
     ""},
    {"D3",
     "sizes above their line, or from the right",
     {look_at_result_sizes},
     NULL,
     ""},
    {"D4", "one height for all sizes", {look_at_type_sizes}, NULL, ""},
    {"D5", "dimension lines lie outside", {look_at_result_sizes}, NULL, ""},
    {"D6", "and 6 mm off at least", {look_at_dimension_room}, NULL, ""},
    {"D7", "extension lines begin with a gap", {look_at_extensions}, NULL, ""},
    {"D8",
     "a label overlaps nothing",
     {look_at_clear_labels, look_at_overlaps, look_at_crossings},
     NULL,
     ""},
    {"D9", "a label is nearest to its own part", {look_at_places}, NULL, ""},
    {"D10", "leaders end in a dot, cross none", {look_at_leaders}, NULL, "V"},
    {"D11", "fractions have one look", {look_at_fractions}, NULL, ""},
    {"D12", "one unit in a figure", {look_at_units}, NULL, ""},
    {"D13",
     "one name in list, text and figure",
     {look_at_label_names, look_for_labels},
     NULL,
     ""},
    {"D14",
     "drawn sizes are the solved ones",
     {look_at_scales, look_at_result_sizes},
     NULL,
     ""},
    {"E1",
     "color is never alone",
     {look_at_neighbours, look_at_label_names},
     NULL,
     ""},
    {"E2", "lightness counts from 3 : 1", {look_at_neighbours}, NULL, ""},
    {"E3", "text has 4.5 : 1", {look_at_texts}, NULL, ""},
    {"E4", "lines have 3 : 1", {look_at_line_contrast}, NULL, "OR"},
    {"E5",
     "every area has its outline",
     {look_at_fills, look_at_neighbours},
     NULL,
     ""},
    {"E6", "few greys are keys", {look_at_greys}, NULL, ""},
    {"E7",
     "a cloth keeps its fill (departure)",
     {look_at_shades, look_at_grey},
     NULL,
     ""},
    {"E8", "no hatch along an edge", {look_for_hatches}, NULL, ""},
    {"E9",
     "hatches fit their area",
     {look_for_hatches, look_at_grey},
     NULL,
     ""},
    {"E10", "no dense stripes", {look_for_hatches}, NULL, ""},
    {"E11", "few textures", {look_for_hatches}, NULL, ""},
    {"E12",
     "the legend shows each fill, 8 mm wide",
     {look_at_swatches},
     NULL,
     ""},
    {"E13",
     "neighbours differ without red or green",
     {look_at_neighbours},
     NULL,
     ""},
    {"E14", "a copy keeps all marks", {look_at_copies}, NULL, ""},
    {"E15", "no text on a hatch", {look_at_texts}, NULL, ""},
    {"F1", "captions begin with what to do", {look_at_imperatives}, NULL, ""},
    {"F2", "sentences are short", {look_at_sentences}, NULL, ""},
    {"F3", "active voice", {look_at_voice}, NULL, ""},
    {"F4", "one term for one thing", {look_at_terms}, NULL, "LTVGEPNR"},
    {"F5", "no strings of nouns", {NULL}, NULL, ""},
    {"F6", "what to do before what to avoid", {look_at_avoiding}, NULL, ""},
    {"F7", "conditions come first", {look_at_conditions}, NULL, ""},
    {"F8",
     "lists for parts, tables for sizes",
     {look_at_strings},
     NULL,
     "LTVGEOBPNR"},
    {"F9", "no \"shall\", no \"and/or\"", {look_at_plainness}, NULL, ""},
    {"F10", "sizes of type (departure)", {look_at_type_sizes}, NULL, ""},
    {"F11", "text is dark on white", {look_at_texts}, NULL, ""},
    {"F12", "lines are not long", {look_at_lengths}, NULL, ""},
    {"F13", "complete, correct, concise", {NULL}, NULL, ""},
    {"G1", "each page has its foot", {look_at_feet}, NULL, ""},
    {"G2",
     "marks lie inside of both papers",
     {look_at_margins, look_at_papers},
     NULL,
     ""},
    {"G3", "printed without scaling", {NULL}, "H3", ""},
    {"G4",
     "pages in true size have their squares",
     {look_at_true_size},
     NULL,
     ""},
    {"G5", "templates show all lines (none yet)", {NULL}, NULL, ""},
    {"G6", "templates of several pages fit (none yet)", {NULL}, NULL, ""},
    {"G7",
     "a head stands with its figure",
     {look_at_steps, look_at_page_fill},
     NULL,
     ""},
    {"G8", "a page of steps has free space", {look_at_free_space}, NULL, "T"},
    {"H1", "the file is tagged", {NULL}, "H1", ""},
    {"H2", "marks are tagged or artifacts", {look_at_artifacts}, "H2", ""},
    {"H3", "title, language, metadata", {NULL}, "H3", ""},
    {"H4", "figures are told in words", {look_at_alternatives}, "H4", ""},
    {"H5", "headings are in order", {NULL}, "H5", ""},
    {"H6", "tables are whole", {NULL}, "H6", ""},
    {"H7", "lists are whole", {NULL}, "H7", ""},
    {"H8", "read as it is seen", {look_at_order}, "H8", ""},
    {"H9",
     "fonts are embedded, glyphs present",
     {look_at_type_sizes},
     "H9",
     ""},
    {"H10", "bookmarks and links lead somewhere", {look_at_links}, "H10", ""},
    {"H11",
     "nothing by color or place alone",
     {look_at_alternatives, look_at_captions},
     NULL,
     ""},
    {"H12", "H1 to H10 are tests", {NULL}, "H", ""},
};

/* ---- which are held ---- */

enum verdict { HELD, BROKEN, BY_EYE };

static bool is_by_eye(const struct rule *rule)
{
    return rule->looks[0] == NULL && rule->pdf == NULL;
}

/* Of one sample: its booklets in all quilts and colorways, on both papers. */
struct looked_at {
    char letter;
    size_t first, last; /* of all visits */
    const char *report; /* on the file of the first */
};

static enum verdict judge(struct booklets *all, const struct looked_at *sample,
                          const struct rule *rule)
{
    if (is_by_eye(rule))
        return BY_EYE;
    int found = rule->pdf == NULL ? 0 : reported(sample->report, rule->pdf);
    for (size_t l = 0; l < LOOKS && rule->looks[l] != NULL; l++)
        for (size_t v = sample->first; v < sample->last && found == 0; v++)
            found += count_breaches(&all->visits.items[v], rule->looks[l]);
    return found == 0 ? HELD : BROKEN;
}

/* Visits of one sample follow one another. */
static void find_samples(const struct booklets *all,
                         struct looked_at samples[SAMPLES_LOOKED_AT])
{
    static const char letters[SAMPLES_LOOKED_AT] = {'L', 'T', 'V', 'G', 'E',
                                                    'O', 'B', 'P', 'N', 'R'};
    size_t count = 0;
    for (size_t v = 0; v < all->visits.count; v++) {
        const struct visit *visit = &all->visits.items[v];
        if (v == 0 || visit->sample != visit[-1].sample) {
            samples[count] =
                (struct looked_at){letters[count], v, v, pdf_report(visit)};
            count++;
        }
        samples[count - 1].last = v + 1;
    }
    assert_int_equal(count, SAMPLES_LOOKED_AT);
}

/* What breaks a rule in the first booklet of a sample that does. */
static void tell_breaches(struct booklets *all, const struct looked_at *sample,
                          const struct rule *rule)
{
    struct breaches breaches = {"", 0, 0};
    if (rule->pdf != NULL && reported(sample->report, rule->pdf) > 0)
        fprintf(stderr, "# %s", sample->report);
    for (size_t l = 0; l < LOOKS && rule->looks[l] != NULL; l++)
        for (size_t v = sample->first; v < sample->last && breaches.count == 0;
             v++) {
            struct visit *visit = &all->visits.items[v];
            breaches.where = visit->where;
            visit->breaches = &breaches;
            visit->scratch = arena_create();
            rule->looks[l](visit);
            arena_destroy(visit->scratch);
        }
}

/* ensures: whether the sample breaks a rule that it held. */
static bool print_verdict(struct booklets *all, const struct looked_at *sample,
                          const struct rule *rule, enum verdict verdict)
{
    static const char *const words[] = {"held", "broken", "by eye"};
    const bool is_new =
        verdict == BROKEN && strchr(rule->broken, sample->letter) == NULL;
    printf(" %-7s", is_new ? "BROKEN" : words[verdict]);
    if (is_new)
        tell_breaches(all, sample, rule);
    return is_new;
}

static void test_rules_that_are_held_stay_so(void **state)
{
    struct booklets *all = *state;
    struct looked_at samples[SAMPLES_LOOKED_AT];
    size_t counts[3] = {0}, news = 0;
    find_samples(all, samples);
    printf("# %-49s lantern turning vane    gull    eight   orchard beacon  "
           "pools   racks   reed\n",
           "rule");
    for (size_t r = 0; r < UNIT_COUNT(rules); r++) {
        enum verdict worst = HELD;
        printf("# %-4s %-44s", rules[r].id, rules[r].says);
        for (size_t s = 0; s < SAMPLES_LOOKED_AT; s++) {
            const enum verdict verdict = judge(all, &samples[s], &rules[r]);
            worst = verdict > worst ? verdict : worst;
            news += print_verdict(all, &samples[s], &rules[r], verdict);
        }
        putchar('\n');
        counts[worst]++;
    }
    printf("# of %zu rules: %zu held by all, %zu broken by some, %zu by eye\n",
           UNIT_COUNT(rules), counts[HELD], counts[BROKEN], counts[BY_EYE]);
    assert_int_equal(news, 0);
}

static int english_setup(void **state)
{
    return every_booklet_in(state, "en");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rules_that_are_held_stay_so),
    };
    return cmocka_run_group_tests(tests, english_setup, booklets_teardown);
}
