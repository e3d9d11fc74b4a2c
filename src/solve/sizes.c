/* What fixes what: equalities, facts and sums are added here, none is solved.
 * May assume cells that are bound or reported. A mistake that was reported
 * elsewhere is made silent here rather than left open. What one kind of piece
 * adds is its sizing. Read next: containers.c, own.c, then system.c. */
#include "solver.h"

#define SIZING_ENTRY(kind, element, name) [kind] = &sizing_##name,
static const struct sizing *const sizings[PIECE_KIND_COUNT] = {
    PIECE_LIST(SIZING_ENTRY)};
#undef SIZING_ENTRY

const struct sizing *sizing_of(const struct piece *piece)
{
    return sizings[piece->kind];
}

/* A patch is what it states, or what its neighbors leave. */
const struct sizing sizing_patch = {0};

/* How messages name the piece that fixes a size. */
static const char *quoted_kind(struct system *system,
                               const struct element *element)
{
    return arena_printf(system->run->arena, "`%s`",
                        element_name(element->kind));
}

void length_fact(struct system *system, variable v,
                 const struct element *element, const struct stated *stated)
{
    if (stated->usable)
        system_fact(system, v, stated->value, stated->span,
                    quoted_kind(system, element));
    else if (stated->written)
        system_silence(system, v);
}

/* A real size, less what it counts beyond `across` and `down`. It serves only
 * where nothing harder fixes them; what cannot be read silences them. */
static void size_facts(struct system *system, variable across, variable down,
                       const struct element *element,
                       const struct stated *stated, struct rational beyond)
{
    if (!stated->written)
        return;
    if (!stated->usable || !rational_known(beyond)) {
        system_silence(system, across);
        system_silence(system, down);
        return;
    }
    const char *what = quoted_kind(system, element);
    system_soft_fact(system, across, rational_sub(stated->value, beyond),
                     stated->span, what);
    system_soft_fact(system, down, rational_sub(stated->second, beyond),
                     stated->span, what);
}

/* reports: a unit behind a number of grid squares. Only called where the local
 * unit is the square. */
static void report_unit(struct system *system, const struct piece *piece,
                        const struct stated *stated, enum attribute_id id)
{
    if (!stated->usable || !stated->has_unit)
        return;
    struct diagnostic *d = report_in(
        system->run, system->sound, piece->owner, DIAG_GRID_UNIT, stated->span,
        "%s=%s is a number of grid squares, not a length", attribute_name(id),
        quoted(system->run->arena, stated->text));
    diag_help(system->run, d,
              "leave the unit out, or leave out the block's `grid`");
}

/* `finished` and `unfinished` are real lengths, so they fix sizes only where
 * the local unit is real; elsewhere they are checked at each scale. Sizes of a
 * use are stated as its unit or block lies before the turn, while variables are
 * those of the place that it fills, so a quarter turn exchanges the two. */
static void real_size_facts(struct system *system, const struct piece *piece)
{
    const bool swapped = piece->orientation.turn % 2 == 1;
    const variable across = swapped ? height_of(piece) : width_of(piece);
    const variable down = swapped ? width_of(piece) : height_of(piece);
    size_facts(system, across, down, piece->element, &piece->finished,
               rational_whole(0));
    size_facts(system, across, down, piece->element, &piece->unfinished,
               rational_times(system->design->pattern->seam, 2));
}

/* Members are found by the source, as a grid may lack a cell for one. What is
 * inside a piece comes right behind it. */
void silence_all(struct system *system, const struct piece *piece)
{
    const struct design *design = system->design;
    system_silence(system, width_of(piece));
    system_silence(system, height_of(piece));
    for (size_t i = piece->index + 1; i < design->pieces.count; i++) {
        const struct piece *member = design->pieces.items[i];
        if (member->element->tag.start < piece->element->content.start ||
            member->element->tag.start >= piece->element->content.end)
            break;
        if (member->element->parent != piece->element)
            continue;
        system_silence(system, width_of(member));
        system_silence(system, height_of(member));
    }
}

/* `local_grid` tells whether lengths of the piece are grid squares. A broken
 * piece may lack the very size that a sum needs, so all of it is silent. */
static void piece_sizes(struct system *system, const struct piece *piece,
                        bool local_grid)
{
    length_fact(system, width_of(piece), piece->element, &piece->width);
    length_fact(system, height_of(piece), piece->element, &piece->height);
    if (piece->broken) {
        silence_all(system, piece);
        return;
    }
    if (local_grid) {
        report_unit(system, piece, &piece->width, ATTR_WIDTH);
        report_unit(system, piece, &piece->height, ATTR_HEIGHT);
        report_unit(system, piece, &piece->size, ATTR_SIZE);
        for (size_t i = 0; i < piece->corners.count; i++)
            report_unit(system, piece, &piece->corners.items[i].stated_size,
                        ATTR_SIZE);
    } else {
        real_size_facts(system, piece);
    }
    if (sizing_of(piece)->sizes != NULL)
        sizing_of(piece)->sizes(system, piece, local_grid);
}

/* The centre of a quilt is what `finished` leaves inside the borders. It comes
 * after all else: mostly the blocks fix the quilt, and `finished` is checked.
 * Butted borders add twice their width each way. */
static void quilt_sizes(struct system *system, const struct definition *quilt)
{
    struct rational borders = rational_whole(0);
    for (size_t i = 0; i < quilt->borders.count; i++)
        borders = rational_add(
            borders, rational_times(quilt->borders.items[i].width, 2));
    size_facts(system, width_of(quilt->root), height_of(quilt->root),
               quilt->element, &quilt->finished, borders);
}

/* A block with a grid is as large as its grid says, in squares, where that is
 * not wrong: then it is what its pieces make, and what they leave open. */
static void grid_sizes(struct system *system,
                       const struct definition *definition)
{
    const struct piece *root = definition->root;
    if (!rational_known(definition->grid_across)) {
        system_silence(system, width_of(root));
        system_silence(system, height_of(root));
        return;
    }
    if (system->own->measuring)
        return;
    const struct span grid = value_span(definition->element, ATTR_GRID);
    const char *what = quoted_kind(system, definition->element);
    const struct real_size squares = squares_of(system->own, definition);
    const struct real_size own = system->own->size[definition->index];
    const bool wrong = system->own->wrong_grid[definition->index];
    if (!wrong || !rational_known(own.width))
        system_fact(system, width_of(root), squares.width, grid, what);
    if (!wrong || !rational_known(own.height))
        system_fact(system, height_of(root), squares.height, grid, what);
}

/* Quilts come last of all (build_system). */
static void definition_sizes(struct system *system,
                             const struct definition *definition)
{
    const struct piece *root = definition->root;
    if (root == NULL || definition->kind == DEFINE_QUILT)
        return;
    if (definition->gridded)
        grid_sizes(system, definition);
    length_fact(system, width_of(root), definition->element,
                &definition->width);
    length_fact(system, height_of(root), definition->element,
                &definition->height);
}

/* A unit that both a gridded block and a plain one use counts as gridded: its
 * numbers then mean squares everywhere. */
bool *find_local_grids(struct run *run, const struct design *design)
{
    bool *local = ARENA_ARRAY(run->arena, bool, design->definitions.count + 1);
    for (size_t i = design->inner_first.count; i-- > 0;) {
        const struct definition *user = design->inner_first.items[i];
        local[user->index] |= user->gridded;
        for (size_t k = 0; local[user->index] && k < user->uses.count; k++) {
            const struct definition *target = user->uses.items[k]->target;
            if (target != NULL && target->kind == DEFINE_UNIT)
                local[target->index] = true;
        }
    }
    return local;
}

/* What is repeated is looked at once. */
static void mark_lying(bool *lies, const struct piece *piece)
{
    lies[piece->index] = true;
    if (piece->first != piece)
        return;
    for (size_t i = 0; i < piece->cells.count; i++)
        if (!lies[piece->cells.items[i].piece->index])
            mark_lying(lies, piece->cells.items[i].piece);
}

bool *find_lying(struct run *run, const struct design *design)
{
    bool *lies = ARENA_ARRAY(run->arena, bool, design->pieces.count + 1);
    for (size_t i = 0; i < design->definitions.count; i++)
        if (design->definitions.items[i]->whole != NULL)
            mark_lying(lies, design->definitions.items[i]->whole);
    return lies;
}

/* What is repeated is of one size, which the first of it states. */
static void lying_piece_sizes(struct system *system, const struct piece *piece)
{
    if (!system->own->lies[piece->index])
        return;
    if (piece->first != piece) {
        system_equal(system, width_of(piece->first), width_of(piece));
        system_equal(system, height_of(piece->first), height_of(piece));
        return;
    }
    piece_sizes(system, piece, system->own->local_grid[piece->owner->index]);
}

/* The order of facts is the order of trust: of two that contradict, the later
 * one is reported. Definitions speak first, then pieces in the order of the
 * source, and quilts last. */
void build_system(struct system *system)
{
    const struct design *design = system->design;
    for (size_t i = 0; i < design->definitions.count; i++)
        definition_sizes(system, design->definitions.items[i]);
    for (size_t i = 0; i < design->pieces.count; i++)
        lying_piece_sizes(system, design->pieces.items[i]);
    for (size_t i = 0; i < design->definitions.count; i++)
        if (design->definitions.items[i]->kind == DEFINE_QUILT &&
            design->definitions.items[i]->root != NULL)
            quilt_sizes(system, design->definitions.items[i]);
}

void build_definition(struct system *system,
                      const struct definition *definition,
                      const struct piece *const *pieces, size_t count)
{
    system_empty(system);
    definition_sizes(system, definition);
    for (size_t i = 0; i < count; i++)
        lying_piece_sizes(system, pieces[i]);
}
