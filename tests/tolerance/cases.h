/* The cases that the model is checked by, each as a source, and what is asked
 * of them. Sources written for the checks; numbers from a table of the
 * project's trade notes (testing, check values), which was worked out apart
 * from the program by plane geometry and simulated with 200,000 seeded sewings.
 */
#ifndef SEAMWRIGHT_TESTS_TOLERANCE_CASES_H
#define SEAMWRIGHT_TESTS_TOLERANCE_CASES_H

#include "../resolve/small.h"
#include "tolerance.h"

/* What is looked at: the heap of a unit, of the whole, or what is thought of
 * it. */
enum look {
    LOOK_MEAN,     /* the width of the unit, or of the whole top */
    LOOK_SEWN,     /* before it is trimmed */
    LOOK_POINT,    /* beyond the point of a goose */
    LOOK_PERSONS,  /* the width, over persons */
    LOOK_TWO_SETS, /* rows, two of them from one strip set */
    LOOK_TRIMMED   /* blocks are trimmed, as they were cut larger */
};

struct check_value {
    const char *name;
    const char *body;      /* of the source */
    const char *step;      /* cutting step, or NULL for 1/8 */
    const char *looked_at; /* a unit or block, or NULL: the whole top */
    enum look look;
    bool true_seam; /* the offset is 0: a true seam, not a scant one */
    bool true_line; /* line-sewn seams lie on their line */
    double wanted, mean, spread, bound, within;
};

#define STRIPS                                                   \
    "<row press=\"right\"><patch fabric=\"night\" width=\"1\" "  \
    "height=\"6\"/><patch fabric=\"flame\" width=\"1\"/><patch " \
    "fabric=\"night\" width=\"1\"/></row>"
#define THREE                                                       \
    "<patch fabric=\"night\" width=\"1\"/><patch fabric=\"flame\" " \
    "width=\"1\"/><patch fabric=\"glow\" width=\"1\"/>"
#define QUILT(inside) "<quilt id=\"mat\">" inside "</quilt>"

#define THREE_STRIPS QUILT(STRIPS)
#define TEN_STRIPS                                                    \
    QUILT("<row press=\"right\"><patch fabric=\"night\" width=\"1\" " \
          "height=\"6\"/>" THREE THREE THREE "</row>")
#define NINE_ROW                                                       \
    QUILT("<row press=\"right\"><patch fabric=\"night\" width=\"3\" "  \
          "height=\"3\"/><patch fabric=\"flame\" width=\"3\"/><patch " \
          "fabric=\"night\" width=\"3\"/></row>")
#define NINE(a, b)                                                            \
    "<row press=\"right\"><patch fabric=\"" a "\" width=\"3\" "               \
    "height=\"3\"/><patch fabric=\"" b "\" width=\"3\" height=\"3\"/><patch " \
    "fabric=\"" a "\" width=\"3\" height=\"3\"/></row>"
#define NINE_PATCH                                         \
    QUILT("<column press=\"down\">" NINE("night", "flame") \
              NINE("flame", "night") NINE("night", "flame") "</column>")
#define HALF(size)                                                       \
    "<unit id=\"half\"><half-square size=\"" size                        \
    "\" left=\"night\" right=\"flame\" line=\"rising\" method=\"two\"/>" \
    "</unit>"
#define HALF_THREE HALF("3") QUILT("<use unit=\"half\"/>")
#define TWENTY_HALVES                                       \
    HALF("2")                                               \
    QUILT("<grid across=\"20\" down=\"1\" press=\"right\">" \
          "<use unit=\"half\" times=\"20\"/></grid>")
#define GOOSE                                                                  \
    "<unit id=\"goose\" width=\"6\" height=\"3\"><flying-geese points=\"up\" " \
    "goose=\"flame\" sky=\"night\" method=\"corners\"/></unit>"
#define GOOSE_ALONE GOOSE QUILT("<use unit=\"goose\"/>")
#define STAR                                                              \
    GOOSE                                                                 \
    "<block id=\"star\"><column press=\"down\"><row "                     \
    "press=\"right\"><patch fabric=\"night\" width=\"3\" "                \
    "height=\"3\"/><use unit=\"goose\"/><patch fabric=\"night\" "         \
    "width=\"3\"/></row><row press=\"right\"><use unit=\"goose\" "        \
    "turn=\"270\"/><patch fabric=\"flame\" width=\"6\"/><use "            \
    "unit=\"goose\" turn=\"90\"/></row><row press=\"right\"><patch "      \
    "fabric=\"night\" width=\"3\"/><use unit=\"goose\" turn=\"180\"/>"    \
    "<patch fabric=\"night\" width=\"3\"/></row></column></block>" QUILT( \
        "<use block=\"star\"/>")
#define SQUARES                                                        \
    "<block id=\"check\"><grid across=\"4\" down=\"4\" equal=\"yes\" " \
    "press=\"right\">"                                                 \
    "<patch fabric=\"night\" width=\"3\" height=\"3\" times=\"16\"/>"  \
    "</grid></block>"
#define FOUR_BY_FIVE                                                    \
    SQUARES QUILT("<grid across=\"4\" down=\"5\" press=\"right\"><use " \
                  "block=\"check\" times=\"20\"/></grid>"               \
                  "<border fabric=\"flame\" width=\"4\"/>")

#define THREE_ON_POINT                                                   \
    QUILT("<on-point across=\"3\" down=\"2\" fabric=\"night\"><patch " \
          "fabric=\"flame\" width=\"6\"/></on-point>")

static const struct check_value check_values[] = {
    {"1a three strips", THREE_STRIPS, NULL, NULL, LOOK_MEAN, false, false, 3.5,
     3.50000, 0.05182, 1.0 / 16, 0.7722},
    {"1b a true seam", THREE_STRIPS, NULL, NULL, LOOK_MEAN, true, false, 3.5,
     3.43750, 0.05182, 1.0 / 16, 0.4921},
    {"2 ten strips", TEN_STRIPS, NULL, NULL, LOOK_MEAN, true, false, 10.5,
     10.21875, 0.10597, 0.125, 0.0701},
    {"3a nine-patch, one row", NINE_ROW, NULL, NULL, LOOK_MEAN, false, false,
     9.5, 9.50000, 0.05182, 0.125, 0.9841},
    {"3b its mean width", NINE_PATCH, NULL, NULL, LOOK_MEAN, false, false, 9.5,
     9.50000, 0.02992, 0.125, 1.0000},
    {"3c over persons", NINE_PATCH, NULL, NULL, LOOK_PERSONS, false, false, 9.5,
     9.50000, 0.06929, 0.125, 0.9288},
    {"3d from two strip sets", NINE_PATCH, NULL, NULL, LOOK_TWO_SETS, false,
     false, 9.5, 9.50000, 0.03863, 0.125, 0.9988},
    {"4a half-square, as sewn", HALF_THREE, NULL, "half", LOOK_SEWN, false,
     false, 3.5, 3.52145, 0.02471, 1.0 / 32, 0.6378},
    {"4b half-square, trimmed", HALF_THREE, NULL, "half", LOOK_MEAN, false,
     false, 3.5, 3.49606, 0.01513, 1.0 / 32, 0.9533},
    {"4c the same, a true seam", HALF_THREE, NULL, "half", LOOK_MEAN, true,
     false, 3.5, 3.48801, 0.01716, 1.0 / 32, 0.8697},
    {"4d larger, a true seam", HALF_THREE, "1/4", "half", LOOK_MEAN, true,
     false, 3.5, 3.50000, 0.01562, 1.0 / 32, 0.9545},
    {"5a geese", GOOSE_ALONE, NULL, "goose", LOOK_MEAN, false, false, 6.5,
     6.50000, 0.03827, 1.0 / 16, 0.8975},
    {"5b beyond its point", GOOSE_ALONE, NULL, "goose", LOOK_POINT, false,
     false, 0, -0.00647, 0.02067, 1.0 / 32, 0.8507},
    {"6a star", STAR, NULL, "star", LOOK_MEAN, false, false, 12.5, 12.50000,
     0.03623, 0.125, 0.9994},
    {"6b star, a true seam", STAR, NULL, "star", LOOK_MEAN, true, true, 12.5,
     12.39331, 0.03623, 0.125, 0.6933},
    {"7a row of half-squares", TWENTY_HALVES, NULL, NULL, LOOK_MEAN, false,
     false, 40.5, 40.42113, 0.15209, 0.25, 0.8545},
    {"7b the same, a true seam", TWENTY_HALVES, NULL, NULL, LOOK_MEAN, true,
     false, 40.5, 39.66645, 0.15635, 0.25, 0.0001},
    {"7c over persons", TWENTY_HALVES, NULL, NULL, LOOK_PERSONS, false, false,
     40.5, 40.37340, 0.73634, 0.25, 0.2762},
    {"7d larger", TWENTY_HALVES, "1/4", NULL, LOOK_MEAN, false, false, 40.5,
     40.50000, 0.15309, 0.25, 0.8975},
    {"8a quilt of 4 by 5", FOUR_BY_FIVE, NULL, NULL, LOOK_MEAN, false, false,
     56.5, 56.50000, 0.06171, 0.25, 0.9999},
    {"8b a true seam", FOUR_BY_FIVE, NULL, NULL, LOOK_MEAN, true, false, 56.5,
     55.96875, 0.06171, 0.25, 0.0000},
    {"8c blocks trimmed", FOUR_BY_FIVE, NULL, "check", LOOK_TRIMMED, true,
     false, 56.5, 56.34375, 0.05677, 0.25, 0.9507},
    /* Worked by hand: three blocks of 6 on point are 18 * root 2; of each two
     * cuts and four seams, of 1/64 each, count by half of their squares: the
     * root of 3 * 3 is 3 / 64. Within 2 2/3 spreads are 0.99233. */
    {"9 blocks on point", THREE_ON_POINT, NULL, NULL, LOOK_MEAN, false, false,
     25.95584, 25.95584, 0.046875, 0.125, 0.9923},
};

/* The quilt of a case, and the hand that sews it. */
struct sewing_case {
    struct small small;
    const struct sewn_quilt *quilt;
    struct hand hand;
    size_t heap; /* that is looked at */
};

static inline struct sewing_case sewing_case(struct arena *arena,
                                             const struct check_value *value)
{
    const char *head = SMALL_HEAD;
    if (value->step != NULL) {
        const char *at = strstr(head, " seam=");
        head = arena_printf(arena, "%.*s cutting-step=\"%s\"%s",
                            (int)(at - head), head, value->step, at);
    }
    struct sewing_case c = {
        .small = small_whole(
            arena, arena_printf(arena, "%s%s</pattern>\n", head, value->body))};
    small_finish(&c.small);
    expect_clean(&c.small);
    c.quilt = &c.small.sewn->quilts.items[0];
    c.hand = usual_hand(UNIT_IN);
    if (value->true_seam)
        c.hand.offset = 0;
    if (value->true_line)
        c.hand.line = 0;
    c.heap = c.quilt->whole;
    for (size_t i = 0; value->looked_at != NULL && i < c.quilt->heaps.count;
         i++)
        if (c.quilt->heaps.items[i].named != NULL &&
            strcmp(c.quilt->heaps.items[i].named->id, value->looked_at) == 0)
            c.heap = i;
    return c;
}

#endif
