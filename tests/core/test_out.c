/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One file: whole or as it was, whatever is killed or fails, and never in
   place of a device. */
#include "support/steps.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/sysmacros.h>

#include "core/in.h"
#include "core/out.h"
#include "core/part.h"
#include "support/room.h"

static char room[] = "/tmp/dew-out-XXXXXX", path[64], other[64];

static int open_room(void **state)
{
    (void)state;
    if (mkdtemp(room) == NULL)
        return -1;
    snprintf(path, sizeof path, "%s/a.csv", room);
    snprintf(other, sizeof other, "%s/other", room);
    return 0;
}

/* Names in the room, each removed when told to. */
static size_t names(int remove_them)
{
    assert_int_equal(access(room, R_OK), 0);
    return names_in(room, remove_them);
}

static int empty_room(void **state)
{
    (void)state;
    steps_all_go();
    names(1);
    return 0;
}

static int close_room(void **state)
{
    empty_room(state);
    return rmdir(room);
}

static void put(const char *name, const char *text)
{
    FILE *f = fopen(name, "w");

    assert_non_null(f);
    fputs(text, f);
    assert_int_equal(fclose(f), 0);
}

/* What a file holds, "" when there is none. */
static const char *held(const char *name)
{
    static char text[64];
    FILE *f = fopen(name, "r");

    text[0] = '\0';
    if (f == NULL)
        return text;
    text[fread(text, 1, sizeof text - 1, f)] = '\0';
    fclose(f);
    return text;
}

static enum dew_status write_it(enum core__out_how how, struct dew_error *err)
{
    struct core__out out;
    enum dew_status status = core__out_open(&out, path, how, err);

    if (status != DEW_OK)
        return status;
    fputs("new", out.file);
    return core__out_close(&out, err);
}

static void write_over(void *with)
{
    (void)with;
    write_it(CORE__OUT_OVER, NULL);
}

static void write_new(void *with)
{
    (void)with;
    write_it(CORE__OUT_NEW, NULL);
}

static void whole_or_as_it_was_wherever_it_is_killed(void **state)
{
    int k = 1, killed = 1, seen_old = 0;

    (void)state;
    for (; killed; k++) {
        put(path, "old");
        killed = step_killed(k, write_over, NULL);
        seen_old += strcmp(held(path), "old") == 0;
        assert_string_equal(held(path), killed && k < 3 ? "old" : "new");
        assert_int_equal(write_it(CORE__OUT_OVER, NULL), DEW_OK);
        assert_string_equal(held(path), "new");
        assert_int_equal(names(0), 1); /* what the killed one left is gone */
    }
    assert_int_equal(seen_old, 2); /* before the sync, before the rename */
    assert_int_equal(k, 5);        /* ... before the folder's sync, none */
}

static void a_new_file_is_whole_or_absent(void **state)
{
    int k = 1, killed = 1;

    (void)state;
    for (; killed; k++) {
        int there;

        names(1);
        killed = step_killed(k, write_new, NULL);
        there = access(path, F_OK) == 0;
        assert_string_equal(held(path), there ? "new" : "");
        assert_int_equal(write_it(CORE__OUT_NEW, NULL),
                         there ? DEW_ERANGE : DEW_OK);
        assert_string_equal(held(path), "new");
    }
    assert_true(k > 4);
}

static void whole_or_as_it_was_whichever_step_fails(void **state)
{
    int k = 1, failed = 1;

    (void)state;
    for (; failed; k++) {
        struct dew_error err = {0};

        put(path, "old");
        step_count = 0;
        step_fails = k;
        failed = write_it(CORE__OUT_OVER, &err) != DEW_OK;
        steps_all_go();
        if (failed)
            assert_non_null(strstr(err.text, strerror(EIO)));
        /* the last step is the sync of the folder: the name stands already */
        assert_string_equal(held(path), k < 3 ? "old" : "new");
        assert_int_equal(names(0), 1);
    }
    assert_int_equal(k, 5);
}

static void a_file_that_is_there_is_left_alone(void **state)
{
    struct dew_error err = {0};
    struct core__out out;

    (void)state;
    put(path, "old");
    assert_int_equal(write_it(CORE__OUT_NEW, &err), DEW_ERANGE);
    assert_non_null(strstr(
        err.text, "is there already and is left alone: choose another name"));
    unlink(path);
    /* and one that came while ours was written */
    assert_int_equal(core__out_open(&out, path, CORE__OUT_NEW, NULL), DEW_OK);
    put(path, "old");
    assert_int_equal(core__out_close(&out, NULL), DEW_ERANGE);
    assert_string_equal(held(path), "old");
    assert_int_equal(names(0), 1);
}

/* Where there are no links, as on a memory card, the file is renamed. */
static void a_file_system_without_links_will_do(void **state)
{
    (void)state;
    step_count = 0;
    step_fails = 2; /* the sync, then the link */
    assert_int_equal(write_it(CORE__OUT_NEW, NULL), DEW_OK);
    steps_all_go();
    assert_string_equal(held(path), "new");
    assert_int_equal(names(0), 1);
}

static void a_dropped_file_leaves_nothing(void **state)
{
    struct core__out out;

    (void)state;
    put(path, "old");
    assert_int_equal(core__out_open(&out, path, CORE__OUT_OVER, NULL), DEW_OK);
    assert_int_equal(names(0), 2);
    core__out_drop(&out);
    assert_string_equal(held(path), "old");
    assert_int_equal(names(0), 1);
}

static void two_writers_of_one_name_do_not_meet(void **state)
{
    struct core__out a, b;

    (void)state;
    assert_int_equal(core__out_open(&a, path, CORE__OUT_OVER, NULL), DEW_OK);
    assert_int_equal(core__out_open(&b, path, CORE__OUT_OVER, NULL), DEW_OK);
    fputs("first", a.file);
    fputs("second", b.file);
    assert_int_equal(core__out_close(&b, NULL), DEW_OK);
    assert_string_equal(held(path), "second");
    assert_int_equal(core__out_close(&a, NULL), DEW_OK);
    assert_string_equal(held(path), "first");
    assert_int_equal(names(0), 1);
}

/* ---- what is swept ---------------------------------------------------------- */

static void only_parts_that_nobody_holds_are_swept(void **state)
{
    static const char *const kept[] = {
        ".dewledger-0-1.part",   ".dewledger-12.part",  ".dewledger-12-x.part",
        ".dewledger-12-1.set",   ".dewledger-12-.part", "dewledger-12-1.part",
        ".dewledger-12-1.part~", ".dewledger--1-1.part"};
    char name[96];
    int file;

    (void)state;
    for (size_t i = 0; i < COUNT_OF(kept); i++) {
        snprintf(name, sizeof name, "%s/%s", room, kept[i]);
        put(name, "x");
    }
    snprintf(name, sizeof name, "%s/.dewledger-12-1.part", room);
    put(name, "left behind");
    snprintf(name, sizeof name, "%s/.dewledger-12-2.part", room);
    assert_int_equal(symlink("/etc/passwd", name), 0);
    snprintf(name, sizeof name, "%s/.dewledger-12-3.part", room);
    put(name, "held");
    file = open(name, O_RDONLY);
    assert_int_equal(flock(file, LOCK_EX), 0);
    assert_int_equal(write_it(CORE__OUT_OVER, NULL), DEW_OK);
    /* kept, the link, the held one, the new one */
    assert_int_equal(names(0), (int)COUNT_OF(kept) + 3);
    close(file);
    assert_int_equal(write_it(CORE__OUT_OVER, NULL), DEW_OK);
    assert_int_equal(names(0), (int)COUNT_OF(kept) + 2);
}

/* ---- what is no file ---------------------------------------------------------- */

static void a_directory_is_refused(void **state)
{
    struct dew_error err = {0};

    (void)state;
    assert_int_equal(mkdir(path, 0700), 0);
    assert_int_equal(write_it(CORE__OUT_OVER, &err), DEW_EIO);
    assert_non_null(strstr(err.text, "Is a directory"));
}

static void an_empty_name_is_refused(void **state)
{
    struct dew_error err = {0};
    struct core__out out;

    (void)state;
    assert_int_equal(core__out_open(&out, "", CORE__OUT_OVER, &err), DEW_EIO);
    assert_string_equal(err.text, "an empty name cannot be written to");
}

static void a_link_is_neither_followed_nor_replaced(void **state)
{
    struct dew_error err = {0};
    struct stat s;

    (void)state;
    put(other, "theirs");
    assert_int_equal(symlink(other, path), 0);
    assert_int_equal(write_it(CORE__OUT_OVER, &err), DEW_EIO);
    assert_non_null(strstr(err.text, "a link; name the file itself"));
    assert_string_equal(held(other), "theirs");
    assert_int_equal(lstat(path, &s), 0);
    assert_true(S_ISLNK(s.st_mode));
}

static void a_device_is_written_into(void **state)
{
    struct dew_error err = {0};
    struct stat s;

    (void)state;
    /* of our own: were this wrong, root would lose the machine's */
    if (mknod(path, S_IFCHR | 0600, makedev(1, 3)) != 0)
        skip();
    assert_int_equal(write_it(CORE__OUT_NEW, NULL), DEW_OK);
    assert_int_equal(lstat(path, &s), 0);
    assert_true(S_ISCHR(s.st_mode));
    unlink(path);
    if (access("/dev/full", W_OK) != 0)
        skip();
    /* through a link, as /dev/stdout is one */
    assert_int_equal(symlink("/dev/full", path), 0);
    assert_int_equal(write_it(CORE__OUT_OVER, &err), DEW_EIO);
    assert_non_null(strstr(err.text, "No space left on device"));
    assert_int_equal(lstat(path, &s), 0);
    assert_true(S_ISLNK(s.st_mode));
}

static void a_pipe_is_written_into_or_refused(void **state)
{
    struct dew_error err = {0};
    struct stat s;
    char got[8] = "";
    int reader;

    (void)state;
    assert_int_equal(mkfifo(path, 0600), 0);
    assert_int_equal(write_it(CORE__OUT_OVER, &err), DEW_EIO);
    assert_non_null(strstr(err.text, "a pipe that nobody reads"));
    reader = open(path, O_RDONLY | O_NONBLOCK);
    assert_int_equal(write_it(CORE__OUT_NEW, NULL), DEW_OK);
    assert_int_equal(read(reader, got, sizeof got - 1), 3);
    assert_string_equal(got, "new");
    close(reader);
    assert_int_equal(stat(path, &s), 0);
    assert_true(S_ISFIFO(s.st_mode));
}

/* ---- what is read --------------------------------------------------------------- */

static void a_pipe_is_read_once_or_refused(void **state)
{
    const char *why;
    int writer, reader;

    (void)state;
    assert_int_equal(mkfifo(path, 0600), 0);
    assert_int_equal(core__in_open(path, CORE__IN_FILE, &why), -1);
    assert_non_null(strstr(why, "write it to a file first"));
    writer = open(path, O_RDWR);
    assert_int_equal(write(writer, "x", 1), 1);
    reader = core__in_open(path, CORE__IN_ONCE, &why);
    assert_true(reader >= 0);
    assert_int_equal(fcntl(reader, F_GETFL) & O_NONBLOCK, 0);
    close(reader);
    close(writer);
}

static void what_is_there_is_opened(void **state)
{
    const char *why;
    int file;

    (void)state;
    assert_int_equal(core__in_open(path, CORE__IN_FILE, &why), -1);
    assert_string_equal(why, "No such file or directory");
    put(path, "x");
    file = core__in_open(path, CORE__IN_FILE, &why);
    assert_true(file >= 0);
    close(file);
    assert_int_equal(core__in_open("/dev/null", CORE__IN_FILE, &why), -1);
    file = core__in_open("/dev/null", CORE__IN_ONCE, &why);
    assert_true(file >= 0);
    close(file);
}

int main(void)
{
#define ROOM(test) cmocka_unit_test_teardown(test, empty_room)
    const struct CMUnitTest tests[] = {
        ROOM(whole_or_as_it_was_wherever_it_is_killed),
        ROOM(a_new_file_is_whole_or_absent),
        ROOM(whole_or_as_it_was_whichever_step_fails),
        ROOM(a_file_that_is_there_is_left_alone),
        ROOM(a_file_system_without_links_will_do),
        ROOM(a_dropped_file_leaves_nothing),
        ROOM(two_writers_of_one_name_do_not_meet),
        ROOM(only_parts_that_nobody_holds_are_swept),
        ROOM(a_directory_is_refused),
        ROOM(an_empty_name_is_refused),
        ROOM(a_link_is_neither_followed_nor_replaced),
        ROOM(a_device_is_written_into),
        ROOM(a_pipe_is_written_into_or_refused),
        ROOM(a_pipe_is_read_once_or_refused),
        ROOM(what_is_there_is_opened),
    };

    return cmocka_run_group_tests_name("core, out", tests, open_room,
                                       close_room);
}
