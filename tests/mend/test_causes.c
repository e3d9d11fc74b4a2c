/* One mistake in a sample: it is told at its place, and the mend gives the
 * sample back. Causes that were once told wrong. */
#include "../unit.h"

#include <stdio.h>
#include <string.h>

#include "cutplan.h"
#include "files.h"
#include "mend.h"
#include "sewn.h"

struct slip {
    const char *what;
    const char *file;
    const char *from, *to; /* the first place where `from` stands */
    const char *mend;      /* what is offered in its place; NULL for a question
                              that holds `asked` */
    const char *asked;
};

static const struct slip slips[] = {
    {"the side of a half-square", "samples/vane-harbor.xml",
     "line=\"rising\" left=\"mist\"", "line=\"rising\" left=\"tide\"", "mist",
     NULL},
    {"the size of a corner", "samples/turning-lamp.xml",
     "fabric=\"dusk\" size=\"2\"", "fabric=\"dusk\" size=\"1\"", "2", NULL},
    {"a unit that is off by an eighth", "samples/turning-lamp.xml",
     "name=\"Post\" width=\"2\"", "name=\"Post\" width=\"2 1/8\"", "2", NULL},
    {"the turn of an oblong unit", "samples/turning-lamp.xml",
     "unit=\"ray\" turn=\"270\"", "unit=\"ray\" turn=\"180\"", "270", NULL},
    {"two corners in one place", "samples/turning-lamp.xml",
     "at=\"top-right\" fabric=\"beam\"", "at=\"bottom-left\" fabric=\"beam\"",
     NULL, "at=\"top-right\""},
    {"what a step makes", "samples/turning-lamp.xml", "make=\"ray\"",
     "make=\"lens\"", "ray", NULL},
    {"a mirrored word of a map", "samples/vane-harbor.xml", "h.90 ", "h.m90 ",
     NULL, "`h.90` for `h.m90`"},
    {"the width of a border", "samples/turning-lamp.xml",
     "fabric=\"dusk\" width=\"1 1/2\"", "fabric=\"dusk\" width=\"1 5/8\"",
     "1 1/2", NULL},
    {"a width with the seams added", "samples/turning-lamp.xml",
     "<patch fabric=\"sky\" width=\"4\"",
     "<patch fabric=\"sky\" width=\"4 1/2\"", "4", NULL},
    {"the finished size of a block", "samples/turning-lamp.xml",
     "finished=\"8\" unfinished", "finished=\"8 1/8\" unfinished", "8", NULL},
    {"a seam", "samples/gull-rock.xml", "seam=\"1/4\"", "seam=\"1/8\"", "1/4",
     NULL},
    {"a missing corner", "samples/turning-lamp.xml",
     "<corner at=\"bottom-left\" fabric=\"beam\" size=\"2\"/>\n"
     "      <corner at=\"bottom-right\" fabric=\"dusk\" size=\"2\"/>",
     "<corner at=\"bottom-left\" fabric=\"beam\" size=\"2\"/>",
     " <corner at=\"bottom-right\" fabric=\"dusk\" size=\"2\"/>", NULL},
    {"the grid of a block of equal cells, whose squares no ruler cuts then",
     "samples/orchard-gate.xml", "name=\"Bed\" grid=\"2\"",
     "name=\"Bed\" grid=\"3\"", "2", NULL},
    {"a word that keeps a map from alternating", "samples/turning-lamp.xml",
     "<map> a.m a a.m a a.m a </map>", "<map> a a a.m a a.m a </map>", "a.m",
     NULL},
    {"a turned word of a map, as another picture would break the symmetry of "
     "the quilting",
     "samples/reed-lights.xml", "m d c m\n", "m d.90 c m\n", "d", NULL},
    {"the fabric of a border, which only amounts tell",
     "samples/lantern-walk.xml", "<border fabric=\"night\"",
     "<border fabric=\"flame\"", "night", NULL},
    {"the fabric of a patch that many others share, told by two amounts",
     "samples/turning-lamp.xml",
     "<patch fabric=\"sky\" width=\"4\"",
     "<patch fabric=\"dusk\" width=\"4\"", "sky", NULL},
    {"the same where the backing is of the fabric that lacks",
     "samples/vane-harbor.xml", "<border fabric=\"tide\" width=\"1\"",
     "<border fabric=\"mist\" width=\"1\"", "tide", NULL},
    {"a border and a backing exchanged, as the other quilt's backing tells",
     "samples/vane-harbor.xml",
     "mist\" width=\"1 1/2\" corners=\"butted\" finished=\"43 1/2 x 43 "
     "1/2\"/>\n"
     "    <border fabric=\"tide\" width=\"1\" corners=\"butted\" "
     "finished=\"45 1/2 x 45 1/2\"/>\n"
     "    <border fabric=\"deep\" width=\"4 1/2\" corners=\"butted\" "
     "finished=\"54 1/2 x 54 1/2\"/>\n"
     "    <backing fabric=\"tide\"",
     "tide\" width=\"1 1/2\" corners=\"butted\" finished=\"43 1/2 x 43 "
     "1/2\"/>\n"
     "    <border fabric=\"tide\" width=\"1\" corners=\"butted\" "
     "finished=\"45 1/2 x 45 1/2\"/>\n"
     "    <border fabric=\"deep\" width=\"4 1/2\" corners=\"butted\" "
     "finished=\"54 1/2 x 54 1/2\"/>\n"
     "    <backing fabric=\"mist\"",
     NULL, "exchanged"},
    {"the keys of two fabrics", "samples/turning-lamp.xml",
     "key=\"s\" name=\"Sky\"/>\n    <fabric id=\"beam\" key=\"b\"",
     "key=\"b\" name=\"Sky\"/>\n    <fabric id=\"beam\" key=\"s\"",
     "s\" name=\"Sky\"/>\n    <fabric id=\"beam\" key=\"b", NULL},
    {"a misspelt element that breaks its map", "samples/turning-lamp.xml",
     "<use key=\"a\"", "<ues key=\"a\"", "use", NULL},
    {"a plain half too many", "tests/mutants/triangles.xml",
     "<quarter-square top=\"gull\" right=\"sand\" bottom=\"tide\"",
     "<quarter-square plain=\"bottom-right\" top=\"gull\" right=\"sand\" "
     "bottom=\"tide\"",
     "", NULL},
    {"the units", "samples/turning-lamp.xml", "units=\"in\"", "units=\"cm\"",
     NULL, "`units`"},
    {"a size that nothing else is near", "samples/lantern-walk.xml",
     "finished=\"12\"", "finished=\"12 1/8\"", "12", NULL},
    {"a size off by an eighth, which many other sizes tell",
     "samples/vane-harbor.xml", "finished=\"18\"", "finished=\"17 7/8\"", "18",
     NULL},
    {"the step of a mirrored block", "samples/turning-lamp.xml",
     "<step make=\"star\" mirror=\"yes\" count=\"10\"/>\n    <step "
     "make=\"middle\"",
     "<step make=\"middle\"",
     "<step make=\"star\" mirror=\"yes\" count=\"10\"/> ", NULL},
    {"the step of a block of two sizes", "samples/turning-lamp.xml",
     "<step make=\"star\" count=\"11\"/>\n    <step make=\"star\" mirror",
     "<step make=\"star\" mirror", "<step make=\"star\" count=\"11\"/> ", NULL},
    {"a use that lacks, unlike its neighbors", "samples/turning-lamp.xml",
     "<use unit=\"ray\" turn=\"270\"/>  <use unit=\"lens\"/>",
     "<use unit=\"ray\" turn=\"270\"/>", " <use unit=\"lens\"/>", NULL},
    {"the same, turned as no other", "samples/lantern-walk.xml",
     "<use unit=\"wing\" turn=\"270\"/> <use unit=\"wing\" turn=\"180\"/>",
     "<use unit=\"wing\" turn=\"270\"/>", " <use unit=\"wing\" turn=\"180\"/>",
     NULL},
    {"a patch that lacks between others", "samples/vane-harbor.xml",
     "<patch fabric=\"mist\" width=\"1\"/> <use unit=\"headland\" "
     "turn=\"90\"/>",
     "<use unit=\"headland\" turn=\"90\"/>",
     " <patch fabric=\"mist\" width=\"1\"/>", NULL},
    {"geese that lack, of another sky", "samples/gull-rock.xml",
     "<flying-geese goose=\"gull\" sky=\"sea\" press=\"open\"/>\n"
     "      <flying-geese goose=\"gull\" sky=\"foam\" press=\"open\"/>",
     "<flying-geese goose=\"gull\" sky=\"sea\" press=\"open\"/>",
     " <flying-geese goose=\"gull\" sky=\"foam\" press=\"open\"/>", NULL},
    {"a use that lacks, and shows the same in a mirror",
     "samples/turning-lamp.xml",
     "<use unit=\"ray\"/>            <use unit=\"post\" turn=\"90\"/>",
     "<use unit=\"ray\"/>", " <use unit=\"post\" turn=\"90\"/>", NULL},
    {"a corner of a size that stands nowhere else", "samples/turning-lamp.xml",
     "<patch fabric=\"sky\"> <corner at=\"top-left\" fabric=\"dusk\" "
     "size=\"1\"/> </patch>",
     "<patch fabric=\"sky\"> </patch>",
     " <corner at=\"top-left\" fabric=\"dusk\" size=\"1\"/>", NULL},
    {"the corner of a square in a square", "samples/gull-rock.xml",
     "corners=\"rock\" press=\"open\">\n      <corner at=\"bottom-right\" "
     "fabric=\"sea\" "
     "size=\"1/2\"/>",
     "corners=\"rock\" press=\"open\">",
     " <corner at=\"bottom-right\" fabric=\"sea\" size=\"1/2\"/>", NULL},
    {"a piece whose method nothing tells", "tests/mutants/triangles.xml",
     "<use unit=\"lamp\" turn=\"180\"/>\n      <half-square line=\"falling\" "
     "left=\"tide\" right=\"reed\" method=\"one\" cut=\"3 1/2\"/>",
     "<use unit=\"lamp\" turn=\"180\"/>", NULL,
     "is <half-square line=\"falling\" left=\"tide\" right=\"reed\"/>"},
    {"the same, where amounts of cloth differ with the method",
     "tests/mutants/triangles.xml",
     "<use unit=\"lamp\"/>\n      <half-square line=\"rising\" left=\"reed\" "
     "right=\"sand\" method=\"eight\" cut=\"7 3/4\"/>",
     "<use unit=\"lamp\"/>", NULL, "and with which method?"},
    {"a use mirrored by a slip, which a plain step makes",
     "samples/vane-harbor.xml", "<use key=\"h\" block=\"harbor\"",
     "<use mirror=\"yes\" key=\"h\" block=\"harbor\"", NULL,
     "mirror=\"no\" in line 100"},
    {"two rows of a picture exchanged", "samples/lantern-walk.xml",
     "n    n/f  f    f    f\\n  n\n"
     "      n/f  f    g    g    f    f\\n",
     "n/f  f    g    g    f    f\\n\n"
     "      n    n/f  f    f    f\\n  n",
     "n    n/f  f    f    f\\n  n\n"
     "      n/f  f    g    g    f    f\\n",
     NULL},
    {"a cell that no half-square would be of", "tests/mutants/triangles.xml",
     "r/s      s\\t ", "r/s      t ", "s\\t", NULL},
    {"a word that a map which alternates lacks", "samples/turning-lamp.xml",
     "<map> a a.m a a.m a a.m </map>", "<map> a a.m a.m a a.m </map>", "a.m a",
     NULL},
    {"a word that any place of a row may lack", "samples/vane-harbor.xml",
     "h      h.90   h.90\n", "h      h.90\n", NULL, "where does one more `h"},
    {"a word too many that any place of a row may have",
     "samples/vane-harbor.xml", "h      h.90   h.90\n", "h   h  h.90   h.90\n",
     NULL, "which is one too many: `h` or `h.90`?"},
    {"a word too many in a map of two blocks in turns", "samples/gull-rock.xml",
     "<map> B L B", "<map> B L L B", "", NULL},
    {"a word that such a map lacks", "samples/gull-rock.xml", "L.90 B L.90",
     "L.90 L.90", "L.90 B", NULL},
    {"a name misspelt in two places", "samples/lantern-walk.xml",
     "<use unit=\"wing\"/>            <use unit=\"wing\" turn=\"90\"/>",
     "<use unit=\"wnig\"/>            <use unit=\"wnig\" turn=\"90\"/>",
     "wing\"/>            <use unit=\"wing", NULL},
    {"an id that no place names", "samples/lantern-walk.xml",
     "<unit id=\"wing\"", "<unit id=\"wign\"", "wing", NULL},
    {"a use whose key the map asks for", "samples/gull-rock.xml",
     "key=\"B\"/> <use block=\"landing\" finished=\"8\" key=\"L\"/>",
     "key=\"B\"/>", " <use block=\"landing\" finished=\"8\" key=\"L\"/>", NULL},
    {"a cell that a row of a picture lacks", "samples/lantern-walk.xml",
     "n/f  f    g    g    f    f\\n", "n/f  f    g    g    f\\n", "g f", NULL},
    {"a cell too many in a row", "samples/lantern-walk.xml",
     "n/f  f    g    g    f    f\\n", "n/f  f    g    g    f   n f\\n", "",
     NULL},
    {"a cell in no key", "samples/turning-lamp.xml", "s/b  b    b    b",
     "z/b  b    b    b", "s/b", NULL},
    {"the cells of a picture", "samples/gull-rock.xml", "cells=\"8\"",
     "cells=\"4\"", "8", NULL},
    {"the order of the steps", "samples/gull-rock.xml",
     "<step make=\"beacon\" count=\"5\"/>",
     "<step make=\"throw\"/> <step make=\"beacon\" count=\"5\"/>", NULL, NULL},
};

/* The sample with the slip; *at is where it lies. */
static const char *slipped(struct arena *arena, const struct slip *slip,
                           size_t *at)
{
    const struct file_content file = file_read(arena, slip->file);
    assert_int_equal(file.fault, FILE_OK);
    const char *found = strstr(file.bytes, slip->from);
    if (found == NULL)
        fail_msg("%s: `%s` is not there", slip->what, slip->from);
    *at = (size_t)(found - file.bytes);
    return arena_printf(arena, "%.*s%s%s", (int)*at, file.bytes, slip->to,
                        found + strlen(slip->from));
}

/* Up to the amounts of cloth, which alone tell of some slips. */
static const struct run *compiled(struct arena *arena, const char *text)
{
    struct run *run =
        run_create(arena, source_create(arena, "slip.xml", text, strlen(text)));
    const struct sized *sized =
        solve_design(run, resolve_pattern(run, read_pattern(run)));
    check_pictures(run, sized);
    const struct sewn *sewn = NULL;
    if (diag_count(run, DIAG_ERROR) == 0)
        sewn = sew_design(run, sized);
    else
        check_steps(run, sized);
    if (sewn != NULL && diag_count(run, DIAG_ERROR) == 0)
        check_cutting(run, sewn);
    if (diag_count(run, DIAG_ERROR) > 0)
        assert_true(mend_mistakes(run, sized) <= MEND_TRIALS_OF_TWO);
    return run;
}

static const struct diagnostic *only_error(const struct run *run,
                                           const struct slip *slip)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    const struct diagnostic *only = NULL;
    for (size_t i = 0; i < count; i++) {
        if (diag_entry(sorted[i]->code)->level != DIAG_ERROR)
            continue;
        if (only != NULL) {
            diag_print(run, (struct diag_style){false, false}, stderr);
            fail_msg("%s: more than one error", slip->what);
        }
        only = sorted[i];
    }
    if (only == NULL)
        fail_msg("%s: no error", slip->what);
    return only;
}

static const char *mended(struct arena *arena, const char *text,
                          const struct diagnostic *d)
{
    return arena_printf(arena, "%.*s%s%s", (int)d->mend_span.start, text,
                        d->replacement, text + d->mend_span.end);
}

static void test_told_at_its_place(void **state)
{
    struct arena *arena = *state;
    for (size_t i = 0; i < UNIT_COUNT(slips); i++) {
        const struct slip *slip = &slips[i];
        size_t at;
        const char *text = slipped(arena, slip, &at);
        const struct run *run = compiled(arena, text);
        const struct diagnostic *d = only_error(run, slip);
        const size_t line = source_line(run->source, (uint32_t)at);
        const bool there = source_line(run->source, d->span.start) == line;
        const bool good =
            slip->mend != NULL
                ? there && d->replacement != NULL &&
                      strcmp(d->replacement, slip->mend) == 0
                : slip->asked == NULL ||
                      (d->replacement == NULL && d->help != NULL &&
                       strstr(d->help, slip->asked) != NULL);
        if (!good) {
            diag_print(run, (struct diag_style){false, false}, stderr);
            fail_msg("%s is told otherwise", slip->what);
        }
        if (d->replacement == NULL)
            continue;
        const struct run *after = compiled(arena, mended(arena, text, d));
        assert_int_equal(diag_count(after, DIAG_ERROR), 0);
        assert_int_equal(diag_count(after, DIAG_WARNING), 0);
    }
}

/* Two fabrics, and then what a test is about. */
static const char *pattern_of(struct arena *arena, const char *body)
{
    return arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"p\" title=\"P\">"
        "<fabrics><fabric id=\"reef\" key=\"r\"/><fabric id=\"surf\" "
        "key=\"s\"/></fabrics><colorway id=\"c\"><cloth fabric=\"reef\" "
        "color=\"#112233\"/><cloth fabric=\"surf\" color=\"#ddeeff\"/>"
        "</colorway>\n%s</pattern>",
        body);
}

/* Two independent slips are both told, each with a mend of its own. */
static void test_two_mistakes(void **state)
{
    struct arena *arena = *state;
    const char *text = pattern_of(
        arena,
        "<block id=\"a\" grid=\"2\"><column><row><patch fabric=\"reef\" "
        "width=\"1\" height=\"1\"/><patch fabric=\"reef\"/></row><row><patch "
        "fabric=\"reef\" width=\"1\" height=\"1\"/><patch "
        "fabric=\"reef\"/></row></column><picture>\n r s\n r r\n"
        "</picture></block>\n"
        "<block id=\"b\" grid=\"2\"><row height=\"3\"><patch fabric=\"surf\" "
        "width=\"1\"/><patch fabric=\"reef\"/></row><picture>\n s r\n s r\n"
        "</picture></block>\n"
        "<quilt id=\"q\"><row><use block=\"a\" finished=\"6\"/><use "
        "block=\"b\" finished=\"6\"/></row></quilt>");
    const struct run *run = compiled(arena, text);
    assert_int_equal(diag_count(run, DIAG_ERROR), 2);
}

/* A map of four by four, of which two words are given, and its picture. */
static const char *map_of(struct arena *arena, const char *second,
                          const char *third)
{
    return pattern_of(
        arena,
        arena_printf(
            arena,
            "<quilt id=\"q\"><grid across=\"4\" down=\"4\"><patch key=\"x\" "
            "fabric=\"reef\" width=\"3\" height=\"3\"/><patch key=\"y\" "
            "fabric=\"surf\" width=\"3\" height=\"3\"/><map>\n"
            "x y y x\nx %s x y\ny y %s x\nx x y x\n</map></grid>\n"
            "<picture>\nr s s r\nr r r s\ns s r r\nr r s r\n</picture>"
            "</quilt>",
            second, third));
}

/* Words of one map are places of their own, also where two are wrong. */
static void test_two_words_of_a_map(void **state)
{
    struct arena *arena = *state;
    assert_int_equal(
        diag_count(compiled(arena, map_of(arena, "x", "x")), DIAG_ERROR), 0);
    const struct run *run = compiled(arena, map_of(arena, "y", "y"));
    const struct diagnostic **sorted;
    assert_int_equal(diag_count(run, DIAG_ERROR), 2);
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++)
        if (diag_entry(sorted[i]->code)->level == DIAG_ERROR)
            assert_string_equal(arena_copy(arena,
                                           run->source->bytes +
                                               sorted[i]->span.start,
                                           1),
                                "y");
}

/* What is the same in a mirror needs no steps of its own, whichever way the
 * rules press it. */
static void test_symmetric_unit(void **state)
{
    struct arena *arena = *state;
    const char *text = pattern_of(
        arena,
        "<unit id=\"bar\" width=\"3\" height=\"2\"><column>"
        "<row><patch fabric=\"reef\" width=\"1\" height=\"1\"/><patch "
        "fabric=\"surf\" width=\"1\"/><patch fabric=\"reef\"/></row>"
        "<row><patch fabric=\"surf\" width=\"1\"/><patch fabric=\"reef\" "
        "width=\"1\"/><patch fabric=\"surf\"/></row></column></unit>\n"
        "<quilt id=\"q\"><column><row><use unit=\"bar\"/><use "
        "unit=\"bar\"/></row><row><use unit=\"bar\" mirror=\"yes\"/><use "
        "unit=\"bar\" mirror=\"yes\"/></row></column></quilt>\n"
        "<assembly of=\"q\"><step make=\"bar\" count=\"4\"/><step "
        "make=\"q\"/></assembly>");
    const struct run *run = compiled(arena, text);
    if (diag_count(run, DIAG_ERROR) > 0)
        diag_print(run, (struct diag_style){false, false}, stderr);
    assert_int_equal(diag_count(run, DIAG_ERROR), 0);
}

/* Two slips of the pen in one sample. */
struct two_slips {
    const char *what;
    struct slip slips[2]; /* of one file */
};

static const struct two_slips pairs[] = {
    {"a size in a unit hides a corner's fabric in another",
     {{NULL, "samples/turning-lamp.xml", "name=\"Post\" width=\"2\"",
       "name=\"Post\" width=\"1 7/8\"", NULL, NULL},
      {NULL, NULL, "at=\"bottom-left\" fabric=\"beam\"",
       "at=\"bottom-left\" fabric=\"sky\"", NULL, NULL}}},
    {"a fabric that is not there hides a step",
     {{NULL, "samples/vane-harbor.xml", "<patch fabric=\"mist\" width=\"1\"",
       "<patch fabric=\"mits\" width=\"1\"", NULL, NULL},
      {NULL, NULL, "make=\"slope\" count=\"4\"", "make=\"slope\" count=\"5\"",
       NULL, NULL}}},
    {"a size of the quilt and a step of its block",
     {{NULL, "samples/lantern-walk.xml", "finished=\"12\"",
       "finished=\"12 1/8\"", NULL, NULL},
      {NULL, NULL, "make=\"wing\" count=\"4\"", "make=\"wing\" count=\"3\"",
       NULL, NULL}}},
    {"a second piece in a unit hides a step",
     {{NULL, "tests/mutants/triangles.xml", "left=\"tide\" cut=\"4 1/4\"/>\n",
       "left=\"tide\" cut=\"4 1/4\"/>"
       "<quarter-square top=\"reed\" right=\"sand\" bottom=\"reed\" "
       "left=\"tide\" cut=\"4 1/4\"/>\n",
       NULL, NULL},
      {NULL, NULL, "make=\"post\" count=\"4\"", "make=\"post\" count=\"3\"",
       NULL, NULL}}},
    {"a word too many in a map hides a step of the block",
     {{NULL, "samples/turning-lamp.xml", "<map> a a.m a ", "<map> a a a.m a ",
       NULL, NULL},
      {NULL, NULL, "make=\"ray\" count=\"4\"", "make=\"ray\" count=\"5\"", NULL,
       NULL}}},
    {"two keys exchanged, and a step that makes something else",
     {{NULL, "samples/turning-lamp.xml",
       "key=\"s\" name=\"Sky\"/>\n    <fabric id=\"beam\" key=\"b\"",
       "key=\"b\" name=\"Sky\"/>\n    <fabric id=\"beam\" key=\"s\"", NULL,
       NULL},
      {NULL, NULL, "make=\"ray\"", "make=\"rya\"", NULL, NULL}}},
    {"a use that lacks, and a cell of the picture",
     {{NULL, "samples/turning-lamp.xml",
       "<use unit=\"ray\" turn=\"270\"/>  <use unit=\"lens\"/>",
       "<use unit=\"ray\" turn=\"270\"/>", NULL, NULL},
      {NULL, NULL, "s/b  b    b    b", "b    b    b    b", NULL, NULL}}},
    {"a use that lacks, and a cell that it shows",
     {{NULL, "samples/lantern-walk.xml",
       "<use unit=\"wing\" turn=\"270\"/> <use unit=\"wing\" turn=\"180\"/>",
       "<use unit=\"wing\" turn=\"270\"/>", NULL, NULL},
      {NULL, NULL, "n\\f  f    g    g ", "n\\f  f    g    n ", NULL, NULL}}},
    {"a turn, and two pieces of which one takes the other's fabric",
     {{NULL, "tests/mutants/triangles.xml", "      <use unit=\"lamp\"/>\n",
       "      <use turn=\"90\" unit=\"lamp\"/>\n", NULL, NULL},
      {NULL, NULL, "line=\"rising\" left=\"reed\" right=\"sand\" method",
       "line=\"rising\" left=\"sand\" right=\"reed\" method", NULL, NULL}}},
    {"a use that lacks, and a step that lacks",
     {{NULL, "samples/lantern-walk.xml", "<use unit=\"wing\" turn=\"90\"/>", "",
       NULL, NULL},
      {NULL, NULL,
       "<step make=\"wing\" count=\"4\" press=\"toward-corner\"> <say>The dark "
       "ends of all strips lie at the top, as drawn.</say> </step>\n    <step",
       "<step", NULL, NULL}}},
    {"a unit for another, which the steps count, and a count",
     {{NULL, "tests/mutants/triangles.xml", "<use unit=\"lamp\" turn=\"270\"/>",
       "<use unit=\"post\" turn=\"270\"/>", NULL, NULL},
      {NULL, NULL, "across=\"2\" down=\"2\"", "across=\"3\" down=\"2\"", NULL,
       NULL}}},
    {"a use of another unit, and a cell of the picture",
     {{NULL, "samples/turning-lamp.xml", "<use unit=\"lens\"/>",
       "<use unit=\"post\"/>", NULL, NULL},
      {NULL, NULL, "d/s  s    b\\s", "d/s  d    b\\s", NULL, NULL}}},
};

/* May a program apply something? Alone it would leave the other mistake. */
static bool offers_fix(const struct run *run)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++)
        if (diag_entry(sorted[i]->code)->level == DIAG_ERROR &&
            sorted[i]->replacement != NULL)
            return true;
    return false;
}

static bool has_error_at(const struct run *run, size_t line)
{
    const struct diagnostic **sorted;
    const size_t count = diag_sorted(run, &sorted);
    for (size_t i = 0; i < count; i++)
        if (diag_entry(sorted[i]->code)->level == DIAG_ERROR &&
            source_line(run->source, sorted[i]->span.start) == line)
            return true;
    return false;
}

static void test_both_are_told(void **state)
{
    struct arena *arena = *state;
    for (size_t i = 0; i < UNIT_COUNT(pairs); i++) {
        const struct two_slips *pair = &pairs[i];
        size_t at[2];
        const char *text = slipped(arena, &pair->slips[0], &at[0]);
        const char *found = strstr(text, pair->slips[1].from);
        if (found == NULL)
            fail_msg("%s: the second is not there", pair->what);
        at[1] = (size_t)(found - text);
        text =
            arena_printf(arena, "%.*s%s%s", (int)at[1], text, pair->slips[1].to,
                         found + strlen(pair->slips[1].from));
        const struct run *run = compiled(arena, text);
        const bool told =
            diag_count(run, DIAG_ERROR) == 2 &&
            has_error_at(run, source_line(run->source, (uint32_t)at[0])) &&
            has_error_at(run, source_line(run->source, (uint32_t)at[1]));
        if (!told) {
            diag_print(run, (struct diag_style){false, false}, stderr);
            fail_msg("%s: not told both", pair->what);
        }
        if (offers_fix(run))
            fail_msg("%s: one alone is offered", pair->what);
    }
}

/* A block of two rows, of which the lower one is given. */
static const char *rows_of(struct arena *arena, const char *lower)
{
    return pattern_of(
        arena,
        arena_printf(
            arena,
            "<unit id=\"pair\" width=\"2\" height=\"1\"><row><patch "
            "fabric=\"reef\" width=\"1\"/><patch "
            "fabric=\"surf\"/></row></unit>\n"
            "<block id=\"b\" grid=\"4\">\n<column>\n"
            "<row><patch fabric=\"surf\" width=\"2\" height=\"2\"/><patch "
            "fabric=\"reef\"/></row>\n"
            "<row><use unit=\"pair\"/><use unit=\"pair\"/></row>\n%s"
            "</column><picture>\n s s r r\n s s r r\n r s r s\n s r s r\n"
            "</picture></block>\n"
            "<quilt id=\"q\"><row><use block=\"b\" "
            "finished=\"8\"/></row></quilt>"
            "\n<assembly of=\"b\"><step make=\"pair\" count=\"4\"/><step "
            "make=\"b\"/></assembly>",
            lower));
}

/* A row that lacks is told of the column, not of a size in another row; what
 * the steps count is no mistake beside it, and no patch is guessed. */
static void test_a_row_lacks(void **state)
{
    struct arena *arena = *state;
    const struct slip slip = {.what = "a row"};
    const char *row = "<row><use unit=\"pair\" turn=\"180\"/><use "
                      "unit=\"pair\" turn=\"180\"/></row>\n";
    assert_int_equal(
        diag_count(compiled(arena, rows_of(arena, row)), DIAG_ERROR), 0);
    const struct run *run = compiled(arena, rows_of(arena, ""));
    const struct diagnostic *d = only_error(run, &slip);
    assert_int_equal(source_line(run->source, d->span.start), 4);
    assert_null(d->replacement);
}

/* A use that lacks in a quilt, of which only sizes and steps tell. */
static void test_a_use_lacks(void **state)
{
    struct arena *arena = *state;
    const struct slip slip = {.what = "a use"};
    const char *text = pattern_of(
        arena,
        "<block id=\"b\" grid=\"2\"><row><patch fabric=\"surf\" width=\"1\" "
        "height=\"2\"/><patch fabric=\"reef\"/></row><picture>\n s r\n s r\n"
        "</picture></block>\n"
        "<quilt id=\"q\" finished=\"20 x 16\"><row>\n"
        "<column><use block=\"b\" finished=\"8\"/><use block=\"b\" "
        "finished=\"8\"/></column>\n"
        "<patch fabric=\"reef\" width=\"4\"/>\n"
        "<column><use block=\"b\" turn=\"90\" finished=\"8\"/></column>\n"
        "</row></quilt>\n"
        "<assembly of=\"q\"><step make=\"b\" count=\"4\"/><step "
        "make=\"q\"/></assembly>");
    const struct diagnostic *d = only_error(compiled(arena, text), &slip);
    assert_non_null(d->replacement);
    assert_string_equal(d->replacement,
                        " <use block=\"b\" turn=\"90\" finished=\"8\"/>");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_told_at_its_place),
        cmocka_unit_test(test_two_mistakes),
        cmocka_unit_test(test_two_words_of_a_map),
        cmocka_unit_test(test_symmetric_unit),
        cmocka_unit_test(test_both_are_told),
        cmocka_unit_test(test_a_row_lacks),
        cmocka_unit_test(test_a_use_lacks),
    };
    return cmocka_run_group_tests_name("causes", tests, unit_arena,
                                       unit_arena_end);
}
