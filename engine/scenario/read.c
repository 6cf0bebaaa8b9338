/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tree and table into values: merging, options, --set. */
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "scenario/scenario.h"

/* One layer being laid over another. */
struct layer {
    struct scenario__reading *r;
    const struct dew_scenario *s;
    struct dew_value *into;
    unsigned char *tried; /* keys given at all, rightly or not */
    unsigned char seen[SCENARIO__KEYS];
};

static const struct dew_field *all_fields(void)
{
    size_t count;

    return dew_scenario_fields(&count);
}

static int is_none(const struct scenario__node *node)
{
    return node->shape == SCENARIO__SCALAR && !node->quoted &&
           strcmp(node->text, "none") == 0;
}

static int is_empty(const struct scenario__node *node)
{
    return node->shape == SCENARIO__SCALAR && !node->quoted &&
           node->text[0] == '\0';
}

/* ---- one key, one group -------------------------------------------------- */

static void take_field(struct layer *l, const struct dew_field *f,
                       const struct scenario__node *node)
{
    size_t i = (size_t)(f - all_fields());
    const struct scenario__node *place = node->key ? node->key : node;

    if (l->seen[i])
        scenario__blame(l->r, place, f->path, DEW_ESYNTAX,
                        "given twice: keep one of the two");
    else if (l->r->prefix != NULL && f->base_only)
        scenario__blame(l->r, place, f->path, DEW_ESYNTAX,
                        "holds for the whole file: no option can change it");
    else if (is_none(node) && f->preset == NULL)
        scenario__blame(l->r, node, f->path, DEW_EMISSING,
                        "is required and cannot be removed");
    else if (is_none(node) && (f->kind != DEW_KIND_WORD ||
                               scenario__word_place(f->words, "none") < 0))
        l->into[i] = l->s->presets[i];
    else
        scenario__value_read(l->r, f, f->path, node, &l->into[i]);
    l->seen[i] = 1;
    if (l->tried != NULL)
        l->tried[i] = 1;
}

static void clear_group(struct layer *l, const char *group)
{
    const struct dew_field *fields = all_fields();
    size_t n = strlen(group);

    for (size_t i = 0; i < SCENARIO__KEYS; i++)
        if (strncmp(fields[i].path, group, n) == 0 && fields[i].path[n] == '.')
            l->into[i] = l->s->presets[i];
}

/* Keys that were, and what took their place. */
static const struct gone {
    const char *path, *now;
} gone[] = {
    {"cooling.coil_residue",
     "is gone: say how long the blower runs on, cooling.blower_off_delay, and "
     "what drifts through the standing coil, cooling.still_air, or leave all "
     "three out"},
};

static const char *gone_to(const char *path)
{
    for (size_t i = 0; i < sizeof gone / sizeof gone[0]; i++)
        if (strcmp(gone[i].path, path) == 0)
            return gone[i].now;
    return NULL;
}

static void unknown(struct layer *l, const char *path,
                    const struct scenario__node *node)
{
    const struct scenario__node *place = node->key ? node->key : node;
    int room = l->r->faults == NULL || l->r->faults->count < l->r->faults->room;
    const char *near = room ? dew_scenario_nearest(path) : NULL;

    if (gone_to(path) != NULL)
        scenario__blame(l->r, place, path, DEW_EUNKNOWN, "%s", gone_to(path));
    else if (is_empty(node) && node->key != NULL && node->key->text[0] >= '0' &&
             node->key->text[0] <= '9')
        scenario__blame(
            l->r, place, path, DEW_EUNKNOWN,
            "a comma ends a value inside { }: write the number without "
            "it, as in 2200");
    else if (strchr(path, '=') != NULL)
        scenario__blame(l->r, place, path, DEW_EUNKNOWN, SCENARIO__NO_COLON);
    else if (near != NULL)
        scenario__blame(l->r, place, path, DEW_EUNKNOWN,
                        "no such key; the nearest is \"%s\"", near);
    else
        scenario__blame(l->r, place, path, DEW_EUNKNOWN, "no such key");
}

static void take_map(struct layer *l, const char *group,
                     const struct scenario__node *map);

static void take_group(struct layer *l, const char *path,
                       const struct scenario__node *node)
{
    if (node->shape == SCENARIO__MAP)
        take_map(l, path, node);
    else if (is_none(node))
        clear_group(l, path);
    else if (node->shape == SCENARIO__SCALAR && strchr(node->text, '=') != NULL)
        scenario__blame(l->r, node, path, DEW_ESYNTAX, SCENARIO__NO_COLON);
    else if (!is_empty(node))
        scenario__blame(l->r, node, path, DEW_ESYNTAX,
                        "is a group of keys: write %s: {key: value, ...}",
                        path);
}

static void take(struct layer *l, const char *path,
                 const struct scenario__node *node)
{
    const struct dew_field *f = dew_scenario_field(path);

    if (f != NULL)
        take_field(l, f, node);
    else if (dew_scenario_group(path) != NULL)
        take_group(l, path, node);
    else
        unknown(l, path, node);
}

static void take_map(struct layer *l, const char *group,
                     const struct scenario__node *map)
{
    char path[SCENARIO__PATH];
    const char *skip = l->r->prefix != NULL ? "name" : "options";

    for (const struct scenario__node *e = map->first; e != NULL; e = e->next) {
        if (group == NULL && strcmp(e->key->text, skip) == 0)
            continue;
        snprintf(path, sizeof path, "%s%s%.70s", group ? group : "",
                 group ? "." : "", e->key->text);
        take(l, path, e);
    }
}

/* ---- presets ---------------------------------------------------------------- */

/* The ends of a default, in its own unit or theirs. */
static void fill_span(struct scenario__reading *r, const struct dew_field *f,
                      struct dew_value *preset)
{
    char text[100];
    const struct scenario__node node = {.shape = SCENARIO__SCALAR,
                                        .text = text};
    struct dew_value whole = {0};

    if (f->span == NULL)
        return;
    if (f->doubt == DEW_DOUBT_WORDS) {
        snprintf(text, sizeof text, "%s", f->span);
        if (scenario__value_read(r, f, f->path, &node, &whole))
            preset->may = whole.may;
        return;
    }
    snprintf(text, sizeof text, "%s%s%s%s", f->preset, f->span[0] ? " (" : "",
             f->span, f->span[0] ? ")" : "");
    if (scenario__value_read(r, f, f->path, &node, &whole)) {
        preset->least = whole.amount.low;
        preset->most = whole.amount.high;
    }
}

static enum dew_status fill_presets(struct dew_scenario *s)
{
    const struct dew_field *fields = all_fields();
    struct scenario__reading r = {.arena = &s->arena, .by = DEW_BY_DEFAULT};

    for (size_t i = 0; i < SCENARIO__KEYS; i++) {
        struct scenario__node node = {.shape = SCENARIO__SCALAR,
                                      .text = fields[i].preset};

        if (node.text == NULL || node.text[0] == '\0' || node.text[0] == '=')
            continue;
        scenario__value_read(&r, &fields[i], fields[i].path, &node,
                             &s->presets[i]);
        fill_span(&r, &fields[i], &s->presets[i]);
    }
    return r.status;
}

static struct dew_value *values_new(struct dew_scenario *s,
                                    const struct dew_value *from)
{
    struct dew_value *v =
        scenario__arena_take(&s->arena, SCENARIO__KEYS * sizeof *v);

    if (v != NULL && from != NULL)
        memcpy(v, from, SCENARIO__KEYS * sizeof *v);
    return v;
}

/* ---- options ------------------------------------------------------------- */

static int name_good(struct dew_scenario *s, struct scenario__reading *r,
                     const struct scenario__node *node)
{
    const struct scenario__node *name = scenario__entry(node, "name");

    if (node->shape != SCENARIO__MAP) {
        scenario__blame(r, node, "options", DEW_ESYNTAX,
                        "each option is a mapping: write - name: ...");
    } else if (name == NULL || name->shape != SCENARIO__SCALAR ||
               name->text[0] == '\0') {
        scenario__blame(r, node, "options", DEW_EMISSING,
                        "an option needs its name: write - name: ...");
    } else if (strlen(name->text) > SCENARIO__NAME) {
        scenario__blame(r, name, "options", DEW_ERANGE,
                        "a name may have %d bytes at most", SCENARIO__NAME);
    } else if (dew_scenario_find(s, name->text) < s->count) {
        scenario__blame(r, name, "options", DEW_EAMBIGUOUS,
                        "two options are named \"%s\": name each its own way",
                        name->text);
    } else {
        return 1;
    }
    return 0;
}

static enum dew_status no_memory(struct scenario__reading *r)
{
    return scenario__blame(r, NULL, "", DEW_EMEM, "out of memory");
}

static void take_option(struct dew_scenario *s, struct scenario__reading *r,
                        const struct scenario__node *node)
{
    struct layer l = {.r = r, .s = s};
    char prefix[SCENARIO__NAME + 12];
    const char *name;

    if (!name_good(s, r, node))
        return;
    name = scenario__entry(node, "name")->text;
    l.into = values_new(s, s->base);
    if (l.into == NULL) {
        no_memory(r);
        return;
    }
    s->options[s->count++] =
        (struct scenario__option){.name = name, .values = l.into};
    snprintf(prefix, sizeof prefix, "options.%s.", name);
    r->prefix = prefix;
    r->by = DEW_BY_OPTION;
    take_map(&l, NULL, node);
    r->prefix = NULL;
}

static void take_options(struct dew_scenario *s, struct scenario__reading *r,
                         const struct scenario__node *list)
{
    if (is_empty(list) || is_none(list))
        return;
    if (list->shape != SCENARIO__LIST) {
        scenario__blame(r, list, "options", DEW_ESYNTAX,
                        "takes a list: write - name: ... for each option");
        return;
    }
    for (const struct scenario__node *e = list->first; e != NULL; e = e->next) {
        if (s->count == SCENARIO__OPTIONS) {
            scenario__blame(r, e, "options", DEW_ERANGE,
                            "more than %d options: split the file",
                            SCENARIO__OPTIONS);
            return;
        }
        take_option(s, r, e);
    }
}

/* A file without options is one: the base. */
static void take_base_alone(struct dew_scenario *s, struct scenario__reading *r)
{
    struct dew_value *v = values_new(s, s->base);

    s->bare = 1;
    if (v == NULL)
        no_memory(r);
    else
        s->options[s->count++] =
            (struct scenario__option){.name = "as it stands", .values = v};
}

/* ---- --set ----------------------------------------------------------------- */

/* The option that "options.NAME.key" speaks of, and the key. */
static size_t option_of(const struct dew_scenario *s, const char *path,
                        const char **key)
{
    size_t best = s->count, longest = 0;

    for (size_t i = 0; i < s->count; i++) {
        size_t n = strlen(s->options[i].name);

        if (n >= longest && strncmp(path, s->options[i].name, n) == 0 &&
            path[n] == '.') {
            best = i;
            longest = n;
            *key = path + n + 1;
        }
    }
    return best;
}

static void lay(struct dew_scenario *s, struct scenario__reading *r,
                struct dew_value *into, const char *key,
                const struct scenario__node *node)
{
    struct layer l = {.r = r, .s = s, .into = into};

    take(&l, key, node);
}

/* Everywhere, the faults said once. */
static void lay_all(struct dew_scenario *s, struct scenario__reading *r,
                    const char *key, const struct scenario__node *node)
{
    struct scenario__reading quiet = *r;

    quiet.faults = NULL;
    lay(s, r, s->base, key, node);
    for (size_t i = 0; i < s->count; i++)
        lay(s, &quiet, s->options[i].values, key, node);
    if (quiet.status == DEW_EMEM)
        r->status = DEW_EMEM;
}

/* A value from the file makes room for one from --set. */
static void make_room(struct dew_scenario *s, enum scenario__key key)
{
    if (s->base[key].origin.by == DEW_BY_SET)
        return;
    s->base[key] = s->presets[key];
    for (size_t i = 0; i < s->count; i++)
        s->options[i].values[key] = s->presets[key];
}

/* Of place, file and monthly figures a scenario has one: the one that --set
   gives takes the place of the file's, whose answers go with it. */
static void replace_weather(struct dew_scenario *s, const char *path)
{
    static const enum scenario__key kinds[] = {
        KEY_weather_place, KEY_weather_file, KEY_weather_monthly};
    static const enum scenario__key answers[] = {
        KEY_weather_fill,       KEY_weather_station,   KEY_weather_year,
        KEY_weather_order,      KEY_weather_clock,     KEY_weather_utc,
        KEY_weather_latitude,   KEY_weather_longitude, KEY_weather_elevation,
        KEY_weather_units,      KEY_weather_columns,   KEY_weather_gap,
        KEY_weather_frost_point};
    const struct dew_field *f = dew_scenario_field(path);
    enum scenario__key key =
        f != NULL ? (enum scenario__key)(f - all_fields()) : KEY_title;

    if ((key != kinds[0] && key != kinds[1] && key != kinds[2]) ||
        !s->base[key].given)
        return;
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (kinds[i] != key)
            make_room(s, kinds[i]);
    for (size_t i = 0;
         key != KEY_weather_file && i < sizeof answers / sizeof answers[0]; i++)
        make_room(s, answers[i]); /* they answer no file any more */
}

static void apply_set(struct dew_scenario *s, struct scenario__reading *r,
                      const char *path, const struct scenario__node *node)
{
    static const char options[] = "options.";
    char prefix[SCENARIO__NAME + 12];
    const char *key = path;
    size_t i;

    if (strncmp(path, options, sizeof options - 1) != 0) {
        lay_all(s, r, key, node);
        replace_weather(s, key);
        return;
    }
    i = option_of(s, path + sizeof options - 1, &key);
    if (i == s->count) {
        scenario__blame(r, NULL, path, DEW_EUNKNOWN, "no option of that name");
        return;
    }
    snprintf(prefix, sizeof prefix, "options.%s.", s->options[i].name);
    r->prefix = prefix;
    lay(s, r, s->options[i].values, key, node);
    r->prefix = NULL;
}

static void take_set(struct dew_scenario *s, struct scenario__reading *r,
                     const char *text)
{
    static const struct scenario__node nothing = {.text = ""};
    const char *equals = strchr(text, '=');
    size_t n = equals != NULL ? (size_t)(equals - text) : 0;
    struct scenario__node *node = NULL;
    struct dew_error err = {0};
    char path[SCENARIO__PATH];

    if (equals == NULL || n == 0 || n >= sizeof path) {
        scenario__blame(r, NULL, "", DEW_ESYNTAX,
                        "\"%.60s\" is not key=value: write it like "
                        "house.floor_area=\"1900 ft2\"",
                        text);
        return;
    }
    snprintf(path, sizeof path, "%.*s", (int)n, text);
    r->shift = (int)n + 1;
    if (scenario__tree_read(&node, r->arena, equals + 1, strlen(equals + 1),
                            &err)) {
        struct scenario__node place = {.line = 1, .column = err.column};

        scenario__blame(r, &place, path, err.status, "%s", err.text);
        return;
    }
    apply_set(s, r, path, node != NULL ? node : &nothing);
}

static void take_sets(struct dew_scenario *s, struct scenario__reading *r,
                      const struct dew_scenario_source *from)
{
    r->source = "--set";
    r->by = DEW_BY_SET;
    for (size_t i = 0; i < from->set_count; i++) {
        r->line = (int)i + 1;
        take_set(s, r, from->sets[i]);
    }
}

/* ---- all ---------------------------------------------------------------------- */

static void require_all(struct dew_scenario *s, struct scenario__reading *r,
                        const unsigned char *tried)
{
    const struct dew_field *fields = all_fields();

    for (size_t i = 0; i < SCENARIO__KEYS; i++) {
        int missing = 0;

        for (size_t k = 0; k < s->count; k++)
            missing |= !s->options[k].values[i].given;
        if (fields[i].preset == NULL && missing && !tried[i])
            scenario__blame(r, NULL, fields[i].path, DEW_EMISSING,
                            "is required and missing: write it like %s",
                            fields[i].start);
    }
}

static enum dew_status read_tree(struct dew_scenario *s,
                                 struct scenario__reading *r,
                                 struct scenario__node **root)
{
    struct dew_error err = {0};
    enum dew_status status;

    status = scenario__tree_read(root, &s->arena, s->text, s->length, &err);
    if (status != DEW_OK) {
        struct scenario__node place = {.line = err.line, .column = err.column};

        return scenario__blame(r, err.line ? &place : NULL, "", status, "%s",
                               err.text);
    }
    if (*root == NULL || (*root)->shape != SCENARIO__MAP)
        return scenario__blame(
            r, *root, "", DEW_ESYNTAX,
            "no scenario: it begins with keys such as title: and "
            "house:");
    return DEW_OK;
}

enum dew_status scenario__read(struct dew_scenario *s,
                               const struct dew_scenario_source *from,
                               struct dew_faults *faults)
{
    struct scenario__reading r = {.arena = &s->arena,
                                  .faults = faults,
                                  .source = from->name,
                                  .by = DEW_BY_FILE,
                                  .systems = s->systems};
    unsigned char tried[SCENARIO__KEYS] = {0};
    struct layer l = {.r = &r, .s = s, .tried = tried};
    struct scenario__node *root = NULL;
    const struct scenario__node *options;

    s->presets = values_new(s, NULL);
    if (s->presets == NULL || fill_presets(s) != DEW_OK)
        return no_memory(&r);
    s->base = l.into = values_new(s, s->presets);
    if (s->base == NULL)
        return no_memory(&r);
    if (read_tree(s, &r, &root) != DEW_OK)
        return r.status;
    take_map(&l, NULL, root);
    options = scenario__entry(root, "options");
    if (options != NULL)
        take_options(s, &r, options);
    if (s->count == 0)
        take_base_alone(s, &r);
    r.systems = NULL;
    take_sets(s, &r, from);
    r.source = from->name;
    r.line = 0;
    require_all(s, &r, tried);
    return r.status;
}
