/* Pictures of rows of triangles. A map and a picture that are drawn from the
 * same fabrics agree; each token of the picture that is another one is found,
 * at its own place; so is each word of the map that changes the cloth. Random;
 * ROW_PICTURES=1000 in the environment makes that many. */
#include <stdlib.h>
#include <string.h>

#include "buffer.h"
#include "geometry.h"

enum { MOST_ACROSS = 7, MOST_ROWS = 4 };

static unsigned next_random(unsigned *state, unsigned below)
{
    *state = *state * 1664525u + 1013904223u;
    return (*state >> 8) % below;
}

struct rows {
    int across, down;
    bool first_down;
    int ends;  /* a fabric; -1: those of their neighbors */
    bool told; /* the picture tells the halves */
    int fabric[MOST_ROWS][MOST_ACROSS];
    int places[MOST_ROWS][MOST_ACROSS]; /* of the piece that begins there */
};

static const char keys[] = "nfg";
static const char *const fabrics[] = {"night", "flame", "glow"};

static struct rows draw(unsigned *state)
{
    struct rows rows = {.across = 1 + (int)next_random(state, MOST_ACROSS),
                        .down = 1 + (int)next_random(state, MOST_ROWS),
                        .first_down = next_random(state, 2) == 1,
                        .ends = (int)next_random(state, 4) - 1};
    rows.told = rows.ends >= 0 || next_random(state, 2) == 1;
    for (int row = 0; row < rows.down; row++)
        for (int place = 0; place < rows.across;) {
            int places = 1 + (int)next_random(state, 3);
            if (places > rows.across - place)
                places = rows.across - place;
            const int fabric = (int)next_random(state, 3);
            rows.places[row][place] = places;
            for (int i = 0; i < places; i++)
                rows.fabric[row][place + i] = fabric;
            place += places;
        }
    return rows;
}

/* What the picture tells in a place; place -1 and the one behind the last are
 * the halves. */
static int told(const struct rows *rows, int row, int place)
{
    const int beside = place < 0 ? 0 : rows->across - 1;
    return place >= 0 && place < rows->across ? rows->fabric[row][place]
           : rows->ends >= 0                  ? rows->ends
                                              : rows->fabric[row][beside];
}

static void add_map(struct buffer *text, const struct rows *rows)
{
    for (int row = 0; row < rows->down; row++) {
        for (int place = 0; place < rows->across;
             place += rows->places[row][place]) {
            buffer_printf(text, "%c", keys[rows->fabric[row][place]]);
            if (rows->places[row][place] > 1)
                buffer_printf(text, ".%d", rows->places[row][place]);
            buffer_text(text, " ");
        }
        buffer_text(text, "\n");
    }
}

/* The map as `sewn` has it, the picture as `drawn` has. */
static const char *source_of(struct arena *arena, const struct rows *sewn,
                             const struct rows *drawn)
{
    struct buffer text = buffer_in(arena);
    const int halves = drawn->told ? 1 : 0;
    buffer_printf(&text,
                  "<quilt id=\"mat\"><triangles across=\"%d\" down=\"%d\" "
                  "size=\"3\" first=\"%s\" ",
                  sewn->across, sewn->down, sewn->first_down ? "down" : "up");
    if (sewn->ends >= 0)
        buffer_printf(&text, "ends=\"%s\"", fabrics[sewn->ends]);
    buffer_text(&text, "><patch key=\"n\" fabric=\"night\"/><patch key=\"f\" "
                       "fabric=\"flame\"/><patch key=\"g\" fabric=\"glow\"/>"
                       "<map>");
    add_map(&text, sewn);
    buffer_printf(&text, "</map></triangles><picture triangles=\"%s\">",
                  drawn->first_down ? "down" : "up");
    for (int row = 0; row < drawn->down; row++) {
        for (int place = -halves; place < drawn->across + halves; place++)
            buffer_printf(&text, "%c ", keys[told(drawn, row, place)]);
        buffer_text(&text, "\n");
    }
    buffer_text(&text, "</picture></quilt>");
    return buffer_string(&text);
}

static struct small compile(struct arena *arena, const struct rows *sewn,
                            const struct rows *drawn)
{
    struct small small = small_solve(arena, source_of(arena, sewn, drawn));
    small_finish(&small);
    return small;
}

static bool any_says(const struct small *small, const char *words)
{
    const struct diagnostic **sorted;
    bool found = false;
    for (size_t i = 0, all = diag_sorted(small->run, &sorted); i < all; i++)
        found |= says(sorted[i], words);
    return found;
}

static void expect_told(struct arena *arena, const struct rows *sewn,
                        const struct rows *drawn, const char *words)
{
    const struct small small = compile(arena, sewn, drawn);
    if (small_errors(&small) == 0 || !any_says(&small, words)) {
        small_show(&small);
        fail_msg("not told: %s", words);
    }
}

/* Another fabric in one place of the picture: which triangle, in which row,
 * which way it points. */
static void try_token(const struct rows *rows, int row, int place)
{
    for (int by = 1; by < 3; by++) {
        struct arena *arena = arena_create();
        struct rows other = *rows;
        other.fabric[row][place] = (rows->fabric[row][place] + by) % 3;
        const bool down = rows->first_down != ((row + place) % 2 == 1);
        const bool edge = place == 0 || place + 1 == rows->across;
        /* Where the halves are told, too, theirs is another word more. */
        if (edge && rows->told && rows->ends < 0) {
            expect_told(arena, rows, &other, "of row");
            arena_destroy(arena);
            continue;
        }
        expect_told(arena, rows, &other,
                    arena_printf(arena, "triangle %d (%s) of row %d", place + 1,
                                 down ? "down" : "up", row + 1));
        arena_destroy(arena);
    }
}

/* Another patch in one word of the map. */
static void try_word(const struct rows *rows, int row, int place)
{
    struct arena *arena = arena_create();
    struct rows other = *rows;
    for (int i = 0; i < rows->places[row][place]; i++)
        other.fabric[row][place + i] = (rows->fabric[row][place] + 1) % 3;
    expect_told(arena, &other, rows,
                arena_printf(arena, ") of row %d", row + 1));
    arena_destroy(arena);
}

/* The halves, and which way the first triangle points. */
static void try_edges(const struct rows *rows)
{
    struct arena *arena = arena_create();
    struct rows other = *rows;
    if (rows->ends >= 0) {
        other.ends = (rows->ends + 1) % 3;
        expect_told(arena, &other, rows, "the half at the left end of row 1");
    }
    other = *rows;
    other.first_down = !rows->first_down;
    const struct small small = compile(arena, &other, rows);
    bool plain = true;
    for (int row = 0; row < rows->down; row++)
        for (int place = -1; place <= rows->across; place++)
            plain &= told(rows, row, place) == told(rows, row, 0);
    /* Rows of one fabric look alike either way. */
    assert_int_equal(small_errors(&small) == 0, plain);
    arena_destroy(arena);
}

static void test_each_wrong_word_is_found(void **state)
{
    const char *asked = getenv("ROW_PICTURES");
    const int tries = asked == NULL ? 12 : atoi(asked);
    unsigned random = 5;
    for (int i = 0; i < tries; i++) {
        struct arena *arena = arena_create();
        const struct rows rows = draw(&random);
        const struct small small = compile(arena, &rows, &rows);
        expect_clean(&small);
        arena_destroy(arena);
        for (int row = 0; row < rows.down; row++)
            for (int place = 0; place < rows.across; place++) {
                try_token(&rows, row, place);
                if (rows.places[row][place] > 0)
                    try_word(&rows, row, place);
            }
        try_edges(&rows);
    }
    (void)state;
}

/* Rows that do not fill the center, and rows that are too long. */
static void test_rows_of_other_counts(void **state)
{
    unsigned random = 9;
    for (int i = 0; i < 30; i++) {
        struct arena *arena = arena_create();
        const struct rows rows = draw(&random);
        struct rows other = rows;
        other.across = rows.across % MOST_ACROSS + 1;
        const struct small wide = compile(arena, &rows, &other);
        assert_int_equal(small_count(&wide, DIAG_PICTURE_SIZE),
                         other.across != rows.across);
        other = rows;
        other.down = rows.down % MOST_ROWS + 1;
        const struct small high = compile(arena, &rows, &other);
        /* In rows of another height more triangles or fewer may fit, and then
         * just so many may be told. */
        const int halves = (rows.across + 1) * other.down;
        const int words = rows.across + (rows.told ? 2 : 0);
        const int fit = halves % rows.down == 0 ? halves / rows.down - 1 : 0;
        assert_int_equal(small_count(&high, DIAG_PICTURE_SIZE),
                         fit < 1 || (words != fit && words != fit + 2));
        arena_destroy(arena);
    }
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_wrong_word_is_found),
        cmocka_unit_test(test_rows_of_other_counts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
