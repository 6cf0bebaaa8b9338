/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A directory of files: whenever the writer is killed, whichever step fails,
   one that has its last file is whole, and nothing of others is touched. */
#include "support/steps.h"

#include <errno.h>
#include <jansson.h>
#include <sha2.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>

#include "core/fail.h"
#include "report/set.h"
#include "support/room.h"

static char room[] = "/tmp/dew-set-XXXXXX", inside[64];

static int open_room(void **state)
{
    (void)state;
    if (mkdtemp(room) == NULL)
        return -1;
    snprintf(inside, sizeof inside, "%s/result", room);
    return 0;
}

static const char *at(const char *name)
{
    static char path[200];

    snprintf(path, sizeof path, "%s/%s", inside, name);
    return path;
}

static int empty_room(void **state)
{
    (void)state;
    steps_all_go();
    names_in(at("charts"), 1);
    names_in(inside, 1);
    names_in(room, 1);
    return 0;
}

static int close_room(void **state)
{
    empty_room(state);
    return rmdir(room);
}

static void put(const char *name, const char *text)
{
    FILE *f = fopen(at(name), "w");

    assert_non_null(f);
    fputs(text, f);
    assert_int_equal(fclose(f), 0);
}

/* What a file holds, "" when there is none. */
static const char *held(const char *name)
{
    static char text[4096];
    FILE *f = fopen(at(name), "r");

    text[0] = '\0';
    if (f == NULL)
        return text;
    text[fread(text, 1, sizeof text - 1, f)] = '\0';
    fclose(f);
    return text;
}

/* ---- two sets: what they share, and what each has alone --------------------- */

static const struct pile {
    const char *mark;
    size_t count;
    struct {
        const char *folder, *name;
    } files[6];
} piles[] = {
    {"one",
     4,
     {{"", "page.html"},
      {"", "hours-1.csv"},
      {"", "hours-2-one.csv"},
      {"charts/", "one.svg"}}},
    {"two",
     5,
     {{"", "page.html"},
      {"", "hours-1.csv"},
      {"", "hours-2-two.csv"},
      {"charts/", "two.svg"},
      {"charts/", "both.svg"}}},
};

static void name_of(const void *of, size_t i, const char **folder, char *out,
                    size_t size)
{
    const struct pile *p = of;

    *folder = p->files[i].folder;
    snprintf(out, size, "%s", p->files[i].name);
}

static enum dew_status fill(const void *of, size_t i, FILE *out,
                            struct dew_error *err)
{
    const struct pile *p = of;

    fprintf(out, "%s %s\n", p->mark, p->files[i].name);
    return fflush(out) == 0 ? DEW_OK : core__fail(err, DEW_EIO, "full");
}

static enum dew_status last(const void *of,
                            const struct report__set_file *files, size_t count,
                            FILE *out, struct dew_error *err)
{
    const struct pile *p = of;
    json_t *root = json_pack("{s:s, s:o}", "mark", p->mark, "written",
                             report__set_list_json(files, count));

    assert_non_null(root);
    assert_int_equal(count, p->count);
    json_dumpf(root, out, 0);
    json_decref(root);
    return fflush(out) == 0 ? DEW_OK : core__fail(err, DEW_EIO, "full");
}

static enum dew_status write_pile(const struct pile *p, struct dew_error *err)
{
    const struct report__set set = {p,    p->count,    "charts", name_of,
                                    fill, "last.json", last};

    return report__set_write(&set, inside, err);
}

static void write_it(void *with)
{
    write_pile(with, NULL);
}

/* Every file of p holds what p wrote. */
static void is_whole(const struct pile *p)
{
    for (size_t i = 0; i < p->count; i++) {
        char name[64], want[64];

        snprintf(name, sizeof name, "%s%s", p->files[i].folder,
                 p->files[i].name);
        snprintf(want, sizeof want, "%s %s\n", p->mark, p->files[i].name);
        assert_string_equal(held(name), want);
    }
}

/* Nothing but p, with its last file, its folder and so many strangers. */
static void is_alone(const struct pile *p, int strangers)
{
    int charts = 0;

    is_whole(p);
    for (size_t i = 0; i < p->count; i++)
        charts += p->files[i].folder[0] != '\0';
    assert_int_equal(names_in(at("charts"), 0), charts);
    assert_int_equal(names_in(inside, 0),
                     (int)p->count - charts + 2 + strangers);
}

/* The pile whose last file stands, which then is as it says; NULL: none. */
static const struct pile *standing(void)
{
    json_t *root = json_load_file(at("last.json"), 0, NULL), *row;
    const struct pile *p = NULL;
    size_t i;

    if (root == NULL) {
        assert_int_not_equal(access(at("last.json"), F_OK), 0);
        return NULL;
    }
    for (size_t k = 0; k < COUNT_OF(piles); k++)
        if (strcmp(piles[k].mark,
                   json_string_value(json_object_get(root, "mark"))) == 0)
            p = &piles[k];
    assert_non_null(p);
    assert_int_equal(json_array_size(json_object_get(root, "written")),
                     p->count);
    json_array_foreach(json_object_get(root, "written"), i, row)
    {
        char sum[SHA256_DIGEST_STRING_LENGTH];

        assert_non_null(SHA256File(
            at(json_string_value(json_object_get(row, "file"))), sum));
        assert_string_equal(sum,
                            json_string_value(json_object_get(row, "sha256")));
    }
    json_decref(root);
    is_whole(p);
    return p;
}

/* ---- tests ------------------------------------------------------------------------ */

static void a_set_takes_the_place_of_another(void **state)
{
    (void)state;
    for (int turn = 0; turn < 3; turn++) {
        assert_int_equal(write_pile(&piles[turn % 2], NULL), DEW_OK);
        assert_ptr_equal(standing(), &piles[turn % 2]);
        is_alone(&piles[turn % 2], 0);
    }
}

static void killed_before_any_step_none_looks_whole_that_is_not(void **state)
{
    int counts[3] = {0, 0, 0}, k = 1, killed = 1;

    (void)state;
    for (; killed; k++) {
        const struct pile *p;

        empty_room(NULL);
        assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
        put("mine.txt", "mine");
        killed = step_killed(k, write_it, (void *)(uintptr_t)&piles[1]);
        p = standing();
        counts[p == NULL ? 2 : p - piles]++;
        if (p == &piles[0])
            assert_int_equal(access(at("hours-2-two.csv"), F_OK), -1);
        assert_int_equal(write_pile(&piles[1], NULL), DEW_OK);
        is_alone(&piles[1], 1);
        assert_string_equal(held("mine.txt"), "mine");
    }
    /* all three were met: the old one, none, the new one */
    assert_true(counts[0] >= 8 && counts[1] >= 2 && counts[2] >= 8);
}

enum { SECOND = 7, MANY_KILLS = 20 };

/* Second kills tried after each first: where few are asked for, one in turn. */
static int second_kills(void)
{
    const char *kills = getenv("KILLS");

    return kills != NULL && strtol(kills, NULL, 10) < MANY_KILLS ? 1 : SECOND;
}

/* Cut off again and again, by sets with other files: nothing is left over. */
static void killed_twice_nothing_is_left_over(void **state)
{
    int killed = 1, each = second_kills();

    (void)state;
    for (int k = 1; killed; k++)
        for (int i = 0; i < each; i++) {
            int j = 9 + 3 * ((k + i) % SECOND);

            empty_room(NULL);
            write_pile(&piles[0], NULL);
            killed = step_killed(k, write_it, (void *)(uintptr_t)&piles[1]);
            step_killed(j, write_it, (void *)(uintptr_t)&piles[0]);
            standing();
            step_killed(j + 1, write_it, (void *)(uintptr_t)&piles[1]);
            standing();
            assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
            is_alone(&piles[0], 0);
        }
}

static void killed_in_a_new_directory_nothing_is_left_over(void **state)
{
    int killed = 1;

    (void)state;
    for (int k = 1; killed; k++) {
        empty_room(NULL);
        killed = step_killed(k, write_it, (void *)(uintptr_t)&piles[1]);
        standing();
        assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
        is_alone(&piles[0], 0);
    }
}

static void whichever_step_fails_none_looks_whole_that_is_not(void **state)
{
    int reached = 1, failed = 0, none = 0;

    (void)state;
    for (int k = 1; reached; k++) {
        struct dew_error err = {0};
        enum dew_status status;
        const struct pile *p;

        empty_room(NULL);
        assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
        step_count = 0;
        step_fails = k;
        status = write_pile(&piles[1], &err);
        reached = step_count >= k;
        steps_all_go();
        p = standing();
        if (status == DEW_OK) {
            assert_ptr_equal(p, &piles[1]);
            assert_string_equal(err.source, "");
        } else {
            failed++;
            none += p == NULL;
            assert_non_null(strstr(err.text, "could not be "));
            assert_non_null(strstr(err.source, "result"));
            assert_int_equal(err.path[0], '\0'); /* the name is told once */
        }
        assert_int_equal(write_pile(&piles[1], NULL), DEW_OK);
        is_alone(&piles[1], 0);
    }
    assert_true(failed > 12 && none > 5);
}

/* Failing before the first name changes: as it was, to the last byte. */
static void a_disk_that_takes_no_more_leaves_the_old_set(void **state)
{
    struct dew_error err = {0};
    char want[80];

    (void)state;
    assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
    step_count = 0;
    step_fails = 4; /* mkdir, mkdirat, sync, sync */
    assert_int_equal(write_pile(&piles[1], &err), DEW_EIO);
    steps_all_go();
    assert_ptr_equal(standing(), &piles[0]);
    is_alone(&piles[0], 0);
    snprintf(want, sizeof want, "could not be written: %s", strerror(EIO));
    assert_string_equal(err.text, want);
}

static void a_failed_first_set_leaves_no_directory(void **state)
{
    (void)state;
    step_count = 0;
    step_fails = 4;
    assert_int_equal(write_pile(&piles[0], NULL), DEW_EIO);
    steps_all_go();
    assert_int_not_equal(access(inside, F_OK), 0);
}

/* ---- another writer ------------------------------------------------------------------ */

static void a_second_writer_is_told_who_holds_it(void **state)
{
    int lock, held_by_other;
    struct dew_error err = {0}, other = {0};
    char want[160];

    (void)state;
    assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
    lock = open(inside, O_RDONLY | O_DIRECTORY);
    held_by_other = flock(lock, LOCK_EX) == 0;
    assert_true(held_by_other);
    assert_int_equal(write_pile(&piles[1], &err), DEW_EIO);
    assert_string_equal(
        err.text, "another process is writing a result there: wait until it "
                  "has ended, or name another folder");
    assert_string_equal(err.source, inside);
    put(".dewledger-4711-3.set", "half");
    assert_int_equal(write_pile(&piles[1], &other), DEW_EIO);
    snprintf(want, sizeof want, "process %d is writing a result there", 4711);
    assert_memory_equal(other.text, want, strlen(want));
    assert_ptr_equal(standing(), &piles[0]);
    is_alone(&piles[0], 1); /* the other's part was not swept */
    close(lock);
    assert_int_equal(write_pile(&piles[1], NULL), DEW_OK);
    is_alone(&piles[1], 0); /* now it was */
}

/* ---- what is not ours ------------------------------------------------------------------ */

/* A list that names what it has no business with. */
static void only_our_own_files_are_removed(void **state)
{
    static const char *const spared[] = {
        "changed.csv", "link.csv", "folder.csv", ".hidden", "sub/deep.csv"};
    char text[2048], sum[SHA256_DIGEST_STRING_LENGTH], victim[96];

    (void)state;
    assert_int_equal(mkdir(inside, 0700), 0);
    assert_int_equal(mkdir(at("sub"), 0700), 0);
    assert_int_equal(mkdir(at("folder.csv"), 0700), 0);
    put("gone.csv", "same");
    put("changed.csv", "changed");
    put(".hidden", "same");
    put("sub/deep.csv", "same");
    put("../victim", "same");
    snprintf(victim, sizeof victim, "%s/victim", room);
    assert_int_equal(symlink(victim, at("link.csv")), 0);
    SHA256File(victim, sum);
    snprintf(text, sizeof text,
             "{\"written\": [{\"file\": \"gone.csv\", \"sha256\": \"%s\"},"
             "{\"file\": \"changed.csv\", \"sha256\": \"%s\"},"
             "{\"file\": \"link.csv\", \"sha256\": \"%s\"},"
             "{\"file\": \"folder.csv\", \"sha256\": \"%s\"},"
             "{\"file\": \".hidden\", \"sha256\": \"%s\"},"
             "{\"file\": \"sub/deep.csv\", \"sha256\": \"%s\"},"
             "{\"file\": \"../victim\", \"sha256\": \"%s\"},"
             "{\"file\": \"charts/../../victim\", \"sha256\": \"%s\"},"
             "{\"file\": \"%s\", \"sha256\": \"%s\"},"
             "{\"file\": \"\", \"sha256\": \"%s\"}, {\"file\": 3}, 4]}",
             sum, sum, sum, sum, sum, sum, sum, sum, victim, sum, sum);
    put("last.json", text);
    assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
    for (size_t i = 0; i < COUNT_OF(spared); i++)
        assert_int_equal(access(at(spared[i]), F_OK), 0);
    assert_int_equal(access(victim, F_OK), 0);
    assert_int_not_equal(access(at("gone.csv"), F_OK), 0);
    assert_ptr_equal(standing(), &piles[0]);
    unlink(at("sub/deep.csv"));
}

static void a_file_that_was_edited_stays(void **state)
{
    (void)state;
    assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
    put("hours-2-one.csv", "my notes");
    assert_int_equal(write_pile(&piles[1], NULL), DEW_OK);
    assert_string_equal(held("hours-2-one.csv"), "my notes");
    is_alone(&piles[1], 1);
}

static void a_last_file_that_is_no_list_is_replaced(void **state)
{
    static const char *const odd[] = {"",
                                      "[",
                                      "[]",
                                      "{}",
                                      "{\"written\": 3}",
                                      "{\"written\": [[], {\"file\": \"a\"}]}"};

    (void)state;
    for (size_t i = 0; i < COUNT_OF(odd); i++) {
        empty_room(NULL);
        assert_int_equal(mkdir(inside, 0700), 0);
        put("last.json", odd[i]);
        assert_int_equal(write_pile(&piles[0], NULL), DEW_OK);
        is_alone(&piles[0], 0);
    }
}

static void what_is_no_file_is_refused_and_left(void **state)
{
    static const char *const places[] = {"hours-1.csv", "last.json"};

    (void)state;
    for (size_t i = 0; i < COUNT_OF(places); i++) {
        struct dew_error err = {0}, of_link = {0};
        struct stat s;

        empty_room(NULL);
        assert_int_equal(mkdir(inside, 0700), 0);
        assert_int_equal(mkfifo(at(places[i]), 0600), 0);
        assert_int_equal(write_pile(&piles[0], &err), DEW_EIO);
        assert_non_null(strstr(err.text, "is there and is no plain file"));
        assert_non_null(strstr(err.source, places[i]));
        assert_int_equal(lstat(at(places[i]), &s), 0);
        assert_true(S_ISFIFO(s.st_mode));
        assert_int_equal(names_in(inside, 1), 1);
        assert_int_equal(symlink(room, at(places[i])), 0);
        assert_int_equal(write_pile(&piles[0], &of_link), DEW_EIO);
        assert_int_equal(names_in(inside, 0), 1);
    }
}

static void a_folder_that_is_a_link_is_refused(void **state)
{
    struct dew_error err = {0};

    (void)state;
    assert_int_equal(mkdir(inside, 0700), 0);
    assert_int_equal(symlink(room, at("charts")), 0);
    assert_int_equal(write_pile(&piles[0], &err), DEW_EIO);
    assert_non_null(strstr(err.text, "Not a directory"));
    assert_int_equal(names_in(inside, 0), 1);
}

int main(void)
{
#define ROOM(test) cmocka_unit_test_teardown(test, empty_room)
    const struct CMUnitTest tests[] = {
        ROOM(a_set_takes_the_place_of_another),
        ROOM(killed_before_any_step_none_looks_whole_that_is_not),
        ROOM(killed_twice_nothing_is_left_over),
        ROOM(killed_in_a_new_directory_nothing_is_left_over),
        ROOM(whichever_step_fails_none_looks_whole_that_is_not),
        ROOM(a_disk_that_takes_no_more_leaves_the_old_set),
        ROOM(a_failed_first_set_leaves_no_directory),
        ROOM(a_second_writer_is_told_who_holds_it),
        ROOM(only_our_own_files_are_removed),
        ROOM(a_file_that_was_edited_stays),
        ROOM(a_last_file_that_is_no_list_is_replaced),
        ROOM(what_is_no_file_is_refused_and_left),
        ROOM(a_folder_that_is_a_link_is_refused),
    };

    return cmocka_run_group_tests_name("report, set", tests, open_room,
                                       close_room);
}
