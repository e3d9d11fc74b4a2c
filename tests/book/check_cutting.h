/* Cutting as it is drawn against cutting as it is told: cells of strips, what
 * each line gives, the count that closes a cloth, and the parts of the steps. A
 * function that looks at one booklet. What the words alone make of the cloth is
 * the matter of tests/driver/run_cut_by_words.sh. */
#ifndef SEAMWRIGHT_TESTS_CHECK_CUTTING_H
#define SEAMWRIGHT_TESTS_CHECK_CUTTING_H

#include "check_layout.h"
#include "told_cutting.h"

/* ---- lines of cutting, as they stand on the pages ---- */

/* What a numbered line gives, and the cells under its words. */
struct cut_line {
    size_t page;
    const char *gives;     /* "18 A1, 12 A2" */
    size_t folded, opened; /* cells of two layers, of one */
    bool crossed;          /* one lies beyond its cloth, or over the fold */
};
struct cut_lines {
    LIST(struct cut_line) items;
};

/* "18 A1" is printed bold, at the right. */
static inline bool tells_gift(const struct item *item)
{
    return item->kind == ITEM_TEXT && item->as.text.style.size == 9.5 &&
           item->as.text.style.face == FACE_BOLD &&
           item->as.text.style.align == ALIGN_RIGHT;
}

/* The outline over all cells of the figure that begins at an item. */
static inline struct mark_box
cloth_at(const struct visit *visit, const struct item_list *items, size_t begin)
{
    struct mark_box cloth = {{1e9, 1e9}, {-1e9, -1e9}};
    for (size_t i = begin; !closes(&items->items[i], "Figure"); i++)
        if (items->items[i].kind == ITEM_PATH &&
            items->items[i].as.path.role == ROLE_OUTLINE)
            extend_item(visit, &cloth, &items->items[i]);
    return cloth;
}

static inline bool within(const struct mark_box *cell,
                          const struct mark_box *cloth)
{
    return cell->low.x > cloth->low.x - 0.05 &&
           cell->low.y > cloth->low.y - 0.05 &&
           cell->high.x < cloth->high.x + 0.05 &&
           cell->high.y < cloth->high.y + 0.05;
}

/* Counts cells up to the end of the figure. Folded cloth shows its lower layer,
 * which has an outline; strips lie on their whole cloth, which is no cell. */
static inline void count_cells(const struct visit *visit,
                               const struct item_list *items, size_t begin,
                               struct cut_line *line)
{
    const struct mark_box cloth = cloth_at(visit, items, begin);
    size_t drawn = 0, cells = 0;
    bool lower = false;
    for (size_t i = begin; !closes(&items->items[i], "Figure"); i++) {
        const struct item *item = &items->items[i];
        if (item->kind != ITEM_PATH || item->as.path.role != ROLE_CLOTH)
            continue;
        lower |= item->as.path.stroke > 0.0;
        if (item->as.path.stroke > 0.0)
            continue;
        struct mark_box cell = {{1e9, 1e9}, {-1e9, -1e9}};
        extend_item(visit, &cell, item);
        cells += drawn++ > 0 || !within(&cloth, &cell);
        line->crossed |= !within(&cell, &cloth);
    }
    *(lower ? &line->folded : &line->opened) += cells;
}

static inline struct cut_lines lines_of_cutting(struct visit *visit)
{
    struct cut_lines lines = {.items = {0}};
    /* The section may begin in the middle of a page. */
    enum page_kind kind = PAGE_COVER;
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        for (size_t i = 0; i < items->count; i++) {
            const struct item *item = &items->items[i];
            if (is_section(item))
                kind = kind_of_head(visit, item->as.text.text);
            if (kind != PAGE_CUTTING)
                continue;
            if (tells_gift(item))
                *LIST_ADD(visit->scratch, &lines.items) =
                    (struct cut_line){.page = p, .gives = item->as.text.text};
            else if (opens(item, "Figure") && lines.items.count > 0)
                count_cells(visit, items, i,
                            &lines.items.items[lines.items.count - 1]);
        }
    }
    return lines;
}

/* ---- how many of a label a text tells ---- */

/* "18 A1, 6 A4/A5": of a label, or of all for NULL. A count and its label are
 * bound by a no-break space. */
static inline size_t told_of(const char *text, const char *label)
{
    static const char BOUND[] = "\u00a0";
    size_t sum = 0;
    for (const char *at = strstr(text, BOUND); at != NULL;
         at = strstr(at, BOUND)) {
        const char *digits = at;
        while (digits > text && digits[-1] >= '0' && digits[-1] <= '9')
            digits--;
        at += strlen(BOUND);
        const size_t length = strcspn(at, ",.");
        size_t count = 0;
        if ((label == NULL ||
             (strlen(label) == length && strncmp(label, at, length) == 0)) &&
            sscanf(digits, "%zu", &count) == 1)
            sum += count;
    }
    return sum;
}

/* Joined strips are told as "A4/A5". */
static inline const char *told_label(struct arena *arena, const char *label)
{
    const char *comma = strstr(label, ", ");
    return comma == NULL ? label
                         : told_label(arena, arena_printf(arena, "%.*s/%s",
                                                          (int)(comma - label),
                                                          label, comma + 2));
}

/* ---- what the plan says of a line ---- */

struct expected {
    size_t alike; /* how often it is cut as it is drawn */
    size_t apart; /* pieces of what is cut otherwise, and not drawn */
    bool whole;   /* nothing is cut from it */
};
struct expectations {
    LIST(struct expected) items;
};

static inline struct expected expected_of_strip(const struct fabric_plan *plan,
                                                const struct strip *strip)
{
    struct expected line = {.alike = strip->repeat - (strip->last.count > 0),
                            .whole = is_whole_strip(plan, strip)};
    for (size_t i = 0; i < strip->last.count; i++)
        line.apart += strip->last.items[i].count * strip->last.items[i].stack;
    return line;
}

/* In the order of the page: lengthwise cloth, its rests, strips; or sheets. */
static inline struct expectations expected_of(struct visit *visit,
                                              const struct fabric_plan *plan)
{
    static const enum sheet_kind order[] = {SHEET_LENGTHWISE, SHEET_REST,
                                            SHEET_BOUGHT};
    struct expectations lines = {.items = {0}};
    for (size_t k = 0; k < UNIT_COUNT(order); k++)
        for (size_t i = 0; i < plan->sheets.count; i++) {
            const struct sheet *sheet = &plan->sheets.items[i];
            if (sheet->kind != order[k])
                continue;
            *LIST_ADD(visit->scratch, &lines.items) =
                (struct expected){.alike = sheet->repeat};
        }
    for (size_t i = 0; i < plan->strips.count; i++)
        *LIST_ADD(visit->scratch, &lines.items) =
            expected_of_strip(plan, &plan->strips.items[i]);
    return lines;
}

/* Two pieces for a cell of folded cloth, one for a cell of opened cloth. */
static inline void look_at_cells(struct visit *visit,
                                 const struct cut_line *line,
                                 const struct expected *expected)
{
    const size_t drawn = 2 * line->folded + line->opened;
    const size_t pieces = drawn * expected->alike + expected->apart;
    if (line->crossed)
        breach_at(visit, 11, line->page + 1,
                  "a cell crosses the fold or the "
                  "edge of its cloth: \"%s\"",
                  line->gives);
    if (!expected->whole && pieces != told_of(line->gives, NULL))
        breach_at(visit, 11, line->page + 1, "%zu pieces are drawn for \"%s\"",
                  pieces, line->gives);
}

/* ---- the parts of the steps ---- */

/* "A2 ... x 108" over all steps, as their lines of parts print it. */
static inline size_t printed_parts(const struct visit *visit, const char *label)
{
    size_t sum = 0;
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        const char *part = "";
        for (size_t i = 0; i < items->count; i++) {
            const struct text_item *text = &items->items[i].as.text;
            size_t count = 0;
            if (opens(&items->items[i], "LI"))
                part = "";
            if (items->items[i].kind != ITEM_TEXT || text->style.size != 9.5 ||
                text->style.face != FACE_BOLD)
                continue;
            if (sscanf(text->text, "\u00d7\u00a0%zu", &count) == 1)
                sum += strcmp(part, label) == 0 ? count : 0;
            else
                part = text->text;
        }
    }
    return sum;
}

/* What a table of other sizes tells beside the lines of parts. */
static inline size_t parts_of_sizes(const struct visit *visit,
                                    const char *label)
{
    size_t sum = 0;
    for (size_t i = 0; i < visit->steps.items.count; i++)
        for (size_t s = 0; s < visit->steps.items.items[i].sizes.count; s++) {
            const struct told_parts *parts =
                &visit->steps.items.items[i].sizes.items[s].parts;
            for (size_t k = 0; k < parts->items.count; k++)
                if (strcmp(
                        word_part(&visit->wording, parts->items.items[k].heap),
                        label) == 0)
                    sum += parts->items.items[k].count;
        }
    return sum;
}

/* ---- 11 ---- */

/* Of one size: over all lines, in the count, in the steps. */
static inline void look_at_item(struct visit *visit,
                                const struct cut_line *lines, size_t count,
                                const char *closing,
                                const struct cut_item *item)
{
    const char *label = told_label(visit->scratch, item->label);
    size_t cut = 0;
    for (size_t i = 0; i < count; i++)
        cut += told_of(lines[i].gives, label);
    if (cut != item->count || told_of(closing, label) != item->count)
        breach_at(visit, 11, 0, "%zu %s in lines, %zu counted, %zu needed", cut,
                  label, told_of(closing, label), item->count);
    const size_t parts =
        printed_parts(visit, label) + parts_of_sizes(visit, label);
    if (item->use == CUT_PIECE && parts != item->count)
        breach_at(visit, 11, 0, "steps take %zu %s, %zu are cut", parts, label,
                  item->count);
}

/* The count of a cloth, as it is printed; "" where it is not there. */
static inline const char *closing_count(const struct visit *visit,
                                        const struct fabric_plan *plan)
{
    const char *wanted = tell_count(&visit->wording, plan);
    const size_t head = strcspn(wanted, ":");
    const char *label =
        arena_printf(visit->all->arena, "\u00a0%s",
                     told_label(visit->all->arena, plan->items.items[0].label));
    for (size_t p = 1; p < visit->book->pages.count; p++) {
        const struct item_list *items = &visit->book->pages.items[p]->items;
        for (size_t i = 0; i < items->count; i++)
            if (items->items[i].kind == ITEM_TEXT &&
                strncmp(items->items[i].as.text.text, wanted, head) == 0 &&
                strstr(items->items[i].as.text.text, label) != NULL)
                return items->items[i].as.text.text;
    }
    return "";
}

static inline void look_at_cutting(struct visit *visit)
{
    const struct cut_lines lines = lines_of_cutting(visit);
    size_t at = 0;
    for (size_t f = 0; f < visit->sample->design->fabrics.count; f++) {
        const struct fabric_plan *plan = &visit->plan->fabrics[f];
        if (plan->items.count == 0)
            continue;
        const struct expectations expected = expected_of(visit, plan);
        if (at + expected.items.count > lines.items.count) {
            breach_at(visit, 11, 0, "lines of cutting are missing");
            return;
        }
        const struct cut_line *own = &lines.items.items[at];
        for (size_t i = 0; i < expected.items.count; i++)
            look_at_cells(visit, &own[i], &expected.items.items[i]);
        for (size_t i = 0; i < plan->items.count; i++)
            look_at_item(visit, own, expected.items.count,
                         closing_count(visit, plan), &plan->items.items[i]);
        at += expected.items.count;
    }
    if (at != lines.items.count || at == 0)
        breach_at(visit, 11, 0, "%zu lines of cutting, %zu expected",
                  lines.items.count, at);
}

#endif
