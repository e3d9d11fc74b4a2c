/* The pieces of a unit, block or quilt. An element that makes cloth becomes a
 * piece, and gets the index by which all later facts about it are found. May
 * assume that all definitions are named. Read next: map.c. */
#include "resolver.h"
#include "trade.h"

/* One more than the kind, so that 0 means "no piece". */
#define PIECE_ENTRY(kind, element, name) [element] = kind + 1,
static const int piece_of_element[ELEMENT_COUNT] = {PIECE_LIST(PIECE_ENTRY)};
#undef PIECE_ENTRY

bool is_piece(enum element_kind kind)
{
    return piece_of_element[kind] != 0;
}

/* PRESS_RULE stands for "nothing said". `toward` wins over `press`, which is
 * then reported. */
struct press resolve_press(struct resolver *resolver,
                           const struct element *element)
{
    const struct stated side = stated_of(element, ATTR_PRESS);
    const enum attribute_id id = side.written ? ATTR_PRESS : ATTR_TOWARD;
    struct press press = {.side = PRESS_RULE,
                          .fabric = NO_FABRIC,
                          .element = element,
                          .word = text_of(element, id, "?"),
                          .span = value_span(element, id)};
    if (side.usable)
        press.side =
            (enum press_side)(PRESS_OPEN + choice_of(element, ATTR_PRESS, 0));
    if (value_of(element, ATTR_TOWARD) == NULL)
        return press;
    press.fabric = bind_fabric(resolver, element, ATTR_TOWARD);
    if (side.usable)
        report_about(resolver, element, DIAG_PRESS,
                     value_span(element, ATTR_TOWARD),
                     "`press` and `toward` both say where the seam goes");
    press.side = PRESS_TOWARD_FABRIC;
    return press;
}

/* The fabric that is seen of a piece or a corner. Without it nothing can be
 * compared, though a name that is nowhere is told where it stands first. */
static int bind_seen(struct resolver *resolver, const struct element *element,
                     enum attribute_id id)
{
    const int fabric = bind_fabric(resolver, element, id);
    if (fabric == NO_FABRIC)
        mark_definition(resolver, element);
    return fabric;
}

/* Corners stay in the order of the source: of squares that overlap, the later
 * is sewn over the earlier. */
static void add_corners(struct resolver *resolver, struct piece *piece)
{
    const struct element *element = piece->element;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (child->kind != ELEMENT_CORNER)
            continue;
        struct corner *corner = LIST_ADD(resolver->run->arena, &piece->corners);
        corner->element = child;
        corner->at = (enum corner_place)choice_of(child, ATTR_AT, 0);
        corner->method = (enum corner_method)choice_of(
            child, ATTR_CORNER_METHOD, (int)piece->corner_method);
        corner->fabric = bind_seen(resolver, child, ATTR_FABRIC);
        corner->stated_size = stated_of(child, ATTR_SIZE);
        corner->size = corner->stated_size.value;
        corner->cut = stated_of(child, ATTR_CUT);
        corner->line_stated = value_of(child, ATTR_LINE) != NULL &&
                              value_of(child, ATTR_AT) != NULL;
        corner->line = (enum line_direction)choice_of(child, ATTR_LINE, 0);
    }
}

struct cell *add_cell(struct resolver *resolver, struct piece *piece,
                      const struct piece *child, struct span span)
{
    struct cell *cell = LIST_ADD(resolver->run->arena, &piece->cells);
    cell->piece = child;
    cell->span = span;
    return cell;
}

bool may_repeat(struct resolver *resolver, const struct element *element,
                struct span span, size_t more)
{
    const bool before = resolver->design->repeats <= LIMIT_PIECES;
    if (before)
        resolver->design->repeats += more;
    if (before && resolver->design->repeats > LIMIT_PIECES)
        report_about(resolver, element, DIAG_LIMIT, span,
                     "repeats make more than %d cells in all", LIMIT_PIECES);
    return resolver->design->repeats <= LIMIT_PIECES;
}

/* reports: `times` on a piece that stands in no cell of its own. */
static void reject_times(struct resolver *resolver,
                         const struct element *element, const char *why,
                         const char *help)
{
    const struct value *times = written_value(element, ATTR_TIMES);
    if (times == NULL)
        return;
    struct diagnostic *d =
        report_about(resolver, element, DIAG_TIMES, times->name,
                     "`times` has no place here: %s", why);
    /* With the blank before it and the quote behind it. */
    diag_mend(resolver->run, d,
              (struct span){times->name.start - 1, times->span.end + 1}, "",
              "%s", help);
}

void reject_times_alone(struct resolver *resolver,
                        const struct element *element)
{
    reject_times(
        resolver, element, "the piece does not stand beside others",
        element->parent->kind == ELEMENT_BORDER
            ? "leave it out: one piece is laid at all four corners"
            : "leave it out, or put the piece in a `row`, a `column` or "
              "a `grid`");
}

/* Its cells are the same; what lies beside it may be pressed otherwise. */
static const struct piece *repeat_piece(struct resolver *resolver,
                                        const struct piece *first)
{
    struct piece *piece = ARENA_NEW(resolver->run->arena, struct piece);
    *piece = *first;
    piece->index = resolver->design->pieces.count;
    *LIST_ADD(resolver->run->arena, &resolver->design->pieces) = piece;
    return piece;
}

/* One cell for each time. The key of a piece says where it lies, so a map has
 * no use for `times`. */
static void add_times(struct resolver *resolver, struct piece *piece,
                      const struct piece *child)
{
    const struct element *element = child->element;
    const struct value *times = value_of(element, ATTR_TIMES);
    const bool in_turns =
        child->cells.count > 0 &&
        (piece->kind == PIECE_ROW || piece->kind == PIECE_COLUMN);
    add_cell(resolver, piece, child, element->name);
    if (times == NULL ||
        !may_repeat(resolver, element, times->span, (size_t)times->whole - 1))
        return;
    for (long i = 1; i < times->whole; i++)
        add_cell(resolver, piece,
                 in_turns ? repeat_piece(resolver, child) : child,
                 element->name);
}

static bool has_map(const struct element *element)
{
    for (size_t i = 0; i < element->children.count; i++)
        if (element->children.items[i]->kind == ELEMENT_MAP)
            return true;
    return false;
}

/* Depth first, in the order of the source; a piece's index is thus less than
 * those of all pieces inside it. */
static void add_children(struct resolver *resolver, struct piece *piece)
{
    const struct element *element = piece->element;
    const bool map = has_map(element);
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (!is_piece(child->kind))
            continue;
        const struct piece *made = resolve_piece(resolver, piece->owner, child);
        if (!map) {
            add_times(resolver, piece, made);
            continue;
        }
        reject_times(resolver, child, "the map says how often the piece lies",
                     "name its key in the map as often as it lies there");
        add_cell(resolver, piece, made, child->name);
    }
}

/* Rows that lie on each other are pressed in turns, so that they nest. Counted
 * by place, whatever else stands in the column. */
static void mark_second_rows(struct resolver *resolver,
                             const struct piece *column)
{
    for (size_t i = 1; i < column->cells.count; i += 2)
        resolver->design->pieces.items[column->cells.items[i].piece->index]
            ->second_row = true;
}

/* Those whose seams run into each other's. */
static void link_neighbors(struct resolver *resolver, const struct piece *whole)
{
    for (size_t i = 1; i < whole->cells.count; i++) {
        const struct piece *first = whole->cells.items[i - 1].piece;
        const struct piece *second = whole->cells.items[i].piece;
        resolver->design->pieces.items[first->index]->after = second;
        resolver->design->pieces.items[second->index]->before = first;
    }
}

void break_piece(struct resolver *resolver, struct piece *piece)
{
    piece->broken = true;
    for (size_t i = 0; i < resolver->design->pieces.count; i++) {
        struct piece *child = resolver->design->pieces.items[i];
        if (child->element->parent == piece->element)
            child->broken = true;
    }
}

/* reports: a grid with another number of pieces than cells. */
static void report_cell_count(struct resolver *resolver, struct piece *piece,
                              size_t found)
{
    break_piece(resolver, piece);
    struct run *run = resolver->run;
    struct diagnostic *d = report_about(
        resolver, piece->element, DIAG_GRID_COUNT, piece->element->name,
        "the grid has %zu cells, but %zu pieces fill it",
        piece->across * piece->down, found);
    diag_note(run, d, (struct span){0, 0}, "%zu across x %zu down = %zu cells",
              piece->across, piece->down, piece->across * piece->down);
    diag_help(
        run, d,
        "give one piece for each cell, or a single piece for all of them");
}

/* The children of a grid or a setting, or what its map makes of them. ensures:
 * false where nothing is to be filled any more. */
static bool read_cells(struct resolver *resolver, struct piece *piece)
{
    const struct element *element = piece->element;
    piece->across = (size_t)whole_of(element, ATTR_ACROSS);
    piece->down = (size_t)whole_of(element, ATTR_DOWN);
    add_children(resolver, piece);
    if (piece->across == 0 || piece->down == 0)
        return false;
    if (piece->across * piece->down > LIMIT_CELLS) {
        report_about(resolver, element, DIAG_LIMIT, element->name,
                     "more than %d cells in a grid", LIMIT_CELLS);
        piece->across = piece->down = 0;
        return false;
    }
    for (size_t i = 0; i < element->children.count; i++) {
        if (element->children.items[i]->kind == ELEMENT_MAP) {
            read_map(resolver, piece, element->children.items[i]);
            return false;
        }
    }
    return true;
}

/* The only cell, in all places. */
static void repeat_cell(struct resolver *resolver, struct piece *piece,
                        size_t total)
{
    while (piece->cells.count < total)
        add_cell(resolver, piece, piece->cells.items[0].piece,
                 piece->cells.items[0].span);
}

/* ensures: across * down cells, or a number that says that something was
 * reported (solve/sizes.c then stays silent). One piece fills the whole grid.
 */
static void fill_grid(struct resolver *resolver, struct piece *piece)
{
    if (!read_cells(resolver, piece))
        return;
    const size_t total = piece->across * piece->down;
    if (piece->cells.count == 1)
        repeat_cell(resolver, piece, total);
    else if (piece->cells.count != total)
        report_cell_count(resolver, piece, piece->cells.count);
}

/* A strip runs down, unless its members' long edges are told as widths. Decided
 * here, from what was written, because the sizes that would tell are not solved
 * yet and need this to be. */
static bool strip_runs_across(const struct element *element)
{
    bool across = false;
    for (size_t i = 0; i < element->children.count; i++) {
        const struct element *child = element->children.items[i];
        if (child->kind == ELEMENT_CORNER)
            continue;
        if (written_value(child, ATTR_HEIGHT) != NULL)
            return false;
        across |= written_value(child, ATTR_WIDTH) != NULL;
    }
    return across;
}

/* reports: a use that names nothing, both kinds, or what is not there. Units
 * and blocks have names of their own kinds here. */
static void bind_use(struct resolver *resolver, struct piece *piece)
{
    const struct element *element = piece->element;
    piece->orientation.turn = (unsigned)choice_of(element, ATTR_TURN, 0);
    piece->orientation.mirror = choice_of(element, ATTR_MIRROR, 0) == 1;
    piece->turn_written = written_value(element, ATTR_TURN) != NULL;
    piece->mirror_written = written_value(element, ATTR_MIRROR) != NULL;
    const bool unit = written_value(element, ATTR_UNIT) != NULL;
    const bool block = written_value(element, ATTR_BLOCK) != NULL;
    if (unit == block) {
        if (!element->faulty)
            report_about(resolver, element, DIAG_MISSING_ATTRIBUTE,
                         element->name,
                         unit ? "`use` names a unit and a block"
                              : "`use` needs the attribute `unit` or `block`");
        return;
    }
    const enum attribute_id id = unit ? ATTR_UNIT : ATTR_BLOCK;
    const struct value *value = value_of(element, id);
    if (value == NULL)
        return;
    const enum definition_kind kind = unit ? DEFINE_UNIT : DEFINE_BLOCK;
    piece->target = design_find(resolver->design, value->text, kind);
    if (piece->target != NULL)
        return;
    const struct design *design = resolver->design;
    struct arena *scratch = arena_create();
    const char **names =
        ARENA_ARRAY(scratch, const char *, design->definitions.count);
    size_t count = 0;
    for (size_t i = 0; i < design->definitions.count; i++)
        if (design->definitions.items[i]->kind == kind)
            names[count++] = design->definitions.items[i]->id;
    report_unknown_name(resolver, DIAG_UNKNOWN_PIECE, element, id,
                        unit ? "unit" : "block", names, count);
    arena_destroy(scratch);
}

int add_fabric(struct resolver *resolver, struct piece *piece,
               enum attribute_id id)
{
    const int fabric = bind_seen(resolver, piece->element, id);
    *LIST_ADD(resolver->run->arena, &piece->fabrics) =
        (struct piece_fabric){id, fabric};
    return fabric;
}

static void add_two_fabrics(struct resolver *resolver, struct piece *piece,
                            enum attribute_id first, enum attribute_id second)
{
    add_fabric(resolver, piece, first);
    add_fabric(resolver, piece, second);
}

/* What every kind may state; most of it is not written. */
static void read_stated(struct piece *piece, const struct element *element)
{
    piece->id = text_of(element, ATTR_ID, NULL);
    piece->name = text_of(element, ATTR_NAME, NULL);
    piece->width = stated_of(element, ATTR_WIDTH);
    piece->height = stated_of(element, ATTR_HEIGHT);
    piece->size = stated_of(element, ATTR_SIZE);
    piece->finished = stated_of(element, ATTR_FINISHED);
    piece->unfinished = stated_of(element, ATTR_UNFINISHED);
    piece->cut = stated_of(element, ATTR_CUT);
    piece->count = stated_of(element, ATTR_COUNT);
    piece->strip = stated_of(element, ATTR_STRIP);
    piece->equal = choice_of(element, ATTR_EQUAL, 0) == 1;
}

void link_rows(struct resolver *resolver, const struct piece *whole)
{
    link_neighbors(resolver, whole);
    mark_second_rows(resolver, whole);
}

struct piece *new_piece_of_kind(struct resolver *resolver,
                                const struct definition *owner,
                                const struct element *element,
                                enum piece_kind kind)
{
    struct piece *piece = ARENA_NEW(resolver->run->arena, struct piece);
    piece->kind = kind;
    piece->element = element;
    piece->owner = owner;
    piece->broken = element->faulty;
    piece->first = piece;
    piece->index = resolver->design->pieces.count;
    *LIST_ADD(resolver->run->arena, &resolver->design->pieces) = piece;
    read_stated(piece, element);
    piece->corner_method = (enum corner_method)choice_of(
        owner->element, ATTR_CORNERS_METHOD,
        choice_of(resolver->design->pattern->root, ATTR_CORNERS_METHOD,
                  CORNER_DRAWN));
    piece->press = resolve_press(resolver, element);
    piece->line = (enum line_direction)choice_of(element, ATTR_LINE, 0);
    return piece;
}

struct piece *new_piece(struct resolver *resolver,
                        const struct definition *owner,
                        const struct element *element)
{
    return new_piece_of_kind(
        resolver, owner, element,
        (enum piece_kind)(piece_of_element[element->kind] - 1));
}

static void read_quarter_square(struct resolver *resolver, struct piece *piece)
{
    const struct element *element = piece->element;
    add_fabric(resolver, piece, ATTR_TOP);
    add_fabric(resolver, piece, ATTR_RIGHT);
    add_fabric(resolver, piece, ATTR_BOTTOM);
    add_fabric(resolver, piece, ATTR_LEFT);
    piece->method = (enum half_square_method)choice_of(
        element, ATTR_QUARTER_METHOD, METHOD_TWO);
    piece->has_plain = value_of(element, ATTR_PLAIN) != NULL;
    piece->plain = (enum corner_place)choice_of(element, ATTR_PLAIN, 0);
}

/* What trimming is to take off; where nothing is said, as the trade has it. */
static struct rational room_of(struct resolver *resolver,
                               const struct element *element)
{
    const enum length_unit units = resolver->design->pattern->units;
    return value_of(element, ATTR_ROOM) == NULL
               ? trade_length(TRADE_TRIM, units)
               : length_of(element, ATTR_ROOM);
}

/* A square of two triangles has a method, another rectangle has room. */
static void read_halves(struct resolver *resolver, struct piece *piece)
{
    const struct element *element = piece->element;
    add_two_fabrics(resolver, piece, ATTR_LEFT, ATTR_RIGHT);
    if (piece->kind == PIECE_HALF_SQUARE)
        piece->method = (enum half_square_method)choice_of(element, ATTR_METHOD,
                                                           METHOD_TWO);
    else
        piece->room = room_of(resolver, element);
}

/* What is not told is as what it belongs to: the second diamond as the first, a
 * side as a corner. */
static void read_star(struct resolver *resolver, struct piece *piece)
{
    const struct element *element = piece->element;
    add_fabric(resolver, piece, ATTR_STAR_POINTS);
    add_fabric(resolver, piece,
               written_value(element, ATTR_SECOND) == NULL ? ATTR_STAR_POINTS
                                                           : ATTR_SECOND);
    add_fabric(resolver, piece, ATTR_CORNER_FABRIC);
    add_fabric(resolver, piece,
               written_value(element, ATTR_SIDES) == NULL ? ATTR_CORNER_FABRIC
                                                          : ATTR_SIDES);
}

/* Grids and other settings: cells are told first, by a map or without, and then
 * set where they lie. */
static void read_setting(struct resolver *resolver, struct piece *piece)
{
    if (piece->kind == PIECE_GRID) {
        fill_grid(resolver, piece);
        add_sashing(resolver, piece);
        return;
    }
    const bool sound = read_cells(resolver, piece);
    if (piece->kind == PIECE_ON_POINT) {
        set_on_point(resolver, piece);
        return;
    }
    if (sound && piece->cells.count == 1)
        repeat_cell(resolver, piece, map_cells(piece));
    set_triangles(resolver, piece);
}

/* Rows and columns, whose pieces are pressed by what lies beside them. */
static void read_line(struct resolver *resolver, struct piece *piece)
{
    add_children(resolver, piece);
    link_neighbors(resolver, piece);
    if (piece->kind == PIECE_COLUMN)
        mark_second_rows(resolver, piece);
}

/* The parent's index comes before its children's: solving keeps the older of
 * two equal variables, which is then the one nearest the definition. */
const struct piece *resolve_piece(struct resolver *resolver,
                                  const struct definition *owner,
                                  const struct element *element)
{
    struct piece *piece = new_piece(resolver, owner, element);
    switch (piece->kind) {
    /* What is read here is what a kind has beyond size: cloth, line, method,
     * target. Fields of other kinds stay at "none". */
    case PIECE_PATCH:
        add_fabric(resolver, piece, ATTR_FABRIC);
        break;
    case PIECE_HALF_SQUARE:
    case PIECE_HALF_RECTANGLE:
        read_halves(resolver, piece);
        break;
    case PIECE_QUARTER_SQUARE:
        read_quarter_square(resolver, piece);
        break;
    case PIECE_FLYING_GEESE:
        add_two_fabrics(resolver, piece, ATTR_GOOSE, ATTR_SKY);
        piece->points = (enum side)choice_of(element, ATTR_POINTS_TO, SIDE_TOP);
        piece->geese_method = (enum geese_method)choice_of(
            element, ATTR_GOOSE_METHOD, GEESE_CORNERS);
        break;
    case PIECE_SQUARE_IN_SQUARE:
        add_two_fabrics(resolver, piece, ATTR_CENTER, ATTR_CORNER_FABRIC);
        piece->square_method = (enum square_method)choice_of(
            element, ATTR_SQUARE_METHOD, SQUARE_CORNERS);
        break;
    case PIECE_STAR:
        read_star(resolver, piece);
        break;
    case PIECE_GRID:
    case PIECE_ON_POINT:
    case PIECE_TRIANGLES:
        read_setting(resolver, piece);
        break;
    case PIECE_USE:
        bind_use(resolver, piece);
        if (piece->target == NULL)
            mark_definition(resolver, element);
        else
            bind_casts(resolver, piece);
        break;
    case PIECE_DIAGONAL:
        piece->horizontal = strip_runs_across(element);
        add_children(resolver, piece);
        break;
    case PIECE_ROW:
    case PIECE_COLUMN:
        read_line(resolver, piece);
        break;
    case PIECE_BORDER: /* of a quilt alone (borders.c) */
        internal_error("a border stands inside a piece");
    }
    add_corners(resolver, piece);
    return piece;
}
