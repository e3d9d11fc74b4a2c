/* Orders of kits that were harmed, and orders made up: endless, nested, with
 * counts at every edge, with shelves that include each other. All but the order
 * is mostly sound, so that what is planned comes into reach. */
#include <string.h>

#include "hostile.h"
#include "pattern.h"

#define NAMESPACE " xmlns=\"urn:seamwright:pattern:1\""

/* Two colorways, a cloth that is sold by the piece, a border, a backing. */
const char order_pattern[] =
    "<pattern" NAMESPACE " id=\"quay\" title=\"Quay\">\n"
    "  <fabrics> <fabric id=\"tar\" key=\"t\"/> <fabric id=\"rope\" "
    "key=\"r\"/> "
    "</fabrics>\n"
    "  <colorway id=\"noon\">\n"
    "    <cloth fabric=\"tar\" name=\"Tar cotton\" color=\"#23272e\" "
    "code=\"T-1\" price=\"9.50\"/>\n"
    "    <cloth fabric=\"rope\" name=\"Rope linen\" color=\"#c9b48a\" "
    "code=\"R-1\" price=\"2.10\" sold=\"fat-quarter\"/>\n"
    "  </colorway>\n"
    "  <colorway id=\"dusk\">\n"
    "    <cloth fabric=\"tar\" name=\"Tar cotton\" color=\"#23272e\" "
    "code=\"T-1\" price=\"9.50\"/>\n"
    "    <cloth fabric=\"rope\" name=\"Rust linen\" color=\"#9a5a34\"/>\n"
    "  </colorway>\n"
    "  <block id=\"mole\" grid=\"2\"> <grid across=\"2\" down=\"2\">\n"
    "    <half-square line=\"rising\" left=\"rope\" right=\"tar\" "
    "size=\"1\"/> "
    "<patch fabric=\"tar\"/>\n"
    "    <patch fabric=\"rope\"/> "
    "<half-square line=\"rising\" left=\"tar\" right=\"rope\"/>\n"
    "  </grid> </block>\n"
    "  <quilt id=\"mat\"> <grid across=\"2\" down=\"3\"> "
    "<use block=\"mole\" finished=\"6\"/> </grid>\n"
    "    <border fabric=\"tar\" width=\"2\"/> <backing fabric=\"tar\"/> "
    "<batting/> <binding fabric=\"rope\"/> </quilt>\n"
    "</pattern>\n";

static const char sound_order[] =
    "<order" NAMESPACE " id=\"quay-fair\" title=\"Quay fair\" "
    "date=\"2026-11-30\" currency=\"EUR\"\n"
    "       digits=\"2\" units=\"in\" over=\"1/2\" spare=\"5\" end-loss=\"2\" "
    "keep=\"18\" layers=\"4\" language=\"de\" paper=\"a4\">\n"
    "  <line pattern=\"quay.xml\" quilt=\"mat\" colorway=\"noon\" kits=\"4\" "
    "price=\"60.00\" backing=\"in\">\n"
    "    <extra name=\"Booklet\" cost=\"1.10\" count=\"1\"/> </line>\n"
    "  <line pattern=\"quay.xml\" quilt=\"mat\" colorway=\"dusk\" kits=\"3\" "
    "style=\"cut\" binding=\"out\" thread=\"in\"/>\n"
    "  <line pattern=\"quay.xml\" quilt=\"mat\" colorway=\"dusk\" kits=\"2\" "
    "style=\"strips\" batting=\"in\"/>\n"
    "  <cloth code=\"T-1\" name=\"Tar\" color=\"#202020\" supplier=\"55-1\" "
    "bolt=\"12 yd\" price=\"70.00\" width=\"42\"\n"
    "         shelf=\"A1\" fiber=\"100 % cotton\" grams=\"140\" "
    "grams-error=\"2\"/>\n"
    "  <cloth code=\"R-1\" sold=\"half-yard\" price=\"3.30\" width=\"41 "
    "1/2\"/>\n"
    "  <bolt of=\"T-1\" length=\"96 1/4\" width=\"42\" lot=\"2\"> "
    "<flaw from=\"20\" to=\"21 1/2\"/> <flaw from=\"60\" to=\"61\"/> </bolt>\n"
    "  <bolt of=\"Rust linen\" length=\"30\"/>\n"
    "  <fat-quarters of=\"R-1\" count=\"3\"/>\n"
    "  <labels columns=\"3\" rows=\"8\" width=\"2 1/2\" height=\"1 1/4\" "
    "left=\"1/4\" top=\"1/2\" across=\"2 5/8\" down=\"1 1/4\" paper=\"letter\" "
    "start=\"3\" offset-x=\"-1/8\" offset-y=\"1/16\"/>\n"
    "</order>\n";

static void add_pattern(struct making *m, struct buffer *out)
{
    if (below(m, 40) == 0)
        return;
    buffer_text(out, FILE_MARK "quay.xml\n");
    buffer_text(out, order_pattern);
}

/* As sources are harmed, now and then twice. */
static void harmed(struct making *m, struct buffer *out)
{
    size_t count;
    const struct kind *kinds = harmed_kinds(&count);
    const char *text = sound_order;
    for (size_t i = below(m, 3) / 2 + 1; i > 0; i--) {
        struct making once = *m;
        struct buffer next = buffer_in(m->arena);
        once.samples = &text;
        once.sample_count = 1;
        kinds[below(&once, count)].make(&once, &next);
        m->random = once.random;
        text = buffer_string(&next);
    }
    buffer_text(out, text);
    add_pattern(m, out);
}

/* The pattern was harmed, and the order was not. */
static void pattern_harmed(struct making *m, struct buffer *out)
{
    size_t count;
    const struct kind *kinds = harmed_kinds(&count);
    const char *text = order_pattern;
    struct making once = *m;
    once.samples = &text;
    once.sample_count = 1;
    buffer_text(out, sound_order);
    buffer_text(out, FILE_MARK "quay.xml\n");
    kinds[below(&once, count)].make(&once, out);
}

static void put_order(struct buffer *out)
{
    buffer_text(out,
                "<order" NAMESPACE " id=\"o\" title=\"O\" over=\"1/2\">\n");
}

static void put_line(struct buffer *out, const char *kits)
{
    buffer_printf(out,
                  "<line pattern=\"quay.xml\" quilt=\"mat\" colorway=\"noon\" "
                  "kits=\"%s\"/>\n",
                  kits);
}

/* Elements that only orders have, with any attributes and any children. */
static void made_up(struct making *m, struct buffer *out)
{
    put_order(out);
    if (below(m, 3) > 0)
        put_line(out, "2");
    for (size_t i = below(m, 6) + 1; i > 0; i--) {
        const enum element_kind kind = (enum element_kind)(
            ELEMENT_ORDER + (int)below(m, ELEMENT_COUNT - ELEMENT_ORDER));
        const char *name = element_name(kind);
        buffer_printf(out, "<%s", name);
        for (size_t k = 0; k < ATTRIBUTE_COUNT; k++) {
            const char *attribute = attribute_name((enum attribute_id)k);
            if (below(m, 12) == 0)
                buffer_printf(out, " %s=\"%s\"", attribute, hostile_value(m));
        }
        buffer_text(out, ">");
        for (size_t k = below(m, 3); k > 0; k--)
            random_tree(m, out, 4);
        buffer_printf(out, "</%s>\n", name);
    }
    buffer_text(out, "</order>");
    add_pattern(m, out);
}

/* A number at an edge, or now and then the sound one. */
static const char *number(struct making *m, const char *sound)
{
    return below(m, 12) == 0 ? hostile_number(m) : sound;
}

/* Every number of an order, each at an edge of its own. */
static void numbers(struct making *m, struct buffer *out)
{
    buffer_printf(out,
                  "<order" NAMESPACE " id=\"o\" title=\"O\" units=\"%s\" "
                  "over=\"%s\" spare=\"%s\" end-loss=\"%s\" keep=\"%s\" "
                  "layers=\"%s\" digits=\"%s\">\n",
                  below(m, 2) == 0 ? "in" : "cm", number(m, "1/2"),
                  number(m, "5"), number(m, "2"), number(m, "18"),
                  number(m, "4"), number(m, "2"));
    put_line(out, number(m, "3"));
    buffer_printf(out,
                  "<line pattern=\"quay.xml\" quilt=\"mat\" colorway=\"dusk\" "
                  "style=\"cut\" kits=\"%s\" price=\"%s\"> <extra name=\"E\" "
                  "cost=\"%s\" count=\"%s\"/> </line>\n",
                  number(m, "2"), number(m, "9"), number(m, "1"),
                  number(m, "1"));
    buffer_printf(out,
                  "<cloth code=\"T-1\" bolt=\"%s\" price=\"%s\" width=\"%s\" "
                  "grams=\"%s\" grams-error=\"%s\"/>\n",
                  number(m, "540"), number(m, "70"), number(m, "42"),
                  number(m, "140"), number(m, "2"));
    buffer_printf(out,
                  "<bolt of=\"T-1\" length=\"%s\" width=\"%s\"> <flaw "
                  "from=\"%s\" to=\"%s\"/> </bolt>\n",
                  number(m, "96"), number(m, "42"), number(m, "20"),
                  number(m, "21"));
    buffer_printf(out,
                  "<fat-quarters of=\"R-1\" count=\"%s\"/>\n"
                  "<labels columns=\"%s\" rows=\"%s\" width=\"%s\" "
                  "height=\"%s\" left=\"%s\" top=\"%s\" across=\"%s\" "
                  "down=\"%s\"/></order>",
                  number(m, "3"), number(m, "2"), number(m, "3"),
                  number(m, "2"), number(m, "1"), number(m, "1"),
                  number(m, "1"), number(m, "2"), number(m, "1"));
    add_pattern(m, out);
}

/* Texts that come onto papers, labels and into tables. */
static const char *name(struct making *m)
{
    if (below(m, 3) > 0)
        return "oar";
    return below(m, 3) == 0 ? long_name(m) : hostile_text(m);
}

static void names(struct making *m, struct buffer *out)
{
    buffer_printf(out,
                  "<order" NAMESPACE " id=\"%s\" title=\"a%s\" date=\"%s\" "
                  "currency=\"%s\" language=\"%s\">\n",
                  below(m, 4) == 0 ? name(m) : "o", name(m),
                  below(m, 4) == 0 ? hostile_value(m) : "2026-11-30",
                  below(m, 4) == 0 ? hostile_value(m) : "EUR",
                  below(m, 2) == 0 ? "de" : "en");
    buffer_printf(out,
                  "<line pattern=\"quay.xml\" quilt=\"mat\" colorway=\"noon\" "
                  "kits=\"2\"> <extra name=\"a%s\" cost=\"1\"/> </line>\n"
                  "<cloth code=\"T-1\" name=\"a%s\" supplier=\"%s\" "
                  "shelf=\"%s\" fiber=\"%s\"/>\n<bolt of=\"T-1\" "
                  "length=\"70\" lot=\"%s\"/>\n<bolt of=\"%s\" "
                  "length=\"70\"/></order>",
                  name(m), name(m), name(m), name(m), name(m), name(m),
                  below(m, 2) == 0 ? name(m) : "T-1");
    add_pattern(m, out);
}

/* Depth, entities, and texts where none stand. */
static void nested(struct making *m, struct buffer *out)
{
    static const char *const boxes[] = {"order", "line",   "bolt",
                                        "shelf", "labels", "x"};
    static const size_t depths[] = {2, 60, 61, 64, 65, 5000, 60000};
    const size_t depth = depths[below(m, UNIT_COUNT(depths))];
    const char *box = PICK(m, boxes);
    if (below(m, 2) == 0) {
        buffer_text(out, "<!DOCTYPE order [<!ENTITY e0 \"oooooooo\">");
        for (size_t i = 1; i <= 30; i++)
            buffer_printf(out, "<!ENTITY e%zu \"&e%zu;&e%zu;\">", i, i - 1,
                          i - 1);
        buffer_text(out, "]>");
    }
    put_order(out);
    put_line(out, "&e30;");
    for (size_t i = 0; i < depth; i++)
        buffer_printf(out, "<%s>", box);
    buffer_text(out, hostile_text(m));
    for (size_t i = below(m, 2) == 0 ? depth : below(m, depth); i > 0; i--)
        buffer_printf(out, "</%s>", box);
    buffer_text(out, "</order>");
    add_pattern(m, out);
}

/* Few kinds of elements, each again and again, and many kits. */
static void many(struct making *m, struct buffer *out)
{
    static const size_t counts[] = {1, 1, 2, 9, 100, 1500};
    static const char *const kits[] = {"1", "2", "40", "999", "10000"};
    static const char *const styles[] = {"yardage", "fat-quarters", "strips",
                                         "cut"};
    put_order(out);
    for (size_t i = counts[below(m, 6)]; i > 0; i--)
        buffer_printf(out,
                      "<line pattern=\"quay.xml\" quilt=\"mat\" "
                      "colorway=\"%s\" kits=\"%s\" style=\"%s\"/>\n",
                      below(m, 2) == 0 ? "noon" : "dusk", PICK(m, kits),
                      PICK(m, styles));
    for (size_t i = counts[below(m, 6)]; i > 0; i--)
        buffer_printf(out,
                      "<cloth code=\"%s%zu\" bolt=\"%zu\" price=\"1.%zu\"/>",
                      below(m, 9) == 0 ? "T-" : "N-", i, below(m, 900) + 1, i);
    for (size_t i = counts[below(m, 6)]; i > 0; i--) {
        const size_t length = below(m, 400) + 1;
        buffer_printf(out,
                      "<bolt of=\"%s\" length=\"%zu %zu/%zu\" lot=\"%zu\">",
                      below(m, 3) == 0 ? "Rust linen" : "T-1", length,
                      below(m, 7), below(m, 8) + 1, i);
        for (size_t k = below(m, 9) == 0 ? counts[below(m, 5)] : 0; k > 0; k--)
            buffer_printf(out, "<flaw from=\"%zu\" to=\"%zu\"/>",
                          below(m, length), length - below(m, length));
        buffer_text(out, "</bolt>\n");
    }
    buffer_text(out, "</order>");
    add_pattern(m, out);
}

/* What lies on the shelf is written elsewhere: in a circle, twice, as an order,
 * as a pattern; and lines that name what is no pattern. */
static void shelves(struct making *m, struct buffer *out)
{
    static const char *const files[] = {
        "shelf-1.xml", "shelf-2.xml", "quay.xml",  "x",
        "no.xml",      "../x",        "/dev/zero", "."};
    static const char *const roots[] = {"shelf", "shelf", "shelf", "order",
                                        "shared"};
    put_order(out);
    buffer_printf(out, "<include href=\"shelf-1.xml\"/>\n");
    if (below(m, 4) == 0)
        buffer_printf(out, "<include href=\"%s\"/>\n", PICK(m, files));
    put_line(out, "2");
    if (below(m, 4) == 0)
        buffer_printf(out,
                      "<line pattern=\"%s\" quilt=\"mat\" colorway=\"noon\" "
                      "kits=\"2\"/>\n",
                      below(m, 3) == 0 ? hostile_value(m) : PICK(m, files));
    buffer_text(out, "</order>");
    add_pattern(m, out);
    for (size_t i = 1; i <= 2; i++) {
        const char *root = PICK(m, roots);
        buffer_printf(out, FILE_MARK "shelf-%zu.xml\n<%s" NAMESPACE ">", i,
                      root);
        if (below(m, 3) == 0)
            buffer_printf(out, "<include href=\"%s\"/>", PICK(m, files));
        buffer_printf(out, "<bolt of=\"T-1\" length=\"%s\"/>", number(m, "80"));
        if (below(m, 3) == 0)
            random_tree(m, out, 4);
        buffer_printf(out, "</%s>\n", root);
    }
}

const struct kind *order_kinds(size_t *count)
{
    static const struct kind kinds[] = {
        {"order-harmed", harmed, HOSTILE_ORDER},
        {"order-pattern", pattern_harmed, HOSTILE_ORDER},
        {"order-made-up", made_up, HOSTILE_ORDER},
        {"order-numbers", numbers, HOSTILE_ORDER},
        {"order-names", names, HOSTILE_ORDER},
        {"order-nested", nested, HOSTILE_ORDER},
        {"order-many", many, HOSTILE_ORDER},
        {"order-shelves", shelves, HOSTILE_ORDER},
    };
    *count = UNIT_COUNT(kinds);
    return kinds;
}
