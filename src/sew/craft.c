/* The table of crafts, and what is asked of a piece by way of it. The only file
 * that knows all crafts, by the list in design.h. Read next: sew.c. */
#include "craft.h"
#include "press.h"

#define CRAFT_ENTRY(kind, element, name) [kind] = &craft_##name,
static const struct craft *const crafts[PIECE_KIND_COUNT] = {
    PIECE_LIST(CRAFT_ENTRY)};
#undef CRAFT_ENTRY

const struct craft *craft_of(const struct piece *piece)
{
    return crafts[piece->kind];
}

struct ref build_piece(struct sewer *sewer, const struct piece *piece,
                       struct rational factor, bool mirror)
{
    const struct ref base =
        craft_of(piece)->build(sewer, piece, factor, mirror);
    return piece->corners.count == 0
               ? base
               : build_corners(sewer, piece, factor, mirror, base);
}

unsigned piece_presses(const struct piece *piece)
{
    const struct craft *craft = craft_of(piece);
    return (craft->presses == NULL ? 0 : craft->presses(piece)) |
           craft_corners.presses(piece);
}

/* ---- words of pressing, looked at in the source ---- */

static bool target_has(const struct design *design, const struct piece *use,
                       int fabric);

/* Is there cloth of this fabric or role in the piece? */
static bool piece_has(const struct design *design, const struct piece *piece,
                      int fabric)
{
    for (size_t i = 0; i < piece->fabrics.count; i++)
        if (piece->fabrics.items[i].fabric == fabric)
            return true;
    for (size_t i = 0; i < piece->corners.count; i++)
        if (piece->corners.items[i].fabric == fabric)
            return true;
    const struct piece *last = NULL;
    if (piece->target != NULL && target_has(design, piece, fabric))
        return true;
    for (size_t i = 0; i < piece->cells.count; i++) {
        if (piece->cells.items[i].piece->first != last &&
            piece_has(design, piece->cells.items[i].piece, fabric))
            return true;
        last = piece->cells.items[i].piece->first;
    }
    return false;
}

/* Its own fabrics are the same inside of it; its roles are what it casts. */
static bool target_has(const struct design *design, const struct piece *use,
                       int fabric)
{
    const struct definition *target = use->target;
    if (target->root == NULL)
        return false;
    const int first = (int)(design->fabrics.count + target->first_role);
    for (size_t i = 0; i < target->role_count; i++)
        if (use->cast[i] == fabric &&
            piece_has(design, target->root, first + (int)i))
            return true;
    return design_role(design, fabric) == NULL &&
           piece_has(design, target->root, fabric);
}

/* Does any seam in the making of this piece follow the word? A use has no seam
 * of its own: its target's pieces have. */
static bool piece_follows(const struct design *design,
                          const struct piece *piece, const struct press *press)
{
    if (press->side == PRESS_SOLVE)
        return (piece_presses(piece) & PRESS_TURNS) != 0;
    return (press->side != PRESS_TOWARD_FABRIC ||
            piece_has(design, piece, press->fabric)) &&
           (piece_presses(piece) & PRESS_BIT(press->side)) != 0;
}

/* Does any piece of what the step makes follow it? All pieces between the
 * definition's tags, whatever lies in what. */
static bool step_follows(const struct design *design,
                         const struct assembly_step *step)
{
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        const bool ours = piece->owner == step->make || piece == step->piece;
        if (ours && piece->first == piece &&
            piece_follows(design, piece, &step->press))
            return true;
    }
    return false;
}

/* reports: the word, with the list of what would do. */
static void report_press(struct run *run, const struct press *press,
                         const char *what)
{
    struct diagnostic *d = diag_report(
        run, DIAG_PRESS, press->span, "%s has no seam that can be pressed `%s`",
        what, press->word);
    diag_note(run, d, (struct span){0, 0},
              "seams between pieces side by side go left, right or open; "
              "between pieces one above the other up, down or open; corners "
              "toward-corner or open; borders toward-border or open, mitred "
              "corners left, right or open; diagonals "
              "open or toward=\"FABRIC\"");
}

/* Looks at the source alone, so it also covers pieces that no quilt sews. */
void check_presses(struct run *run, const struct design *design)
{
    for (size_t i = 0; i < design->pieces.count; i++) {
        const struct piece *piece = design->pieces.items[i];
        if (piece->press.side != PRESS_RULE && piece->first == piece &&
            !piece_follows(design, piece, &piece->press))
            report_press(run, &piece->press,
                         arena_printf(run->arena, "this `%s`",
                                      element_name(piece->element->kind)));
    }
    for (size_t i = 0; i < design->assemblies.count; i++) {
        for (size_t k = 0; k < design->assemblies.items[i].steps.count; k++) {
            const struct assembly_step *step =
                &design->assemblies.items[i].steps.items[k];
            const bool bound = step->make != NULL || step->piece != NULL;
            if (bound && step->press.side != PRESS_RULE &&
                !step_follows(design, step))
                report_press(run, &step->press,
                             arena_printf(run->arena, "`%s`", step->name));
        }
    }
}
