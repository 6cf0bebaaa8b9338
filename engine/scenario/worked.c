/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures that other keys give, where they need no weather. */
#include <math.h>
#include <stddef.h>

#include "dew/sources.h"
#include "scenario/case.h"

static double handlers(const struct dew_value *v)
{
    return scenario__handlers(v);
}

static double walls(const struct dew_value *v)
{
    return scenario__shell_of(v).walls;
}

static double roof(const struct dew_value *v)
{
    return scenario__shell_of(v).roof;
}

static double ground(const struct dew_value *v)
{
    return scenario__shell_of(v).ground;
}

static double gains(const struct dew_value *v)
{
    return dew_house_gains(SI(v, house_floor_area));
}

/* NaN: no heater. */
static double heater(const struct dew_value *v)
{
    return WORD(v, heating_kind) == HEATING_none
               ? NAN
               : scenario__heating_capacity(v);
}

/* In no unit but SI. */
static const struct worked {
    enum scenario__key key;
    double (*of)(const struct dew_value *v);
} list[] = {
    {KEY_air_handlers, handlers},
    {KEY_house_volume, scenario__volume},
    {KEY_insulation_wall_area, walls},
    {KEY_insulation_roof_area, roof},
    {KEY_insulation_ground_area, ground},
    {KEY_windows_north, scenario__window_side},
    {KEY_windows_east, scenario__window_side},
    {KEY_windows_south, scenario__window_side},
    {KEY_windows_west, scenario__window_side},
    {KEY_people_count, scenario__people_count},
    {KEY_people_appliances, gains},
    {KEY_buffering_area, scenario__buffering_area},
    {KEY_limits_fresh_air, scenario__required},
    {KEY_heating_capacity, heater},
    {KEY_ventilator_flow, scenario__vent_flow},
};

double dew_scenario_worked(const struct dew_value *values, size_t key)
{
    for (size_t i = 0; i < sizeof list / sizeof *list; i++)
        if ((size_t)list[i].key == key)
            return list[i].of(values);
    return NAN;
}
