/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The folder of a survey: whose it is, what it holds. */
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/fail.h"
#include "core/in.h"
#include "core/out.h"
#include "core/part.h"
#include "run/run.h"
#include "survey/survey.h"

/* What is surveyed stands in this file; the scenario with options made for it
   in the other. */
#define HEAD     "survey.txt"
#define MADE     "scenario.yaml"
#define JOURNALS "rows-"

enum { HEAD_ROOM = 4096, FILES = DEW_SURVEY_FILES };

static enum dew_status fail(const char *folder, const char *name,
                            struct dew_error *err)
{
    int cause = errno;

    return core__fail(err, DEW_EIO, "%s%s%s: %s", folder,
                      name[0] != '\0' ? "/" : "", name, strerror(cause));
}

char *survey__path(const char *folder, const char *name)
{
    size_t size = strlen(folder) + strlen(name) + 2;
    char *path = malloc(size);

    if (path != NULL)
        snprintf(path, size, "%s/%s", folder, name);
    return path;
}

void survey__journal_name(size_t process, size_t worker, char out[32])
{
    snprintf(out, 32, JOURNALS "%04zu-%03zu", process, worker);
}

/* ---- what is surveyed ------------------------------------------------------------ */

/* The scenario with the first house and place; NULL where it has a fault. */
static struct dew_scenario *first_house(const struct dew_survey_plan *p)
{
    struct dew_error list[1] = {{0}};
    struct dew_faults faults = {list, 1, 0};
    struct dew_scenario *s;
    size_t length;
    const char *text = survey__scenario(p, &length);

    (void)survey__first_house(p, text, length, &s, &faults);
    return s;
}

static const char *weather_file(const struct dew_scenario *s)
{
    const struct dew_weather_request q = dew_scenario_weather(s);

    return q.file[0] != '\0' ? q.file : q.monthly;
}

/* A weather file that the scenario names is part of it. */
static void add_weather(const struct dew_survey_plan *p, char *text)
{
    struct dew_scenario *s = first_house(p);
    struct run__file *f = calloc(1, sizeof *f);
    struct dew_error err = {0};
    char sum[DEW_SHA256_TEXT];
    size_t used = strlen(text);

    if (s != NULL && f != NULL && weather_file(s)[0] != '\0' &&
        run__beside(p->scenario_name, weather_file(s), (size_t)1 << 31, f,
                    &err) == DEW_OK) {
        dew_report_sha256(f->bytes, f->length, sum);
        snprintf(text + used, HEAD_ROOM - used, "weather %s\n", sum);
    }
    if (f != NULL)
        free(f->bytes);
    free(f);
    dew_scenario_close(s);
}

/* Of plan, scenario and what they name, and how much it is: a folder goes on
   only where all of it is the same. */
static void describe(const struct dew_survey *s, char text[HEAD_ROOM])
{
    const struct dew_survey_plan *p = s->plan;
    const struct dew_survey_size z = dew_survey_size(p);
    char plan[DEW_SHA256_TEXT], scenario[DEW_SHA256_TEXT];

    dew_report_sha256(p->bytes, p->length, plan);
    dew_report_sha256(p->scenario, p->scenario_length, scenario);
    snprintf(text, HEAD_ROOM,
             "a survey of dewledger, form 1\nversion %s\nplan %s\nscenario "
             "%s\nhouses %s\nitems %zu\noptions %zu\ndraws %zu\nvaried %zu\n",
             DEW_VERSION, plan, scenario,
             p->houses_name != NULL ? p->houses_sum : "-", z.items, z.options,
             z.draws, p->axis_count);
    add_weather(p, text);
}

/* The first word of the first line that differs. */
static void differs(const char *had, const char *now, char *word, size_t size)
{
    while (*had != '\0' && *now != '\0') {
        size_t a = strcspn(had, "\n"), b = strcspn(now, "\n");

        if (a != b || memcmp(had, now, a) != 0)
            break;
        had += a + (had[a] != '\0');
        now += b + (now[b] != '\0');
    }
    snprintf(word, size, "%.*s", (int)strcspn(now, " \n"), now);
}

static enum dew_status write_file(const struct dew_survey *s, const char *name,
                                  const char *text, size_t length,
                                  struct dew_error *err)
{
    char *path = survey__path(s->folder, name);
    struct core__out out;
    enum dew_status status;

    if (path == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    status = core__out_open(&out, path, CORE__OUT_NEW, err);
    if (status == DEW_OK) {
        fwrite(text, 1, length, out.file);
        status = core__out_close(&out, err);
    }
    free(path);
    return status;
}

static char *read_file(const char *folder, const char *name, size_t *length,
                       struct dew_error *err)
{
    char *path = survey__path(folder, name), *bytes = NULL;

    *length = 0;
    if (path == NULL)
        core__fail(err, DEW_EMEM, "out of memory");
    else if (core__in_read(path, CORE__IN_FILE, SURVEY__TEXT, &bytes, length,
                           err) == DEW_OK)
        core__at(err, "", 0, 0); /* faults to come are not of this file */
    free(path);
    return bytes;
}

int dew_survey_begun(const char *folder)
{
    char *path = survey__path(folder, HEAD);
    struct stat found;
    int begun = path != NULL && stat(path, &found) == 0;

    free(path);
    return begun;
}

/* ---- opening ---------------------------------------------------------------------- */

static enum dew_status held(const struct dew_survey *s, struct dew_error *err)
{
    long pid = core__folder_holder(s->directory);
    char who[48] = "another process";

    if (pid > 0)
        snprintf(who, sizeof who, "process %ld", pid);
    return core__fail(err, DEW_EIO,
                      "%s: %s is at work there: wait until it has ended, or "
                      "name another folder",
                      s->folder, who);
}

static enum dew_status open_directory(struct dew_survey *s,
                                      struct dew_error *err)
{
    const struct core__part_name part = {-1, "", CORE__PART_SET};
    struct core__part_name where = part;

    if (s->how != DEW_SURVEY_JOIN && mkdir(s->folder, 0777) != 0 &&
        errno != EEXIST)
        return fail(s->folder, "", err);
    s->directory = open(s->folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (s->directory < 0)
        return fail(s->folder, "", err);
    if (s->how == DEW_SURVEY_JOIN)
        return DEW_OK;
    if (!core__folder_lock(s->directory))
        return held(s, err);
    core__folder_sweep(s->directory, CORE__PART_SET);
    where.folder = s->directory;
    s->holder = core__part_make(&where, s->holder_name, sizeof s->holder_name);
    return s->holder >= 0 ? DEW_OK : fail(s->folder, "", err);
}

/* The first name in the folder that begins with head, and is none of ours that
   are hidden; "" where there is none. */
static void any_name(const struct dew_survey *s, char *out, size_t size)
{
    DIR *names = opendir(s->folder);
    struct dirent *e;

    out[0] = '\0';
    while (names != NULL && out[0] == '\0' && (e = readdir(names)) != NULL)
        if (e->d_name[0] != '.' && strcmp(e->d_name, MADE) != 0)
            snprintf(out, size, "%s", e->d_name);
    if (names != NULL)
        closedir(names);
}

static enum dew_status begin(struct dew_survey *s, const char *text,
                             struct dew_error *err)
{
    struct dew_survey_plan *p = s->plan;
    enum dew_status status = DEW_OK;
    char other[256];

    any_name(s, other, sizeof other);
    if (other[0] != '\0')
        return core__fail(err, DEW_ERANGE,
                          "%s: holds files that are of no survey (%s): name "
                          "another folder",
                          s->folder, other);
    if (p->bare && p->made == NULL)
        return core__fail(err, DEW_EMISSING,
                          "%s: the scenario has no options, and none were made",
                          p->scenario_name);
    if (p->made != NULL) {
        /* of a beginning that was cut off */
        unlinkat(s->directory, MADE, 0);
        status = write_file(s, MADE, p->made, p->made_length, err);
    }
    if (status == DEW_OK)
        status = write_file(s, HEAD, text, strlen(text), err);
    return status;
}

/* Options that were made for the survey are those it goes on with. */
static enum dew_status take_made(struct dew_survey *s, struct dew_error *err)
{
    struct dew_faults faults = {err, 1, 0};
    size_t length;
    char *text = read_file(s->folder, MADE, &length, err);
    enum dew_status status = DEW_EIO;

    if (text != NULL)
        status = dew_survey_give(s->plan, text, length, &faults);
    free(text);
    return status;
}

static enum dew_status compare(const struct dew_survey *s, const char *had,
                               const char *now, struct dew_error *err)
{
    char word[40];

    if (strcmp(had, now) == 0)
        return DEW_OK;
    differs(had, now, word, sizeof word);
    return core__fail(err, DEW_ERANGE,
                      "%s: was begun with another %s: go on with the one it "
                      "was begun with, or name another folder",
                      s->folder, word[0] != '\0' ? word : "plan");
}

static enum dew_status go_on(struct dew_survey *s, struct dew_error *err)
{
    char now[HEAD_ROOM];
    size_t length;
    char *had, *text;
    enum dew_status status = s->plan->bare ? take_made(s, err) : DEW_OK;

    if (status != DEW_OK)
        return status;
    had = read_file(s->folder, HEAD, &length, err);
    text = had != NULL ? realloc(had, length + 1) : NULL;
    if (text == NULL) {
        free(had);
        return core__fail(err, DEW_EMEM, "out of memory");
    }
    text[length] = '\0';
    describe(s, now);
    status = compare(s, text, now, err);
    free(text);
    return status;
}

enum dew_status survey__folder_open(struct dew_survey *s, struct dew_error *err)
{
    enum dew_status status = open_directory(s, err);
    char now[HEAD_ROOM];

    if (status != DEW_OK)
        return status;
    if (!dew_survey_begun(s->folder)) {
        if (s->how == DEW_SURVEY_JOIN)
            return core__fail(err, DEW_EMISSING,
                              "%s: holds no survey as seen from here: the "
                              "folder must be on a disk that all see",
                              s->folder);
        describe(s, now);
        return begin(s, now, err);
    }
    if (s->how == DEW_SURVEY_NEW)
        return core__fail(err, DEW_ERANGE,
                          "%s: a survey was begun there: --resume goes on with "
                          "it, or name another folder",
                          s->folder);
    return go_on(s, err);
}

void survey__folder_close(struct dew_survey *s)
{
    for (size_t i = 0; i < s->file_count; i++)
        close(s->files[i]);
    free(s->files);
    if (s->holder >= 0) {
        unlinkat(s->directory, s->holder_name, 0);
        close(s->holder);
    }
    if (s->directory >= 0)
        close(s->directory);
}

/* ---- what it holds ---------------------------------------------------------------- */

struct finding {
    struct survey__lies *lies; /* [items]                                    */
    struct dew_survey_state *state;
    struct dew_survey_thread *threads; /* [FILES], or NULL                   */
    uint32_t file;
};

static int take_record(void *of, const char *bytes, size_t length, off_t at)
{
    struct finding *f = of;
    double seconds;
    size_t used = sizeof seconds, n, number;
    int fault;

    if (length < used)
        return 0;
    memcpy(&seconds, bytes, sizeof seconds);
    f->state->seconds += seconds;
    if (f->threads != NULL)
        f->threads[f->file].seconds += seconds;
    while ((n = survey__skip(bytes + used, length - used, &number, &fault)) >
           0) {
        if (number < f->state->items && f->lies[number].length == 0) {
            f->lies[number] =
                (struct survey__lies){at + (off_t)used, (uint32_t)n, f->file};
            f->state->done++;
            if (f->threads != NULL)
                f->threads[f->file].done++;
            f->state->faults += (size_t)fault;
        }
        used += n;
    }
    return 0;
}

static int by_name(const struct dirent **a, const struct dirent **b)
{
    return strcmp((*a)->d_name, (*b)->d_name);
}

static int is_journal(const struct dirent *e)
{
    return strncmp(e->d_name, JOURNALS, sizeof JOURNALS - 1) == 0;
}

/* Of survey__journal_name. */
static void name_thread(const char *name, struct dew_survey_thread *t)
{
    char *end;

    t->process = (size_t)strtoul(name + sizeof JOURNALS - 1, &end, 10);
    t->thread = *end == '-' ? (size_t)strtoul(end + 1, NULL, 10) : 0;
}

/* One journal, kept open in files. */
static enum dew_status find_one(const char *folder, int file, const char *name,
                                struct finding *f, struct dew_error *err)
{
    off_t end;

    if (file < 0)
        return fail(folder, name, err);
    if (f->threads != NULL)
        name_thread(name, &f->threads[f->file]);
    return core__journal_read(file, take_record, f, &end, err);
}

static enum dew_status find_in(const char *folder, int directory,
                               struct finding *f, int *files, size_t *count,
                               struct dew_error *err)
{
    const int how = O_RDONLY | O_CLOEXEC | O_NOFOLLOW;
    struct dirent **names = NULL;
    int n = scandir(folder, &names, is_journal, by_name);
    enum dew_status status = n < 0 ? fail(folder, "", err) : DEW_OK;

    if (n > FILES)
        status = core__fail(err, DEW_ERANGE, "%s: more than %d files of rows",
                            folder, FILES);
    for (int i = 0; i < n; i++) {
        const char *name = names[i]->d_name;
        int file = status == DEW_OK ? openat(directory, name, how) : -1;

        if (status == DEW_OK) {
            f->file = (uint32_t)*count;
            status = find_one(folder, file, name, f, err);
        }
        if (file >= 0)
            files[(*count)++] = file;
        free(names[i]);
    }
    free(names);
    return status;
}

enum dew_status survey__find(struct dew_survey *s, struct dew_error *err)
{
    struct finding f = {.lies = s->lies, .state = &s->state};

    for (size_t i = 0; i < s->file_count; i++)
        close(s->files[i]);
    s->file_count = 0;
    memset(s->lies, 0, s->state.items * sizeof *s->lies);
    s->state.done = s->state.faults = 0;
    s->state.seconds = 0;
    if (s->files == NULL)
        s->files = calloc(FILES, sizeof *s->files);
    if (s->files == NULL)
        return core__fail(err, DEW_EMEM, "out of memory");
    return find_in(s->folder, s->directory, &f, s->files, &s->file_count, err);
}

/* ---- looking in ------------------------------------------------------------------- */

/* The whole number behind a word at the begin of a line; 0 where none is. */
static size_t told(const char *text, const char *word)
{
    size_t length = strlen(word);

    for (; *text != '\0'; text += strcspn(text, "\n"), text += *text == '\n')
        if (strncmp(text, word, length) == 0 && text[length] == ' ')
            return (size_t)strtoull(text + length + 1, NULL, 10);
    return 0;
}

static enum dew_status read_head(const char *folder,
                                 struct dew_survey_state *to,
                                 struct dew_error *err)
{
    size_t length;
    char *text;

    if (!dew_survey_begun(folder))
        return core__fail(err, DEW_EUNKNOWN, "%s: there is no survey", folder);
    text = read_file(folder, HEAD, &length, err);
    if (text == NULL)
        return err->status;
    if (length > 0)
        text[length - 1] = '\0';
    to->items = length > 0 ? told(text, "items") : 0;
    to->rows = length > 0 ? to->items * told(text, "options") *
                                (1 + told(text, "draws"))
                          : 0;
    free(text);
    if (to->rows > 0 && to->items <= DEW_SURVEY_ITEMS)
        return DEW_OK;
    return core__fail(err, DEW_ESYNTAX, "%s/" HEAD ": is not of a survey",
                      folder);
}

static long worker_in(int directory)
{
    long pid;

    if (core__folder_lock(directory))
        return 0;
    pid = core__folder_holder(directory);
    return pid > 0 ? pid : -1;
}

enum dew_status dew_survey_look(const char *folder, struct dew_survey_far *far,
                                struct dew_error *err)
{
    struct dew_error inside = {0};
    struct dew_survey_state *state = &far->state;
    struct finding f = {.state = state, .threads = far->threads};
    int *files = calloc(FILES, sizeof *files);
    size_t count = 0;
    int directory = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    enum dew_status status;

    err = err != NULL ? err : &inside;
    memset(far, 0, sizeof *far);
    status = read_head(folder, state, err);
    if (status == DEW_OK && directory < 0)
        status = fail(folder, "", err);
    if (status == DEW_OK)
        f.lies = calloc(state->items, sizeof *f.lies);
    if (status == DEW_OK && (f.lies == NULL || files == NULL))
        status = core__fail(err, DEW_EMEM, "out of memory");
    if (status == DEW_OK)
        status = find_in(folder, directory, &f, files, &count, err);
    if (status == DEW_OK)
        far->worker = worker_in(directory);
    far->count = count;
    while (count > 0)
        close(files[--count]);
    if (directory >= 0)
        close(directory);
    free(files);
    free(f.lies);
    return status;
}
