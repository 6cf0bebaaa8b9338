/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A year's light, made once for houses that stand alike. */
#include "march/light.h"

#include <stdlib.h>

#include "core/fail.h"
#include "dew/bundle.h"

/* Where a house stands, and how. */
struct dew_light {
    struct dew_site site;
    struct dew_facade facades[DEW_FACADES]; /* tilt and azimuth alone count   */
    int facade_count;
    const struct dew_hour *hours;
    struct dew_solar *on; /* [hours][facade_count]                            */
};

int march__stand_alike(const struct dew_site *a, const struct dew_facade *f,
                       const struct dew_site *b, const struct dew_facade *g,
                       int facades)
{
    if (a->latitude != b->latitude || a->longitude != b->longitude ||
        a->utc_offset != b->utc_offset)
        return 0;
    for (int i = 0; i < facades; i++)
        if (f[i].tilt != g[i].tilt || f[i].azimuth != g[i].azimuth)
            return 0;
    return 1;
}

static void fill(struct dew_light *l, const struct dew_case *c,
                 const struct dew_weather *w)
{
    struct dew_plane planes[DEW_FACADES];
    struct march__light now;

    march__planes(c, planes);
    for (size_t h = 0; h < w->count; h++) {
        march__light_of(c, planes, &w->hours[h], &w->dates[h], &now);
        for (int i = 0; i < l->facade_count; i++)
            l->on[h * (size_t)l->facade_count + (size_t)i] = now.on[i];
    }
}

enum dew_status dew_light_open(struct dew_light **light,
                               const struct dew_case *c,
                               const struct dew_weather *weather,
                               struct dew_error *err)
{
    const struct dew_thermal *t = &c->house.thermal;
    struct dew_light *l = calloc(1, sizeof *l);

    *light = NULL;
    if (l != NULL) {
        l->site = c->site;
        l->facade_count = t->facade_count;
        for (int i = 0; i < t->facade_count; i++)
            l->facades[i] = t->facades[i];
        l->hours = weather->hours;
        l->on =
            calloc(weather->count * (size_t)t->facade_count + 1, sizeof *l->on);
    }
    if (l == NULL || l->on == NULL) {
        free(l);
        return core__fail(err, DEW_EMEM, "no memory for the sun of %zu hours",
                          weather->count);
    }
    fill(l, c, weather);
    *light = l;
    return DEW_OK;
}

void dew_light_close(struct dew_light *light)
{
    if (light == NULL)
        return;
    free(light->on);
    free(light);
}

const struct dew_solar *march__light_for(const struct dew_case *c,
                                         const struct dew_weather *weather)
{
    const struct dew_light *l = weather->light;
    const struct dew_thermal *t = &c->house.thermal;

    if (l == NULL || l->hours != weather->hours ||
        l->facade_count != t->facade_count ||
        !march__stand_alike(&l->site, l->facades, &c->site, t->facades,
                            l->facade_count))
        return NULL;
    return l->on;
}
