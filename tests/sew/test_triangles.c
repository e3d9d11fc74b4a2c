/* Random blocks of patches, half-squares and quarter-squares, by every method,
 * in many sizes, turned, mirrored and with corners on them. A painter of the
 * test's own says what each quarter of a grid square shows; the compiler must
 * find it right and sew just that, and must refuse the block with a slip in it.
 * TRIANGLES=2000 in the environment tries as many blocks. */
#include <stdlib.h>

#include "geometry.h"
#include "picture.h"

enum { ACROSS = 3, DOWN = 2, CELLS = ACROSS * DOWN, FEW = 60 };
/* A cell is two grid squares wide; a square has four quarters of its side. */
enum { SIDE = 8 };

enum kind { KIND_PATCH, KIND_HALF, KIND_QUARTER };

struct cell_spec {
    enum kind kind;
    int fabrics[4]; /* one; left and right; clockwise from the top */
    bool rises;
    const char *method;
    int plain;  /* corner whose triangles are one, or -1 */
    int corner; /* where a corner is sewn on, or -1 */
    int corner_fabric, corner_size; /* in grid squares */
    struct orientation use;
};

struct block_spec {
    struct cell_spec cells[CELLS];
    const char *head; /* units, seam and cutting step */
    int64_t num, den; /* finished size of a cell */
};

static const char *const fabric_ids[] = {"night", "flame", "glow"};
static const char keys[] = "nfg";
static const char *const places[] = {"top-left", "top-right", "bottom-right",
                                     "bottom-left"};

/* ---- making one up ---- */

static struct cell_spec random_cell(struct unit_random *random)
{
    static const char *const methods[] = {"one", "two", "four", "eight"};
    struct cell_spec cell = {.kind = (enum kind)unit_below(random, 3),
                             .plain = -1,
                             .corner = -1};
    for (int i = 0; i < 4; i++)
        cell.fabrics[i] = (int)unit_below(random, 3);
    cell.rises = unit_below(random, 2) == 0;
    cell.method =
        methods[unit_below(random, cell.kind == KIND_QUARTER ? 2 : 4)];
    if (cell.kind == KIND_QUARTER && unit_below(random, 3) == 0) {
        cell.plain = (int)unit_below(random, 4);
        cell.fabrics[cell.plain] = cell.fabrics[(cell.plain + 3) % 4];
    }
    if (unit_below(random, 4) == 0) {
        cell.corner = (int)unit_below(random, 4);
        cell.corner_fabric = (int)unit_below(random, 3);
        cell.corner_size = 1 + (int)unit_below(random, 2);
    }
    cell.use.turn = (unsigned)unit_below(random, 4);
    cell.use.mirror = unit_below(random, 2) == 0;
    return cell;
}

static struct block_spec random_block(uint64_t seed)
{
    static const char *const heads[] = {
        "units=\"in\"", "units=\"in\" seam=\"3/8\"",
        "units=\"in\" cutting-step=\"1/16\"", "units=\"cm\"",
        "units=\"cm\" seam=\"0.6\" cutting-step=\"0.1\""};
    static const int64_t sizes[][2] = {{1, 1}, {3, 2}, {2, 1},  {9, 4},
                                       {3, 1}, {7, 2}, {20, 3}, {37, 5}};
    struct unit_random random = {seed * 7919 + 1};
    struct block_spec block;
    for (int i = 0; i < 8; i++)
        unit_next(&random);
    for (int i = 0; i < CELLS; i++)
        block.cells[i] = random_cell(&random);
    block.head = heads[unit_below(&random, UNIT_COUNT(heads))];
    const int64_t *size = sizes[unit_below(&random, UNIT_COUNT(sizes))];
    block.num = size[0];
    block.den = size[1];
    return block;
}

/* ---- the painter ---- */

static int paint(const struct cell_spec *cell, int x, int y)
{
    const int c = cell->corner;
    if (c >= 0) {
        const int from_x = c == 1 || c == 2 ? SIDE - x : x;
        const int from_y = c == 2 || c == 3 ? SIDE - y : y;
        if (from_x + from_y < 4 * cell->corner_size)
            return cell->corner_fabric;
    }
    const bool above_falling = y < x, above_rising = x + y < SIDE;
    if (cell->kind == KIND_HALF)
        return cell->fabrics[cell->rises ? !above_rising : above_falling];
    if (cell->kind == KIND_QUARTER)
        return cell->fabrics[above_rising ? (above_falling ? 0 : 3)
                                          : (above_falling ? 1 : 2)];
    return cell->fabrics[0];
}

/* Where a point of the cell comes to lie: mirrored, then turned. */
static void carry(struct orientation o, int *x, int *y)
{
    if (o.mirror)
        *x = SIDE - *x;
    for (unsigned i = 0; i < o.turn; i++) {
        const int old = *x;
        *x = SIDE - *y;
        *y = old;
    }
}

struct painting {
    int quarters[2 * DOWN][2 * ACROSS][4];
};

static struct painting paint_block(const struct block_spec *block)
{
    static const int quarter_x[4] = {2, 3, 2, 1}, quarter_y[4] = {1, 2, 3, 2};
    struct painting painted;
    for (int i = 0; i < CELLS; i++)
        for (int n = 0; n < 16; n++) {
            int x = n / 4 % 2 * 4 + quarter_x[n % 4];
            int y = n / 8 * 4 + quarter_y[n % 4];
            const int fabric = paint(&block->cells[i], x, y);
            carry(block->cells[i].use, &x, &y);
            int q = 0;
            while (quarter_x[q] != x % 4 || quarter_y[q] != y % 4)
                q++;
            painted.quarters[i / ACROSS * 2 + y / 4][i % ACROSS * 2 + x / 4]
                            [q] = fabric;
        }
    return painted;
}

/* ---- the source ---- */

static const char *piece_text(struct arena *arena, const struct cell_spec *cell)
{
    const int *f = cell->fabrics;
    const char *corner =
        cell->corner < 0
            ? ""
            : arena_printf(arena,
                           "<corner at=\"%s\" fabric=\"%s\" size=\"%d\"/>",
                           places[cell->corner],
                           fabric_ids[cell->corner_fabric], cell->corner_size);
    if (cell->kind == KIND_PATCH)
        return arena_printf(arena, "<patch fabric=\"%s\">%s</patch>",
                            fabric_ids[f[0]], corner);
    if (cell->kind == KIND_HALF)
        return arena_printf(
            arena,
            "<half-square line=\"%s\" left=\"%s\" right=\"%s\" "
            "method=\"%s\">%s</half-square>",
            cell->rises ? "rising" : "falling", fabric_ids[f[0]],
            fabric_ids[f[1]], cell->method, corner);
    const char *plain =
        cell->plain < 0
            ? ""
            : arena_printf(arena, " plain=\"%s\"", places[cell->plain]);
    return arena_printf(
        arena,
        "<quarter-square top=\"%s\" right=\"%s\" bottom=\"%s\" left=\"%s\" "
        "method=\"%s\"%s>%s</quarter-square>",
        fabric_ids[f[0]], fabric_ids[f[1]], fabric_ids[f[2]], fabric_ids[f[3]],
        cell->method, plain, corner);
}

static const char *picture_text(struct arena *arena,
                                const struct painting *painted)
{
    const char *text = "\n";
    for (int row = 0; row < 2 * DOWN; row++) {
        for (int column = 0; column < 2 * ACROSS; column++) {
            const int *q = painted->quarters[row][column];
            text = arena_printf(arena, "%s %c+%c+%c+%c", text, keys[q[0]],
                                keys[q[1]], keys[q[2]], keys[q[3]]);
        }
        text = arena_printf(arena, "%s\n", text);
    }
    return text;
}

static const char *source_of(struct arena *arena,
                             const struct block_spec *block,
                             const struct painting *painted)
{
    const char *units = "", *uses = "";
    for (int i = 0; i < CELLS; i++) {
        const struct cell_spec *cell = &block->cells[i];
        units = arena_printf(arena,
                             "%s<unit id=\"u%d\" width=\"2\" height=\"2\">%s"
                             "</unit>\n",
                             units, i, piece_text(arena, cell));
        uses = arena_printf(
            arena, "%s<use unit=\"u%d\" turn=\"%u\" mirror=\"%s\"/>\n", uses, i,
            cell->use.turn * 90, cell->use.mirror ? "yes" : "no");
    }
    const long long num = (long long)block->num, den = (long long)block->den;
    return arena_printf(
        arena,
        "<pattern xmlns=\"urn:seamwright:pattern:1\" id=\"t\" title=\"T\" %s>\n"
        "<fabrics><fabric id=\"night\" key=\"n\"/><fabric id=\"flame\" "
        "key=\"f\"/><fabric id=\"glow\" key=\"g\"/></fabrics>\n"
        "<colorway id=\"dusk\"><cloth fabric=\"night\" color=\"#1d2540\"/>"
        "<cloth fabric=\"flame\" color=\"#d9552b\"/>"
        "<cloth fabric=\"glow\" color=\"#f2cf63\"/></colorway>\n"
        "%s<block id=\"b\" grid=\"%d x %d\"><grid across=\"%d\" down=\"%d\">\n"
        "%s</grid>\n<picture>%s</picture></block>\n"
        "<quilt id=\"q\"><use block=\"b\" finished=\"%lld/%lld x %lld/%lld\"/>"
        "</quilt></pattern>\n",
        block->head, units, 2 * ACROSS, 2 * DOWN, ACROSS, DOWN, uses,
        picture_text(arena, painted), ACROSS * num, den, DOWN * num, den);
}

static struct small sewn_of(struct arena *arena, const struct block_spec *block,
                            const struct painting *painted)
{
    struct small s = small_whole(arena, source_of(arena, block, painted));
    small_finish(&s);
    return s;
}

/* ---- what must hold ---- */

static void assert_shows(struct arena *arena, const struct small *s,
                         const struct block_spec *block,
                         const struct painting *painted)
{
    const struct rational square =
        rational_make(block->num, 2 * block->den);
    const struct picture like = {.across = 2 * ACROSS,
                                 .down = 2 * DOWN,
                                 .cell_width = square,
                                 .cell_height = square};
    const struct picture *sewn =
        picture_of(arena, s->sewn->quilts.items[0].cloth, &like);
    for (int i = 0; i < 4 * CELLS; i++)
        for (int q = 0; q < 4; q++)
            if (sewn->cells[i].quarters[q] !=
                painted->quarters[i / (2 * ACROSS)][i % (2 * ACROSS)][q]) {
                small_show(s);
                fail_msg("square %d, quarter %d", i, q);
            }
}

/* As many of each heap as others take: those made at a time that serve, times
 * how often, are at least what is needed, and less than one time more. */
static void assert_counts(const struct small *s)
{
    const struct sewn_quilt *quilt = &s->sewn->quilts.items[0];
    for (size_t i = 0; i < quilt->heaps.count; i++) {
        const struct heap *heap = &quilt->heaps.items[i];
        size_t taken = i == quilt->top ? 1 : 0;
        for (size_t k = 0; k < quilt->heaps.count; k++) {
            const struct heap *taker = &quilt->heaps.items[k];
            const size_t times =
                (taker->count + taker->yield - 1) / taker->yield;
            for (size_t n = 0; n < taker->inputs.count; n++)
                taken += taker->inputs.items[n].heap == i ? times : 0;
        }
        assert_int_equal(taken, heap->count);
    }
}

/* Another fabric in one place, which the picture has not. */
static void assert_slip_is_told(struct arena *arena,
                                const struct block_spec *block,
                                const struct painting *painted, uint64_t seed)
{
    struct block_spec wrong = *block;
    struct cell_spec *cell = &wrong.cells[seed % CELLS];
    int *fabric = &cell->fabrics[seed / CELLS % 2];
    if (cell->plain >= 0)
        return; /* would be told as a plain half of two fabrics */
    *fabric = (*fabric + 1) % 3;
    const struct painting other = paint_block(&wrong);
    if (memcmp(&other, painted, sizeof other) == 0)
        return; /* hidden below a corner */
    const struct small s = sewn_of(arena, &wrong, painted);
    assert_true(small_errors(&s) > 0);
}

static void test_random_blocks(void **state)
{
    (void)state;
    const char *asked = getenv("TRIANGLES");
    const unsigned long count =
        asked == NULL ? FEW : strtoul(asked, NULL, 10);
    for (uint64_t seed = 1; seed <= count; seed++) {
        struct arena *arena = arena_create();
        const struct block_spec block = random_block(seed);
        const struct painting painted = paint_block(&block);
        const struct small s = sewn_of(arena, &block, &painted);
        expect_clean(&s);
        assert_shows(arena, &s, &block, &painted);
        assert_counts(&s);
        assert_slip_is_told(arena, &block, &painted, seed);
        arena_destroy(arena);
    }
}

static void check_block(const struct block_spec *block)
{
    struct arena *arena = arena_create();
    const struct painting painted = paint_block(block);
    const struct small s = sewn_of(arena, block, &painted);
    expect_clean(&s);
    assert_shows(arena, &s, block, &painted);
    arena_destroy(arena);
}

/* Every turn and mirror of every method, line and plain half. */
static struct cell_spec numbered_cell(unsigned i)
{
    static const char *const methods[] = {"one", "two", "four", "eight"};
    struct cell_spec cell = {.corner = -1,
                             .plain = -1,
                             .use = {i % 4, i / 4 % 2 == 1}};
    const unsigned way = i / 8;
    if (way < 8) {
        cell.kind = KIND_HALF;
        cell.method = methods[way % 4];
        cell.rises = way / 4 == 1;
        cell.fabrics[1] = 1;
        return cell;
    }
    cell.kind = KIND_QUARTER;
    cell.method = methods[way % 2];
    cell.plain = (int)(way / 2) - 5; /* -1 to 3 */
    const int fabrics[4] = {0, 1, 2, (int)(i % 2)};
    memcpy(cell.fabrics, fabrics, sizeof fabrics);
    if (cell.plain >= 0)
        cell.fabrics[cell.plain] = cell.fabrics[(cell.plain + 3) % 4];
    return cell;
}

static void test_each_way(void **state)
{
    (void)state;
    enum { WAYS = 8 * (8 + 10) };
    for (unsigned first = 0; first < WAYS; first += CELLS) {
        struct block_spec block = {
            .head = "units=\"in\"", .num = 3, .den = 1};
        for (unsigned i = 0; i < CELLS; i++)
            block.cells[i] = numbered_cell(first + i);
        check_block(&block);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_way),
        cmocka_unit_test(test_random_blocks),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
