/* Each action of the samples, and of a pattern with all kinds of pressing and
 * of corners, for tests that hold words against what is drawn. */
#ifndef SEAMWRIGHT_TESTS_VISITS_H
#define SEAMWRIGHT_TESTS_VISITS_H

#include "../book/figures.h"

/* Calls `look` for each action of a quilt. */
typedef void action_visitor(struct breaches *breaches, const struct wording *w,
                            const struct heap *heap,
                            const struct action *action);

static void visit_actions(struct breaches *breaches, struct arena *arena,
                          const struct sample *sample, action_visitor *look)
{
    for (size_t q = 0; q < sample->sewn->quilts.count; q++) {
        const struct sewn_quilt *quilt = &sample->sewn->quilts.items[q];
        for (int glyphs = 0; glyphs < 2; glyphs++) {
            const struct wording w = {arena, sample->design, quilt, glyphs == 1,
                                      phrases_load(arena, "en")};
            breaches->where = arena_printf(arena, "%s, %s", sample->name,
                                           quilt->definition->id);
            breaches->told = 0;
            for (size_t i = 0; i < quilt->heaps.count; i++)
                for (size_t k = 0; k < quilt->heaps.items[i].actions.count; k++)
                    look(breaches, &w, &quilt->heaps.items[i],
                         &quilt->heaps.items[i].actions.items[k]);
        }
    }
}

/* All kinds of pressing and of corners in one place. */
static const char shore[] =
    "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"shore\" "
    "title=\"Shore\" units=\"in\" seam=\"1/4\">"
    "<fabrics><fabric id=\"kelp\" key=\"k\" name=\"Kelp\"/>"
    "<fabric id=\"sand\" key=\"s\" name=\"Sand\"/>"
    "<fabric id=\"foam\" key=\"f\" name=\"Foam\"/></fabrics>"
    "<colorway id=\"ebb\" name=\"Ebb\">"
    "<cloth fabric=\"kelp\" name=\"Moss\" color=\"#224433\" width=\"42\"/>"
    "<cloth fabric=\"sand\" name=\"Dune\" color=\"#ccbb88\" width=\"42\"/>"
    "<cloth fabric=\"foam\" name=\"Chalk\" color=\"#f4f4f0\" width=\"42\"/>"
    "</colorway>"
    "<unit id=\"reef\" name=\"Reef\"><patch fabric=\"kelp\" width=\"4\" "
    "height=\"4\"><corner at=\"top-left\" fabric=\"sand\" size=\"2\"/>"
    "<corner at=\"bottom-right\" fabric=\"foam\" size=\"2\"/></patch></unit>"
    "<block id=\"cove\" name=\"Cove\"><column>"
    "<row toward=\"kelp\"><patch fabric=\"kelp\" width=\"4\" height=\"4\"/>"
    "<patch fabric=\"sand\" width=\"4\"/><patch fabric=\"kelp\" width=\"4\"/>"
    "</row>"
    "<row press=\"open\"><use unit=\"reef\"/>"
    "<patch fabric=\"foam\" width=\"4\" height=\"4\">"
    "<corner at=\"top-right\" fabric=\"kelp\" size=\"1\"/>"
    "<corner at=\"bottom-left\" fabric=\"sand\" size=\"1\"/></patch>"
    "<half-square line=\"falling\" left=\"sand\" right=\"foam\" "
    "method=\"two\" size=\"4\"/></row>"
    "<row><patch fabric=\"foam\" width=\"12\" height=\"4\">"
    "<corner at=\"top-right\" fabric=\"kelp\" size=\"2\"/>"
    "<corner at=\"top-left\" fabric=\"kelp\" size=\"2\"/></patch></row>"
    "<grid across=\"3\" down=\"2\" press=\"left\">"
    "<patch fabric=\"sand\" width=\"4\" height=\"4\"/></grid>"
    "<grid across=\"3\" down=\"2\" press=\"down\">"
    "<patch fabric=\"kelp\" width=\"4\" height=\"4\"/></grid>"
    "<diagonal width=\"12\" line=\"falling\">"
    "<patch fabric=\"kelp\" height=\"14\"/>"
    "<patch fabric=\"sand\" height=\"14\"/></diagonal>"
    "</column></block>"
    "<quilt id=\"mat\" name=\"Mat\"><grid across=\"1\" down=\"2\">"
    "<use block=\"cove\"/></grid></quilt></pattern>";

static void visit_all(void **state, action_visitor *look)
{
    struct breaches breaches = {"", 0, 0};
    for (size_t s = 0; s < SAMPLE_COUNT; s++) {
        const struct sample sample = sample_file(SAMPLES[s]);
        visit_actions(&breaches, *state, &sample, look);
    }
    const struct sample sample = sample_text(*state, shore);
    visit_actions(&breaches, *state, &sample, look);
    assert_kept(&breaches);
}

static bool has(const char *text, const char *words)
{
    return strstr(text, words) != NULL;
}

#endif
