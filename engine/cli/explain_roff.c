/* SPDX-License-Identifier: GPL-3.0-or-later */
/* dewledger-scenario(5): every key, as a manual page. */
#include <string.h>

#include "cli/explain.h"
#include "cli/tell.h"

static void put(const char *text)
{
    cli__roff_put(text, strlen(text));
}

static void put_line(const char *head, const char *text)
{
    if (text == NULL || text[0] == '\0')
        return;
    printf(".br\n%s: ", head);
    put(text);
    putchar('\n');
}

static void put_key(const struct dew_field *f)
{
    char text[CLI__EXPLAIN];

    printf(".TP\n.B ");
    put(f->path);
    putchar('\n');
    put(f->help);
    putchar('\n');
    put_line("Written as", cli__explain_form(f, text, sizeof text));
    put_line("Range", cli__explain_range(f, 0, text, sizeof text));
    put_line("Default", cli__explain_preset(f, text, sizeof text));
    put_line("Source", f->source);
}

static void put_intro(void)
{
    puts(
        ".TH DEWLEDGER\\-SCENARIO 5 \"\" \"dewledger " DEW_VERSION "\"\n"
        ".SH NAME\n"
        "dewledger\\-scenario \\- the keys of a scenario file\n"
        ".SH DESCRIPTION\n"
        "A scenario is YAML: groups of keys, and a list of\n"
        ".B options\n"
        "that each say only what they change.\n"
        ".B dewledger start\n"
        "writes one to begin with,\n"
        ".B dewledger check\n"
        "says every fault in one.\n"
        ".PP\n"
        "A value with a dimension carries its unit: 1900 ft2, 95 cfm,\n"
        "68 degF, 14 L/day.  A share is 74 % or 0.74.  A doubtful number has\n"
        "its range: 1.1 ach50 (0.7 to 2.0).  Order of rule: default, file,\n"
        "option, \\-\\-set.  Groups merge key by key, single values and lists\n"
        "replace, none removes.\n"
        ".PP\n"
        "A key house.volume is written as volume under house.  Labels in\n"
        "brackets are in the references that come with the program.");
}

void cli__explain_roff(void)
{
    size_t count;
    const struct dew_field *f = dew_scenario_fields(&count);
    char group[40], last[40] = "";

    put_intro();
    puts(".SH KEYS AT THE TOP");
    for (size_t i = 0; i < count; i++)
        if (strchr(f[i].path, '.') == NULL)
            put_key(&f[i]);
    for (size_t i = 0; i < count; i++) {
        size_t n = strcspn(f[i].path, ".");

        if (f[i].path[n] == '\0')
            continue;
        snprintf(group, sizeof group, "%.*s", (int)n, f[i].path);
        if (strcmp(group, last) != 0) {
            printf(".SH %s\n", group);
            put(dew_scenario_group(group));
            puts(".");
        }
        memcpy(last, group, sizeof last);
        put_key(&f[i]);
    }
    for (size_t i = 0; i < count; i++) {
        if (f[i].row == NULL)
            continue;
        printf(".SH COLUMNS OF A ROW OF %s\n", f[i].path);
        for (size_t k = 0; k < f[i].row_count; k++)
            put_key(&f[i].row[k]);
    }
}
