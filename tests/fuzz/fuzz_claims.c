/* A table of claims: whatever the bytes are, it is summed up or told to be
 * none, and what is summed up adds up and can be printed. */
#include <string.h>

#include "fuzz.h"
#include "gather.h"
#include "render.h"

enum { MOST_BYTES = 4000 };

/* Counts agree whichever way they are taken. */
static void look(const struct gathered_book *book, size_t testers)
{
    size_t last = 0, answers = 0, counted = 0;
    for (size_t i = 0; i < book->claims.count; i++) {
        const struct gathered_claim *claim = &book->claims.items[i];
        MUST(claim->claim.number > last && claim->claim.number <= book->count);
        MUST(claim->answers.count > 0 && claim->answers.count <= testers);
        last = claim->claim.number;
        answers += claim_is_measured(claim) ? 0 : claim->answers.count;
    }
    for (size_t i = 0; i < book->shares.count; i++)
        for (int k = 0; k < ANSWERS; k++)
            counted += book->shares.items[i].answers[k];
    MUST(answers == counted);
    MUST(book->absent.count + book->claims.count == book->count);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    if (length > MOST_BYTES)
        return 0;
    struct arena *arena = arena_create();
    const char *text = arena_copy(arena, (const char *)bytes, length);
    struct run *run =
        run_create(arena, source_create(arena, "a.csv", text, length));
    const struct gathered *all = gather_claims(run);
    if (diag_count(run, DIAG_ERROR) == 0) {
        for (size_t i = 0; i < all->books.count; i++)
            look(&all->books.items[i], all->testers.count);
        MUST(strlen(render_gathered(arena, all)) > 0);
        MUST(strlen(render_gathered_json(arena, all)) > 0);
    }
    arena_destroy(arena);
    return 0;
}
