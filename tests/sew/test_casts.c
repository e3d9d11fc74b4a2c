/* Roles against the same quilt written out: each cast as a block of its own,
 * its fabrics put in the place of the roles by this file, which knows text
 * alone. What is sewn and what is cut must be the same. Random; CASTS=1000 in
 * the environment makes that many. */
#include <stdlib.h>

#include "buffer.h"
#include "geometry.h"
#include "sewer.h"

static const char *const fabrics[] = {"night", "flame", "glow"};
enum { FABRICS = 3, ROLES = 2, PIECES = 4, USES = 6 };

static unsigned next_random(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

/* A piece names a fabric, or role "r0" or "r1". */
struct drawn {
    const char *names[2];
    unsigned kind, word;
};

struct quilt {
    struct drawn pieces[PIECES];
    const char *defaults[ROLES];
    unsigned casts[USES][ROLES]; /* a fabric; FABRICS for none */
    unsigned turns[USES];
    bool mirrors[USES];
};

static struct quilt draw(unsigned *state)
{
    static const char *const names[] = {"night", "flame", "glow", "r0", "r1"};
    struct quilt quilt;
    for (int i = 0; i < PIECES; i++)
        quilt.pieces[i] = (struct drawn){
            {names[next_random(state, 5)], names[next_random(state, 5)]},
            next_random(state, 4),
            next_random(state, 2)};
    for (int i = 0; i < ROLES; i++)
        quilt.defaults[i] = fabrics[next_random(state, FABRICS)];
    for (int i = 0; i < USES; i++) {
        quilt.turns[i] = next_random(state, 4) * 90;
        quilt.mirrors[i] = next_random(state, 2) == 1;
        for (int k = 0; k < ROLES; k++)
            quilt.casts[i][k] = next_random(state, FABRICS + 1);
    }
    return quilt;
}

/* The fabric that a name stands for in a cast; the name itself without one. */
static const char *played(const char *const *cast, const char *name)
{
    return cast == NULL || name[0] != 'r' ? name : cast[name[1] - '0'];
}

static void add_piece(struct buffer *text, const struct drawn *piece,
                      const char *const *cast)
{
    const char *a = played(cast, piece->names[0]);
    const char *b = played(cast, piece->names[1]);
    const bool first = piece->word == 0;
    if (piece->kind == 0)
        buffer_printf(text, "<patch fabric=\"%s\" width=\"3\" height=\"3\"/>",
                      a);
    else if (piece->kind == 1)
        buffer_printf(text,
                      "<half-square width=\"3\" line=\"%s\" left=\"%s\" "
                      "right=\"%s\"/>",
                      first ? "rising" : "falling", a, b);
    else if (piece->kind == 2)
        buffer_printf(text,
                      "<patch fabric=\"%s\" width=\"3\" height=\"3\"><corner "
                      "at=\"%s\" fabric=\"%s\" size=\"1\"/></patch>",
                      a, first ? "top-left" : "bottom-left", b);
    else
        buffer_printf(text,
                      "<square-in-square width=\"3\" center=\"%s\" "
                      "corners=\"%s\"/>",
                      a, b);
}

/* The unit, with roles where `cast` is NULL. */
static void add_unit(struct buffer *text, const struct quilt *quilt,
                     const char *id, const char *const *cast)
{
    buffer_printf(text, "<unit id=\"%s\">", id);
    for (int i = 0; cast == NULL && i < ROLES; i++)
        buffer_printf(text, "<role id=\"r%d\" fabric=\"%s\"/>", i,
                      quilt->defaults[i]);
    buffer_text(text, "<grid across=\"2\" down=\"2\" press=\"open\">");
    for (int i = 0; i < PIECES; i++)
        add_piece(text, &quilt->pieces[i], cast);
    buffer_text(text, "</grid></unit>");
}

static void add_use(struct buffer *text, const struct quilt *quilt, int use,
                    const char *id, const char *with)
{
    buffer_printf(text, "<use unit=\"%s\" turn=\"%u\" mirror=\"%s\"%s/>", id,
                  quilt->turns[use], quilt->mirrors[use] ? "yes" : "no", with);
}

/* Uses 0 and 1 stand in a unit that hands its own role on as r0. */
static const char *with_roles(struct arena *arena, const struct quilt *quilt)
{
    struct buffer text = buffer_in(arena);
    add_unit(&text, quilt, "tile", NULL);
    buffer_printf(&text,
                  "<unit id=\"pair\"><role id=\"own\" fabric=\"%s\"/>"
                  "<row press=\"open\">",
                  fabrics[quilt->casts[0][0] % FABRICS]);
    for (int i = 0; i < USES; i++) {
        struct buffer with = buffer_in(arena);
        if (i == 2)
            buffer_text(&text,
                        "</row></unit><quilt id=\"mat\"><row press=\"open\">"
                        "<use unit=\"pair\"/>");
        for (int k = 0; k < ROLES; k++)
            if (i < 2 && k == 0)
                buffer_text(&with, " r0=own");
            else if (quilt->casts[i][k] < FABRICS)
                buffer_printf(&with, " r%d=%s", k, fabrics[quilt->casts[i][k]]);
        const char *cast = buffer_string(&with);
        add_use(&text, quilt, i, "tile",
                cast[0] == '\0' ? ""
                                : arena_printf(arena, " with=\"%s\"", cast));
    }
    buffer_text(&text, "</row></quilt>");
    return buffer_string(&text);
}

static const char *written_out(struct arena *arena, const struct quilt *quilt)
{
    struct buffer text = buffer_in(arena);
    for (int i = 0; i < USES; i++) {
        const char *cast[ROLES];
        for (int k = 0; k < ROLES; k++)
            cast[k] = i < 2 && k == 0 ? fabrics[quilt->casts[0][0] % FABRICS]
                      : quilt->casts[i][k] < FABRICS
                          ? fabrics[quilt->casts[i][k]]
                          : quilt->defaults[k];
        add_unit(&text, quilt, arena_printf(arena, "tile%d", i), cast);
    }
    buffer_text(&text, "<quilt id=\"mat\"><row press=\"open\">");
    for (int i = 0; i < USES; i++)
        add_use(&text, quilt, i, arena_printf(arena, "tile%d", i), "");
    buffer_text(&text, "</row></quilt>");
    return buffer_string(&text);
}

/* How many pieces of this fabric and size are cut. */
static size_t cut_count(const struct sewn_quilt *quilt, const struct heap *like)
{
    size_t count = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique == TECHNIQUE_CUT &&
            heap->of.cut.fabric == like->of.cut.fabric &&
            rational_equal(heap->of.cut.width, like->of.cut.width) &&
            rational_equal(heap->of.cut.height, like->of.cut.height))
            count += heap->count;
    }
    return count;
}

static void assert_cuts_alike(const struct sewn_quilt *a,
                              const struct sewn_quilt *b)
{
    for (size_t i = 0; i < a->heaps.count; i++) {
        const struct heap *heap = &a->heaps.items[i];
        if (heap->technique == TECHNIQUE_CUT)
            assert_int_equal(cut_count(a, heap), cut_count(b, heap));
    }
}

static void test_casts_are_what_is_written_out(void **state)
{
    const char *asked = getenv("CASTS");
    const int quilts = asked == NULL ? 40 : atoi(asked);
    unsigned random = 1961;
    for (int i = 0; i < quilts; i++) {
        struct arena *arena = arena_create();
        const struct quilt quilt = draw(&random);
        const struct small cast = small_sew(arena, with_roles(arena, &quilt));
        const struct small copy = small_sew(arena, written_out(arena, &quilt));
        expect_clean(&cast);
        expect_clean(&copy);
        const struct sewn_quilt *a = &cast.sewn->quilts.items[0];
        const struct sewn_quilt *b = &copy.sewn->quilts.items[0];
        assert_true(same_cloth(arena, a->cloth, b->cloth));
        assert_cuts_alike(a, b);
        assert_cuts_alike(b, a);
        arena_destroy(arena);
    }
    (void)state;
}

/* Lights and darks change places in the second cast; its seams go where those
 * of the first go, and its parts are laid as those. */
static void test_casts_are_made_alike(void **state)
{
    const struct small small = small_sew(
        *state,
        "<unit id=\"tile\"><role id=\"a\" fabric=\"night\"/>"
        "<role id=\"b\" fabric=\"glow\"/><row><half-square width=\"3\" "
        "line=\"rising\" left=\"a\" right=\"b\"/><patch fabric=\"b\" "
        "width=\"3\"/></row></unit>"
        "<quilt id=\"mat\"><column press=\"open\"><use unit=\"tile\"/>"
        "<use unit=\"tile\" with=\"a=flame b=night\"/></column></quilt>");
    expect_clean(&small);
    const struct sewn_quilt *quilt = &small.sewn->quilts.items[0];
    size_t told = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        told += heap->technique != TECHNIQUE_CUT && heap->like == i;
        if (heap->like == i)
            continue;
        const struct heap *first = &quilt->heaps.items[heap->like];
        const struct seam *seam = &heap->actions.items[0].seams.items[0].seam;
        const struct seam *other = &first->actions.items[0].seams.items[0].seam;
        assert_int_equal(seam->x, other->x);
        assert_int_equal(seam->y, other->y);
    }
    assert_int_equal(told, 3); /* a half-square, a tile, the top */
}

/* The picture is held to the roles: two that happen to be played by one fabric
 * are not the same. */
static void test_a_picture_is_of_roles(void **state)
{
    const struct small small = small_solve(
        *state, "<block id=\"tile\" grid=\"2 x 1\">"
                "<role id=\"a\" key=\"a\" fabric=\"night\"/>"
                "<role id=\"b\" key=\"b\" fabric=\"night\"/>"
                "<row><patch fabric=\"b\"/><patch fabric=\"a\"/></row>"
                "<picture> a b </picture></block>"
                "<quilt id=\"mat\"><use block=\"tile\" finished=\"6 x 3\"/>"
                "</quilt>");
    check_pictures(small.run, small.sized);
    assert_true(small_errors(&small) > 0);
}

/* A word of pressing that names a role is for the fabric that plays it. */
static void test_pressed_towards_a_role(void **state)
{
    const struct small small = small_sew(
        *state,
        "<unit id=\"tile\"><role id=\"a\" fabric=\"glow\"/><half-square "
        "width=\"3\" line=\"rising\" left=\"a\" right=\"night\" "
        "toward=\"a\"/></unit><quilt id=\"mat\"><row press=\"open\">"
        "<use unit=\"tile\"/><use unit=\"tile\" with=\"a=flame\"/></row>"
        "</quilt>");
    expect_clean(&small);
    const struct sewn_quilt *quilt = &small.sewn->quilts.items[0];
    size_t seen = 0;
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        if (heap->technique != TECHNIQUE_HALF_SQUARE)
            continue;
        assert_int_equal(heap->actions.items[0].press.fabric,
                         heap->of.half_square.left);
        seen++;
    }
    assert_int_equal(seen, 2);
}

/* The same where seams collide, so that the pressing of the whole quilt is
 * looked at from outside of every unit: there a role is played by nobody. */
static void test_a_word_for_a_role_where_seams_collide(void **state)
{
    const struct small small = small_sew(
        *state,
        "<unit id=\"tile\"><role id=\"a\" fabric=\"glow\"/><half-square "
        "width=\"3\" line=\"rising\" left=\"a\" right=\"night\" "
        "toward=\"a\"/></unit><quilt id=\"mat\"><grid across=\"2\" "
        "down=\"2\"><use unit=\"tile\"/><use unit=\"tile\" turn=\"90\" "
        "with=\"a=flame\"/><use unit=\"tile\" turn=\"270\" "
        "with=\"a=flame\"/><use unit=\"tile\" turn=\"180\"/></grid>"
        "</quilt>");
    expect_clean(&small);
    assert_true(small_count(&small, DIAG_SEAMS_COLLIDE) > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_casts_are_what_is_written_out),
        cmocka_unit_test(test_casts_are_made_alike),
        cmocka_unit_test(test_a_picture_is_of_roles),
        cmocka_unit_test(test_pressed_towards_a_role),
        cmocka_unit_test(test_a_word_for_a_role_where_seams_collide),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
