/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scenarios in one of which each range must have an effect, beside those of
   case_grounds.h. */
#ifndef DEW_TESTS_CASE_FURTHER_H
#define DEW_TESTS_CASE_FURTHER_H

#define BARE                                                                   \
    "weather: {place: 722020}\nhouse: {floor_area: 2400 ft2, bedrooms: 3}\n"

/* Beside those in which each key has an effect: what is not told there. */
static const char *const further[] = {
    BARE "house: {foundation: basement}\n",
    BARE "heating: {kind: gas}\ncooling: {capacity: 3 ton, low_stage: 70 %}\n"
         "moisture: {drying: 200 kg}\n"
         "bath_fan: {flow: 80 cfm}\nrange_hood: {flow: 150 cfm}\n"
         "clothes_dryer: {flow: 150 cfm}\nhumidifier: {rate: 1 L/h}\n",
    BARE "safety: {house_age: 3 month}\nbuffering: {value: 0.1 kg/m2}\n"
         "dehumidifier: {rate: 50 pint/day}\n"
         "cooling: {capacity: 3 ton, typical: two_stage}\n",
    BARE "airing: {flow: 300 cfm}\nlayout: return_tie\n"
         "cooling: {capacity: 3 ton}\n"
         "ventilator: {core: enthalpy_plate, typical: yes}\n"
         "ducts: {leak_return: 4 %}\n",
    BARE "layout: own_ducts\ncooling: {capacity: 3 ton}\n"
         "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm}\n"
         "moisture: {laundry_dried_indoors: 1 per day, baths: 1 per day}\n",
    BARE "layout: return_to_supply\ncooling: {capacity: 3 ton}\n"
         "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm}\n",
    BARE "layout: mix\ncooling: {capacity: 3 ton}\n"
         "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm, damper: "
         "yes}\n",
    BARE "air_handlers: 3\n"
         "cooling: {capacity: 1 ton, eer: 12, overcool: 1.5 K, "
         "overcool_above: 50 %}\n"
         "second_handler: {capacity: 2 ton, shr: 72 %, airflow: 380 cfm/ton, "
         "blower_power: 300 W}\n"
         "third_handler: {capacity: 2 ton, shr: 72 %, airflow: 380 cfm/ton, "
         "blower_power: 300 W}\n"
         "ventilator: {core: enthalpy_plate, typical: yes, flow: 90 cfm, "
         "exhaust_flow: 80 cfm, boost_flow: 160 cfm}\n"
         "control: {boost_above: 55 %, boost_for_events: 50 %}\n"
         "temperature: {cool_setback: 28 degC, setback_hours: 9 to 17}\n",
    BARE "house: {volume: 20000 ft3, leakage_at_1_pa: 10 cfm}\n"
         "insulation: {sky: 11 K}\nmoisture: {total: 8 kg/day}\n"
         "heating: {kind: heat_pump, capacity: 3 kW, backup: 1 kW}\n"
         "humidifier: {rate: 0.2 L/h}\nlimits: {fresh_air: 70 cfm}\n"
         "ventilator: {core: exhaust_only, flow: 70 cfm}\n",
    BARE "insulation: {heat_loss: 300 Btu/hF}\n"
         "cooling: {capacity: 3 ton}\nlayout: return_tie\n"
         "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm, "
         "fan_pressure: 150 Pa}\n"
         "ducts: {short_circuit: 5 %, short_circuit_full: 8 %, past_coil: 80 "
         "%}\n"
         "control: {lockout_humidity_ratio: 0.009 kg/kg, "
         "lockout_unless_drier: 0.0005 kg/kg}\n"
         "dehumidifier: {rate: 50 pint/day, power: 500 W}\n",
    BARE "cooling: {capacity: 3 ton}\n"
         "ventilator: {core: heat_plate, sensible: 74 % at 95 cfm}\n"
         "control: {winter_target: 40 %, winter_target_cold: 30 %, "
         "bypass_above: 12 degC, bypass_indoor: 22 degC}\n"
         "dehumidifier: {observed: 2 gal/day, observed_temperature: 24 degC, "
         "observed_humidity: 60 %}\n",
};

#endif
