/* What changed between two revisions, for a terminal and for programs. Both say
 * the same, in English as all data and messages. */
#include <string.h>

#include "json_writer.h"
#include "render.h"

/* ---- for a terminal ---- */

/* Signs are plain, so that a script can read a length back. */
static struct change_wording english(struct arena *arena,
                                     const struct comparison *comparison)
{
    return (struct change_wording){arena, phrases_load(arena, "en"), comparison,
                                   false};
}

/* "  Piece A1 is cut otherwise (Throw, page 4 of the old booklet)" and two
 * lines below it. What follows from another is set in. */
static void print_change(struct buffer *out, const struct change_wording *w,
                         const size_t *alike, size_t index)
{
    const struct change *change = &w->comparison->changes.items[index];
    const struct told_change told = tell_change(w, change);
    const char *in = change->follows ? "    " : "  ";
    const char *places = tell_places(w, alike, index);
    buffer_printf(out, "%s%s", in, tell_title(w, alike, index));
    if (places[0] != '\0')
        buffer_printf(out, " (%s)", places);
    buffer_char(out, '\n');
    if (told.was[0] == '\0' && told.is[0] == '\0')
        return;
    const char *none = say(w->arena, w->phrases, "compare.none", NULL);
    buffer_printf(out, "%s  %s\n", in,
                  say(w->arena, w->phrases, "compare.old", "text",
                      told.was[0] == '\0' ? none : told.was, NULL));
    buffer_printf(out, "%s  %s\n", in,
                  say(w->arena, w->phrases, "compare.new", "text",
                      told.is[0] == '\0' ? none : told.is, NULL));
}

/* A quilt's name, and its lines below; nothing where its pieces stayed. */
static void print_saved(struct buffer *out, const struct change_wording *w)
{
    const struct revision *now = w->comparison->revisions[1];
    for (size_t q = 0; q < now->quilts.count; q++) {
        const struct told_saving saving = tell_saving(w, (int)q);
        if (saving.lines.count > 0)
            buffer_printf(out, "%s\n", now->quilts.items[q].name);
        for (size_t i = 0; i < saving.lines.count; i++)
            buffer_printf(out, "  %s\n", saving.lines.items[i]);
    }
}

/* Worst first, each class below its heading, in which what follows from another
 * change is set in. */
const char *render_changes(struct arena *arena,
                           const struct comparison *comparison)
{
    const struct change_wording w = english(arena, comparison);
    const size_t *alike = changes_alike(&w);
    struct buffer out = buffer_in(arena);
    int last = -1;
    for (int side = 0; side < 2; side++)
        buffer_printf(&out, "%s: %s%s%s\n", side == 0 ? "old" : "new",
                      comparison->names[side],
                      tell_revision(&w, side)[0] == '\0' ? "" : ", ",
                      tell_revision(&w, side));
    if (comparison->total == 0)
        buffer_text(&out, "nothing changed\n");
    for (size_t i = 0; i < comparison->changes.count; i++) {
        const struct change *change = &comparison->changes.items[i];
        if (alike[i] != i)
            continue;
        if ((int)change->harm != last)
            buffer_printf(&out, "%s:\n", tell_harm(&w, change->harm));
        last = (int)change->harm;
        print_change(&out, &w, alike, i);
    }
    print_saved(&out, &w);
    return buffer_string(&out);
}

/* ---- for programs ---- */

/* Enough to tell which is which. */
static void write_revision(struct json *json, const char *key,
                           const struct comparison *comparison, int side)
{
    const struct revision *revision = comparison->revisions[side];
    json_open(json, key, '{');
    json_text(json, "id", revision->id);
    json_text(json, "revision", revision->revision);
    json_text(json, "date", revision->date);
    json_flag(json, "whole", revision->whole);
    json_close(json, '}');
}

/* Ids are those of the new revision; `old` and `new` are for people, in
 * English. */
static void write_change(struct json *json, const struct change_wording *w,
                         const struct change *change)
{
    const struct told_change told = tell_change(w, change);
    const struct revision *of = w->comparison->revisions[1];
    json_open(json, NULL, '{');
    json_text(json, "harm", harm_name(change->harm));
    json_text(json, "kind", change_name(change->kind));
    json_flag(json, "follows", change->follows);
    if (change->quilt[1] != NOWHERE)
        json_text(json, "quilt", of->quilts.items[change->quilt[1]].id);
    if (change->quilt[1] != NOWHERE && change->colorway[1] != NOWHERE)
        json_text(json, "colorway",
                  of->quilts.items[change->quilt[1]]
                      .colorways.items[change->colorway[1]]
                      .id);
    json_text(json, "what", change->what);
    json_text(json, "text", told.title);
    json_text(json, "old", told.was);
    json_text(json, "new", told.is);
    json_text(json, "where", told.where);
    json_close(json, '}');
}

/* `old` and `new` are labels of the two booklets; one of them lacks where a
 * piece is cut anew or left over. */
static void write_saved(struct json *json, const struct comparison *comparison)
{
    static const char *const words[] = {"keep", "trim", "cut", "left"};
    json_open(json, "saved", '[');
    for (size_t i = 0; i < comparison->saved.count; i++) {
        const struct saved *saved = &comparison->saved.items[i];
        const bool left =
            saved->saving == SAVED_NOT && saved->piece_of_old != NOWHERE;
        const struct revision_quilt *now =
            &comparison->revisions[1]->quilts.items[saved->quilt];
        json_open(json, NULL, '{');
        json_text(json, "quilt", now->id);
        json_text(json, "do", words[left ? 3 : (int)saved->saving]);
        json_number(json, "count", saved->count);
        if (saved->piece_of_old != NOWHERE)
            json_text(json, "old", saved->old_label);
        if (saved->piece_of_new != NOWHERE)
            json_text(json, "new", now->pieces.items[saved->piece_of_new].label);
        json_close(json, '}');
    }
    json_close(json, ']');
}

/* Every key is there in every change but those of a quilt and a colorway that
 * it is not about. */
const char *render_changes_json(struct arena *arena,
                                const struct comparison *comparison)
{
    const struct change_wording w = english(arena, comparison);
    struct json json = {buffer_in(arena), 0, true};
    json_open(&json, NULL, '{');
    json_number(&json, "version", 1);
    write_revision(&json, "old", comparison, 0);
    write_revision(&json, "new", comparison, 1);
    json_flag(&json, "partly", comparison->partly);
    json_open(&json, "counts", '{');
    for (int harm = 0; harm < HARM_KINDS; harm++)
        json_number(&json, harm_name((enum harm)harm),
                    comparison->counts[harm]);
    json_close(&json, '}');
    json_open(&json, "changes", '[');
    for (size_t i = 0; i < comparison->changes.count; i++)
        write_change(&json, &w, &comparison->changes.items[i]);
    json_close(&json, ']');
    write_saved(&json, comparison);
    json_close(&json, '}');
    buffer_char(&json.out, '\n');
    return buffer_string(&json.out);
}
