/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file of records: what is whole is read back, what is torn is not. */
#include "core/journal.h"

#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "support/rows.h"

enum { RECORDS = 3, LONGEST = 5000 };

static const size_t lengths[RECORDS] = {1, 4711, 73};

static char byte_of(size_t record, size_t i)
{
    return (char)(7 * record + 31 * i + 5);
}

struct seen {
    size_t count;
    int wrong;
};

static int see(void *of, const char *bytes, size_t length, off_t at)
{
    struct seen *s = of;

    (void)at;
    s->wrong |= s->count >= RECORDS || length != lengths[s->count];
    for (size_t i = 0; i < length && !s->wrong; i++)
        s->wrong |= bytes[i] != byte_of(s->count, i);
    s->count++;
    return 0;
}

struct place {
    char folder[32];
    int directory;
};

static struct place begin(void)
{
    struct place p = {.folder = "/tmp/dew-journal-XXXXXX"};

    assert_non_null(mkdtemp(p.folder));
    p.directory = open(p.folder, O_RDONLY | O_DIRECTORY);
    assert_true(p.directory >= 0);
    return p;
}

static void end(struct place *p)
{
    unlinkat(p->directory, "j", 0);
    close(p->directory);
    assert_int_equal(rmdir(p->folder), 0);
}

static void add(struct core__journal *j, size_t record)
{
    char bytes[LONGEST];

    for (size_t i = 0; i < lengths[record]; i++)
        bytes[i] = byte_of(record, i);
    assert_int_equal(core__journal_add(j, bytes, lengths[record], NULL),
                     DEW_OK);
}

static struct core__journal open_in(const struct place *p)
{
    struct core__journal j;

    assert_int_equal(core__journal_open(&j, p->directory, "j", NULL), DEW_OK);
    return j;
}

static struct core__journal filled(const struct place *p)
{
    struct core__journal j = open_in(p);

    for (size_t i = 0; i < RECORDS; i++)
        add(&j, i);
    return j;
}

static struct seen read_all(int file, off_t *last)
{
    struct seen s = {0, 0};

    assert_int_equal(core__journal_read(file, see, &s, last, NULL), DEW_OK);
    return s;
}

TEST(records_are_read_back_in_their_order)
{
    struct place p = begin();
    struct core__journal j = filled(&p);
    off_t last;
    struct seen s = read_all(j.file, &last);

    assert_int_equal(s.count, RECORDS);
    assert_false(s.wrong);
    assert_int_equal(last, j.end);
    assert_int_equal(last, lseek(j.file, 0, SEEK_END));
    core__journal_close(&j);
    end(&p);
}

/* Where a kill or a full disk leaves it: some bytes of the last record. */
TEST(a_torn_tail_is_cut_off_wherever_it_is_torn)
{
    struct place p = begin();
    struct core__journal j = filled(&p);
    off_t whole = j.end, last, before;
    struct seen s;

    for (off_t cut = 1; cut < (off_t)lengths[RECORDS - 1] + 12; cut++) {
        assert_int_equal(ftruncate(j.file, whole - cut), 0);
        core__journal_close(&j);
        j = open_in(&p);
        before = j.end;
        assert_int_equal(before, lseek(j.file, 0, SEEK_END));
        s = read_all(j.file, &last);
        assert_int_equal(s.count, RECORDS - 1);
        add(&j, RECORDS - 1);
        assert_int_equal(j.end, whole);
        s = read_all(j.file, &last);
        assert_int_equal(s.count, RECORDS);
        assert_false(s.wrong);
    }
    core__journal_close(&j);
    end(&p);
}

/* Of a tail of the right length that was never written, too. */
TEST(a_changed_byte_ends_the_reading)
{
    struct place p = begin();
    struct core__journal j = filled(&p);
    const off_t at[] = {j.end - 1, j.end - 40, j.end - 73 - 12 + 4,
                        j.end - 73 - 1};
    off_t last;

    for (size_t i = 0; i < COUNT_OF(at); i++) {
        char was, now;

        assert_int_equal(pread(j.file, &was, 1, at[i]), 1);
        now = (char)(was ^ 16);
        assert_int_equal(pwrite(j.file, &now, 1, at[i]), 1);
        assert_int_equal(read_all(j.file, &last).count, RECORDS - 1);
        assert_int_equal(pwrite(j.file, &was, 1, at[i]), 1);
        assert_int_equal(read_all(j.file, &last).count, RECORDS);
    }
    core__journal_close(&j);
    end(&p);
}

TEST(what_cannot_be_written_leaves_the_file_as_it_was)
{
    struct place p = begin();
    struct core__journal j = filled(&p), closed = j;
    struct dew_error err = {0};

    closed.file = open(p.folder, O_RDONLY); /* takes no bytes */
    assert_int_equal(core__journal_add(&closed, "x", 1, &err), DEW_EIO);
    assert_non_null(strstr(err.text, "could not be written: "));
    assert_int_equal(closed.end, j.end);
    close(closed.file);
    core__journal_close(&j);
    end(&p);
}

RUN_TESTS("journal");
