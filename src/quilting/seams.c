/* Straight seams: the pieces of all seams lie in the arrangement one behind the
 * other, line by line; those that touch in one line are put together. */
#include "seams.h"

struct joiner {
    struct arena *arena;
    const struct ground *ground;
    LIST(struct straight_seam) seams;
    LIST(struct seam_part) parts;
    LIST(size_t) begins; /* the first part of each seam */
};

/* A piece of the base as a part: its fabrics are those of the faces. */
static struct seam_part part_of_piece(const struct joiner *j, size_t piece)
{
    const struct arrangement *base = j->ground->base;
    const struct arranged_piece *p = &base->pieces[piece];
    const size_t index = base->sources[p->first];
    const struct seam *seam = &j->ground->cloth->seams.items[index];
    return (struct seam_part){
        .from = base->points[p->from],
        .to = base->points[p->to],
        .right = p->right < 0 ? NO_FABRIC : j->ground->fabric[p->right],
        .left = p->left < 0 ? NO_FABRIC : j->ground->fabric[p->left],
        .x = seam->x,
        .y = seam->y,
        .seam = index};
}

/* Whatever a stitcher needs to know is the same along the whole part. */
static bool same_part(const struct seam_part *a, const struct seam_part *b)
{
    return a->right == b->right && a->left == b->left && a->x == b->x &&
           a->y == b->y;
}

/* Adds to the last seam where the part goes straight on from it. */
static void add_part(struct joiner *j, struct seam_part part)
{
    const struct straight line = straight_through(part.from, part.to);
    struct straight_seam *seam =
        j->seams.count == 0 ? NULL : &j->seams.items[j->seams.count - 1];
    if (seam == NULL || !straight_equal(seam->line, line) ||
        !vertex_equal(seam->to, part.from)) {
        seam = LIST_ADD(j->arena, &j->seams);
        *seam = (struct straight_seam){.from = part.from, .line = line};
        *LIST_ADD(j->arena, &j->begins) = j->parts.count;
    }
    seam->to = part.to;
    struct seam_part *last =
        seam->count == 0 ? NULL : &j->parts.items[j->parts.count - 1];
    if (last != NULL && same_part(last, &part)) {
        last->to = part.to;
        return;
    }
    *LIST_ADD(j->arena, &j->parts) = part;
    seam->count++;
}

/* Places ask for what lies in them: many small ones must not look at all. */
static void place_seams(struct arena *arena, struct straight_seams *seams)
{
    const size_t count = seams->part_count;
    struct spot_line *parts = ARENA_ARRAY(arena, struct spot_line, count + 1);
    struct spot_line *ends =
        ARENA_ARRAY(arena, struct spot_line, 2 * seams->count + 1);
    for (size_t i = 0; i < count; i++)
        parts[i] = (struct spot_line){vertex_spot(seams->parts[i].from),
                                      vertex_spot(seams->parts[i].to)};
    for (size_t i = 0; i < 2 * seams->count; i++) {
        const struct straight_seam *seam = &seams->items[i / 2];
        const struct spot at = vertex_spot(i % 2 == 0 ? seam->from : seam->to);
        ends[i] = (struct spot_line){at, at};
    }
    seams->by_part = grid_of_lines(arena, parts, count);
    seams->by_end = grid_of_lines(arena, ends, 2 * seams->count);
}

struct straight_seams join_seams(struct arena *arena,
                                 const struct ground *ground)
{
    struct joiner j = {.arena = arena, .ground = ground};
    const struct arrangement *base = ground->base;
    /* Sides of the rim came in with the seams, to close the outermost faces. */
    for (size_t p = 0; p < base->piece_count; p++)
        if (!extent_along(ground->extent, base->points[base->pieces[p].from],
                       base->points[base->pieces[p].to]))
            add_part(&j, part_of_piece(&j, p));
    for (size_t i = 0; i < j.seams.count; i++)
        j.seams.items[i].parts = j.parts.items + j.begins.items[i];
    struct straight_seams seams = {.items = j.seams.items,
                                   .count = j.seams.count,
                                   .fault = base->fault,
                                   .parts = j.parts.items,
                                   .part_count = j.parts.count};
    place_seams(arena, &seams);
    return seams;
}

const size_t *parts_about(struct arena *arena,
                          const struct straight_seams *seams,
                          struct extent extent, size_t *count)
{
    return grid_numbers(arena, seams->by_part, extent_box(extent), count);
}

const size_t *ends_about(struct arena *arena,
                         const struct straight_seams *seams,
                         struct extent extent, size_t *count)
{
    return grid_numbers(arena, seams->by_end, extent_box(extent), count);
}

bool seam_between(const struct seam_part *part, int one, int other)
{
    return (part->right == one && part->left == other) ||
           (part->right == other && part->left == one);
}
