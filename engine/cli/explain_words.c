/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/explain_words.h"

#include <stddef.h>

#define ERV                                                                    \
    "an ERV passes heat and moisture between the two airs: enthalpy_plate or " \
    "enthalpy_wheel"
#define HRV "an HRV passes heat and no moisture: heat_plate"
#define AC  "an air conditioner's size; the rest of it is in the same group"

/* clang-format off */
static const struct cli__led rows[] = {
    {"erv", "ventilator.core", ERV},
    {"energy recovery ventilator", "ventilator.core", ERV},
    {"energy recovery", "ventilator.core", ERV},
    {"enthalpy", "ventilator.core", ERV},
    {"enthalpy core", "ventilator.core", ERV},
    {"hrv", "ventilator.core", HRV},
    {"mvhr", "ventilator.core", HRV},
    {"heat recovery ventilator", "ventilator.core", HRV},
    {"heat recovery", "ventilator.core", HRV},
    {"exhaust fan", "ventilator.core", "a fan that only takes air out is exhaust_only; that of a bath is bath_fan"},
    {"supply fan", "ventilator.core", "a fan that only brings air in is supply_only"},
    {"ventilation", "ventilator", "the fan or core that brings fresh air"},
    {"cfm", "ventilator.flow", "what the fan brings; limits.fresh_air is how much is asked for"},
    {"fresh air", "limits.fresh_air", "how much is asked for; ventilator.flow is what the fan brings"},
    {"ac", "cooling.capacity", AC},
    {"a/c", "cooling.capacity", AC},
    {"aircon", "cooling.capacity", AC},
    {"air conditioner", "cooling.capacity", AC},
    {"air conditioning", "cooling.capacity", AC},
    {"tons", "cooling.capacity", AC},
    {"air handler", "air_handlers", "the box with the blower and the cooling coil"},
    {"ahu", "air_handlers", "the box with the blower and the cooling coil"},
    {"blower", "cooling.blower", "what runs the air handler's blower"},
    {"fan on", "cooling.blower", "a thermostat's fan switch: auto or on"},
    {"heat pump", "heating.kind", "what heats; what it cools with is in cooling"},
    {"furnace", "heating.kind", "what heats"},
    {"boiler", "heating.kind", "what heats"},
    {"thermostat", "temperature", "what the thermostat is set to"},
    {"set point", "temperature", "what the thermostat is set to"},
    {"setpoint", "temperature", "what the thermostat is set to"},
    {"humidistat", "dehumidifier.set", "the dehumidifier's; humidifier.set is the humidifier's"},
    {"dehu", "dehumidifier", "a machine that takes water out of the air"},
    {"dehumidification", "dehumidifier", "a machine that takes water out of the air"},
    {"pints", "dehumidifier.rate", "a dehumidifier's size"},
    {"dryer", "clothes_dryer", "vented outdoors; laundry hung up indoors is moisture.laundry_dried_indoors"},
    {"laundry", "moisture.laundry_dried_indoors", "dried indoors; a vented dryer is clothes_dryer"},
    {"bathroom fan", "bath_fan", "the fan of the bathrooms, together"},
    {"kitchen hood", "range_hood", "the kitchen's fan"},
    {"hood", "range_hood", "the kitchen's fan"},
    {"blower door", "house.airtightness", "its result, in ach50 or cfm50"},
    {"ach50", "house.airtightness", "a blower door's result"},
    {"cfm50", "house.airtightness", "a blower door's result"},
    {"ach", "house.airtightness", "air changes an hour at 50 Pa"},
    {"leakage", "house.airtightness", "of the house; of ducts: ducts.leak_return, ducts.leak_supply"},
    {"leak", "house.airtightness", "of the house; of ducts: ducts.leak_return, ducts.leak_supply; of water: safety.bulk_water"},
    {"leaks", "house.airtightness", "of the house; of ducts: ducts.leak_return, ducts.leak_supply; of water: safety.bulk_water"},
    {"duct leakage", "ducts.leak_return", "of returns; of supplies: ducts.leak_supply"},
    {"slab", "house.foundation", "what the house stands on; a damp slab is moisture.ground"},
    {"crawl space", "house.foundation", "what the house stands on"},
    {"crawlspace", "house.foundation", "what the house stands on"},
    {"crawl", "house.foundation", "what the house stands on"},
    {"attic", "insulation.roof", "the resistance of ceiling or roof; ducts in an attic are ducts.place"},
    {"basement", "house.foundation", "what the house stands on"},
    {"damp slab", "moisture.ground", "water from wet ground or a slab"},
    {"wet slab", "moisture.ground", "water from wet ground or a slab"},
    {"occupants", "people.count", "who lives there"},
    {"r-value", "insulation", "heat through walls, roof and floor"},
    {"u-value", "insulation", "of walls, roof and floor; of glass: windows.u"},
    {"filter", "ducts.external_static", "what a filter and the ducts cost the blower in pressure"},
    {"climate", "weather", "the outdoors: one of place, file or monthly normals"},
    {"city", "weather.place", "a town of the table"},
    {"town", "weather.place", "a town of the table"},
    {"location", "weather.place", "a town of the table, or latitude and longitude"},
    {"zip", "weather.place", "a town of the table, or latitude and longitude: it knows no postal codes"},
    {"tmy", "weather.file", "a typical year as a file"},
    {"logger", "log.file", "what a logger measured indoors"},
    {"sensor", "log.sensor", "which sensor of a log"},
    {"daylight saving", "weather.clock", "the clock of a weather file; log.clock is a log's"},
    {"humidity", "limits.too_humid", "what counts as too humid; a machine's set point is dehumidifier.set"},
    {"rh", "limits.too_humid", "what counts as too humid; a machine's set point is dehumidifier.set"},
    {"condensation", "windows.u", "glass is wet where it is cold: the windows' transmittance"},
    {"furniture", "buffering", "water that furnishings and fabric take up and give back"},
    {"radon", "safety.radon_tested", "whether it was tested for"},
    {"garage", "safety.attached_garage", "whether one shares a wall or ceiling with the house"},
    {"mold", "safety.visible_mould", "mould that can be seen"},
    {"mould", "safety.visible_mould", "mould that can be seen"},
    {"carbon monoxide", "safety.carbon_monoxide_alarm", "its alarms"},
    {"co2", "limits.outdoor_carbon_dioxide", "outdoors; indoors it is worked out"},
    {"cost", "costs", "what an option costs to buy and keep"},
    {"electricity", "prices.electricity", "its price"},
};
/* clang-format on */

static char plain(char c)
{
    if (c >= 'A' && c <= 'Z')
        return (char)(c - 'A' + 'a');
    if (c == '-' || c == '_')
        return ' ';
    return c;
}

static int same(const char *a, const char *b)
{
    while (*a != '\0' && plain(*a) == plain(*b)) {
        a++;
        b++;
    }
    return *a == *b;
}

const struct cli__led *cli__explain_word(const char *word)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (same(rows[i].word, word))
            return &rows[i];
    return NULL;
}
