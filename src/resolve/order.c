/* An order of kits: elements become facts. Of what an element lacks, or has
 * wrong, reading has told; such an element is left out, or has what holds where
 * nothing is written. Read next: order_shelf.c. */
#include "ordering.h"

#include <string.h>

#include "named_file.h"
#include "trade.h"

/* In the order of the choices. */
const char *kit_style_name(enum kit_style style)
{
    static const char *const names[] = {"yardage", "fat-quarters", "strips",
                                        "cut"};
    return names[style];
}

/* The words that a source has, and one more for what is bought as pieces. */
const char *order_sold_name(enum order_sold sold)
{
    static const char *const names[] = {"bolt",         "yard",  "half-yard",
                                        "quarter-yard", "meter", "tenth-meter",
                                        "fat-quarter",  "piece"};
    return names[sold];
}

/* A value that could not be read was told; what holds without it lets the
 * rest be looked at. */
struct rational order_length(const struct element *element,
                             enum attribute_id id, struct rational otherwise)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? otherwise : value->number;
}

/* Parts of one are what sums need. */
struct rational order_percent(const struct element *element,
                              enum attribute_id id, struct rational otherwise)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? otherwise
                         : rational_div(value->number, rational_whole(100));
}

/* From 1 on, as reading has it. */
size_t order_whole(const struct element *element, enum attribute_id id,
                   size_t otherwise)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? otherwise : (size_t)value->whole;
}

/* The place in the list of choices. */
int order_choice(const struct element *element, enum attribute_id id,
                 int otherwise)
{
    const struct value *value = value_of(element, id);
    return value == NULL ? otherwise : value->choice;
}

/* ---- lines ---- */

/* Things without a cost are counted, too: they must be in the bag. */
static void add_extra(struct run *run, struct order_line *line,
                      const struct element *element)
{
    if (element->faulty)
        return;
    *LIST_ADD(run->arena, &line->extras) = (struct order_extra){
        .element = element,
        .name = text_of(element, ATTR_NAME, ""),
        .cost = order_length(element, ATTR_COST, rational_whole(0)),
        .count = order_whole(element, ATTR_COUNT, 1)};
}

/* What is in a kit unless it is said: the top and its binding, as trade has
 * it more often than not. Backing, batting and thread mostly come from the
 * buyer. */
static void add_line(struct run *run, struct order *order,
                     const struct element *element)
{
    struct order_line *line = LIST_ADD(run->arena, &order->lines);
    *line = (struct order_line){
        .element = element,
        .number = order->lines.count,
        .file = text_of(element, ATTR_PATTERN, ""),
        .quilt = text_of(element, ATTR_QUILT, ""),
        .colorway = text_of(element, ATTR_COLORWAY, ""),
        .kits = order_whole(element, ATTR_KITS, 1),
        .style = (enum kit_style)order_choice(element, ATTR_STYLE, KIT_YARDAGE),
        .backing = order_choice(element, ATTR_IN_BACKING, 0) == 1,
        .binding = order_choice(element, ATTR_IN_BINDING, 0) == 0,
        .batting = order_choice(element, ATTR_IN_BATTING, 0) == 1,
        .thread = order_choice(element, ATTR_IN_THREAD, 0) == 1,
        .price = order_length(element, ATTR_PRICE, rational_unknown())};
    for (size_t i = 0; i < element->children.count; i++)
        add_extra(run, line, element->children.items[i]);
}

/* ---- cloths ---- */

/* Reading has made sure of the six digits. */
long color_number(const char *text)
{
    long number = 0;
    for (const char *c = text + 1; *c != '\0'; c++) {
        const int digit = *c <= '9' ? *c - '0' : (*c | 0x20) - 'a' + 10;
        number = number * 16 + digit;
    }
    return number;
}

/* Sold by the bolt where its length is told. Shops of centimetres count in
 * meters. */
static enum order_sold sold_of(const struct order *order,
                               const struct element *element)
{
    const int otherwise = value_of(element, ATTR_BOLT_LENGTH) != NULL
                              ? SELL_BOLT
                          : order->units == UNIT_CM ? SELL_METER
                                                    : SELL_YARD;
    return (enum order_sold)order_choice(element, ATTR_ORDER_SOLD, otherwise);
}

/* reports: a cloth that no pattern could mean, or a bolt of no length. ensures:
 * false where it did. */
static bool cloth_holds(struct run *run, const struct order_cloth *cloth)
{
    struct diagnostic *d;
    if (cloth->code[0] == '\0' && cloth->name[0] == '\0') {
        d = diag_report(run, DIAG_MISSING_ATTRIBUTE, cloth->element->name,
                        "`cloth` needs a `code` or a `name`");
        diag_help(run, d, "write what the patterns call it");
        return false;
    }
    if (cloth->sold == SELL_BOLT && !rational_known(cloth->bolt)) {
        d = diag_report(run, DIAG_MISSING_ATTRIBUTE, cloth->element->name,
                        "a cloth that is sold by the bolt needs `bolt`, the "
                        "length of one");
        diag_help(run, d, "measure or ask: bolts have 10, 15 or 20 yards");
        return false;
    }
    return true;
}

/* reports: a second one of a code or, without one, of a name and color. */
static bool is_second_cloth(struct run *run, const struct order *order,
                            const struct order_cloth *cloth)
{
    for (size_t i = 0; i < order->cloths.count; i++) {
        const struct order_cloth *other = &order->cloths.items[i];
        if (strcmp(other->code, cloth->code) != 0 ||
            (cloth->code[0] == '\0' && (strcmp(other->name, cloth->name) != 0 ||
                                        other->color != cloth->color)))
            continue;
        const enum attribute_id id =
            cloth->code[0] == '\0' ? ATTR_NAME : ATTR_CODE;
        struct diagnostic *d = diag_report(
            run, DIAG_DOUBLE_NAME, value_span(cloth->element, id),
            "a second cloth with the %s %s", attribute_name(id),
            quoted(run->arena, id == ATTR_NAME ? cloth->name : cloth->code));
        diag_note(run, d, value_span(other->element, id), "the first one");
        diag_help(run, d, "tell a cloth once; its bolts are told apart");
        return true;
    }
    return false;
}

/* One with a mistake is left out, and its lines then have what patterns say:
 * no second message comes of that. */
static void add_cloth(struct run *run, struct order *order,
                      const struct element *element)
{
    const struct value *color = value_of(element, ATTR_COLOR);
    const struct rational unknown = rational_unknown();
    const struct order_cloth cloth = {
        .element = element,
        .code = text_of(element, ATTR_CODE, ""),
        .name = text_of(element, ATTR_NAME, ""),
        .color = color == NULL ? -1 : color_number(color->text),
        .supplier = text_of(element, ATTR_SUPPLIER, ""),
        .shelf = text_of(element, ATTR_SHELF, ""),
        .fiber = text_of(element, ATTR_FIBER, ""),
        .bolt = order_length(element, ATTR_BOLT_LENGTH, unknown),
        .sold = sold_of(order, element),
        .price = order_length(element, ATTR_PRICE, unknown),
        .width = order_length(element, ATTR_WIDTH, unknown),
        .grams = order_length(element, ATTR_GRAMS, unknown),
        .grams_error = order_percent(element, ATTR_GRAMS_ERROR, unknown)};
    if (!element->faulty && cloth_holds(run, &cloth) &&
        !is_second_cloth(run, order, &cloth))
        *LIST_ADD(run->arena, &order->cloths) = cloth;
}

/* ---- the order ---- */

/* An include stands where what it brought in stands behind it. */
static void add_child(struct run *run, struct order *order,
                      const struct element *element)
{
    if (element->kind == ELEMENT_LINE)
        add_line(run, order, element);
    else if (element->kind == ELEMENT_ORDER_CLOTH)
        add_cloth(run, order, element);
    else if (element->kind == ELEMENT_LABELS)
        resolve_labels(run, order, element);
    else if (!element->faulty && element->kind != ELEMENT_INCLUDE)
        resolve_shelf(run, order, element);
}

/* Nothing is spare, added or lost unless the order says so; ends of half a yard
 * or half a meter are worth keeping (our choice: less than 18 in goes with the
 * last cut, as one shop has it). */
static void read_terms(struct order *order, const struct element *root)
{
    static const int digits[] = {2, 0, 3};
    const struct rational none = rational_whole(0);
    order->currency = text_of(root, ATTR_CURRENCY, "");
    order->digits = digits[order_choice(root, ATTR_DIGITS, 0)];
    order->over = order_length(root, ATTR_OVER, none);
    order->spare = order_percent(root, ATTR_SPARE, none);
    order->end_loss = order_length(root, ATTR_END_LOSS, none);
    order->keep = order_length(
        root, ATTR_KEEP, rational_whole(order->units == UNIT_CM ? 50 : 18));
    order->layers = (size_t)order_choice(root, ATTR_ORDER_LAYERS, 3) + 1;
    order->language = text_of(root, ATTR_LANGUAGE, "en");
    order->paper = order_choice(root, ATTR_PAPER, -1);
}

/* ---- how much one order may be ---- */

/* With these an order of small patterns is planned and its papers are drawn
 * within a minute (bolts.pdf has a line for each cut). */
enum { LINES_MOST = 1000, THINGS_MOST = 5000, KITS_MOST = 20000 };

static void report_most(struct run *run, struct span span, const char *things,
                        size_t most)
{
    struct diagnostic *d = diag_report(
        run, DIAG_LIMIT, span, "an order has at most %zu %s", most, things);
    diag_help(run, d,
              "make two of it: the second includes `next-shelf.xml` of the "
              "first");
}

/* All that is no line counts together, children with it. */
static size_t count_things(const struct element *element)
{
    size_t count = element->kind != ELEMENT_LINE;
    for (size_t i = 0; i < element->children.count; i++)
        count += count_things(element->children.items[i]);
    return count;
}

/* reports: the first of each kind that is one too many. */
static void check_size(struct run *run, const struct element *root)
{
    size_t lines = 0, things = 0, kits = 0;
    for (size_t i = 0; i < root->children.count; i++) {
        const struct element *child = root->children.items[i];
        const size_t before[] = {lines, things, kits};
        lines += child->kind == ELEMENT_LINE;
        things += count_things(child);
        if (child->kind == ELEMENT_LINE)
            kits += order_whole(child, ATTR_KITS, 0);
        if (lines > LINES_MOST && before[0] <= LINES_MOST)
            report_most(run, child->name, "lines", LINES_MOST);
        if (things > THINGS_MOST && before[1] <= THINGS_MOST)
            report_most(run, child->name,
                        "cloths, bolts, flaws, pieces and extras together",
                        THINGS_MOST);
        if (kits > KITS_MOST && before[2] <= KITS_MOST)
            report_most(run, value_span(child, ATTR_KITS), "kits together",
                        KITS_MOST);
    }
}

/* The units are known before a length is asked for. Cloths come in their order,
 * so a bolt may stand before its cloth. */
struct order *resolve_order(struct run *run, const struct element *root)
{
    struct order *order = ARENA_NEW(run->arena, struct order);
    const bool metric = order_choice(root, ATTR_UNITS, 0) == 1;
    order->root = root;
    order->units = metric ? UNIT_CM : UNIT_IN;
    order->id = text_of(root, ATTR_ID, "");
    order->title = text_of(root, ATTR_TITLE, "");
    order->date = text_of(root, ATTR_DATE, "");
    read_terms(order, root);
    check_size(run, root);
    for (size_t i = 0; i < root->children.count; i++)
        add_child(run, order, root->children.items[i]);
    return order;
}

/* As if every attribute were left out, and no file were there to point into. */
struct order *order_of_one(struct arena *arena, enum length_unit units,
                           const char *file, const char *quilt,
                           const char *colorway, size_t kits,
                           enum kit_style style)
{
    const struct rational none = rational_whole(0);
    struct order *order = ARENA_NEW(arena, struct order);
    *order = (struct order){.id = "kits",
                            .title = "Kits",
                            .date = "",
                            .currency = "",
                            .digits = 2,
                            .units = units,
                            .language = "en",
                            .paper = -1,
                            .over = none,
                            .spare = none,
                            .end_loss = none,
                            .keep = rational_whole(units == UNIT_CM ? 50 : 18),
                            .layers = 4};
    *LIST_ADD(arena, &order->lines) =
        (struct order_line){.number = 1,
                            .file = file,
                            .quilt = quilt,
                            .colorway = colorway,
                            .kits = kits,
                            .style = style,
                            .binding = true,
                            .price = rational_unknown()};
    return order;
}

/* Below the folder of the order only, as all that a source names. */
const struct file_content *read_line_pattern(struct run *run,
                                             const struct order_line *line)
{
    static const struct file_kind kind = {
        .attribute = ATTR_PATTERN,
        .code = DIAG_KIT_PATTERN,
        .thing = "pattern",
        .kinds = "an XML file whose root is `pattern`",
        .most_bytes = SOURCE_LIMIT_BYTES,
        .too_large = "is larger than 16 MiB",
        .smaller = "a pattern and all that it includes hold 16 MiB at most",
        .from = "order"};
    const struct value *value = value_of(line->element, ATTR_PATTERN);
    return value == NULL ? NULL : read_named_file(run, &kind, value);
}
