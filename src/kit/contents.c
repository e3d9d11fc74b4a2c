/* What a kit holds, fabric by fabric, and what that takes of each cloth. Cuts
 * of one length come together here, whatever line they are for: the size of
 * what is planned then does not grow with the number of kits. Read next:
 * pieces.c, strips.c. */
#include "planner.h"

#include "trade.h"

/* One fabric on its way into a kit. */
struct filling {
    struct planner *planner;
    size_t line;
    const struct kit_fabric *fabric;
    struct rational factor; /* from the pattern's units to the order's */
    bool binding;           /* what is for binding goes into the kit */
};

/* What the order wants of this line. */
static const struct order_line *asked(const struct filling *f)
{
    return &f->planner->order->lines.items[f->line];
}

/* Cuts are few by cloth, as lengths of one kind meet in one; so the search
 * is a walk. */
void add_cut(struct planner *planner, size_t cloth, enum kits_cut_kind kind,
             struct rational told, struct kits_taker taker)
{
    struct kits_cloth *of = &planner->kits->cloths.items[cloth];
    struct kits_cut *cut = NULL;
    for (size_t i = 0; i < of->cuts.count && cut == NULL; i++)
        if (of->cuts.items[i].kind == kind &&
            rational_equal(of->cuts.items[i].told, told))
            cut = &of->cuts.items[i];
    if (cut == NULL) {
        const bool added = kind == CUT_AS_YARDAGE || kind == CUT_TO_SHEETS;
        cut = LIST_ADD(planner->arena, &of->cuts);
        cut->kind = kind;
        cut->told = told;
        cut->length = added ? rational_add(told, planner->order->over) : told;
    }
    cut->count += taker.count;
    const size_t last = cut->takers.count - 1;
    if (cut->takers.count > 0 && cut->takers.items[last].line == taker.line &&
        cut->takers.items[last].content == taker.content) {
        cut->takers.items[last].each += taker.each;
        cut->takers.items[last].count += taker.count;
        return;
    }
    *LIST_ADD(planner->arena, &cut->takers) = taker;
}

/* ensures: a content of the kits of this line, without an amount. */
static struct kits_content *add_content(const struct filling *f,
                                        enum kits_part part)
{
    struct planner *planner = f->planner;
    const size_t cloth = find_cloth(planner, f->line, f->fabric);
    struct kits_content *content =
        LIST_ADD(planner->arena, &planner->kits->lines[f->line].contents);
    *content =
        (struct kits_content){.cloth = cloth,
                              .letter = f->fabric->letter,
                              .role = f->fabric->role,
                              .part = part,
                              .binding = f->binding && part == PART_OF_TOP,
                              .length = rational_whole(0),
                              .used = rational_whole(0),
                              .cost = rational_unknown(),
                              .grams = rational_unknown(),
                              .grams_error = rational_unknown()};
    return content;
}

/* Of the content that was added last. */
static void take(const struct filling *f, enum kits_cut_kind kind,
                 struct rational told, size_t each)
{
    const struct kits_line *line = &f->planner->kits->lines[f->line];
    const size_t content = line->contents.count - 1;
    add_cut(f->planner, line->contents.items[content].cloth, kind, told,
            (struct kits_taker){.line = f->line,
                                .content = content,
                                .each = each,
                                .count = each * asked(f)->kits});
}

/* A booklet in the other system tells lengths that no ruler here has: they are
 * cut a little longer, by less than 1/8 in or 1 mm. */
static struct rational on_ruler(const struct filling *f, struct rational length)
{
    const enum length_unit units = f->planner->order->units;
    return f->planner->facts[f->line]->units == units
               ? length
               : rational_round_up(rational_mul(length, f->factor),
                                   units == UNIT_CM ? rational_make(1, 10)
                                                    : rational_make(1, 8));
}

/* One piece of cloth, as long as the booklet says. Nothing is added where
 * nothing is needed, as of a cloth for binding that stays out. */
static void fill_length(const struct filling *f, enum kits_part part,
                        struct rational amount, struct rational width)
{
    if (rational_sign(amount) <= 0)
        return;
    struct kits_content *content = add_content(f, part);
    content->length = on_ruler(f, amount);
    need_width(f->planner, content->cloth, f->line,
               rational_mul(width, f->factor));
    take(f, CUT_AS_YARDAGE, content->length, 1);
}

/* Strips of one height in one kit are told once, however the booklet cuts them.
 */
static void add_strips(const struct filling *f, struct kit_strips strips)
{
    const struct kits_line *line = &f->planner->kits->lines[f->line];
    struct kits_content *content =
        &line->contents.items[line->contents.count - 1];
    for (size_t i = 0; i < content->strips.count; i++)
        if (rational_equal(content->strips.items[i].height, strips.height)) {
            content->strips.items[i].count += strips.count;
            content->strips.items[i].binding &= strips.binding;
            return;
        }
    *LIST_ADD(f->planner->arena, &content->strips) = strips;
}

/* Each height is a cut of its own. A fabric of which only binding is cut
 * goes away with the binding. */
static void fill_strips(const struct filling *f)
{
    size_t wanted = 0;
    for (size_t i = 0; i < f->fabric->strips.count; i++)
        wanted += f->binding || !f->fabric->strips.items[i].binding;
    if (wanted == 0)
        return;
    const size_t cloth = add_content(f, PART_OF_TOP)->cloth;
    need_width(f->planner, cloth, f->line,
               rational_mul(f->fabric->needed, f->factor));
    for (size_t i = 0; i < f->fabric->strips.count; i++) {
        struct kit_strips strips = f->fabric->strips.items[i];
        if (!f->binding && strips.binding)
            continue;
        strips.height = rational_mul(strips.height, f->factor);
        add_strips(f, strips);
        take(f, CUT_AS_STRIP, strips.height, strips.count);
    }
}

/* What is counted is planned by cloth and kind later; here the takers are
 * noted. The price of a piece is that of the first pattern that sells it so. */
static void fill_pieces(const struct filling *f, enum sold_as kind,
                        size_t count)
{
    struct kits_content *content = add_content(f, PART_OF_TOP);
    content->pieces = count;
    content->kind = kind;
    struct kits_cloth *cloth = &f->planner->kits->cloths.items[content->cloth];
    struct kits_pieces *pieces = NULL;
    for (size_t i = 0; i < cloth->pieces.count && pieces == NULL; i++)
        if (cloth->pieces.items[i].kind == kind)
            pieces = &cloth->pieces.items[i];
    if (pieces == NULL) {
        pieces = LIST_ADD(f->planner->arena, &cloth->pieces);
        pieces->kind = kind;
        pieces->price = rational_unknown();
        pieces->length = rational_whole(0);
    }
    const struct kits_taker taker = {
        .line = f->line,
        .content = f->planner->kits->lines[f->line].contents.count - 1,
        .each = count,
        .count = count * asked(f)->kits};
    pieces->needed += taker.count;
    *LIST_ADD(f->planner->arena, &pieces->takers) = taker;
    if (!rational_known(pieces->price) && f->fabric->sold == kind)
        pieces->price = f->fabric->price;
}

/* Is there a piece of the fabric that this kit holds? */
static bool anything_cut(const struct filling *f)
{
    for (size_t i = 0; i < f->fabric->pieces.count; i++)
        if (f->binding || !f->fabric->pieces.items[i].binding)
            return true;
    return false;
}

/* Pieces of the top, and the binding where it goes into the kit. */
static void fill_top(const struct filling *f)
{
    const struct kit_fabric *fabric = f->fabric;
    const enum kit_style style = asked(f)->style;
    if (!anything_cut(f))
        return;
    if (style == KIT_CUT) {
        add_content(f, PART_OF_TOP);
        fill_bag(f->planner, f->line,
                 f->planner->kits->lines[f->line].contents.count - 1, fabric);
        return;
    }
    if (fabric->sold != SOLD_YARDAGE) {
        fill_pieces(f, fabric->sold, fabric->sheets);
        return;
    }
    const size_t quarters =
        style == KIT_FAT_QUARTERS
            ? quarters_of(f->planner, fabric, f->planner->facts[f->line]->units,
                          f->binding)
            : 0;
    if (quarters > 0)
        fill_pieces(f, SOLD_FAT_QUARTER, quarters);
    else if (style == KIT_STRIPS)
        fill_strips(f);
    else
        fill_length(f, PART_OF_TOP,
                    f->binding ? fabric->amount : fabric->amount_unbound,
                    fabric->needed);
}

/* Backing is lengths whatever the style: its panels are whole widths. */
static void fill_line(struct planner *planner, size_t line)
{
    const struct kit_facts *facts = planner->facts[line];
    struct filling f = {.planner = planner,
                        .line = line,
                        .factor =
                            length_factor(facts->units, planner->order->units)};
    for (size_t i = 0; i < facts->fabrics.count; i++) {
        f.fabric = &facts->fabrics.items[i];
        f.binding =
            asked(&f)->binding && facts->binding && facts->binding_fabric == i;
        fill_top(&f);
    }
    if (!facts->backing || !asked(&f)->backing)
        return;
    f.fabric = &facts->fabrics.items[facts->backing_fabric];
    f.binding = false;
    fill_length(&f, PART_OF_BACKING, facts->backing_amount, f.fabric->width);
}

/* Line by line, so that takers stand in the order of the lines. */
void fill_contents(struct planner *planner)
{
    for (size_t i = 0; i < planner->order->lines.count; i++)
        fill_line(planner, i);
}
