/* Operators of a page by hand: what becomes an artifact, and what is refused
 * (ISO 32000-1, 14.6 and 14.8.2.2). */
#include <string.h>

#include "../unit.h"
#include "pdf_content.h"

static void assert_marked(void **state, const char *stream, const char *wanted)
{
    struct arena *arena = arena_create();
    struct buffer out = buffer_in(arena);
    const bool done = content_mark_artifacts(&out, stream, strlen(stream));
    if (wanted == NULL)
        assert_false(done);
    else {
        assert_true(done);
        assert_string_equal(buffer_string(&out), wanted);
    }
    arena_destroy(arena);
    (void)state;
}

static void test_marks(void **state)
{
    assert_marked(state,
                  "q 1 0 0 1 0 0 cm\n/P << /MCID 0 >> BDC BT (a)Tj ET EMC Q",
                  "q 1 0 0 1 0 0 cm\n/P << /MCID 0 >> BDC BT (a)Tj ET EMC Q");
    assert_marked(state, "q 1 2 3 4 re f\n/P << /MCID 0 >> BDC f EMC S Q",
                  "\n/Artifact BMC\nq 1 2 3 4 re f\nEMC\n"
                  "\n/P << /MCID 0 >> BDC f EMC\n/Artifact BMC\n S Q\nEMC\n");
    assert_marked(state, "0 0 m W n", "0 0 m W n");
    assert_marked(state, "", "");
}

/* Words and names of the page are no operators. */
static void test_words(void **state)
{
    assert_marked(state,
                  "/P << /MCID 0 >> BDC BT (EMC \\) (S) f)Tj <EB> Tj ET EMC",
                  "/P << /MCID 0 >> BDC BT (EMC \\) (S) f)Tj <EB> Tj ET EMC");
    assert_marked(state, "/S /f gs (S f) pop <f> n",
                  "/S /f gs (S f) pop <f> n");
}

/* Spans that give ligatures their letters may stand anywhere. */
static void test_spans(void **state)
{
    assert_marked(state,
                  "/P << /MCID 0 >> BDC BT /Span << /ActualText (ffi) >> BDC "
                  "<01> Tj EMC ET EMC",
                  "/P << /MCID 0 >> BDC BT /Span << /ActualText (ffi) >> BDC "
                  "<01> Tj EMC ET EMC");
    assert_marked(
        state, "BT /Span << /ActualText (ffi) >> BDC <01> Tj EMC ET",
        "\n/Artifact BMC\nBT /Span << /ActualText (ffi) >> BDC <01> Tj "
        "EMC ET\nEMC\n");
}

static void test_refused(void **state)
{
    assert_marked(state, "/P << /MCID 0 >> BDC f", NULL);
    assert_marked(state, "f EMC", NULL);
    assert_marked(state, "BT /P << /MCID 0 >> BDC (a)Tj EMC ET", NULL);
    assert_marked(
        state, "/P << /MCID 0 >> BDC /Span << /MCID 1 >> BDC f EMC EMC", NULL);
    assert_marked(state, "BI /W 1 /H 1 ID x EI", NULL);
    assert_marked(state, "BT (a)Tj", NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_marks),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_spans),
        cmocka_unit_test(test_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
