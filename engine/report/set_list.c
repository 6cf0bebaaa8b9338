/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/set_list.h"

#include <errno.h>
#include <fcntl.h>
#include <sha2.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { READ = 4096, MOST = 1 << 24 /* bytes of a list that is read */ };

static int is_listed(const struct report__set_list *list, const char *name,
                     const char *sha256)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->files[i].name, name) == 0 &&
            strcmp(list->files[i].sha256, sha256) == 0)
            return 1;
    return 0;
}

int report__set_list_add(struct report__set_list *list, const char *name,
                         const char *sha256)
{
    struct report__set_file *f;

    if (is_listed(list, name, sha256))
        return 1;
    if (list->count == list->room) {
        size_t room = list->room > 0 ? 2 * list->room : 32;

        f = realloc(list->files, room * sizeof *f);
        if (f == NULL)
            return 0;
        list->files = f;
        list->room = room;
    }
    f = &list->files[list->count++];
    snprintf(f->name, sizeof f->name, "%s", name);
    snprintf(f->sha256, sizeof f->sha256, "%s", sha256);
    return 1;
}

int report__set_sum(int file, char sha256[DEW_SHA256_TEXT])
{
    unsigned char bytes[READ];
    SHA2_CTX sum;
    off_t at = 0;
    ssize_t n;

    SHA256Init(&sum);
    while ((n = pread(file, bytes, sizeof bytes, at)) != 0) {
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return -1;
        SHA256Update(&sum, bytes, (size_t)n);
        at += n;
    }
    SHA256End(&sum, sha256);
    return 0;
}

/* ---- as JSON --------------------------------------------------------------- */

json_t *report__set_list_json(const struct report__set_file *files,
                              size_t count)
{
    json_t *list = json_array();

    for (size_t i = 0; list != NULL && i < count; i++) {
        json_t *f = json_pack("{s:s, s:s}", "file", files[i].name, "sha256",
                              files[i].sha256);

        if (json_array_append_new(list, f) == 0)
            continue;
        json_decref(list);
        list = NULL;
    }
    return list;
}

/* A regular file, opened without following or waiting; -1 for any other. */
static int open_regular(int directory, const char *name, struct stat *s)
{
    const int how = O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC;
    int file = openat(directory, name, how);

    if (file < 0)
        return -1;
    if (fstat(file, s) == 0 && S_ISREG(s->st_mode))
        return file;
    close(file);
    return -1;
}

/* json_loadfd would ask the system for each byte by itself. */
static json_t *load(int directory, const char *name)
{
    struct stat s;
    int file = open_regular(directory, name, &s);
    json_t *root = NULL;
    FILE *in;

    if (file < 0)
        return NULL;
    in = fdopen(file, "rb");
    if (in == NULL) {
        close(file);
        return NULL;
    }
    if (s.st_size <= MOST)
        root = json_loadf(in, 0, NULL);
    fclose(in);
    return root;
}

static int add_row(struct report__set_list *list, const json_t *row)
{
    const char *name = json_string_value(json_object_get(row, "file"));
    const char *sum = json_string_value(json_object_get(row, "sha256"));

    if (name == NULL || sum == NULL || strlen(name) >= REPORT__SET_PATH ||
        strlen(sum) != DEW_SHA256_TEXT - 1)
        return 1;
    return report__set_list_add(list, name, sum);
}

int report__set_list_read(struct report__set_list *list, int directory,
                          const char *name)
{
    json_t *root = load(directory, name);
    const json_t *rows = json_object_get(root, "written");
    int good = 1;

    for (size_t i = 0; good && i < json_array_size(rows); i++)
        good = add_row(list, json_array_get(rows, i));
    json_decref(root);
    return good;
}

/* ---- what is no longer of the set ------------------------------------------- */

static int has(const struct report__set_list *list, const char *name)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->files[i].name, name) == 0)
            return 1;
    return 0;
}

static int is_plain(const char *name)
{
    return name[0] != '\0' && name[0] != '.' && strchr(name, '/') == NULL;
}

/* Within directory, or within its folder, which is no link. */
static int is_inside(int directory, const char *folder, const char *name)
{
    size_t n = strlen(folder);
    struct stat s;

    if (is_plain(name))
        return 1;
    return strncmp(name, folder, n) == 0 && name[n] == '/' &&
           is_plain(name + n + 1) &&
           fstatat(directory, folder, &s, AT_SYMLINK_NOFOLLOW) == 0 &&
           S_ISDIR(s.st_mode);
}

static int is_as_written(int directory, const struct report__set_file *f)
{
    char sum[DEW_SHA256_TEXT];
    struct stat s;
    int file = open_regular(directory, f->name, &s);
    int same = file >= 0 && report__set_sum(file, sum) == 0 &&
               strcmp(sum, f->sha256) == 0;

    if (file >= 0)
        close(file);
    return same;
}

const char *report__set_list_clear(const struct report__set_list *before,
                                   const struct report__set_list *now,
                                   int directory, const char *folder)
{
    for (size_t i = 0; i < before->count; i++) {
        const struct report__set_file *f = &before->files[i];

        if (!has(now, f->name) && is_inside(directory, folder, f->name) &&
            is_as_written(directory, f) && unlinkat(directory, f->name, 0) != 0)
            return f->name;
    }
    return NULL;
}
