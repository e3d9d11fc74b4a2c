/* Eight-pointed stars, sewn with set-in seams. All that is numbered goes
 * clockwise: diamond 0 is the one right of the top, dot k lies between diamond
 * k - 1 and diamond k where their seam ends, tip k is the point of diamond k.
 * Even dots lie under a side triangle, odd ones in a corner square.
 *
 * The order is one of those in use: diamonds in pairs, a triangle set into
 * each, pairs to halves, squares into these, the long seam through the middle,
 * the last squares (common practice). No seam crosses a dot: each stops there
 * or begins there, a seam's width from the raw edges, so that the next cloth
 * can turn about it (set-in seams: Y Fear?, seehowwesew.com; Y-seams,
 * hummingbird-highway.com). Nothing has an outline of its own before the last
 * seam, so that all of it is one heap.
 *
 * Every second diamond, and all triangles, lie turned by an eighth; their
 * places are told in a frame that is turned so, about the middle. Read next:
 * star_parts.c. */
#include "star.h"

/* All are pressed open: as many as eight meet in a point (Y Fear?, as above).
 */
static const struct operation join_diamonds = {.name = "join-diamonds",
                                               .laid = LAID_TOGETHER,
                                               .presses =
                                                   PRESS_BIT(PRESS_OPEN)};
static const struct operation set_in = {
    .name = "set-in", .laid = LAID_TOGETHER, .presses = PRESS_BIT(PRESS_OPEN),
    .sets_in = true};
static const struct operation join_halves = {.name = "join-halves",
                                             .laid = LAID_TOGETHER,
                                             .presses = PRESS_BIT(PRESS_OPEN)};

/* ---- where things lie ---- */

/* A star on the bench: its corners, and each part as it is seen by now. */
struct starring {
    const struct bench *bench;
    struct vertex middle, dots[POINTS], tips[POINTS];
    const struct cloth *now[PARTS];
    struct cloth *seams; /* no faces, all seams so far */
};

static struct vertex quarter_on(const struct bench *bench, struct vertex v,
                                size_t quarters)
{
    return vertex_oriented(v, bench->heap->width, bench->heap->width,
                           (struct orientation){(unsigned)quarters, false});
}

static void find_points(struct starring *s)
{
    const struct rational b = s->bench->heap->width, zero = rational_whole(0);
    const struct rational half = rational_div(b, rational_whole(2));
    const struct star_cut *cut = &s->bench->heap->of.star.cut;
    const struct rational far = rational_sub(b, cut->side);
    s->middle = (struct vertex){half, half};
    for (size_t i = 0; i < QUARTERS; i++) {
        s->dots[2 * i] =
            quarter_on(s->bench, (struct vertex){half, cut->height}, i);
        s->dots[2 * i + 1] =
            quarter_on(s->bench, (struct vertex){far, cut->side}, i);
        s->tips[2 * i] = quarter_on(s->bench, (struct vertex){far, zero}, i);
        s->tips[2 * i + 1] =
            quarter_on(s->bench, (struct vertex){b, cut->side}, i);
    }
}

/* As they are laid on the table. */
static void place_parts(struct starring *s)
{
    for (size_t i = 0; i < PARTS; i++) {
        const struct input *input = &s->bench->heap->inputs.items[i];
        const struct cloth *cloth = placed(s->bench, input);
        s->now[i] = input->slanted ? slanted_cloth(s->bench, cloth) : cloth;
    }
}

/* The way from p to q, which is so long, goes on behind q by `more`. */
static struct vertex past(struct vertex p, struct vertex q,
                          struct rational more, struct rational length)
{
    const struct rational share = rational_div(more, length);
    return moved(q, rational_mul(rational_sub(q.x, p.x), share),
                 rational_mul(rational_sub(q.y, p.y), share));
}

/* A point inside a finished part: of a diamond its middle, of a square and of a
 * triangle the middle between its dot and the edge of the block. */
static struct vertex inside_of(const struct starring *s, size_t part)
{
    const struct rational half = rational_make(1, 2);
    struct vertex a = s->middle, b;
    if (part < POINTS) {
        b = s->tips[part];
    } else {
        const size_t quarter = (part - POINTS) % QUARTERS;
        const struct rational b_wide = s->bench->heap->width;
        const struct rational zero = rational_whole(0);
        const bool square = part < FIRST_TRIANGLE;
        a = s->dots[square ? (2 * quarter + 7) % POINTS : 2 * quarter];
        b = quarter_on(s->bench,
                       square
                           ? (struct vertex){zero, zero}
                           : (struct vertex){rational_mul(b_wide, half), zero},
                       quarter);
    }
    return (struct vertex){rational_mul(rational_add(a.x, b.x), half),
                           rational_mul(rational_add(a.y, b.y), half)};
}

/* The side of the line through p and q on which the finished part lies. Its
 * cloth may lie mostly on the other one where seams are wider than it. */
static struct half_plane side_of(const struct starring *s, size_t part,
                                 struct vertex p, struct vertex q)
{
    const struct half_plane plane = half_plane_left(p, q);
    return rational_sign(half_plane_side(plane, inside_of(s, part))) > 0
               ? half_plane_other(plane)
               : plane;
}

/* ---- what is seen ---- */

/* Some parts of the star, sewn together or not, where they lie apart by gaps.
 */
struct group {
    const size_t *parts;
    size_t count;
    int gap_x, gap_y;
};

/* Only what was never sewn keeps its label. */
static void lay_group(const struct starring *s, struct action *action,
                      struct group group)
{
    for (size_t i = 0; i < group.count; i++)
        show(s->bench, &action->before, s->now[group.parts[i]],
             group.count == 1 ? (int)group.parts[i] : WHOLE, group.gap_x,
             group.gap_y);
}

/* Right sides together on what lies beyond the line. */
static void lay_over(const struct starring *s, struct action *action,
                     struct group group, struct vertex p, struct vertex q)
{
    for (size_t i = 0; i < group.count; i++)
        show(s->bench, &action->before,
             cloth_flipped(s->bench->arena, s->now[group.parts[i]], p, q),
             group.count == 1 ? (int)group.parts[i] : WHOLE, group.gap_x,
             group.gap_y);
}

/* Stitches, and the dots at which they end. */
static void mark_stitches(const struct starring *s, struct action *action,
                          struct vertex from, struct vertex to,
                          struct group group)
{
    mark_line(s->bench, &action->before, MARK_SEWN, from, to);
    struct mark *mark =
        &action->before.marks.items[action->before.marks.count - 1];
    mark->gap_x = group.gap_x;
    mark->gap_y = group.gap_y;
}

static void mark_dot(const struct starring *s, struct action *action,
                     struct vertex at, struct group group)
{
    mark_line(s->bench, &action->before, MARK_DOT, at, at);
    struct mark *mark =
        &action->before.marks.items[action->before.marks.count - 1];
    mark->gap_x = group.gap_x;
    mark->gap_y = group.gap_y;
}

/* What is sewn by now, in place, with what is left of each part. */
static void show_after(const struct starring *s, struct action *action,
                       const size_t *parts, size_t count)
{
    for (size_t i = 0; i < count; i++)
        show(s->bench, &action->after, s->now[parts[i]], WHOLE, 0, 0);
}

/* ---- sewing ---- */

/* Whatever word is said, they are open. */
static void open_seams(struct action *action)
{
    action->press = (struct press){.side = PRESS_OPEN, .fabric = NO_FABRIC};
}

/* Both parts keep their own side of the line. */
static void sew(struct starring *s, struct action *action,
                struct sewn_seam seam)
{
    struct arena *arena = s->bench->arena;
    const struct vertex p = seam.seam.from, q = seam.seam.to;
    const size_t parts[2] = {seam.before, seam.next};
    for (size_t i = 0; i < 2; i++) {
        s->now[parts[i]] =
            cloth_clipped(arena, s->now[parts[i]], side_of(s, parts[i], p, q));
    }
    cloth_add_seam(arena, s->seams, sew_seam(s->bench, action, seam));
}

/* The seam from the middle to a dot, between the diamonds on both sides. */
static struct sewn_seam spoke(const struct starring *s, size_t dot)
{
    static const int across[POINTS][2] = {{1, 0},  {1, 1},   {0, 1},  {-1, 1},
                                          {-1, 0}, {-1, -1}, {0, -1}, {1, -1}};
    return (struct sewn_seam){.seam = {.from = s->middle, .to = s->dots[dot]},
                              .before = (dot + POINTS - 1) % POINTS,
                              .next = dot,
                              .across_x = across[dot][0],
                              .across_y = across[dot][1]};
}

/* From the raw edges in the middle, which lie s * sqrt 2 behind it, to the dot.
 */
static void mark_spoke(const struct starring *s, struct action *action,
                       size_t dot, struct group group)
{
    const struct rational behind =
        rational_mul(s->bench->seam, rational_root(2));
    mark_stitches(
        s, action,
        past(s->dots[dot], s->middle, behind, s->bench->heap->of.star.cut.side),
        s->dots[dot], group);
    mark_dot(s, action, s->dots[dot], group);
}

/* Diamonds 2k - 1 and 2k, on both sides of dot 2k: the pair of a side. */
static const size_t pairs[QUARTERS][2] = {{7, 0}, {1, 2}, {3, 4}, {5, 6}};
/* A piece as it was cut, wrong side up: turned over about the middle of its
 * width, and moved. */
static void show_marked(const struct starring *s, struct action *action,
                        size_t input, struct rational x, struct rational y)
{
    const struct bench *bench = s->bench;
    const size_t heap = bench->heap->inputs.items[input].heap;
    const struct rational zero = rational_whole(0);
    const struct input at = {.heap = heap, .x = x, .y = y};
    const struct rational middle = rational_add(
        x, rational_div(heap_at(bench->sewer, heap)->width, rational_whole(2)));
    show(bench, &action->parted,
         cloth_flipped(bench->arena, placed(bench, &at),
                       (struct vertex){middle, zero},
                       (struct vertex){middle, rational_whole(1)}),
         (int)input, 0, 0);
}

/* What is marked before: the wide corners of a diamond, one corner of a square,
 * and the right angle of a triangle. */
static void show_dots(const struct starring *s, struct action *action)
{
    const struct star_cut *cut = &s->bench->heap->of.star.cut;
    const struct rational zero = rational_whole(0), a = cut->side;
    const struct rational h = cut->height;
    const struct rational apart = rational_times(s->bench->seam, 4);
    const struct rational below = rational_add(h, apart);
    const struct rational right = rational_add(a, apart);
    show_marked(s, action, 0, zero, zero);
    show_marked(s, action, FIRST_SQUARE, zero, below);
    show_marked(s, action, FIRST_TRIANGLE, right, below);
    const struct vertex dots[] = {
        {a, zero}, {h, h}, {a, below}, {rational_add(right, a), below}};
    for (size_t i = 0; i < sizeof dots / sizeof dots[0]; i++)
        mark_line(s->bench, &action->parted, MARK_DOT, dots[i], dots[i]);
}

/* How the sides lie apart, from the top. */
static const int apart[QUARTERS][2] = {{1, 0}, {2, 1}, {1, 2}, {0, 1}};

/* The parts of a quarter: its pair, then its triangle. */
enum { QUARTER_PARTS = 3 };
static void quarter_parts(size_t side, size_t parts[QUARTER_PARTS])
{
    parts[0] = pairs[side][0];
    parts[1] = pairs[side][1];
    parts[2] = FIRST_TRIANGLE + side;
}

static void sew_pairs(struct starring *s)
{
    struct action *action = add_action(s->bench, &join_diamonds);
    open_seams(action);
    show_dots(s, action);
    for (size_t side = 0; side < QUARTERS; side++) {
        const size_t dot = 2 * side;
        const struct group first = {&pairs[side][0], 1, apart[side][0],
                                    apart[side][1]};
        const struct group second = {&pairs[side][1], 1, apart[side][0],
                                     apart[side][1]};
        add_part(s->bench, action, pairs[side][0]);
        add_part(s->bench, action, pairs[side][1]);
        lay_group(s, action, first);
        lay_over(s, action, second, s->middle, s->dots[dot]);
        mark_spoke(s, action, dot, first);
        sew(s, action, spoke(s, dot));
        show_after(s, action, pairs[side], 2);
    }
}

/* The part that is set in at a dot: triangles at the sides, squares in the
 * corners, which are numbered from the top left. */
static size_t part_at(size_t dot)
{
    return dot % 2 == 0 ? FIRST_TRIANGLE + dot / 2
                        : FIRST_SQUARE + (dot + 1) / 2 % QUARTERS;
}

/* The seam of what is set in at a dot, with the diamond behind the dot or the
 * one before it, from the dot outwards. From the first diamond of all the
 * triangle lies to the upper left. */
static struct sewn_seam edge_at(const struct starring *s, size_t dot,
                                bool behind)
{
    const size_t diamond = behind ? dot : (dot + POINTS - 1) % POINTS;
    int x = -1, y = -1;
    for (size_t i = 0; i < dot + (behind ? 0 : 2); i++)
        turn_eighth(&x, &y);
    return (struct sewn_seam){
        .seam = {.from = s->dots[dot], .to = s->tips[diamond]},
        .before = diamond,
        .next = part_at(dot),
        .across_x = x,
        .across_y = y};
}

/* The first of two seams, on the diamond behind the dot: it ends at the raw
 * edge of the block, a seam beyond the point, which is a root of 2 as far along
 * a slant. */
static void mark_edge(const struct starring *s, struct action *action,
                      size_t dot, struct group group)
{
    const struct rational seam = s->bench->seam;
    const struct rational beyond =
        dot % 2 == 0 ? rational_mul(seam, rational_root(2)) : seam;
    const struct vertex from = s->dots[dot], tip = s->tips[dot];
    mark_stitches(s, action, from,
                  past(from, tip, beyond, s->bench->heap->of.star.cut.side),
                  group);
    mark_dot(s, action, from, group);
}

/* A square's seams run on to the raw edge, over the tips of the triangles on
 * both sides. */
static void cut_tips(struct starring *s, size_t dot)
{
    for (size_t i = 0; i < 2; i++) {
        const size_t beside = (dot + (i == 0 ? 1 : POINTS - 1)) % POINTS;
        const size_t diamond = i == 0 ? dot : (dot + POINTS - 1) % POINTS;
        const size_t triangle = part_at(beside);
        const struct half_plane plane =
            side_of(s, triangle, s->dots[dot], s->tips[diamond]);
        s->now[triangle] =
            cloth_clipped(s->bench->arena, s->now[triangle], plane);
    }
}

/* `group` is what the part is set into, laid already. */
static void set_in_at(struct starring *s, struct action *action, size_t dot,
                      struct group group)
{
    const size_t part = part_at(dot);
    const struct group alone = {&part, 1, group.gap_x, group.gap_y};
    add_part(s->bench, action, part);
    lay_over(s, action, alone, s->dots[dot], s->tips[dot]);
    mark_edge(s, action, dot, group);
    sew(s, action, edge_at(s, dot, true));
    sew(s, action, edge_at(s, dot, false));
    if (dot % 2 == 1)
        cut_tips(s, dot);
}

/* A triangle into each pair. */
static void set_in_triangles(struct starring *s)
{
    struct action *action = add_action(s->bench, &set_in);
    open_seams(action);
    for (size_t side = 0; side < QUARTERS; side++) {
        size_t parts[QUARTER_PARTS];
        quarter_parts(side, parts);
        const struct group pair = {parts, 2, apart[side][0], apart[side][1]};
        lay_group(s, action, pair);
        set_in_at(s, action, 2 * side, pair);
        show_after(s, action, parts, QUARTER_PARTS);
    }
}

/* Sides `first` and the next one clockwise are joined at the dot between them:
 * the later lies on the earlier. */
static void join_pair(struct starring *s, struct action *action, size_t first,
                      int gap_x, int gap_y)
{
    size_t one[QUARTER_PARTS], other[QUARTER_PARTS];
    const size_t dot = 2 * first + 1;
    quarter_parts(first, one);
    quarter_parts((first + 1) % QUARTERS, other);
    const struct group lower = {one, QUARTER_PARTS, gap_x, gap_y};
    const struct group upper = {other, QUARTER_PARTS, gap_x, gap_y};
    lay_group(s, action, lower);
    lay_over(s, action, upper, s->middle, s->dots[dot]);
    mark_spoke(s, action, dot, lower);
    add_part(s->bench, action, (dot + POINTS - 1) % POINTS);
    add_part(s->bench, action, dot);
    sew(s, action, spoke(s, dot));
    show_after(s, action, one, QUARTER_PARTS);
    show_after(s, action, other, QUARTER_PARTS);
}

/* Top and right to one half, bottom and left to the other. */
static void join_pairs(struct starring *s)
{
    struct action *action = add_action(s->bench, &join_diamonds);
    open_seams(action);
    join_pair(s, action, 0, 1, 0);
    join_pair(s, action, 2, 0, 1);
}

/* What a half is made of: two quarters, and the square that is set into them.
 */
enum { HALF_PARTS = 2 * QUARTER_PARTS + 1 };
static void half_parts(size_t first, size_t parts[HALF_PARTS])
{
    quarter_parts(first, parts);
    quarter_parts(first + 1, parts + QUARTER_PARTS);
    parts[HALF_PARTS - 1] = part_at(2 * first + 1);
}

/* A square into each half. */
static void set_in_first_squares(struct starring *s)
{
    struct action *action = add_action(s->bench, &set_in);
    open_seams(action);
    for (size_t first = 0; first < QUARTERS; first += 2) {
        size_t parts[HALF_PARTS];
        half_parts(first, parts);
        const struct group half = {parts, HALF_PARTS - 1, first == 0 ? 1 : 0,
                                   first == 0 ? 0 : 1};
        lay_group(s, action, half);
        set_in_at(s, action, 2 * first + 1, half);
        show_after(s, action, parts, HALF_PARTS);
    }
}

/* The long seam, from the dot at the lower right through the middle to the one
 * at the upper left. */
static void join_the_halves(struct starring *s)
{
    struct action *action = add_action(s->bench, &join_halves);
    open_seams(action);
    size_t one[HALF_PARTS], other[HALF_PARTS];
    half_parts(0, one);
    half_parts(2, other);
    const struct group upper = {one, HALF_PARTS, 0, 0};
    const struct group lower = {other, HALF_PARTS, 0, 0};
    lay_group(s, action, upper);
    lay_over(s, action, lower, s->dots[7], s->dots[3]);
    mark_stitches(s, action, s->dots[7], s->dots[3], upper);
    mark_dot(s, action, s->dots[3], upper);
    mark_dot(s, action, s->dots[7], upper);
    for (size_t dot = 3; dot < POINTS; dot += 4) {
        add_part(s->bench, action, (dot + POINTS - 1) % POINTS);
        add_part(s->bench, action, dot);
        sew(s, action, spoke(s, dot));
    }
    show_after(s, action, one, HALF_PARTS);
    show_after(s, action, other, HALF_PARTS);
}

/* Squared up: what rounding made larger, and all tips, are gone. */
static void square_up(struct starring *s)
{
    const struct bench *bench = s->bench;
    const struct outline edge =
        outline_grown(bench->arena, bench->heap->outline, bench->seam);
    struct cloth *whole = ARENA_NEW(bench->arena, struct cloth);
    for (size_t i = 0; i < PARTS; i++)
        cloth_add_all(bench->arena, whole,
                      cloth_within(bench->arena, s->now[i], edge));
    show(bench,
         &bench->heap->actions.items[bench->heap->actions.count - 1].after,
         whole, WHOLE, 0, 0);
    for (size_t i = 0; i < s->seams->seams.count; i++)
        cloth_add_seam(bench->arena, whole, s->seams->seams.items[i]);
    bench->heap->cloth = whole;
}

/* The squares at the ends of the long seam. */
static void set_in_last_squares(struct starring *s)
{
    struct action *action = add_action(s->bench, &set_in);
    open_seams(action);
    size_t there[PARTS], count = 0;
    for (size_t i = 0; i < PARTS; i++)
        if (i != part_at(3) && i != part_at(7))
            there[count++] = i;
    const struct group star = {there, count, 0, 0};
    lay_group(s, action, star);
    set_in_at(s, action, 7, star);
    set_in_at(s, action, 3, star);
    square_up(s);
}

static void sew_star(const struct bench *bench)
{
    struct starring s = {.bench = bench,
                         .seams = ARENA_NEW(bench->arena, struct cloth)};
    find_points(&s);
    place_parts(&s);
    sew_pairs(&s);
    set_in_triangles(&s);
    join_pairs(&s);
    set_in_first_squares(&s);
    join_the_halves(&s);
    set_in_last_squares(&s);
}

/* Alike fabrics that are told once are one fabric of several numbers: those
 * that another stands for are not tried. */
static void try_star(struct slips *slips, const struct piece *piece)
{
    try_exchanges(slips, piece);
    try_fabrics(slips, piece);
}

/* In a mirror the first diamond is a second one. */
static struct ref build_star(struct sewer *sewer, const struct piece *piece,
                             struct rational factor, bool mirror)
{
    struct heap recipe =
        recipe_for(sewer, piece, factor, mirror, TECHNIQUE_STAR, &craft_star);
    recipe.of.star = (struct star){
        .points = fabric_of(sewer, piece, mirror ? 1 : 0),
        .second = fabric_of(sewer, piece, mirror ? 0 : 1),
        .corners = fabric_of(sewer, piece, 2),
        .sides = fabric_of(sewer, piece, 3),
        .cut = star_cut(sewer->sized->design->pattern, recipe.width)};
    add_star_parts(sewer, &recipe);
    return find_or_add(sewer, &recipe);
}

static unsigned star_presses(const struct piece *piece)
{
    (void)piece;
    return join_diamonds.presses | set_in.presses | join_halves.presses;
}

const struct craft craft_star = {.name = "star",
                                 .build = build_star,
                                 .key = key_star,
                                 .sew = sew_star,
                                 .slips = try_star,
                                 .presses = star_presses};
