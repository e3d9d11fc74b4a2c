/* Random blocks of rows, columns, units in every turn and mirror, and all that
 * is sewn on a slant, against a painter that knows no seams: it tells the
 * fabric at a point by walking the tree. The picture is the painter's, so the
 * checker must be silent, and what the steps sew must be it, quarter by
 * quarter. SEAMWRIGHT_DESIGNS=2000 makes that many. */
#include <stdlib.h>

#include "geometry.h"
#include "picture.h"

enum kind {
    PATCH,
    HALF,
    GOOSE,
    SQUARE,
    ROW,
    COLUMN,
    STRIP, /* of two, joined by a diagonal seam, running down */
    USE
};

struct sewn_corner {
    enum corner_place at;
    char fabric;
    int size;
};

/* Sizes are grid squares. */
struct node {
    enum kind kind;
    int width, height;
    char fabrics[2];
    bool rises;
    int points;         /* of a goose: up, right, down, left */
    bool second_method; /* the one that is not the default */
    struct sewn_corner corners[2];
    size_t corner_count;
    struct node *parts[2]; /* of a use: the unit's own piece */
    struct orientation o;
    unsigned unit;
};

struct grower {
    struct arena *arena;
    struct unit_random random;
    unsigned units;
    const char *definitions;
    bool angled; /* has a goose, a square in a square or a strip */
};

static int below(struct grower *grower, int limit)
{
    return (int)unit_below(&grower->random, (uint64_t)limit);
}

static char any_fabric(struct grower *grower)
{
    return "nfg"[below(grower, 3)];
}

/* ---- growing ---- */

static enum kind leaf_kind(struct grower *grower, int width, int height)
{
    if (width == 2 * height || height == 2 * width)
        return below(grower, 4) > 0 ? GOOSE : PATCH;
    if (width != height)
        return PATCH;
    const int choice = below(grower, 4);
    return choice == 0 ? PATCH : choice == 1 ? HALF : SQUARE;
}

static void add_corners(struct grower *grower, struct node *node)
{
    const int most = node->width < node->height ? node->width : node->height;
    node->corner_count =
        below(grower, 3) == 0 ? 1 + (size_t)below(grower, 2) : 0;
    for (size_t i = 0; i < node->corner_count; i++) {
        struct sewn_corner *corner = &node->corners[i];
        corner->at = (enum corner_place)below(grower, 4);
        corner->fabric = any_fabric(grower);
        corner->size = 1 + below(grower, most);
    }
    /* Cloth that a second corner hides is an error: it goes one place on. */
    const struct sewn_corner *first = &node->corners[0];
    struct sewn_corner *second = &node->corners[1];
    if (node->corner_count == 2 &&
        ((first->at == second->at && second->size >= first->size) ||
         ((first->at + 2) % 4 == second->at && first->size == most &&
          second->size == most)))
        second->at = (enum corner_place)((second->at + 1) % 4);
}

static struct node *grow(struct grower *grower, int width, int height,
                         int depth);

static void grow_leaf(struct grower *grower, struct node *node)
{
    node->kind = leaf_kind(grower, node->width, node->height);
    node->fabrics[0] = any_fabric(grower);
    node->fabrics[1] = any_fabric(grower);
    node->rises = below(grower, 2) == 0;
    node->second_method = below(grower, 2) == 0;
    node->points = 2 * below(grower, 2) + (node->height > node->width);
    grower->angled |= node->kind == GOOSE || node->kind == SQUARE;
    add_corners(grower, node);
}

static void split(struct grower *grower, struct node *node, int depth)
{
    const bool row =
        node->height == 1 || (node->width > 1 && below(grower, 2) == 0);
    const int whole = row ? node->width : node->height;
    const int first = 1 + below(grower, whole - 1);
    node->kind = row ? ROW : COLUMN;
    for (int i = 0; i < 2; i++) {
        const int part = i == 0 ? first : whole - first;
        node->parts[i] = grow(grower, row ? part : node->width,
                              row ? node->height : part, depth - 1);
    }
}

/* Both lie in the square where they overlap. */
static void overlap(struct grower *grower, struct node *node, int depth)
{
    const int room = node->height - node->width;
    const int first = node->width + below(grower, room + 1);
    node->kind = STRIP;
    node->rises = below(grower, 2) == 0;
    grower->angled = true;
    node->parts[0] = grow(grower, node->width, first, depth - 1);
    node->parts[1] = grow(grower, node->width,
                          node->height + node->width - first, depth - 1);
}

static const char *written(struct arena *arena, const struct node *node);

static struct node *grow(struct grower *grower, int width, int height,
                         int depth)
{
    struct node *node = ARENA_NEW(grower->arena, struct node);
    node->width = width;
    node->height = height;
    const int choice = below(grower, 5);
    if (depth > 0 && width == height && choice < 2) {
        node->kind = USE;
        node->unit = ++grower->units;
        node->o.turn = (unsigned)below(grower, 4);
        node->o.mirror = below(grower, 2) == 0;
        node->parts[0] = grow(grower, width, height, depth - 1);
        grower->definitions = arena_printf(
            grower->arena,
            "%s<unit id=\"u%u\" width=\"%d\" height=\"%d\">%s</unit>\n",
            grower->definitions, node->unit, width, height,
            written(grower->arena, node->parts[0]));
    } else if (depth > 0 && height >= width && below(grower, 6) == 0) {
        overlap(grower, node, depth);
    } else if (depth > 0 && width * height > 1 && choice < 4) {
        split(grower, node, depth);
    } else {
        grow_leaf(grower, node);
    }
    return node;
}

/* ---- the source ---- */

static const char *fabric_name(char key)
{
    return key == 'n' ? "night" : key == 'f' ? "flame" : "glow";
}

static const char *corners_text(struct arena *arena, const struct node *node)
{
    const char *text = "";
    for (size_t i = 0; i < node->corner_count; i++)
        text = arena_printf(
            arena, "%s<corner at=\"%s\" fabric=\"%s\" size=\"%d\"/>", text,
            corner_name(node->corners[i].at),
            fabric_name(node->corners[i].fabric), node->corners[i].size);
    return text;
}

static const char *leaf_text(struct arena *arena, const struct node *node)
{
    static const char *const ways[] = {"up", "right", "down", "left"};
    const char *one = fabric_name(node->fabrics[0]);
    const char *two = fabric_name(node->fabrics[1]);
    const bool second = node->second_method;
    const char *start =
        node->kind == PATCH ? arena_printf(arena, "<patch fabric=\"%s\"", one)
        : node->kind == HALF
            ? arena_printf(arena,
                           "<half-square line=\"%s\" left=\"%s\" right=\"%s\" "
                           "method=\"%s\"",
                           node->rises ? "rising" : "falling", one, two,
                           second ? "one" : "two")
        : node->kind == GOOSE
            ? arena_printf(arena,
                           "<flying-geese goose=\"%s\" sky=\"%s\" "
                           "points=\"%s\" method=\"%s\"",
                           one, two, ways[node->points],
                           second ? "four" : "corners")
            : arena_printf(arena,
                           "<square-in-square center=\"%s\" corners=\"%s\" "
                           "method=\"%s\"",
                           one, two, second ? "triangles" : "corners");
    const char *name = node->kind == PATCH   ? "patch"
                       : node->kind == HALF  ? "half-square"
                       : node->kind == GOOSE ? "flying-geese"
                                             : "square-in-square";
    return arena_printf(arena, "%s width=\"%d\" height=\"%d\">%s</%s>\n", start,
                        node->width, node->height, corners_text(arena, node),
                        name);
}

static const char *written(struct arena *arena, const struct node *node)
{
    const char *name = node->kind == ROW      ? "row"
                       : node->kind == COLUMN ? "column"
                                              : "diagonal";
    const char *line = node->kind != STRIP ? ""
                       : node->rises       ? " line=\"rising\""
                                           : " line=\"falling\"";
    if (node->kind == USE)
        return arena_printf(
            arena, "<use unit=\"u%u\" turn=\"%u\" mirror=\"%s\"/>\n",
            node->unit, node->o.turn * 90, node->o.mirror ? "yes" : "no");
    if (node->kind < ROW)
        return leaf_text(arena, node);
    return arena_printf(arena, "<%s%s>%s%s</%s>\n", name, line,
                        written(arena, node->parts[0]),
                        written(arena, node->parts[1]), name);
}

/* ---- the painter ---- */

/* Points are in eighths of a grid square, never on a line of the design. */
enum { EIGHTHS = 8 };

static bool in_corner(enum corner_place at, int size, int x, int y, int width,
                      int height)
{
    const int from_x = at == TOP_RIGHT || at == BOTTOM_RIGHT ? width - x : x;
    const int from_y = at == BOTTOM_LEFT || at == BOTTOM_RIGHT ? height - y : y;
    return from_x + from_y < size;
}

static char paint_leaf(const struct node *node, int x, int y)
{
    const int w = EIGHTHS * node->width, h = EIGHTHS * node->height;
    for (size_t i = node->corner_count; i-- > 0;)
        if (in_corner(node->corners[i].at, EIGHTHS * node->corners[i].size, x,
                      y, w, h))
            return node->corners[i].fabric;
    bool second = false;
    if (node->kind == HALF)
        second = node->rises ? x + y > w : x > y;
    if (node->kind == GOOSE) {
        /* How far behind the point, and how far from the middle line. */
        const int behind = node->points == 0   ? y
                           : node->points == 1 ? w - x
                           : node->points == 2 ? h - y
                                               : x;
        const int beside = node->points % 2 == 0 ? x - w / 2 : y - h / 2;
        second = abs(beside) > behind;
    }
    if (node->kind == SQUARE)
        second = abs(2 * x - w) + abs(2 * y - h) > w;
    return node->fabrics[second];
}

static char paint(const struct node *node, int x, int y)
{
    if (node->kind == USE) {
        /* Back to where the point was in the unit: the turn, then the mirror.
         */
        const int side = EIGHTHS * node->width;
        for (unsigned i = 0; i < node->o.turn; i++) {
            const int old = x;
            x = y;
            y = side - old;
        }
        return paint(node->parts[0], node->o.mirror ? side - x : x, y);
    }
    if (node->kind < ROW)
        return paint_leaf(node, x, y);
    if (node->kind == STRIP) {
        const int wide = EIGHTHS * node->width;
        const int joined = EIGHTHS * node->parts[0]->height - wide;
        const bool above =
            node->rises ? x + (y - joined) < wide : y - joined < x;
        return above ? paint(node->parts[0], x, y)
                     : paint(node->parts[1], x, y - joined);
    }
    const int first = EIGHTHS * (node->kind == ROW ? node->parts[0]->width
                                                   : node->parts[0]->height);
    const int at = node->kind == ROW ? x : y;
    if (at < first)
        return paint(node->parts[0], x, y);
    return node->kind == ROW ? paint(node->parts[1], x - first, y)
                             : paint(node->parts[1], x, y - first);
}

/* Quarter `q` (top, right, bottom, left) of a cell of half a square. */
static char paint_quarter(const struct node *node, int column, int row, int q)
{
    static const int x[4] = {2, 3, 2, 1}, y[4] = {1, 2, 3, 2};
    return paint(node, 4 * column + x[q], 4 * row + y[q]);
}

/* ---- the proof ---- */

static const char *source(struct grower *grower, const struct node *root)
{
    struct arena *arena = grower->arena;
    const char *text = arena_printf(
        arena, "%s<block id=\"b\" grid=\"%d x %d\">%s<picture cells=\"%d\">\n",
        grower->definitions, root->width, root->height, written(arena, root),
        2 * root->width);
    for (int row = 0; row < 2 * root->height; row++)
        for (int column = 0; column < 2 * root->width; column++)
            text = arena_printf(arena, "%s%c+%c+%c+%c%s", text,
                                paint_quarter(root, column, row, 0),
                                paint_quarter(root, column, row, 1),
                                paint_quarter(root, column, row, 2),
                                paint_quarter(root, column, row, 3),
                                column + 1 < 2 * root->width ? " " : "\n");
    const int eighths = 6 + 2 * below(grower, 12); /* of an inch, a square */
    return arena_printf(
        arena,
        "%s</picture></block>\n<quilt id=\"q\"><use block=\"b\" "
        "finished=\"%s x %s\"/></quilt>\n",
        text,
        length_plain(arena, rational_make(eighths * root->width, 8), UNIT_IN),
        length_plain(arena, rational_make(eighths * root->height, 8), UNIT_IN));
}

static void assert_painted(struct arena *arena, const struct small *s,
                           const struct node *root)
{
    const struct cloth *cloth = s->sewn->quilts.items[0].cloth;
    const size_t across = 2 * (size_t)root->width;
    const size_t down = 2 * (size_t)root->height;
    const struct picture like = {
        .across = across,
        .down = down,
        .cell_width =
            rational_div(cloth->width, rational_whole((int64_t)across)),
        .cell_height =
            rational_div(cloth->height, rational_whole((int64_t)down))};
    const struct picture *sewn = picture_of(arena, cloth, &like);
    for (size_t i = 0; i < across * down; i++)
        for (int q = 0; q < 4; q++) {
            const char key =
                paint_quarter(root, (int)(i % across), (int)(i / across), q);
            const int fabric = key == 'n' ? 0 : key == 'f' ? 1 : 2;
            if (sewn->cells[i].quarters[q] != fabric)
                small_show(s);
            assert_int_equal(sewn->cells[i].quarters[q], fabric);
        }
}

static long designs(void)
{
    const char *asked = getenv("SEAMWRIGHT_DESIGNS");
    const long count = asked == NULL ? 0 : strtol(asked, NULL, 10);
    return count > 0 ? count : 150;
}

static void test_random_blocks(void **state)
{
    (void)state;
    long angled = 0;
    for (long seed = 1; seed <= designs(); seed++) {
        struct grower grower = {.arena = arena_create(),
                                .random = {(uint64_t)seed * 7919},
                                .definitions = ""};
        for (int i = 0; i < 8; i++)
            unit_next(&grower.random);
        const int width = 2 + below(&grower, 5), height = 2 + below(&grower, 5);
        const struct node *root = grow(&grower, width, height, 4);
        const struct small s = small_sew(grower.arena, source(&grower, root));
        expect_clean(&s);
        assert_painted(grower.arena, &s, root);
        angled += grower.angled;
        arena_destroy(grower.arena);
    }
    assert_true(2 * angled > designs()); /* most are of what is new */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_random_blocks),
    };
    return cmocka_run_group_tests(tests, unit_arena, unit_arena_end);
}
