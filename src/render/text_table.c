/* Columns by the width of what is shown, not by its bytes. */
#include "text_table.h"

#include "character.h"

/* Nothing is printed before all cells are there. */
struct text_table text_table_of(struct arena *arena, size_t columns)
{
    return (struct text_table){.arena = arena, .columns = columns};
}

void add_text_cell(struct text_table *table, const char *text)
{
    *LIST_ADD(table->arena, &table->cells) = text;
}

void print_text_table(struct buffer *out, const struct text_table *table)
{
    size_t widths[TEXT_COLUMNS] = {0};
    for (size_t i = 0; i < table->cells.count; i++) {
        const size_t width = shown_text_width(table->cells.items[i]);
        if (width > widths[i % table->columns])
            widths[i % table->columns] = width;
    }
    for (size_t i = 0; i < table->cells.count; i++) {
        const size_t column = i % table->columns;
        const bool last = column + 1 == table->columns;
        buffer_printf(out, "%s%s", column == 0 ? "  " : "",
                      table->cells.items[i]);
        for (size_t k = shown_text_width(table->cells.items[i]);
             !last && k < widths[column] + 2; k++)
            buffer_char(out, ' ');
        if (last)
            buffer_char(out, '\n');
    }
}
