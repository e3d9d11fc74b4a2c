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

/* Sides of the rim came in with the seams, to close the outermost faces. */
static bool along_rim(struct extent e, struct vertex a, struct vertex b)
{
    return (number_equal(a.x, b.x) &&
            (number_equal(a.x, e.low.x) || number_equal(a.x, e.high.x))) ||
           (number_equal(a.y, b.y) &&
            (number_equal(a.y, e.low.y) || number_equal(a.y, e.high.y)));
}

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

struct straight_seams join_seams(struct arena *arena,
                                 const struct ground *ground)
{
    struct joiner j = {.arena = arena, .ground = ground};
    const struct arrangement *base = ground->base;
    for (size_t p = 0; p < base->piece_count; p++)
        if (!along_rim(ground->extent, base->points[base->pieces[p].from],
                       base->points[base->pieces[p].to]))
            add_part(&j, part_of_piece(&j, p));
    for (size_t i = 0; i < j.seams.count; i++)
        j.seams.items[i].parts = j.parts.items + j.begins.items[i];
    return (struct straight_seams){j.seams.items, j.seams.count, base->fault};
}

bool seam_between(const struct seam_part *part, int one, int other)
{
    return (part->right == one && part->left == other) ||
           (part->right == other && part->left == one);
}
