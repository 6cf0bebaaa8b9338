/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A folder of a test's own. */
#ifndef DEW_TESTS_ROOM_H
#define DEW_TESTS_ROOM_H

#include <dirent.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

/* Names in a directory, "." and ".." apart; each removed when told to. */
static inline size_t names_in(const char *directory, int remove_them)
{
    DIR *d = opendir(directory);
    size_t count = 0;

    if (d == NULL)
        return 0;
    for (struct dirent *e; (e = readdir(d)) != NULL;) {
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0)
            continue;
        count++;
        if (remove_them && unlinkat(dirfd(d), e->d_name, 0) != 0)
            unlinkat(dirfd(d), e->d_name, AT_REMOVEDIR);
    }
    closedir(d);
    return count;
}

#endif
