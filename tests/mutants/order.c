/* Mistakes of order: children that change places; steps moved, dropped,
 * doubled. */
#include <string.h>

#include "mutants.h"

/* From the start tag to the end tag. */
static struct span whole_element(const struct sample *sample,
                                 const struct element *element)
{
    const char *bytes = sample->source->bytes;
    if (bytes[element->tag.end - 2] == '/')
        return element->tag;
    const char *end = strchr(bytes + element->content.end, '>');
    return (struct span){element->tag.start, (uint32_t)(end - bytes) + 1};
}

/* Children that could stand in each other's place: pieces, corners, borders
 * and steps among their like. */
enum group { GROUP_NONE, GROUP_PIECE, GROUP_CORNER, GROUP_BORDER, GROUP_STEP };

static enum group group_of(const struct element *element)
{
    static const enum group groups[ELEMENT_COUNT] = {
        [ELEMENT_PATCH] = GROUP_PIECE,
        [ELEMENT_ROW] = GROUP_PIECE,
        [ELEMENT_COLUMN] = GROUP_PIECE,
        [ELEMENT_GRID] = GROUP_PIECE,
        [ELEMENT_USE] = GROUP_PIECE,
        [ELEMENT_DIAGONAL] = GROUP_PIECE,
        [ELEMENT_HALF_SQUARE] = GROUP_PIECE,
        [ELEMENT_QUARTER_SQUARE] = GROUP_PIECE,
        [ELEMENT_HALF_RECTANGLE] = GROUP_PIECE,
        [ELEMENT_STAR] = GROUP_PIECE,
        [ELEMENT_CORNER] = GROUP_CORNER,
        [ELEMENT_BORDER] = GROUP_BORDER,
        [ELEMENT_STEP] = GROUP_STEP};
    return groups[element->kind];
}

static void swap_children(struct sample *sample, const struct element *element)
{
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *a = element->children.items[i];
        const enum group group = group_of(a);
        const enum rule rule =
            group == GROUP_PIECE ? setting_rule(sample, element) : RULE_NONE;
        for (size_t k = i + 1;
             group != GROUP_NONE && k < element->children.count; k++) {
            const struct element *b = element->children.items[k];
            if (group_of(b) == group)
                mutant_swap(sample, KIND_CHILDREN, rule,
                            whole_element(sample, a), whole_element(sample, b));
        }
    }
}

/* The step goes to where step `to` is; the steps between close up. */
static void move_step(struct sample *sample, const struct element *element,
                      size_t from, size_t to)
{
    const struct span span =
        whole_element(sample, element->children.items[from]);
    const struct span other =
        whole_element(sample, element->children.items[to]);
    const uint32_t at = to < from ? other.start : other.end;
    const struct edit out = {span, ""};
    const struct edit in = {{at, at}, sample_text(sample, span)};
    const struct edit edits[2] = {to < from ? in : out, to < from ? out : in};
    mutant_add(sample, KIND_STEP_MOVED, RULE_NONE, edits, 2);
}

static void mutate_steps(struct sample *sample, const struct element *element)
{
    for (size_t i = 0; i < element->children.count; i++) {
        const struct span span =
            whole_element(sample, element->children.items[i]);
        mutant_replace(sample, KIND_STEP_DROPPED, RULE_NONE, span, "");
        mutant_replace(sample, KIND_STEP_DOUBLED, RULE_NONE,
                       (struct span){span.end, span.end},
                       sample_text(sample, span));
        for (size_t k = 0; k < element->children.count; k++)
            if (k != i)
                move_step(sample, element, i, k);
    }
}

void mutate_order(struct sample *sample, const struct element *element)
{
    if (element->kind == ELEMENT_ASSEMBLY)
        mutate_steps(sample, element);
    swap_children(sample, element);
}
