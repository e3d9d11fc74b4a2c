/* Flying geese, one and four at a time. One: a rectangle with two squares sewn
 * across its corners, all of it the work of corners.c. Four: a large square of
 * goose cloth and four small ones of sky, which are sewn and cut twice; nothing
 * is lost but slack. Seams beside a line lie a root of 2 away, but what is
 * trimmed begins at the point of the goose, so the unit is exact. Read next:
 * join.c. */
#include "bench.h"

static const struct operation sew_geese = {
    .name = "flying-geese",
    .laid = LAID_TOGETHER,
    .presses = PRESS_BIT(PRESS_OPEN) | PRESS_BIT(PRESS_TOWARD_CORNER),
    .draws_line = true};

/* Inputs of what is made four at a time: the large square; the small ones on
 * two opposite corners of it; one for the free corner of each half. */
enum { LARGE, FAR, NEAR, FREE, OTHER_FREE, INPUTS };

/* ---- building ---- */

/* From the base to the point; the base is twice as long. */
static struct rational goose_height(const struct heap *heap)
{
    return rational_min(heap->width, heap->height);
}

static struct ref build_one(struct sewer *sewer, const struct piece *piece,
                            struct heap *recipe)
{
    const struct rational zero = rational_whole(0);
    const int sky = fabric_of(sewer, piece, 1);
    add_input(sewer, recipe,
              build_cut(sewer, *recipe, fabric_of(sewer, piece, 0),
                        recipe->width, recipe->height),
              zero, zero);
    /* Both corners on the side that it points to. */
    const unsigned points = recipe->of.flying_geese.points;
    for (unsigned i = 0; i < 2; i++)
        add_corner(sewer, recipe, sky, goose_height(recipe),
                   (enum corner_place)((points + i) % 4));
    return find_or_add(sewer, recipe);
}

/* Derived. The large square L is quartered by its diagonals, each seam a seam s
 * from one of them: the point of a goose lies s * sqrt 2 from the middle and,
 * with the seam of its base, L / 2 - s * sqrt 2 - s from the base. So L = 2H +
 * s * (2 + 2 * sqrt 2); for s = 1/4 in the trade says W + 1 1/4. A small square
 * S gives two triangles with legs of S - s * sqrt 2, which must be H + 2s: S =
 * H + s * (2 + sqrt 2), in the trade H + 7/8. (Quilter's World, June 2024: 5
 * 1/4 and 2 7/8 for 4 x 2.) Small squares lie in the corners, so they must also
 * reach a seam past the middle of a large one that was rounded up. */
static struct ref build_four(struct sewer *sewer, const struct piece *piece,
                             struct heap *recipe)
{
    const struct pattern *pattern = sewer->sized->design->pattern;
    const struct rational seams = rational_times(pattern->seam, 2);
    const struct rational height = goose_height(recipe);
    const struct rational high = rational_add(height, seams);
    const struct cut_across large = cut_across(
        pattern, rational_add(rational_times(height, 2), seams), seams);
    struct cut_across small = cut_across(pattern, high, pattern->seam);
    const struct rational past = rational_round_up(
        rational_add(rational_div(large.side, rational_whole(2)),
                     pattern->seam),
        pattern->cutting_step);
    const struct rational more = rational_max(past, small.side);
    small.slack = rational_add(small.slack, rational_sub(more, small.side));
    small.side = more;
    recipe->of.flying_geese.long_slack = large.slack;
    recipe->of.flying_geese.short_slack = small.slack;
    const int goose = fabric_of(sewer, piece, 0);
    const int sky = fabric_of(sewer, piece, 1);
    /* The other three lie turned: with a one-way print one is as needed. */
    const struct fabric *roles = sewer->sized->design->fabrics.items;
    recipe->yield = roles[goose].one_way || roles[sky].one_way ? 1 : 4;
    for (size_t i = 0; i < INPUTS; i++) {
        const struct rational side =
            rational_sub(i == LARGE ? large.side : small.side, seams);
        add_input(
            sewer, recipe,
            build_cut(sewer, *recipe, i == LARGE ? goose : sky, side, side),
            rational_whole(0), rational_whole(0));
    }
    return find_or_add(sewer, recipe);
}

static struct ref build_flying_geese(struct sewer *sewer,
                                     const struct piece *piece,
                                     struct rational factor, bool mirror)
{
    const bool four = piece->geese_method == GEESE_FOUR;
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_FLYING_GEESE,
                   four ? &craft_flying_geese : &craft_corners);
    recipe.of.flying_geese.method = piece->geese_method;
    recipe.of.flying_geese.points =
        side_oriented(piece->points, (struct orientation){0, mirror});
    return four ? build_four(sewer, piece, &recipe)
                : build_one(sewer, piece, &recipe);
}

/* Of those that are made four at a time. */
static void key_flying_geese(struct sewer *sewer, struct buffer *key,
                             const struct heap *heap, unsigned turn)
{
    const unsigned points = heap->of.flying_geese.points;
    const struct input *inputs = heap->inputs.items;
    buffer_printf(key, "%zu %zu %u ", inputs[LARGE].heap, inputs[FAR].heap,
                  (points + turn) % 4);
    key_number(key, goose_height(heap));
    if (heap->yield == 1)
        buffer_printf(key, "print %u", turn);
    key_press(sewer, key, heap, turn, &sew_geese);
}

/* ---- sewing four at a time ---- */

/* The work as it lies for a goose that points up: the squares' cut sides, the
 * root that seams are off, and where the large square's top left corner is,
 * seen from that of the finished goose. */
struct geese {
    const struct bench *bench;
    unsigned turn;
    struct rational height, large, small, off;
    struct rational left, top;
};

static struct rational plus(struct rational a, struct rational b)
{
    return rational_add(a, b);
}
static struct rational minus(struct rational a, struct rational b)
{
    return rational_sub(a, b);
}

static struct geese lay_geese(const struct bench *bench)
{
    const struct heap *heap = bench->heap;
    const struct input *inputs = heap->inputs.items;
    struct geese geese = {
        .bench = bench,
        .turn = heap->of.flying_geese.points,
        .height = goose_height(heap),
        .large = heap_at(bench->sewer, inputs[LARGE].heap)->of.cut.width,
        .small = heap_at(bench->sewer, inputs[FAR].heap)->of.cut.width,
        .off = diagonal_offset(bench)};
    const struct rational half = rational_div(geese.large, rational_whole(2));
    geese.left = minus(geese.height, half);
    geese.top = rational_times(plus(half, geese.off), -1);
    return geese;
}

/* A point of the finished goose that points up, where it lies. */
static struct vertex goose_point(const struct geese *geese, struct rational x,
                                 struct rational y)
{
    return vertex_oriented((struct vertex){x, y},
                           rational_times(geese->height, 2), geese->height,
                           (struct orientation){geese->turn, false});
}

/* A point of the large square, counted from its top left corner. */
static struct vertex square_point(const struct geese *geese, struct rational x,
                                  struct rational y)
{
    return goose_point(geese, plus(geese->left, x), plus(geese->top, y));
}

/* A square of cloth, its middle there: it is laid with its print upright, so
 * only its place turns. */
static struct cloth *square_around(const struct geese *geese, size_t number,
                                   struct rational x, struct rational y)
{
    const struct bench *bench = geese->bench;
    const struct cloth *cloth =
        heap_at(bench->sewer, bench->heap->inputs.items[number].heap)->cloth;
    const struct rational half = rational_div(cloth->width, rational_whole(2));
    const struct vertex middle = square_point(geese, x, y);
    return cloth_moved(bench->arena, cloth, minus(middle.x, half),
                       minus(middle.y, half));
}

/* A small square on a corner of the large one, wrong side up. */
static struct cloth *laid_on_corner(const struct geese *geese, size_t number,
                                    bool right, bool low)
{
    const struct rational near = rational_div(geese->small, rational_whole(2));
    const struct rational far = minus(geese->large, near);
    struct cloth *cloth =
        square_around(geese, number, right ? far : near, low ? far : near);
    for (size_t i = 0; i < cloth->faces.count; i++)
        cloth->faces.items[i].wrong_side = true;
    return cloth;
}

/* A seam: its line, the side of it that is kept, and the way across it, from
 * the goose to the sky. */
struct stitches {
    struct vertex p, q;
    struct half_plane kept;
    int x, y;
};

/* From the point of the goose down its right leg, or its left one. */
static struct stitches leg(const struct geese *geese, bool right)
{
    const struct rational zero = rational_whole(0);
    const struct rational foot =
        right ? rational_times(geese->height, 2) : zero;
    struct stitches stitches = {goose_point(geese, geese->height, zero),
                                goose_point(geese, foot, geese->height),
                                {zero, zero, zero},
                                right ? 1 : -1,
                                -1};
    const struct half_plane left = half_plane_left(stitches.p, stitches.q);
    /* Down the right leg, the sky is at the left hand. */
    stitches.kept = right ? half_plane_other(left) : left;
    for (unsigned i = 0; i < geese->turn; i++) {
        const int x = stitches.x;
        stitches.x = -stitches.y;
        stitches.y = x;
    }
    return stitches;
}

/* What is kept of a square that was laid there, turned over its seam. */
static struct cloth *opened(const struct geese *geese, const struct cloth *laid,
                            const struct stitches *stitches)
{
    struct arena *arena = geese->bench->arena;
    return cloth_flipped(arena, cloth_clipped(arena, laid, stitches->kept),
                         stitches->p, stitches->q);
}

/* A line of the large square, from its left end as it lies: words are read
 * along it. */
static void mark_square(const struct geese *geese, struct state *state,
                        enum mark_kind kind, struct vertex p, struct vertex q)
{
    p = square_point(geese, p.x, p.y);
    q = square_point(geese, q.x, q.y);
    const bool ahead = rational_compare(p.x, q.x) < 0;
    mark_line(geese->bench, state, kind, ahead ? p : q, ahead ? q : p);
}

/* The drawn line, which is also cut, and a seam on both sides, as far as the
 * square reaches that has p and q as opposite corners, q on the right. Counted
 * in the large square. */
static void mark_geese(const struct geese *geese, struct state *state,
                       struct vertex p, struct vertex q)
{
    const struct rational zero = rational_whole(0);
    const struct rational back = rational_times(geese->off, -1);
    const struct rational down =
        rational_compare(q.y, p.y) > 0 ? geese->off : back;
    mark_square(geese, state, MARK_DRAWN, p, q);
    mark_square(geese, state, MARK_CUT, p, q);
    mark_square(geese, state, MARK_SEWN, moved(p, geese->off, zero),
                moved(q, zero, rational_times(down, -1)));
    mark_square(geese, state, MARK_SEWN, moved(p, zero, down),
                moved(q, back, zero));
}

static void add_geese_seam(const struct geese *geese, struct action *action,
                           struct cloth *cloth, const struct stitches *stitches,
                           size_t next)
{
    const struct sewn_seam seam = {
        .seam = {.from = stitches->p, .to = stitches->q},
        .before = LARGE,
        .next = next,
        .across_x = stitches->x,
        .across_y = stitches->y};
    const struct seam sewn = sew_seam(geese->bench, action, seam);
    if (cloth != NULL)
        cloth_add_seam(geese->bench->arena, cloth, sewn);
}

/* Two small squares on opposite corners, sewn and cut on one line: of the two
 * halves the lower left one goes on. Its `NEAR` sky becomes that of the right
 * leg; that of the left half of the half is another goose's. */
static struct cloth *sew_halves(const struct geese *geese, struct cloth *goose,
                                struct stitches *stitches)
{
    const struct bench *bench = geese->bench;
    struct action *action = add_action(bench, &sew_geese);
    const struct rational zero = rational_whole(0);
    const struct rational half = rational_div(geese->large, rational_whole(2));
    action->line =
        line_oriented(LINE_FALLING, (struct orientation){geese->turn, false});
    const struct cloth *base = square_around(geese, LARGE, half, half);
    const struct cloth *far = laid_on_corner(geese, FAR, false, false);
    const struct cloth *near = laid_on_corner(geese, NEAR, true, true);
    for (size_t i = LARGE; i <= NEAR; i++)
        add_part(bench, action, i);
    show(bench, &action->before, base, LARGE, 0, 0);
    show(bench, &action->before, far, FAR, 0, 0);
    show(bench, &action->before, near, NEAR, 0, 0);
    mark_geese(geese, &action->before, (struct vertex){zero, zero},
               (struct vertex){geese->large, geese->large});
    *stitches = leg(geese, true);
    struct cloth *cloth = cloth_clipped(bench->arena, base, stitches->kept);
    cloth_add_all(bench->arena, goose, cloth);
    cloth_add_all(bench->arena, goose, opened(geese, near, stitches));
    cloth_add_all(bench->arena, cloth, opened(geese, far, stitches));
    cloth_add_all(bench->arena, cloth, opened(geese, near, stitches));
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    add_geese_seam(geese, action, goose, stitches, NEAR);
    /* The same stitch line goes on along the leg of the other goose. */
    stitches->q = goose_point(geese, zero, rational_times(geese->height, -1));
    add_geese_seam(geese, action, NULL, stitches, FAR);
    return cloth;
}

/* A small square on the free corner of a half, cut between its two skies. The
 * tip of the other goose's sky, which reached past the middle, ends in this
 * seam. */
static void sew_geese_apart(const struct geese *geese, const struct cloth *half,
                            struct cloth **goose)
{
    const struct bench *bench = geese->bench;
    struct action *action = add_action(bench, &sew_geese);
    action->line =
        line_oriented(LINE_RISING, (struct orientation){geese->turn, false});
    const struct cloth *laid = laid_on_corner(geese, FREE, false, true);
    add_part(bench, action, LARGE);
    add_part(bench, action, FREE);
    show(bench, &action->before, half, WHOLE, 0, 0);
    show(bench, &action->before, laid, FREE, 0, 0);
    mark_geese(
        geese, &action->before,
        (struct vertex){rational_whole(0), geese->large},
        (struct vertex){geese->small, minus(geese->large, geese->small)});
    const struct stitches stitches = leg(geese, false);
    struct cloth *cloth = cloth_clipped(bench->arena, *goose, stitches.kept);
    cloth_add_all(bench->arena, cloth, opened(geese, laid, &stitches));
    cloth = cloth_within(
        bench->arena, cloth,
        outline_grown(bench->arena, bench->heap->outline, bench->seam));
    show(bench, &action->after, cloth, WHOLE, 0, 0);
    add_geese_seam(geese, action, cloth, &stitches, FREE);
    *goose = cloth;
}

/* That the cloth suffices is proved twice: by the slack, and by what is left
 * when it is trimmed (verify_outline). */
static void sew_flying_geese(const struct bench *bench)
{
    const struct flying_geese *of = &bench->heap->of.flying_geese;
    if (!rational_known(of->long_slack) || !rational_known(of->short_slack))
        report_too_fine(bench->sewer, bench->heap->piece->element);
    if (rational_sign(of->long_slack) < 0 || rational_sign(of->short_slack) < 0)
        internal_error("the geese of `%s` are cut too small",
                       bench->heap->piece->owner->id);
    const struct geese geese = lay_geese(bench);
    struct cloth *goose = ARENA_NEW(bench->arena, struct cloth);
    struct stitches stitches;
    const struct cloth *half = sew_halves(&geese, goose, &stitches);
    sew_geese_apart(&geese, half, &goose);
    bench->heap->cloth = goose;
}

/* ---- slips ---- */

/* Only the opposite way fits the place. */
static void try_flying_geese(struct slips *slips, const struct piece *piece)
{
    static const char *const words[] = {"up", "right", "down", "left"};
    const int opposite = (int)(piece->points + 2) % 4;
    slips->try_change(slips, (struct change){.kind = CHANGE_FABRICS_EXCHANGED,
                                             .piece = piece,
                                             .first = 0,
                                             .second = 1});
    slips->try_change(slips, (struct change){.kind = CHANGE_WORD,
                                             .piece = piece,
                                             .attribute = ATTR_POINTS_TO,
                                             .choice = opposite,
                                             .found = words[piece->points],
                                             .word = words[opposite]});
    try_fabrics(slips, piece);
}

static unsigned geese_presses(const struct piece *piece)
{
    (void)piece;
    return sew_geese.presses;
}

const struct craft craft_flying_geese = {.name = "flying-geese",
                                         .build = build_flying_geese,
                                         .key = key_flying_geese,
                                         .sew = sew_flying_geese,
                                         .slips = try_flying_geese,
                                         .presses = geese_presses};
