/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which key is to blame for a member of the layout that ducts refuse. */
#include <stdio.h>
#include <string.h>

#include "core/fail.h"
#include "scenario/case.h"

/* "[]" is any number.  Of the keys the first that is given, else the last. */
static const struct origin {
    const char *member;
    enum scenario__key keys[3];
    int untold; /* the message itself names the member */
} origins[] = {
    /* clang-format off */
    {"handlers[].flow",         {KEY_cooling_capacity}, 0},
    {"handlers[].low",          {KEY_cooling_low_flow}, 0},
    {"handlers[].watts",        {KEY_cooling_blower_power}, 0},
    {"handlers[].watts_low",    {KEY_cooling_low_power}, 0},
    {"handlers[].external",     {KEY_ducts_external_static}, 0},
    {"handlers[].inside",       {KEY_ducts_inside_static}, 0},
    {"handlers[].free",         {KEY_ducts_blower_free}, 0},
    {"handlers[].return_share", {KEY_ducts_return_share}, 0},
    {"handlers[].between",      {KEY_ducts_tap_spacing}, 0},
    {"handlers[].before",       {KEY_ducts_return_tap}, 0},
    {"handlers[].after",        {KEY_ducts_supply_tap}, 0},
    {"handlers[].leak_return",  {KEY_ducts_leak_return}, 0},
    {"handlers[].leak_supply",  {KEY_ducts_leak_supply}, 0},
    {"handlers[].return_trunk", {KEY_ducts_lines, KEY_ducts_external_static}, 0},
    {"handlers[].supply_trunk", {KEY_ducts_lines, KEY_ducts_external_static}, 0},
    {"handlers[].grilles",      {KEY_ducts_grilles}, 1},
    {"vents[].flow",            {KEY_ventilator_flow}, 0},
    {"vents[].set",             {KEY_ventilator_flow}, 0},
    {"vents[].set_stale",       {KEY_ventilator_exhaust_flow, KEY_ventilator_flow}, 0},
    {"vents[].pressure",        {KEY_ventilator_fan_pressure}, 0},
    {"vents[].watts",           {KEY_ventilator_power}, 0},
    {"vents[].core",            {KEY_ventilator_core_loss}, 0},
    {"vents[].eatr",            {KEY_ventilator_cross_leakage}, 0},
    {"vents[].grilles",         {KEY_ducts_grilles}, 1},
    {"grille_count",            {KEY_ducts_grilles}, 0},
    {"handler_count",           {KEY_layout}, 0},
    {"vent_count",              {KEY_ducts_ventilators}, 0},
    {"bedrooms",                {KEY_house_bedrooms}, 0},
    {"damper_leak",             {KEY_ducts_damper_leak}, 0},
    {"mixing",                  {KEY_ducts_mixing}, 0},
    {"reference",               {KEY_ducts_set_while}, 0},
    {"rows[]",                  {KEY_ventilator_fan, KEY_layout}, 0},
    {"branches[]",              {KEY_ducts_runs, KEY_ducts_lines, KEY_layout}, 0},
    {"nodes[]",                 {KEY_ducts_runs, KEY_layout}, 0},
    {"runs[]",                  {KEY_ducts_runs}, 0},
    {"",                        {KEY_ducts_runs, KEY_ventilator_fan, KEY_layout}, 0},
    /* clang-format on */
};

static int is_member(const char *member, const char *path)
{
    size_t head = strcspn(member, "]");

    if (member[head] == '\0')
        return strcmp(member, path) == 0;
    return strncmp(member, path, head) == 0 &&
           strcmp(member + head,
                  path + head + strspn(path + head, "0123456789")) == 0;
}

/* The last row where none is of that member. */
static const struct origin *origin_of(const char *path)
{
    const struct origin *o = origins;

    while (o->member[0] != '\0' && !is_member(o->member, path))
        o++;
    return o;
}

static const char *key_of(const struct dew_value *v, const struct origin *o)
{
    size_t count, i = 0;

    while (i < 2 && o->keys[i + 1] != 0 && !v[o->keys[i]].given)
        i++;
    return dew_scenario_fields(&count)[o->keys[i]].path;
}

/* "handlers[0].supply_trunk" is "air handler 1, supply trunk ". */
static void spell(const struct origin *o, const char *path, char *out,
                  size_t size)
{
    const char *number = strchr(path, '['), *name = strchr(path, '.');

    out[0] = '\0';
    if (number == NULL || name == NULL)
        return;
    snprintf(out, size, "%s %d%s%s ",
             path[0] == 'h' ? "air handler" : "ventilator", number[1] - '0' + 1,
             o->untold ? "" : ", ", o->untold ? "" : name + 1);
    for (char *c = out; *c != '\0'; c++)
        if (*c == '_')
            *c = ' ';
}

enum dew_status scenario__ducts_blame(const struct scenario__making *m,
                                      enum dew_status status,
                                      const struct dew_error *inside)
{
    const struct origin *o = origin_of(inside->path);
    char where[100];

    spell(o, inside->path, where, sizeof where);
    core__in(m->err, key_of(m->v, o));
    return core__fail(m->err, status, "%s%.200s", where, inside->text);
}
