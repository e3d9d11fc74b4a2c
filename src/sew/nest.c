/* Seams that meet pressed to the same side, told with the word that makes them
 * nest. Whose word it is, and which, is guessed from what meets; a guess is
 * told only after the quilt was sewn with it, aside, and nothing collided there
 * any more and less in all. Read next: verify.c. */
#include "craft.h"
#include "press.h"
#include "press_plan.h"

#include "buffer.h"

/* So many words of a heap are tried for one message, so many seams of a ring
 * are named, and so many messages of a quilt are helped so; fewer where the
 * quilt has more faces, as each of them sews it some twenty times. */
enum { TRIALS_MOST = 3, NAMED_MOST = 8, HELPED_MOST = 12, HELP_FACES = 200000 };

/* Of the pairs that collide in a heap, so many are looked for in the graph. */
enum { MEETINGS_MOST = 16 };

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
        .trial = {.piece = end->piece,
                  .press = {.side = PRESS_OPEN, .fabric = NO_FABRIC}},
        .attribute = ATTR_PRESS,
        .value = "open"};
    return effect == EFFECT_OPEN || guess_turn(sewer, end, guess);
}

/* ---- trials ---- */

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

static bool nests_in(const struct aside *aside, const struct sewer *sewer,
                     const struct collision *collision)
{
    return collisions_in(&aside->sewer, heap_at(sewer, collision->heap)) == 0 &&
           aside_collisions(aside) < quilt_collisions(sewer);
}

/* Sews the quilt aside with the word: by the rules, and where that is not
 * enough by the plan that the word leaves. */
static bool works(const struct sewer *sewer, const struct collision *collision,
                  const struct press_trial *trial)
{
    struct aside ruled, planned;
    sew_aside(&ruled, sewer, trial, NULL);
    bool nests = nests_in(&ruled, sewer, collision);
    if (!nests && aside_collisions(&ruled) > 0) {
        sew_aside(&planned, sewer, trial,
                  make_plans(ruled.arena, &ruled.sewer, trial));
        nests = nests_in(&planned, sewer, collision);
        end_aside(&planned);
    }
    end_aside(&ruled);
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

/* Are two pieces one heap at some scale? It has the name of the first alone. */
static bool made_as_one(const struct sewer *sewer, const struct piece *a,
                        const struct piece *b)
{
    if (a == b)
        return true;
    for (const struct memo *one = memo_of(sewer, a); one != NULL;
         one = one->next)
        for (const struct memo *other = memo_of(sewer, b); other != NULL;
             other = other->next)
            if (one->ref.heap == other->ref.heap)
                return true;
    return false;
}

static bool is_node_of(const struct sewer *sewer, const struct press_node *node,
                       const struct seam_end *end)
{
    return node->operation == end->operation &&
           made_as_one(sewer, node->piece, end->piece);
}

/* Does an edge of the graph join what meets there? */
static bool is_edge_of(const struct sewer *sewer,
                       const struct press_graph *graph, size_t edge,
                       const struct meeting *meeting)
{
    const size_t *ends = graph->edges.items[edge].ends;
    for (int i = 0; i < 2; i++)
        if (is_node_of(sewer, &graph->nodes.items[ends[i]],
                       &meeting->ends[0]) &&
            is_node_of(sewer, &graph->nodes.items[ends[1 - i]],
                       &meeting->ends[1]))
            return true;
    return false;
}

/* Does an edge join seams that collide in the heap? */
static bool meets_in(const struct sewer *sewer, const struct press_graph *graph,
                     size_t edge, const struct collision *collision)
{
    size_t looked_at = 0;
    for (size_t k = 0;
         k < collision->meetings.count && looked_at < MEETINGS_MOST; k++) {
        const struct meeting *met = &collision->meetings.items[k];
        if (met->ends[0].side * met->ends[1].side <= 0)
            continue;
        looked_at++;
        if (is_edge_of(sewer, graph, edge, met))
            return true;
    }
    return false;
}

/* An edge that collides where the heap is joined. Where pieces are alike, a
 * heap has the name of the first, so that an edge of the same join may stand
 * for another. ensures: its number from 1; 0 for none. */
static size_t colliding_edge(const struct sewer *sewer,
                             const struct collision *collision)
{
    const struct press_graph *graph = sewer->graph;
    const struct piece *where = heap_at(sewer, collision->heap)->piece;
    size_t same_join = 0;
    for (size_t i = 0; i < graph->edges.count; i++) {
        if (edge_collisions(graph, i) == 0)
            continue;
        if (meets_in(sewer, graph, i, collision))
            return i + 1;
        if (same_join == 0 && graph->edges.items[i].where == where)
            same_join = i + 1;
    }
    return same_join;
}

/* What would be open so that all nests that hangs together with what collides
 * in the heap. Words are for pieces, so pieces that are made as one must be
 * told apart. */
static struct press_opens heap_opens(const struct sewer *sewer,
                                     const struct collision *collision)
{
    struct arena *arena = sewer->run->arena;
    const struct press_graph *graph = sewer->apart;
    const struct piece *where = heap_at(sewer, collision->heap)->piece;
    bool *seeds = ARENA_ARRAY(arena, bool, graph->edges.count + 1);
    for (size_t i = 0; i < graph->edges.count; i++)
        seeds[i] = graph->edges.items[i].where == where ||
                   meets_in(sewer, graph, i, collision);
    return graph_opens(arena, graph, seeds);
}

/* The pieces that the graph wants open, as words that are tried. */
static struct press_trial *opens_trial(struct arena *arena,
                                       const struct press_opens *opens)
{
    struct press_trial *all = NULL;
    for (size_t i = opens->pieces.count; i-- > 0;) {
        struct press_trial *trial = ARENA_NEW(arena, struct press_trial);
        *trial = (struct press_trial){opens->pieces.items[i],
                                      {.side = PRESS_OPEN, .fabric = NO_FABRIC},
                                      all};
        all = trial;
    }
    return all;
}

/* Tries the words for the suspects of one heap. */
static bool try_suspects(const struct sewer *sewer,
                         const struct collision *collision, enum effect effect,
                         size_t *trials, struct guess *guess)
{
    const struct suspects suspects = find_suspects(sewer, collision);
    for (size_t i = 0; i < suspects.items.count && *trials < TRIALS_MOST; i++) {
        const struct seam_end *end = &suspects.items.items[i];
        if (!would_nest(collision, end, effect) ||
            !guess_word(sewer, end, effect, guess))
            continue;
        if (works(sewer, collision, &guess->trial))
            return true;
        ++*trials;
    }
    return false;
}

/* Nesting is better than lying flat, so turns come first; the plan has turned
 * what it may, so that only stated words are left. Then comes what makes all
 * nest that hangs together, then what helps this heap alone. ensures: false
 * where no guess held. */
static bool find_word(const struct sewer *sewer,
                      const struct collision *collision,
                      const struct press_opens *opens, struct guess *guess)
{
    size_t trials = 0;
    if (try_suspects(sewer, collision, EFFECT_TURN, &trials, guess))
        return true;
    if (opens->enough && opens->pieces.count == 1) {
        const struct seam_end end = {.piece = opens->pieces.items[0]};
        if (guess_word(sewer, &end, EFFECT_OPEN, guess) &&
            works(sewer, collision, &guess->trial))
            return true;
    }
    return try_suspects(sewer, collision, EFFECT_OPEN, &trials, guess);
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

/* Why no word turns what the plan could not. */
static const char *why_fixed(const struct sewer *sewer,
                             const struct press_node *node)
{
    if (!node->fixed)
        return "";
    return stated_side(sewer, node->piece, node->operation) == PRESS_RULE
               ? ", which no word turns"
               : ", which go as was said";
}

/* Each seam of the ring at its place. */
static void say_ring(const struct sewer *sewer, struct diagnostic *d,
                     size_t edge)
{
    struct run *run = sewer->run;
    size_t *ring;
    const size_t count = graph_ring(run->arena, sewer->graph, edge, &ring);
    for (size_t i = 0; i < count && i < NAMED_MOST; i++) {
        const struct press_node *node = &sewer->graph->nodes.items[ring[i]];
        const struct element *element = node->piece->element;
        const char *name = element_name(element->kind);
        const char *why = why_fixed(sewer, node);
        if (count == 1)
            diag_note(run, d, element->name,
                      "seams of this `%s` meet their own kind%s: they collide "
                      "whichever way it is pressed",
                      name, why);
        else if (i == 0)
            diag_note(run, d, element->name,
                      "a ring of %zu, each meets the next and one pair must "
                      "collide: seams of this `%s`%s",
                      count, name, why);
        else
            diag_note(run, d, element->name, "%zu of %zu: seams of this `%s`%s",
                      i + 1, count, name, why);
    }
}

/* The pieces that would have to be open, in words. */
static void say_opens(struct run *run, struct diagnostic *d,
                      const struct press_opens *opens)
{
    struct buffer text = buffer_in(run->arena);
    const size_t count = opens->pieces.count;
    for (size_t i = 0; i < count && i < NAMED_MOST; i++) {
        const struct element *element = opens->pieces.items[i]->element;
        buffer_printf(&text, "%s`%s` in line %zu",
                      i == 0           ? ""
                      : i + 1 == count ? " and "
                                       : ", ",
                      element_name(element->kind),
                      source_line(run->source, element->name.start));
    }
    if (count > NAMED_MOST)
        buffer_printf(&text, " and %zu more", count - NAMED_MOST);
    diag_help(run, d, "press=\"open\" on %s lets all lie flat%s",
              buffer_string(&text),
              opens->fewest ? "; no fewer do" : "; fewer may do");
}

/* The first remarks of a quilt are helped with trials: `fully`. */
static void say_help(struct sewer *sewer, struct diagnostic *d,
                     const struct collision *collision, bool fully)
{
    struct run *run = sewer->run;
    const size_t edge = fully ? colliding_edge(sewer, collision) : 0;
    struct press_opens opens = {.enough = false};
    struct guess guess;
    if (edge > 0) {
        say_ring(sewer, d, edge - 1);
        opens = heap_opens(sewer, collision);
    }
    if (fully && find_word(sewer, collision, &opens, &guess))
        mend_press(run, d, &guess);
    else if (opens.enough &&
             works(sewer, collision, opens_trial(run->arena, &opens)))
        say_opens(run, d, &opens);
    else
        diag_help(run, d,
                  "press one of each pair the other way, or open, so that "
                  "they nest");
}

/* How many pairs, and where the first is, measured from the finished corner as
 * a designer can measure, too. */
static void report_collision(struct sewer *sewer,
                             const struct collision *collision, bool fully)
{
    struct run *run = sewer->run;
    const struct heap *heap = heap_at(sewer, collision->heap);
    const struct element *element = heap->piece->element;
    const enum length_unit units = sewer->sized->design->pattern->units;
    const bool one = collision->count == 1;
    const struct vertex first =
        heap->technique == TECHNIQUE_ON_POINT
            ? slanted_point(heap, collision->first)
            : collision->first;
    struct diagnostic *d = diag_report(
        run, DIAG_SEAMS_COLLIDE, element->name,
        "%zu pair%s of seams meet%s in this `%s` pressed to the same side",
        collision->count, one ? "" : "s", one ? "s" : "",
        element_name(element->kind));
    diag_note(run, d, (struct span){0, 0},
              "the first at %s from the left and %s from the top",
              length_plain(run->arena, first.x, units),
              length_plain(run->arena, first.y, units));
    say_help(sewer, d, collision, fully);
}

void report_collisions(struct sewer *sewer)
{
    if (sewer->collisions.count == 0)
        return;
    const size_t afford = HELP_FACES / (quilt_faces(sewer) + 1) + 1;
    const size_t helped = afford < HELPED_MOST ? afford : HELPED_MOST;
    for (size_t i = 0; i < sewer->collisions.count; i++)
        report_collision(sewer, &sewer->collisions.items[i],
                         sewer->graph != NULL && i < helped);
}
