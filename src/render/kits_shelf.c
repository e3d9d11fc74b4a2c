/* What lies on the shelf when the kits are cut, as a file that the next order
 * includes. It stands in the order of age, and every length has its unit, so
 * that the next order may count in the other one. */
#include <string.h>

#include "buffer.h"
#include "render.h"

struct shelf {
    struct buffer out;
    const struct kits *kits;
};

/* The five characters that XML has names for. Others that it has no place for
 * never come out of one. */
static void add_quoted(struct buffer *out, const char *name, const char *text)
{
    buffer_printf(out, " %s=\"", name);
    for (; *text != '\0'; text++)
        switch (*text) {
        case '&':
            buffer_text(out, "&amp;");
            break;
        case '<':
            buffer_text(out, "&lt;");
            break;
        case '>':
            buffer_text(out, "&gt;");
            break;
        case '"':
            buffer_text(out, "&quot;");
            break;
        default:
            buffer_char(out, *text);
        }
    buffer_char(out, '"');
}

/* Exact, as the order's own lengths were read. */
static void add_length(struct shelf *s, const char *name,
                       struct rational length)
{
    const enum length_unit units = s->kits->order->units;
    add_quoted(&s->out, name,
               arena_printf(s->out.arena, "%s %s",
                            length_plain(s->out.arena, length, units),
                            length_unit_name(units)));
}

/* Flaws stay with a bolt that was not opened; of one that was, they were cut
 * out. */
static void add_bolt(struct shelf *s, const char *of,
                     const struct order_bolt *bolt, struct rational length,
                     bool whole)
{
    buffer_text(&s->out, "  <bolt");
    add_quoted(&s->out, "of", of);
    add_length(s, "length", length);
    if (bolt != NULL && rational_known(bolt->width))
        add_length(s, "width", bolt->width);
    if (bolt != NULL && bolt->lot[0] != '\0')
        add_quoted(&s->out, "lot", bolt->lot);
    if (!whole || bolt->flaws.count == 0) {
        buffer_text(&s->out, "/>\n");
        return;
    }
    buffer_text(&s->out, ">");
    for (size_t i = 0; i < bolt->flaws.count; i++) {
        buffer_text(&s->out, " <flaw");
        add_length(s, "from", bolt->flaws.items[i].from);
        add_length(s, "to", bolt->flaws.items[i].to);
        buffer_text(&s->out, "/>");
    }
    buffer_text(&s->out, " </bolt>\n");
}

/* As `of` names it. */
static const char *code_of(const struct kits_cloth *cloth)
{
    return cloth->code[0] != '\0' ? cloth->code : cloth->name;
}

/* Ends of one bolt, whatever cloth it is of; NULL: of those bought. ensures:
 * false where no cloth of the order took it up. */
static bool add_ends(struct shelf *s, const struct order_bolt *bolt,
                     const char *of)
{
    bool known = false;
    for (size_t i = 0; i < s->kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &s->kits->cloths.items[i];
        known |= of != NULL && strcmp(of, code_of(cloth)) == 0;
        for (size_t k = 0; k < cloth->ends.count; k++) {
            const struct kits_end *end = &cloth->ends.items[k];
            if (end->bolt == bolt)
                add_bolt(s, code_of(cloth), bolt, end->length, end->whole);
        }
    }
    return known;
}

/* One element counts to ten thousand, as reading has it. */
static void add_pieces(struct shelf *s, const char *of, enum sold_as kind,
                       size_t count)
{
    static const char *const kinds[] = {[SOLD_FAT_EIGHTH] = "fat-eighth",
                                        [SOLD_TEN_INCH] = "ten-inch-square",
                                        [SOLD_FIVE_INCH] = "five-inch-square",
                                        [SOLD_STRIP] = "strip"};
    enum { COUNT_MOST = 10000 }; /* of one element */
    while (count > 0) {
        const size_t now = count < COUNT_MOST ? count : COUNT_MOST;
        buffer_text(&s->out, kind == SOLD_FAT_QUARTER ? "  <fat-quarters"
                                                      : "  <precuts");
        add_quoted(&s->out, "of", of);
        if (kind != SOLD_FAT_QUARTER)
            add_quoted(&s->out, "kind", kinds[kind]);
        buffer_printf(&s->out, " count=\"%zu\"/>\n", now);
        count -= now;
    }
}

/* Was it counted for kits? Then what is left of it is told by its cloth. */
static bool is_counted(const struct kits *kits,
                       const struct order_pieces *pieces)
{
    for (size_t i = 0; i < kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &kits->cloths.items[i];
        for (size_t k = 0; k < cloth->pieces.count; k++)
            if (cloth->pieces.items[k].kind == pieces->kind &&
                strcmp(pieces->of, code_of(cloth)) == 0)
                return true;
    }
    return false;
}

/* First the bolts in their old order, so that the oldest stays first, then
 * ends of new ones. Stock that this order knew nothing of is handed on. */
const char *render_next_shelf(struct arena *arena, const struct kits *kits)
{
    struct shelf s = {.out = buffer_in(arena), .kits = kits};
    const struct order *order = kits->order;
    buffer_text(&s.out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                        "<shelf xmlns=\"urn:seamwright:pattern:1\">\n");
    for (size_t i = 0; i < order->bolts.count; i++) {
        const struct order_bolt *bolt = &order->bolts.items[i];
        if (!add_ends(&s, bolt, bolt->of))
            add_bolt(&s, bolt->of, bolt, bolt->length, true);
    }
    add_ends(&s, NULL, NULL);
    for (size_t i = 0; i < order->pieces.count; i++)
        if (!is_counted(kits, &order->pieces.items[i]))
            add_pieces(&s, order->pieces.items[i].of,
                       order->pieces.items[i].kind,
                       order->pieces.items[i].count);
    for (size_t i = 0; i < kits->cloths.count; i++) {
        const struct kits_cloth *cloth = &kits->cloths.items[i];
        for (size_t k = 0; k < cloth->pieces.count; k++)
            add_pieces(&s, code_of(cloth), cloth->pieces.items[k].kind,
                       cloth->pieces.items[k].left);
    }
    buffer_text(&s.out, "</shelf>\n");
    return buffer_string(&s.out);
}
