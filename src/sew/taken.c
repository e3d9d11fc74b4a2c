/* What a quilt takes of each piece, unit and block, for the designer's words
 * and for lists of blocks. Walked in the design and not read off the heaps: two
 * units that look alike share a heap, but words speak of one of them. May
 * assume known sizes, and no more cells than the limit of pieces. */
#include "sewer.h"

/* Few: a block is sewn at two or three sizes. What lies in no cell of its map
 * has none. */
static void add_size(struct arena *arena, struct taken *taken,
                     struct rational width, struct rational height)
{
    if (!rational_known(width) || !rational_known(height))
        return;
    for (size_t i = 0; i < taken->sizes.count; i++)
        if (rational_equal(taken->sizes.items[i].width, width) &&
            rational_equal(taken->sizes.items[i].height, height))
            return;
    *LIST_ADD(arena, &taken->sizes) = (struct taken_size){width, height};
}

/* As it lies in its definition, before any use turns it. */
static void add_piece_size(struct sewer *sewer, struct taken *taken,
                           const struct piece *piece, struct rational factor)
{
    const struct sized *sized = sewer->sized;
    add_size(sewer->run->arena, taken,
             rational_mul(sized->width[piece->index], factor),
             rational_mul(sized->height[piece->index], factor));
}

/* Words can speak of what has an id; a definition is told by its root. */
static bool told_of(const struct piece *piece)
{
    return piece->id != NULL || piece == piece->owner->root;
}

/* No heap: nothing wraps what lies here. */
static const size_t NO_HEAP = SIZE_MAX;

/* One more place of a heap is this unit or block. */
static void count_name(struct heap *heap, const struct definition *definition)
{
    for (size_t i = 0; i < heap->names.count; i++)
        if (heap->names.items[i].definition == definition)
            heap->names.items[i].count++;
}

/* A place where a piece lies. */
struct laid_piece {
    const struct piece *piece;
    struct rational factor;
    bool mirror;
    size_t whole; /* the heap of all of the unit or block around it */
};

static void take_piece(struct sewer *sewer, struct taken *pieces,
                       struct laid_piece laid);

/* What is all of the unit or block around it was counted as that. */
static void take_target(struct sewer *sewer, struct taken *pieces,
                        struct laid_piece laid)
{
    const struct definition *target = laid.piece->target;
    struct laid_piece inner = {
        target->root, use_scale(sewer->sized, laid.piece, laid.factor),
        laid.mirror != laid.piece->orientation.mirror, 0};
    const struct cast *around = enter_use(sewer, laid.piece);
    /* It is built, so that this only finds it. */
    inner.whole =
        build_heap(sewer, inner.piece, inner.factor, inner.mirror).heap;
    if (inner.whole != laid.whole)
        count_name(heap_at(sewer, inner.whole), target);
    take_piece(sewer, pieces, inner);
    sewer->cast = around;
}

/* Once for each place where the piece lies. */
static void take_piece(struct sewer *sewer, struct taken *pieces,
                       struct laid_piece laid)
{
    const struct piece *piece = laid.piece;
    struct taken *taken = &pieces[piece->first->index];
    taken->count++;
    if (told_of(piece))
        add_piece_size(sewer, taken, piece, laid.factor);
    for (size_t i = 0; i < piece->cells.count; i++) {
        const struct cell *cell = &piece->cells.items[i];
        take_piece(sewer, pieces,
                   (struct laid_piece){cell->piece, laid.factor,
                                       laid.mirror != cell->orientation.mirror,
                                       laid.whole});
    }
    if (piece->target != NULL)
        take_target(sewer, pieces, laid);
}

/* A unit that lies nowhere but in blocks that wrap it gives them the heap. */
static void choose_names(struct sewer *sewer)
{
    for (size_t i = 0; i < sewer->quilt->heaps.count; i++) {
        struct heap *heap = heap_at(sewer, i);
        for (size_t k = heap->names.count; k-- > 0;) {
            const struct heap_name *name = &heap->names.items[k];
            if (name->count == 0)
                continue;
            heap->named = name->definition;
            heap->named_cast = name->cast;
            heap->named_mirror = name->mirror;
        }
    }
}

/* A definition lies where its root does; the quilt at work, if there is one, is
 * one, with its borders. */
static struct taken taken_as_root(struct sewer *sewer,
                                  const struct taken *pieces,
                                  const struct definition *definition,
                                  const struct definition *quilt)
{
    struct taken taken = {0};
    if (definition->kind != DEFINE_QUILT)
        return definition->root == NULL ? taken
                                        : pieces[definition->root->index];
    taken.count = definition == quilt ? 1 : 0;
    add_size(sewer->run->arena, &taken, quilt_width(sewer->sized, definition),
             quilt_height(sewer->sized, definition));
    return taken;
}

/* The sizes at which quilts take each: once a pattern, as many quilts have not
 * what the others have. */
void count_elsewhere(struct sewer *sewer, struct sewn *sewn)
{
    const struct design *design = sewer->sized->design;
    struct arena *arena = sewer->run->arena;
    struct taken *pieces =
        ARENA_ARRAY(arena, struct taken, design->pieces.count + 1);
    struct taken *definitions =
        ARENA_ARRAY(arena, struct taken, design->definitions.count + 1);
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        const struct definition_scales *scales =
            &sewer->sized->scales[piece->owner->index];
        for (size_t k = 0; told_of(piece) && k < scales->items.count; k++)
            add_piece_size(sewer, &pieces[i], piece,
                           scales->items.items[k].factor);
    }
    for (size_t i = 0; i < design->definitions.count; i++)
        definitions[i] =
            taken_as_root(sewer, pieces, design->definitions.items[i], NULL);
    sewn->pieces_elsewhere = pieces;
    sewn->definitions_elsewhere = definitions;
}

/* Once a quilt, whatever the words ask: a walk for each reference would be as
 * many walks as a text has references. */
void count_taken(struct sewer *sewer)
{
    const struct design *design = sewer->sized->design;
    struct sewn_quilt *quilt = sewer->quilt;
    struct arena *arena = sewer->run->arena, *scratch = arena_create();
    struct taken *pieces =
        ARENA_ARRAY(scratch, struct taken, design->pieces.count + 1);
    take_piece(sewer, pieces,
               (struct laid_piece){quilt->definition->whole, rational_whole(1),
                                   false, NO_HEAP});
    choose_names(sewer);
    for (size_t i = 0; i < design->pieces.count; i++)
        if (pieces[i].count > 0 && design->pieces.items[i]->id != NULL)
            *LIST_ADD(arena, &quilt->pieces_taken) =
                (struct indexed_taken){i, pieces[i]};
    for (size_t i = 0; i < design->definitions.count; i++) {
        const struct definition *definition = design->definitions.items[i];
        if (definition->kind == DEFINE_QUILT && definition != quilt->definition)
            continue;
        const struct taken taken =
            taken_as_root(sewer, pieces, definition, quilt->definition);
        if (taken.count > 0)
            *LIST_ADD(arena, &quilt->definitions_taken) =
                (struct indexed_taken){i, taken};
    }
    arena_destroy(scratch);
}

/* ensures: what stands there of the index, or `otherwise`. */
static const struct taken *find_taken(const struct indexed_taken *items,
                                      size_t count, size_t index,
                                      const struct taken *otherwise)
{
    size_t low = 0;
    while (low < count) {
        const size_t middle = low + (count - low) / 2;
        if (items[middle].index == index)
            return &items[middle].taken;
        if (items[middle].index < index)
            low = middle + 1;
        else
            count = middle;
    }
    return otherwise;
}

const struct taken *definition_taken(const struct sewn_quilt *quilt,
                                     const struct definition *definition)
{
    return find_taken(quilt->definitions_taken.items,
                      quilt->definitions_taken.count, definition->index,
                      &quilt->all->definitions_elsewhere[definition->index]);
}

const struct taken *piece_taken(const struct sewn_quilt *quilt,
                                const struct piece *piece)
{
    return find_taken(quilt->pieces_taken.items, quilt->pieces_taken.count,
                      piece->index,
                      &quilt->all->pieces_elsewhere[piece->index]);
}

const struct taken *taken_of(const struct sewn_quilt *quilt,
                             const struct reference *reference)
{
    return reference->make != NULL    ? definition_taken(quilt, reference->make)
           : reference->piece != NULL ? piece_taken(quilt, reference->piece)
                                      : NULL;
}

/* A number of 0 is a fact, a size of nothing is none. That the unit or block
 * is never used is told where it is defined. */
static void check_sizes(struct sewer *sewer, const struct sewn_quilt *quilt,
                        const struct words *words)
{
    for (size_t i = 0; words != NULL && i < words->references.count; i++) {
        const struct reference *reference = &words->references.items[i];
        const struct taken *taken = taken_of(quilt, reference);
        if (reference->kind != REFER_SIZE || taken == NULL ||
            taken->sizes.count > 0)
            continue;
        struct diagnostic *d = diag_report(
            sewer->run, DIAG_SIZE_OPEN, value_span(reference->element, ATTR_OF),
            "no quilt takes `%s`, so it has no size to print", reference->name);
        diag_help(sewer->run, d,
                  "use it in a quilt, or leave the size out of the text");
    }
}

/* What is said of the making of something that no quilt takes is not printed,
 * and may be what it likes. */
void check_references(struct sewer *sewer, const struct sewn_quilt *quilt)
{
    const struct design *design = sewer->sized->design;
    check_sizes(sewer, quilt, design->summary);
    for (size_t i = 0; i < design->assemblies.count; i++) {
        const struct assembly *assembly = &design->assemblies.items[i];
        if (assembly->of == NULL ||
            sewer->sized->scales[assembly->of->index].items.count == 0)
            continue;
        for (size_t k = 0; k < assembly->steps.count; k++)
            for (size_t s = 0; s < assembly->steps.items[k].says.count; s++)
                check_sizes(sewer, quilt,
                            assembly->steps.items[k].says.items[s]);
    }
}
