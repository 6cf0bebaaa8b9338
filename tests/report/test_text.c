/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report as text: its width, its order and its sentences. */
#include "support/rows.h"

#include "report/lay.h"
#include "report/page.h"
#include "report/words.h"

/* Columns of the widest line; UTF-8 counted by characters. */
static int widest(const char *text)
{
    int most = 0, width = 0;

    for (; *text != '\0'; text++) {
        if (((unsigned char)*text & 0xc0) != 0x80)
            width++;
        if (*text == '\n')
            width = 0;
        most = width > most ? width : most;
    }
    return most;
}

static const struct width_row {
    const char *name;
    size_t options;
    enum dew_system system;
    const char *option_name;
} width_rows[] = {
    {"five options, inch-pound", 5, DEW_SYSTEM_US, NULL},
    {"five options, metric", 5, DEW_SYSTEM_SI, NULL},
    {"one option", 1, DEW_SYSTEM_SI, NULL},
    {"a long name of many words", 3, DEW_SYSTEM_US,
     "enthalpy core tied to both returns of both air handlers, blowers running "
     "along twenty minutes of each hour"},
    {"a long name of one word", 2, DEW_SYSTEM_US,
     "enthalpycoretiedtobothreturnsofbothairhandlersblowersrunningalongtwentymi"
     "nutesofeachhour"},
    {"a name outside ASCII", 2, DEW_SYSTEM_SI,
     "L\xc3\xbc"
     "ftungsger\xc3\xa4t mit W\xc3\xa4rme- und Feuchter\xc3\xbc"
     "ckgewinnung im Keller, Zuluft \xc3\xbc"
     "ber Flur"},
};

static void text_fits_80_columns(void **state)
{
    const struct width_row *r = *state;
    struct dew_report report = page_open(r->options, r->system);
    char *text;

    if (r->option_name != NULL)
        page_scene.outcomes[r->options - 1].name = r->option_name;
    page_scene.outcomes[0].year.fresh_sum = 0;
    dew_verdict_of(&page_scene.question, &page_verdict);
    text = page_written(dew_report_text, &report, NULL);
    assert_non_null(text);
    assert_true(widest(text) <= 80);
    assert_true(widest(text) > 70);
    free(text);
}

static void the_same_report_is_the_same_text(void **state)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *one = page_written(dew_report_text, &report, NULL);
    char *two = page_written(dew_report_text, &report, NULL);

    (void)state;
    assert_string_equal(one, two);
    free(one);
    free(two);
}

static void stop_stands_above_the_verdict_and_the_verdict_above_the_tables(
    void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text = page_written(dew_report_text, &report, NULL);
    const char *stop = strstr(text, "STOP   A natural-draft");
    const char *says = strstr(text, "Today the house");
    const char *table = strstr(text, "1 as it stands");
    const char *note = strstr(text, "NOTE ");

    (void)state;
    assert_true(stop && says && table && note);
    assert_true(stop < says && says < table && table < note);
    free(text);
}

static void every_caution_is_in_the_text(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text = page_written(dew_report_text, &report, NULL);
    size_t lines = 0;

    (void)state;
    for (const char *s = text; s != NULL; s = strchr(s + 1, '\n'))
        lines += strncmp(s, "\nSTOP ", 6) == 0 ||
                 strncmp(s, "\nCHECK ", 7) == 0 ||
                 strncmp(s, "\nNOTE ", 6) == 0;
    assert_int_equal(lines, report.caution_count);
    free(text);
}

static void names_cannot_drive_a_terminal(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text;

    (void)state;
    page_scene.outcomes[1].name = "red \033[31m\xc2\x9b\xff house";
    report.title = "line\nbreak";
    text = page_written(dew_report_text, &report, NULL);
    assert_null(strchr(text, '\033'));
    assert_non_null(strstr(text, "red \\x1b[31mU+009B\\xff house"));
    assert_non_null(strstr(text, "line\\x0abreak"));
    free(text);
}

/* The worst closure of the books stands in the text. */
static void closure_is_told(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text;

    (void)state;
    page_scene.outcomes[1].heat_residual = 3.7e-13;
    page_scene.outcomes[0].water_residual = 1.1e-13;
    text = page_written(dew_report_text, &report, NULL);
    assert_non_null(strstr(text, "close to 3.7e-13"));
    free(text);
}

/* Text wrapped to lines, put back on one. */
static void unwrap(char *text)
{
    char *to = text;

    for (const char *s = text; *s != '\0'; s++) {
        char c = *s == '\n' ? ' ' : *s;

        if (c != ' ' || to == text || to[-1] != ' ')
            *to++ = c;
    }
    *to = '\0';
}

/* No current standard holds an indoor limit of CO2 [PERSILY20]. */
static void the_mark_of_carbon_dioxide_is_called_ours(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    char *text = page_written(dew_report_text, &report, NULL);

    (void)state;
    unwrap(text);
    assert_non_null(strstr(text, "These shares are our own choice, and so is "
                                 "the mark of 1000 ppm for carbon dioxide: no "
                                 "current standard of ventilation holds a "
                                 "limit for it indoors."));
    free(text);
}

/* Three will do, two without a price: none is called best anywhere. */
static void no_best_is_told_without_prices(void **state)
{
    struct dew_report report = page_open(3, DEW_SYSTEM_US);
    char *text;

    (void)state;
    for (int i = 0; i < 3; i++) {
        struct dew_tally *y = &page_scene.outcomes[i].year;

        y->too_humid = y->too_dry = y->sweat[DEW_GLASS] = 0;
        y->fresh_sum = 0.040 * 8760;
        memset(&y->energy, 0, sizeof y->energy);
        y->energy.cooling = (3000 - 500 * i) * KWH;
    }
    page_scene.outcomes[1].year.too_dry = 23;
    page_scene.costs[1].install = page_scene.costs[2].install =
        (struct dew_estimate)SAME(NAN);
    dew_verdict_of(&page_scene.question, &page_verdict);
    text = page_written(dew_report_text, &report, NULL);
    unwrap(text);
    assert_non_null(strstr(
        text,
        "3 options will do: they bring the fresh air asked for and keep the "
        "limits. The cheapest to run first: \"enthalpy core\" $300 a year (0 h "
        "outside the limits), \"heat core\" $375 a year (23 h outside the "
        "limits), \"as it stands\" $450 a year (0 h outside the limits). "
        "Which is best by money cannot be told: no price to install is given "
        "for \"enthalpy core\", \"heat core\". Give what they cost "
        "(costs.install; 0 $ where nothing is bought)."));
    assert_non_null(strstr(text, " not told"));
    assert_null(strstr(text, "Best of these"));
    free(text);
    text = page_written(dew_report_html, &report, NULL);
    assert_null(strstr(text, "(best)"));
    assert_null(strstr(text, "nan"));
    assert_non_null(strstr(text, "<div class=\"answer\"><p>3 options will do"));
    free(text);
    text = page_written(dew_report_contractor, &report, NULL);
    assert_non_null(strstr(text, "Option: <strong>enthalpy core</strong> (one "
                                 "of several that will do; no best is told"));
    free(text);
    text = page_written(dew_report_json, &report, NULL);
    assert_non_null(strstr(text, "\"best\": null"));
    free(text);
}

/* Ducts have their table where they do something, and fit the page. */
static void ducts_are_told_where_they_matter(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_SI);
    struct dew_tally *y = &page_scene.outcomes[1].year;
    char *text = page_written(dew_report_text, &report, NULL);

    (void)state;
    assert_null(strstr(text, "What the ducts do"));
    free(text);
    y->ducts[DEW_SPOT_intake] = 613;
    y->ducts[DEW_SPOT_heater] = 41.7;
    y->energy.blower = 1168 * KWH;
    y->water.putback = 417.3;
    y->water.unplanned = 91.2;
    text = page_written(dew_report_text, &report, NULL);
    assert_non_null(strstr(text, "What the ducts do with the air"));
    assert_non_null(strstr(text, "  1168 "));
    assert_non_null(
        strstr(text, "skin of the intake duct in the house, 613 h"));
    assert_true(widest(text) <= 80);
    free(text);
}

/* ---- months ---------------------------------------------------------------- */

static const struct month_row {
    const char *name;
    unsigned mask;
    const char *want;
} month_rows[] = {
    {"one month", 0x040, "July"},
    {"two in a row", 0x060, "June and July"},
    {"a run", 0x1e0, "June to September"},
    {"a run over the new year", 0xc03, "November to February"},
    {"two runs", 0x0a0, "June and August"},
    {"three runs", 0x2a1, "January, June, August and October"},
    {"all", 0xfff, "every month"},
    {"none", 0x000, "no month"},
};

/* 0.05 gal/day is 0.189 kg/day: less prints as 0.0 and is no source. */
static void a_flow_that_prints_as_nothing_is_not_named(void **state)
{
    struct dew_report r = page_open(1, DEW_SYSTEM_US);
    struct dew_finding f = {.kind = DEW_FINDING_today_dry,
                            .source = {"leakage", "sweating surfaces", NULL},
                            .source_kg = {7.3, 0.185, 0}};
    char text[DEW_SENTENCE];

    (void)state;
    dew_report_sentence(&r, &f, text, sizeof text);
    assert_non_null(strstr(text, "The water leaves by leakage (1.9 gal/day)."));
    f.source_kg[1] = 0.195;
    dew_report_sentence(&r, &f, text, sizeof text);
    assert_non_null(strstr(text, "and sweating surfaces (0.1 gal/day)."));
}

static void months_in_words(void **state)
{
    const struct month_row *r = *state;
    assert_string_equal(dew__months(r->mask).text, r->want);
}

/* ---- sentences --------------------------------------------------------------- */

static const struct sentence_row {
    const char *name;
    struct dew_finding finding;
    enum dew_system system;
    const char *want;
} sentence_rows[] = {
    {"too humid today, metric",
     {.kind = DEW_FINDING_today_humid,
      .option = 0,
      .other = -1,
      .months = 0x0c0,
      .value = {1207.2, 402.6, 88},
      .source = {"people", "leakage through the envelope"},
      .source_kg = {4.26, 3.31}},
     DEW_SYSTEM_SI,
     "Today the house is too humid (above 60 %) in 1207 h of the year: up to "
     "403 h in one month, 88 h at a stretch, most in July and August. The "
     "water comes in by people (4.3 L/day) and leakage through the envelope "
     "(3.3 L/day)."},
    {"heating falls short",
     {.kind = DEW_FINDING_short_heat, .option = 1, .value = {203.2, 11.3}},
     DEW_SYSTEM_US,
     "\"heat core\": heating falls short in 203 h of the year, to 52 degF in "
     "the coldest. Warming up after a setback counts too."},
    {"the coil leaves today open",
     {.kind = DEW_FINDING_coil_today, .option = 0, .value = {81.3, 0, 708.4}},
     DEW_SYSTEM_US,
     "The 81 hours too humid could be 0 to 708: how much water the blower "
     "takes back from the wet coil is not well known."},
    {"and its limits with it",
     {.kind = DEW_FINDING_coil_today,
      .option = 0,
      .value = {81.3, 0, 708.4, 1}},
     DEW_SYSTEM_US,
     "The 81 hours too humid could be 0 to 708: how much water the blower "
     "takes back from the wet coil is not well known. Whether the house keeps "
     "its limits hangs on that."},
    {"the coil leaves an option's limits open",
     {.kind = DEW_FINDING_coil_option,
      .option = 1,
      .value = {1036, 113, 2609, 1}},
     DEW_SYSTEM_US,
     "\"heat core\" could be too humid in 113 to 2609 h instead of 1036: how "
     "much water the blower takes back from the wet coil is not well known. "
     "Whether it keeps the limits hangs on that."},
    /* 4.26 kg a day / 3.785411784 kg = 1.125 gal */
    {"too dry today, inch-pound",
     {.kind = DEW_FINDING_today_dry,
      .option = 0,
      .other = -1,
      .months = 0xc01,
      .value = {911, 430},
      .source = {"leakage through the envelope"},
      .source_kg = {4.26}},
     DEW_SYSTEM_US,
     "Today the house is too dry (below 30 %) in 911 h of the year, up to 430 "
     "h in one month, most in November to January. The water leaves by "
     "leakage through the envelope (1.1 gal/day)."},
    {"outdoor air cannot",
     {.kind = DEW_FINDING_outdoor_cannot,
      .option = 0,
      .other = -1,
      .months = 0x0c0,
      .value = {0.042, 1402, 1488}},
     DEW_SYSTEM_US,
     "Outdoor air cannot dry the house in 1402 of the 1488 h of July and "
     "August: more of it does not help then."},
    {"fans, cooling and windows not told",
     {.kind = DEW_FINDING_today_assumes, .option = 0, .value = {31}},
     DEW_SYSTEM_US,
     "Today's house is worked out without a bath fan, a kitchen hood, a "
     "clothes dryer that blows outdoors, cooling or open windows. If that is "
     "not so, the hours change: give bath_fan, range_hood, clothes_dryer, "
     "cooling and airing."},
    {"a hood not told",
     {.kind = DEW_FINDING_today_assumes, .option = 0, .value = {DEW_NO_HOOD}},
     DEW_SYSTEM_US,
     "Today's house is worked out without a kitchen hood. If that is not so, "
     "the hours change: give range_hood."},
    {"cooling too large",
     {.kind = DEW_FINDING_cool_large,
      .option = 0,
      .months = 0x040,
      .value = {8, 0.2314}},
     DEW_SYSTEM_US,
     "Cooling looks at least twice too large: it runs more than half of the "
     "hour in only 8 h of the year, and 23 % of the time in its busiest month, "
     "July. A machine of half the size would run longer and dry the air more. "
     "Have the load of the rooms worked out before choosing one."},
    {"cooling too large in every hour",
     {.kind = DEW_FINDING_cool_large,
      .option = 0,
      .months = 0x040,
      .value = {0, 0.2314}},
     DEW_SYSTEM_US,
     "Cooling looks at least twice too large: it runs more than half of the "
     "hour in no hour of the year, and 23 % of the time in its busiest month, "
     "July. A machine of half the size would run longer and dry the air more. "
     "Have the load of the rooms worked out before choosing one."},
    {"worse in some months, better in the others",
     {.kind = DEW_FINDING_air_worsens,
      .option = 1,
      .months = 0x0c0,
      .value = {1267, 1500, 100}},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 1267 h, today in 1500 h: 100 h more in "
     "July and August, 333 h fewer in the other months."},
    {"worse in some months, hardly otherwise in the others",
     {.kind = DEW_FINDING_air_worsens,
      .option = 1,
      .months = 0x0c0,
      .value = {1267, 189, 1024}},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 1267 h, today in 189 h: 1078 h more, most "
     "in July and August."},
    {"worse in every month",
     {.kind = DEW_FINDING_air_worsens,
      .option = 1,
      .months = 0xfff,
      .value = {4840, 189, 4651}},
     DEW_SYSTEM_US,
     "\"heat core\" is too humid in 4840 h, today in 189 h: 4651 h more, in "
     "every month."},
    {"no ventilation alone beats today's",
     {.kind = DEW_FINDING_air_fails, .option = 0, .value = {900, 900}},
     DEW_SYSTEM_US,
     "Ventilation alone does not fix it: no option with it alone is too humid "
     "for fewer hours than today (900 h)."},
    {"mould in the year",
     {.kind = DEW_FINDING_mould,
      .option = 1,
      .other = -1,
      .months = 0x801,
      .value = {DEW_EDGE, 4.17, 5.3}},
     DEW_SYSTEM_SI,
     "\"heat core\": mould can be seen on the window frame and glass edge: "
     "index 4.2 in the year (limit 3); its mean humidity passes 80 % in "
     "December and January."},
    {"mould in time",
     {.kind = DEW_FINDING_mould,
      .option = 1,
      .other = -1,
      .value = {DEW_CORNER, 1.2, 3.46}},
     DEW_SYSTEM_SI,
     "\"heat core\": mould may come to be seen on the coldest corner: index "
     "1.2 in the year, 3.5 after ten like it (limit 3)."},
    /* 8760 h are twelve months, 720 h thirty days */
    {"the end of drying",
     {.kind = DEW_FINDING_drying_ends,
      .option = 0,
      .other = -1,
      .value = {14 * 730, 720, 27 * 730}},
     DEW_SYSTEM_US,
     "It makes less than 1 point of RH after about 14 months, in March of year 2 (30 days to 27 "
     "months, by the half-life given)."},
    {"what lasts, another option",
     {.kind = DEW_FINDING_settled, .option = 0, .other = 1, .value = {61}},
     DEW_SYSTEM_US,
     "Once the house is dry, the best is \"as it stands\" (too humid in 61 "
     "h). Choose lasting equipment by that answer."},
    /* 70 pints of 0.473176473 l, 0.998 kg each, a day are 3.83e-4 kg/s */
    {"what lasts, no best told",
     {.kind = DEW_FINDING_settled, .option = 1, .other = 1, .value = {61, 1}},
     DEW_SYSTEM_US,
     "Once the house is dry, the cheapest to run of those that will do is still \"heat "
     "core\" (too humid in 61 h). Choose lasting equipment by that answer."},
    {"the only one, its price not told",
     {.kind = DEW_FINDING_best,
      .option = 1,
      .other = -1,
      .value = {312.4, 0, 2, 1}},
     DEW_SYSTEM_SI,
     "Best of these: \"heat core\". It alone brings the fresh air asked for and "
     "keeps the limits: $312 a year to run and keep. What it costs to install "
     "is not told (costs.install)."},
    {"a dehumidifier's size",
     {.kind = DEW_FINDING_dryer_size,
      .option = 1,
      .other = -1,
      .value = {3.83e-4, 3.12e-4, 0.9e-4, 1100 * KWH, 1748}},
     DEW_SYSTEM_SI,
     "The dehumidifier of \"heat core\", 33.1 L/day on its label, takes out "
     "27.0 L/day in this house's own air; its busiest day asks for 7.8 L/day, "
     "so a smaller one would do. It runs 1748 h and uses 1100 kWh a year."},
    {"a label of no test told",
     {.kind = DEW_FINDING_dryer_label,
      .option = 1,
      .other = -1,
      .value = {70 * 0.473176473 / 86400, 46.1 * 0.473176473 / 86400}},
     DEW_SYSTEM_US,
     "Is the label of the dehumidifier of \"heat core\" older than June 2019? "
     "Its 70 pints/day is taken as of today's test, at 65 degF; an old label "
     "is of 80 degF, and its machine takes out only 46 pints/day at 65 degF. "
     "Look, and say dehumidifier.rating."},
    {"a tie-in that does harm",
     {.kind = DEW_FINDING_tie_harmful,
      .option = 1,
      .other = 0,
      .value = {DEW_TIE_SHORT | DEW_TIE_AIR | DEW_TIE_BLOWER, 0, 1168 * KWH, 0,
                100 * 0.00047194745, 20 * 0.00047194745}},
     DEW_SYSTEM_US,
     "The tie-in of \"heat core\" does harm beside the own ducts of \"as it "
     "stands\": of the 100 cfm it draws in, 20 cfm reach the rooms, less than "
     "asked for; 1168 kWh a year more for the blower."},
    {"a tie-in that does not",
     {.kind = DEW_FINDING_tie_fine, .option = 1, .other = 0},
     DEW_SYSTEM_US,
     "The tie-in of \"heat core\" keeps up with the own ducts of \"as it "
     "stands\"."},
    {"saturated air",
     {.kind = DEW_FINDING_saturated,
      .option = 1,
      .other = -1,
      .value = {37, 91}},
     DEW_SYSTEM_SI,
     "\"heat core\": in 37 h of the year the rooms' air is as full of water as "
     "air can be (100 %): what comes in beyond that turns to fog and wet "
     "surfaces."},
    {"under-ventilated, inch-pound",
     {.kind = DEW_FINDING_under_ventilated,
      .option = 1,
      .other = -1,
      .value = {25 * 0.00047194745, 60 * 0.00047194745}},
     DEW_SYSTEM_US,
     "UNDER-VENTILATED: \"heat core\" brings 25 cfm of the 60 cfm asked for."},
    {"an answer near a limit",
     {.kind = DEW_FINDING_dryer_not_needed,
      .option = 1,
      .other = -1,
      .value = {140},
      .near_limit = 175.2},
     DEW_SYSTEM_SI,
     "A dehumidifier is not needed: \"heat core\" has none and is too humid in "
     "140 h. The hours outside the limits lie near the 175 h that still keep "
     "them: too near to be sure."},
    {"dehumidifier needed",
     {.kind = DEW_FINDING_dryer_needed,
      .option = 1,
      .other = -1,
      .value = {31, 1490}},
     DEW_SYSTEM_SI,
     "A dehumidifier is needed: \"heat core\" is too humid in 31 h; the best "
     "that brings enough air without one, in 1490 h."},
    {"pays back within a range",
     {.kind = DEW_FINDING_pays_back,
      .option = 1,
      .other = -1,
      .value = {8.26, 6.1, 11.94}},
     DEW_SYSTEM_SI,
     "\"heat core\" pays for itself in 8.3 years (6.1 to 11.9)."},
    {"pays back, at worst never",
     {.kind = DEW_FINDING_pays_back,
      .option = 1,
      .other = -1,
      .value = {8.2, 6.1, INFINITY}},
     DEW_SYSTEM_SI,
     "\"heat core\" pays for itself in 8.2 years (6.1 or more; at worst "
     "never)."},
    {"does not pay back, dearer to run",
     {.kind = DEW_FINDING_never_pays,
      .option = 1,
      .other = -1,
      .value = {-61.4, 5200}},
     DEW_SYSTEM_SI,
     "\"heat core\" does not pay back on energy: it costs $61 a year more to "
     "run. It buys dryness."},
    {"best by money",
     {.kind = DEW_FINDING_best,
      .option = 1,
      .other = -1,
      .value = {8049, 0, 1}},
     DEW_SYSTEM_SI,
     "Best of these: \"heat core\". It brings the fresh air asked for, keeps "
     "the limits and costs least: $8,049 over 15 years, in today's money."},
};

static void finding_in_words(void **state)
{
    const struct sentence_row *r = *state;
    struct dew_report report = page_open(2, r->system);
    char text[DEW_SENTENCE];

    dew_report_sentence(&report, &r->finding, text, sizeof text);
    assert_string_equal(text, r->want);
}

static void every_kind_has_its_sentence(void **state)
{
    struct dew_report report = page_open(2, DEW_SYSTEM_US);
    char text[DEW_SENTENCE];

    (void)state;
    for (int k = 0; k < DEW_FINDING_KINDS; k++) {
        struct dew_finding f = {.kind = (enum dew_finding_kind)k,
                                .option = 1,
                                .other = 0,
                                .months = 0x555};

        dew_report_sentence(&report, &f, text, sizeof text);
        assert_true(strlen(text) > 20);
        assert_true(text[strlen(text) - 1] == '.');
    }
}

/* ---- money ---------------------------------------------------------------------- */

static const struct money_row {
    const char *name;
    double amount;
    const char *want;
} money_rows[] = {
    {"thousands", 12345.5, "$12,346"}, {"millions", 1234567, "$1,234,567"},
    {"hundreds", 345.4, "$345"},       {"below nothing", -1045, "-$1,045"},
    {"nearly nothing", -0.3, "$0"},    {"not known", NAN, "-"},
};

static void money_in_words(void **state)
{
    const struct money_row *r = *state;
    struct dew_report report = page_open(1, DEW_SYSTEM_US);

    assert_string_equal(dew__money(&report, r->amount).text, r->want);
}

struct span_row {
    const char *name;
    size_t hours;
    const char *want;
};

static const struct span_row span_rows[] = {
    {"a year", 8760, ""},
    {"a leap year", 8784, ""},
    {"a year short of 60 hours", 8700, ""},
    {"of 61", 8699,
     "The weather has 8699 hours, a year has 8760: hours, water and energy \"a "
     "year\" are sums in the 8699 hours of the file; only costs a year are "
     "scaled to 8760."},
    {"thirty days", 720,
     "The weather has 720 hours, a year has 8760: hours, water and energy \"a "
     "year\" are sums in the 720 hours of the file; only costs a year are "
     "scaled to 8760."},
    {"two years", 17520,
     "The weather has 17520 hours, a year has 8760: hours, water and energy "
     "\"a year\" are sums in the 17520 hours of the file; only costs a year "
     "are scaled to 8760."},
};

static void what_is_no_year_is_called_none(void **state)
{
    const struct span_row *row = *state;
    char out[200];

    assert_string_equal(dew_report_span(row->hours, out, sizeof out),
                        row->want);
}

int main(void)
{
    struct CMUnitTest tests[80] = {
        cmocka_unit_test(a_flow_that_prints_as_nothing_is_not_named),
        cmocka_unit_test(the_same_report_is_the_same_text),
        cmocka_unit_test(
            stop_stands_above_the_verdict_and_the_verdict_above_the_tables),
        cmocka_unit_test(every_caution_is_in_the_text),
        cmocka_unit_test(names_cannot_drive_a_terminal),
        cmocka_unit_test(closure_is_told),
        cmocka_unit_test(no_best_is_told_without_prices),
        cmocka_unit_test(the_mark_of_carbon_dioxide_is_called_ours),
        cmocka_unit_test(ducts_are_told_where_they_matter),
        cmocka_unit_test(every_kind_has_its_sentence),
    };
    size_t n = 10;

    ADD_ROWS(tests, n, width_rows, text_fits_80_columns);
    ADD_ROWS(tests, n, span_rows, what_is_no_year_is_called_none);
    ADD_ROWS(tests, n, month_rows, months_in_words);
    ADD_ROWS(tests, n, sentence_rows, finding_in_words);
    ADD_ROWS(tests, n, money_rows, money_in_words);
    return _cmocka_run_group_tests("report, text", tests, n, NULL, NULL);
}
