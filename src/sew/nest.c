/* Seams that meet pressed to the same side, told with the word that makes them
 * nest. Whose word it is, and which, is guessed from what meets; a guess is
 * told only after the quilt was sewn with it, aside, and nothing collided there
 * any more and less in all. Read next: verify.c. */
#include "craft.h"
#include "press.h"

#include "buffer.h"

/* So many words are tried for one message, and none on a quilt of more faces:
 * sewing it again would take longer than it is worth. */
enum { TRIALS_MOST = 3, FACES_MOST = 60000 };

/* What a word would do to an end: turn it over, or open it. */
enum effect { EFFECT_TURN, EFFECT_OPEN };

/* A word of pressing for one piece. */
struct guess {
    struct press_trial trial;
    enum attribute_id attribute;
    const char *value; /* as it would be written */
};

/* ---- guesses ---- */

/* The side of an end once the piece of `of` has the word. Open is for all seams
 * of a piece, a direction for those of one operation. */
static int side_after(const struct seam_end *end, const struct seam_end *of,
                      enum effect effect)
{
    if (end->piece->first != of->piece->first)
        return end->side;
    if (effect == EFFECT_OPEN)
        return 0;
    return end->operation == of->operation ? -end->side : end->side;
}

/* Would all that meets in the heap nest? */
static bool would_nest(const struct collision *collision,
                       const struct seam_end *of, enum effect effect)
{
    for (size_t i = 0; i < collision->meetings.count; i++) {
        const struct seam_end *ends = collision->meetings.items[i].ends;
        if (side_after(&ends[0], of, effect) *
                side_after(&ends[1], of, effect) >
            0)
            return false;
    }
    return true;
}

/* The heap of the piece in one of the ways in which the quilt has it. */
static const struct memo *memo_of(const struct sewer *sewer,
                                  const struct piece *piece)
{
    return sewer->memos[piece->index];
}

/* A seam that is pressed towards one of two cloths could go to the other. */
static bool other_cloth(const struct sewer *sewer, const struct seam_end *end,
                        struct guess *guess)
{
    const struct piece *piece = end->piece;
    const struct memo *memo = memo_of(sewer, piece);
    if (memo == NULL || piece->kind != PIECE_HALF_SQUARE)
        return false;
    const struct heap *heap = heap_at(sewer, memo->ref.heap);
    if (heap->technique != TECHNIQUE_HALF_SQUARE ||
        heap->actions.items[0].press.side != PRESS_TOWARD_FABRIC)
        return false;
    const int now = heap->actions.items[0].press.fabric;
    const struct design *design = sewer->sized->design;
    const int first = piece->fabrics.items[0].fabric;
    const int other = now == fabric_in(design, memo->cast, first)
                          ? piece->fabrics.items[1].fabric
                          : first;
    guess->attribute = ATTR_TOWARD;
    guess->value = fabric_id(design, other);
    guess->trial.press =
        (struct press){.side = PRESS_TOWARD_FABRIC, .fabric = other};
    return fabric_in(design, memo->cast, other) != now;
}

/* The other way for the seams of this end. ensures: false where no word of the
 * piece turns them over: corners go to their corner or open, rows of a grid go
 * to and fro. */
static bool guess_turn(const struct sewer *sewer, const struct seam_end *end,
                       struct guess *guess)
{
    static const struct {
        int x, y;
        enum press_side side;
        const char *word;
    } others[] = {{1, 0, PRESS_LEFT, "left"},
                  {-1, 0, PRESS_RIGHT, "right"},
                  {0, 1, PRESS_UP, "up"},
                  {0, -1, PRESS_DOWN, "down"}};
    const struct memo *memo = memo_of(sewer, end->piece);
    if (memo == NULL)
        return false;
    const struct way way =
        way_of(sewer, end->piece, memo->factor, memo->mirror);
    for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
        if (way.x != others[i].x || way.y != others[i].y)
            continue;
        guess->attribute = ATTR_PRESS;
        guess->value = others[i].word;
        guess->trial.press =
            (struct press){.side = others[i].side, .fabric = NO_FABRIC};
        return true;
    }
    return other_cloth(sewer, end, guess);
}

static bool guess_word(const struct sewer *sewer, const struct seam_end *end,
                       enum effect effect, struct guess *guess)
{
    *guess = (struct guess){
        .trial = {end->piece, {.side = PRESS_OPEN, .fabric = NO_FABRIC}},
        .attribute = ATTR_PRESS,
        .value = "open"};
    return effect == EFFECT_OPEN || guess_turn(sewer, end, guess);
}

/* ---- trials ---- */

static size_t all_collisions(const struct sewer *sewer)
{
    size_t count = 0;
    for (size_t i = 0; i < sewer->collisions.count; i++)
        count += sewer->collisions.items[i].count;
    return count;
}

/* Pairs in the heaps that the piece makes at this scale. */
static size_t collisions_in(const struct sewer *sewer, const struct heap *like)
{
    size_t count = 0;
    for (size_t i = 0; i < sewer->collisions.count; i++) {
        const struct collision *collision = &sewer->collisions.items[i];
        const struct heap *heap = heap_at(sewer, collision->heap);
        if (heap->piece == like->piece &&
            rational_equal(heap->factor, like->factor))
            count += collision->count;
    }
    return count;
}

/* Center and corners, which is all where seams can meet otherwise: the strips
 * of borders are sewn on last, and large. */
static void build_aside(struct sewer *aside, const struct piece *whole)
{
    const struct rational one = rational_whole(1);
    const struct piece *piece = whole;
    for (; piece->kind == PIECE_BORDER; piece = piece->cells.items[0].piece)
        for (size_t i = 1; i < piece->cells.count; i++)
            build_cell(aside, &piece->cells.items[i], one, false);
    build_heap(aside, piece, one, false);
}

/* Sews the quilt aside with the word. */
static bool works(const struct sewer *sewer, const struct collision *collision,
                  const struct guess *guess)
{
    struct arena *scratch = arena_create();
    const struct definition *definition = sewer->quilt->definition;
    struct sewn_quilt quilt = {.definition = definition};
    struct sewer aside = {.run = run_create(scratch, sewer->run->source),
                          .sized = sewer->sized,
                          .build = sewer->build,
                          .trial = &guess->trial};
    aside.run->unseen = true;
    begin_heaps(&aside, &quilt);
    follow_assembly(&aside, definition, rational_whole(1), false);
    build_aside(&aside, definition->whole);
    const bool nests =
        collisions_in(&aside, heap_at(sewer, collision->heap)) == 0 &&
        all_collisions(&aside) < all_collisions(sewer);
    arena_destroy(scratch);
    return nests;
}

/* Seams that collide, each piece and operation once: a heap has few. */
struct suspects {
    LIST(struct seam_end) items;
};

static void add_suspect(struct arena *arena, struct suspects *suspects,
                        struct seam_end end)
{
    for (size_t i = 0; i < suspects->items.count; i++)
        if (suspects->items.items[i].piece == end.piece &&
            suspects->items.items[i].operation == end.operation)
            return;
    *LIST_ADD(arena, &suspects->items) = end;
}

static struct suspects find_suspects(const struct sewer *sewer,
                                     const struct collision *collision)
{
    struct suspects suspects = {0};
    for (size_t i = 0; i < collision->meetings.count; i++) {
        const struct seam_end *ends = collision->meetings.items[i].ends;
        for (size_t k = 0; k < 2 && ends[0].side * ends[1].side > 0; k++)
            add_suspect(sewer->run->arena, &suspects, ends[k]);
    }
    return suspects;
}

/* Nesting is better than lying flat, so turns come first. ensures: false where
 * no guess held. */
static bool find_word(const struct sewer *sewer,
                      const struct collision *collision, struct guess *guess)
{
    size_t faces = 0, trials = 0;
    for (size_t i = 0; i < sewer->quilt->heaps.count; i++)
        faces += heap_at(sewer, i)->cloth->faces.count;
    if (faces > FACES_MOST)
        return false;
    const struct suspects suspects = find_suspects(sewer, collision);
    for (int effect = EFFECT_TURN; effect <= EFFECT_OPEN; effect++)
        for (size_t i = 0; i < suspects.items.count; i++) {
            const struct seam_end *end = &suspects.items.items[i];
            if (!would_nest(collision, end, (enum effect)effect) ||
                !guess_word(sewer, end, (enum effect)effect, guess))
                continue;
            if (works(sewer, collision, guess))
                return true;
            if (++trials == TRIALS_MOST)
                return false;
        }
    return false;
}

/* ---- what is said ---- */

/* Where the word would be written: in place of one, or behind the element's
 * name. What stands there of the other attribute is told in words. */
static void mend_press(struct run *run, struct diagnostic *d,
                       const struct guess *guess)
{
    const struct piece *piece = guess->trial.piece;
    const bool open = guess->trial.press.side == PRESS_OPEN;
    const char *help = arena_printf(
        run->arena, "%s=\"%s\" on the `%s` in %s %s",
        attribute_name(guess->attribute), guess->value,
        element_name(piece->element->kind),
        source_line_words(run->arena, run->source, piece->element->name.start,
                          d->span.start),
        open ? "lets them lie flat" : "makes them nest");
    const struct span behind = {piece->element->name.end,
                                piece->element->name.end};
    const bool toward = guess->attribute == ATTR_TOWARD;
    if (piece->press.side == PRESS_RULE)
        diag_mend(run, d, behind,
                  arena_printf(run->arena, " %s=\"%s\"",
                               attribute_name(guess->attribute), guess->value),
                  "%s", help);
    else if ((piece->press.side == PRESS_TOWARD_FABRIC) == toward)
        diag_mend(run, d, piece->press.span, guess->value, "%s", help);
    else
        diag_help(run, d, "%s", help);
}

/* How many pairs, and where the first is, measured from the finished corner as
 * a designer can measure, too. */
static void report_collision(struct sewer *sewer,
                             const struct collision *collision)
{
    struct run *run = sewer->run;
    const struct heap *heap = heap_at(sewer, collision->heap);
    const struct element *element = heap->piece->element;
    const enum length_unit units = sewer->sized->design->pattern->units;
    const bool one = collision->count == 1;
    struct diagnostic *d = diag_report(
        run, DIAG_SEAMS_COLLIDE, element->name,
        "%zu pair%s of seams meet%s in this `%s` pressed to the same side",
        collision->count, one ? "" : "s", one ? "s" : "",
        element_name(element->kind));
    diag_note(run, d, (struct span){0, 0},
              "the first at %s from the left and %s from the top",
              length_plain(run->arena, collision->first.x, units),
              length_plain(run->arena, collision->first.y, units));
    struct guess guess;
    if (find_word(sewer, collision, &guess))
        mend_press(run, d, &guess);
    else
        diag_help(run, d,
                  "press one of each pair the other way, or open, so that "
                  "they nest");
}

void report_collisions(struct sewer *sewer)
{
    for (size_t i = 0; i < sewer->collisions.count; i++)
        report_collision(sewer, &sewer->collisions.items[i]);
}
