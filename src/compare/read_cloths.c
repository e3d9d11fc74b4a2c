/* What is bought for a quilt in each colorway, how it is cut, and on which page
 * of its booklet that is told. */
#include <stdlib.h>
#include <string.h>

#include "reader.h"

static void read_cloth(struct reader *reader, const json_t *from,
                       struct revision_colorway *colorway)
{
    /* Labels follow from sizes; two plans are one where the same sizes lie in
     * the same strips. */
    static const char *const labels[] = {"label", NULL};
    const struct revision_cloth cloth = {
        .fabric = data_fabric(reader, from, "fabric"),
        .name = data_text(reader, from, "name"),
        .code = data_text(reader, from, "code"),
        .color = data_text(reader, from, "color"),
        .price = data_text(reader, from, "price"),
        .sold = data_text(reader, from, "sold"),
        .amount = data_text(reader, from, "amount"),
        .bought = data_length(reader, from, "bought"),
        .sheets = data_count(reader, from, "count"),
        .width = data_length(reader, from, "width"),
        .plan = arena_printf(
            reader->arena, "%s%s",
            data_all(reader, json_object_get(from, "strips"), labels),
            data_all(reader, json_object_get(from, "sheets"), labels))};
    *LIST_ADD(reader->arena, &colorway->cloths) = cloth;
}

/* "72 x 80" */
static const char *size_text(struct reader *reader, const json_t *size)
{
    return arena_printf(reader->arena, "%s x %s",
                        data_text(reader, size, "width"),
                        data_text(reader, size, "height"));
}

/* How much is bought; where it is in the amount of another cloth, how large it
 * is. */
static void read_layers(struct reader *reader, const json_t *from,
                        struct revision_colorway *colorway)
{
    const json_t *backing = json_object_get(from, "backing");
    const json_t *batting = json_object_get(from, "batting");
    const char *gap = data_text(reader, from, "battingGap");
    colorway->backing = colorway->batting = "";
    colorway->backing_fabric = NOWHERE;
    if (backing != NULL) {
        const char *amount = data_text(reader, backing, "amount");
        colorway->backing =
            amount[0] != '\0'
                ? arena_printf(
                      reader->arena, "%s (%s)", amount,
                      size_text(reader, json_object_get(backing, "size")))
                : size_text(reader, json_object_get(backing, "size"));
        if (json_object_get(backing, "fabric") != NULL)
            colorway->backing_fabric = data_fabric(reader, backing, "fabric");
    }
    if (batting != NULL)
        colorway->batting =
            gap[0] == '\0' ? size_text(reader, batting)
                           : arena_printf(reader->arena, "%s, %s",
                                          size_text(reader, batting), gap);
}

static void read_pages(struct reader *reader, const json_t *pages,
                       struct revision_colorway *colorway)
{
    const json_t *cloths = data_list(reader, pages, "cloths");
    const json_t *steps = data_list(reader, pages, "steps");
    for (size_t i = 0; i < json_array_size(cloths); i++) {
        const json_t *from = json_array_get(cloths, i);
        *LIST_ADD(reader->arena, &colorway->pages) = (struct revision_page){
            data_fabric(reader, from, "fabric"), 0,
            data_text(reader, from, "page")};
    }
    for (size_t i = 0; i < json_array_size(steps); i++) {
        const json_t *from = json_array_get(steps, i);
        *LIST_ADD(reader->arena, &colorway->pages) = (struct revision_page){
            NOWHERE, data_count(reader, from, "number"),
            data_text(reader, from, "page")};
    }
}

void read_colorways(struct reader *reader, const json_t *colorways,
                    struct revision_quilt *quilt)
{
    for (size_t i = 0; i < json_array_size(colorways); i++) {
        const json_t *from = json_array_get(colorways, i);
        struct revision_colorway colorway = {
            .id = data_needed(reader, from, "id"),
            .name = data_text(reader, from, "name")};
        const json_t *cloths = data_list(reader, from, "cloths");
        for (size_t k = 0; k < json_array_size(cloths); k++)
            read_cloth(reader, json_array_get(cloths, k), &colorway);
        read_layers(reader, from, &colorway);
        read_pages(reader, json_object_get(from, "pages"), &colorway);
        *LIST_ADD(reader->arena, &quilt->colorways) = colorway;
    }
}

const char *page_of_step(const struct revision_quilt *quilt, size_t number)
{
    for (size_t c = 0; c < quilt->colorways.count; c++)
        for (size_t i = 0; i < quilt->colorways.items[c].pages.count; i++) {
            const struct revision_page *page =
                &quilt->colorways.items[c].pages.items[i];
            if (page->fabric == NOWHERE && page->step == number)
                return page->page;
        }
    return NULL;
}

const char *page_of_cloth(const struct revision_quilt *quilt, int fabric)
{
    for (size_t c = 0; c < quilt->colorways.count; c++)
        for (size_t i = 0; i < quilt->colorways.items[c].pages.count; i++) {
            const struct revision_page *page =
                &quilt->colorways.items[c].pages.items[i];
            if (page->fabric != NOWHERE && page->fabric == fabric)
                return page->page;
        }
    return NULL;
}
