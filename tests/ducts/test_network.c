/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Duct networks: closed forms, a worked system, and 300 made at random. */
#include "support/duct_nets.h"

static struct dew_ducts_network *open_net(
    const struct dew_duct_node *nodes, size_t n,
    const struct dew_duct_branch *branches, size_t m)
{
    struct dew_ducts_network *net;
    struct dew_error err = {0};

    if (dew_ducts_network_open(&net, nodes, n, branches, m, &err) != DEW_OK)
        fail_msg("%s", err.text);
    return net;
}

static void solve(struct dew_ducts_network *net, const double *setting)
{
    struct dew_error err = {0};

    if (dew_ducts_network_solve(net, setting, 1.204, &err) != DEW_OK)
        fail_msg("%s", err.text);
}

/*
 * A fan of 200 (1 - (q / 65 L/s)^2) Pa whose own ducts let it move 35 L/s,
 * against a tie pressure: q = sqrt((200 - P) / (a + k)), and back through it
 * when it stands, sqrt(P / k).  Closed form, to the printed digit.
 */
/* clang-format off */
static const struct tie {
    const char *name;
    double pressure, litres, speed;
} ties[] = {
    {"tie helps by 75 Pa",       -75, 41.0, 1}, {"tie helps by 50 Pa",      -50, 39.1, 1},
    {"tie helps by 25 Pa",       -25, 37.1, 1}, {"tie at rest",             0,   35.0, 1},
    {"tie opposes by 25 Pa",     25,  32.7, 1}, {"tie opposes by 50 Pa",    50,  30.3, 1},
    {"tie opposes by 75 Pa",     75,  27.7, 1}, {"standing, back at 25 Pa", 25, -14.7, 0},
    {"standing, back at 50 Pa",  50, -20.8, 0}, {"standing, back at 75 Pa", 75, -25.4, 0},
};
/* clang-format on */

static const double fan_a = 200.0 / (.065 * .065);
static const double fan_sum = 200.0 / (.035 * .035); /* a + k */

static struct dew_fan *small_fan(void)
{
    struct dew_fan_row rest = {.065, 200, 37};
    struct dew_fan *fan;

    assert_int_equal(dew_ducts_fan_shaped(&fan, &rest, NULL), DEW_OK);
    return fan;
}

static struct dew_duct_branch cased(const struct dew_fan *fan, size_t from,
                                    size_t to)
{
    return (struct dew_duct_branch){.name = "supply fan",
                                    .from = from,
                                    .to = to,
                                    .kind = DEW_BRANCH_FAN,
                                    .flow = 1.0 / sqrt(fan_sum - fan_a),
                                    .power = 0.5,
                                    .fan = fan};
}

static void tie_row(void **state)
{
    const struct tie *r = *state;
    struct dew_duct_node nodes[] = {{"outdoors", 0}, {"trunk", r->pressure}};
    struct dew_fan *fan = small_fan();
    struct dew_duct_branch b = cased(fan, 0, 1);
    struct dew_ducts_network *net = open_net(nodes, 2, &b, 1);
    double k = fan_sum - fan_a, q;

    solve(net, &r->speed);
    q = dew_ducts_network_flow(net, 0);
    assert_near(1000.0 * q, r->litres, 0.05);
    assert_near(q,
                r->speed > 0 ? sqrt((200 - r->pressure) / fan_sum)
                             : -sqrt(r->pressure / k),
                1e-11);
    dew_ducts_network_close(net);
    dew_ducts_fan_close(fan);
}

static struct dew_duct_branch fixed(const char *name, size_t from, size_t to,
                                    double flow)
{
    return (struct dew_duct_branch){.name = name,
                                    .from = from,
                                    .to = to,
                                    .kind = DEW_BRANCH_FIXED,
                                    .flow = flow,
                                    .power = 0.5};
}

/* q1 / q2 = sqrt(R2 / R1), and with a third in series */
TEST(parallel_and_series_law)
{
    struct dew_duct_node nodes[] = {{"in", 91.3}, {"mid", NAN}, {"out", 0}};
    struct dew_duct_branch b[] = {fixed("wide", 0, 1, .0133),
                                  fixed("narrow", 0, 1, .0047),
                                  fixed("last", 2, 1, .0091)};
    struct dew_ducts_network *net = open_net(nodes, 3, b, 3);
    double c = .0133 + .0047,
           whole = sqrt(91.3 / (1 / c / c + 1 / .0091 / .0091));

    solve(net, NULL);
    assert_near(dew_ducts_network_flow(net, 0) / dew_ducts_network_flow(net, 1),
                .0133 / .0047, 1e-9);
    assert_near(dew_ducts_network_flow(net, 2), -whole, 1e-11);
    assert_near(dew_ducts_network_pressure(net, 1),
                whole * whole / .0091 / .0091, 1e-6);
    dew_ducts_network_close(net);
}

/* two equal fans into one resistance r: side by side each gives half */
TEST(fans_together_and_against)
{
    struct dew_fan *fan = small_fan();
    double r = 41000.0, c = 1.0 / sqrt(r);
    struct dew_duct_node row[] = {
        {"out", 0}, {"a", NAN}, {"b", NAN}, {"in", 0}};
    struct dew_duct_branch series[] = {cased(fan, 0, 1), cased(fan, 1, 2),
                                       fixed("duct", 2, 3, c)};
    struct dew_duct_branch beside[] = {cased(fan, 0, 1), cased(fan, 0, 1),
                                       fixed("duct", 1, 3, c)};
    struct dew_duct_branch against[] = {cased(fan, 0, 1), cased(fan, 2, 1),
                                        fixed("duct", 2, 3, c)};
    struct dew_ducts_network *net = open_net(row, 4, series, 3);

    solve(net, NULL);
    assert_near(dew_ducts_network_flow(net, 2), sqrt(400 / (2 * fan_sum + r)),
                1e-11);
    dew_ducts_network_close(net);
    row[2].pressure = 0.0;
    net = open_net(row, 4, beside, 3);
    solve(net, NULL);
    assert_near(dew_ducts_network_flow(net, 0), sqrt(200 / (fan_sum + 4 * r)),
                1e-11);
    dew_ducts_network_close(net);
    row[2].pressure = NAN;
    net = open_net(row, 4, against, 3);
    solve(net, NULL);
    assert_near(dew_ducts_network_flow(net, 2), 0.0, 1e-9);
    dew_ducts_network_close(net);
    dew_ducts_fan_close(fan);
}

TEST(dampers_shut_and_stop)
{
    struct dew_duct_node nodes[] = {{"trunk", 47.0}, {"out", 0}};
    struct dew_duct_branch b[] = {fixed("flap", 0, 1, .0113),
                                  fixed("flap back", 1, 0, .0113),
                                  fixed("damper", 0, 1, .0113)};
    double setting[] = {1, 1, 0};
    struct dew_ducts_network *net;

    b[0].kind = b[1].kind = DEW_BRANCH_BACKDRAFT;
    b[2].kind = DEW_BRANCH_DAMPER;
    for (int i = 0; i < 3; i++)
        b[i].leak = .013;
    net = open_net(nodes, 2, b, 3);
    solve(net, setting);
    assert_near(dew_ducts_network_flow(net, 0), .0113 * sqrt(47), 1e-12);
    assert_near(dew_ducts_network_flow(net, 1), -.013 * .0113 * sqrt(47),
                1e-12);
    assert_near(dew_ducts_network_flow(net, 2), .013 * .0113 * sqrt(47), 1e-12);
    setting[2] = .61;
    solve(net, setting);
    assert_near(dew_ducts_network_flow(net, 2), .61 * .0113 * sqrt(47), 1e-12);
    dew_ducts_network_close(net);
}

TEST(nothing_drives_nothing)
{
    struct dew_duct_node nodes[] = {{"in", 0}, {"mid", NAN}, {"out", 0}};
    struct dew_duct_branch b[] = {fixed("a", 0, 1, .01), fixed("b", 1, 2, .02)};
    struct dew_ducts_network *net = open_net(nodes, 3, b, 2);

    solve(net, NULL);
    assert_near(dew_ducts_network_flow(net, 0), 0.0, 0.0);
    assert_near(dew_ducts_network_pressure(net, 1), 0.0, 0.0);
    dew_ducts_network_close(net);
}

/* Pa */
static double velocity_pressure(const struct dew_duct *duct, double density,
                                double q)
{
    double v = q / dew_ducts_area(duct);

    return 0.5 * density * v * v;
}

/*
 * [ASH-F21] example 8 with what paths A, B and C lose too little added at
 * their terminals: all four then carry their 380 L/s.
 */
TEST(example_8_with_terminals_equalised)
{
    static const struct dew_duct ducts[9] = {
        {.width = .45, .height = .5, .length = 1.5, .roughness = .12e-3},
        {.diameter = .375, .length = 6, .roughness = .12e-3, .loss = .06},
        {.diameter = .350, .length = 6, .roughness = .12e-3, .loss = .14},
        {.diameter = .300, .length = 6, .roughness = .12e-3, .loss = .13},
        {.diameter = .225, .length = 4.5, .roughness = .12e-3, .loss = .14},
        {.diameter = .2, .length = 1.5, .roughness = .12e-3, .loss = 2.25},
        {.diameter = .2, .length = 1.5, .roughness = .12e-3, .loss = 2.05},
        {.diameter = .2, .length = 1.5, .roughness = .12e-3, .loss = 1.96},
        {.diameter = .2, .length = 3, .roughness = .12e-3, .loss = 1.82},
    };
    static const size_t from[9] = {0, 1, 2, 3, 4, 2, 3, 4, 5};
    static const size_t to[9] = {1, 2, 3, 4, 5, 6, 6, 6, 6};
    static const double q[9] = {1.52, 1.52, 1.14, .76, .38, .38, .38, .38, .38};
    struct dew_duct_node nodes[7] = {{"fan", 0},  {"1", NAN}, {"2", NAN},
                                     {"4", NAN},  {"6", NAN}, {"8", NAN},
                                     {"rooms", 0}};
    struct dew_duct_branch b[9] = {0};
    double at[7] = {0}; /* pressure lost down to each node */
    struct dew_ducts_network *net;

    for (int i = 0; i < 9; i++) {
        b[i] = (struct dew_duct_branch){
            .name = "section", .from = from[i], .to = to[i], .duct = ducts[i]};
        at[to[i]] = at[from[i]] + dew_ducts_drop(&ducts[i], .978, q[i], NULL);
    }
    for (int i = 5; i < 8; i++)
        b[i].duct.loss += (at[6] - at[from[i]] -
                           dew_ducts_drop(&ducts[i], .978, q[i], NULL)) /
                          velocity_pressure(&ducts[i], .978, q[i]);
    assert_near(at[6], 269, 2.5); /* path D as printed, see test_friction.c */
    nodes[0].pressure = at[6];
    net = open_net(nodes, 7, b, 9);
    assert_int_equal(dew_ducts_network_solve(net, NULL, .978, NULL), DEW_OK);
    for (size_t i = 0; i < 9; i++)
        assert_near(dew_ducts_network_flow(net, i), q[i], 1e-9);
    dew_ducts_network_close(net);
}

/* ---- made at random ------------------------------------------------------ */

enum { NETWORKS = 300 };

/* the recipe of support/duct_nets.h from seed 140 */
TEST(three_hundred_at_random)
{
    static struct made k;
    struct dew_fan *fan = small_fan();
    struct core__random *r;
    size_t most = 0;
    int steps = 0;

    assert_int_equal(core__random_open(&r, 140, NULL), DEW_OK);
    for (int i = 0; i < NETWORKS; i++) {
        struct dew_ducts_network *net;

        make_net(&k, r, fan, 0);
        most = k.m > most ? k.m : most;
        net = open_net(k.nodes, k.n, k.branches, k.m);
        solve(net, k.setting);
        if (dew_ducts_network_steps(net) > steps)
            steps = dew_ducts_network_steps(net);
        assert_near(worst_node(net, &k), 0.0, 2e-10);
        assert_near(worst_duct(net, &k), 0.0, 1e-7);
        dew_ducts_network_close(net);
    }
    print_message("up to %zu branches, at most %d steps\n", most, steps);
    assert_true(most > 150);
    assert_between(steps, 1, 23); /* 21: a regression */
    core__random_close(r);
    dew_ducts_fan_close(fan);
}

static void refused(const struct dew_duct_branch *b, size_t m, const char *text)
{
    struct dew_duct_node nodes[] = {{"out", 0}, {"attic", NAN}, {"core", NAN}};
    struct dew_ducts_network *net;
    struct dew_error err = {0};

    assert_int_not_equal(dew_ducts_network_open(&net, nodes, 3, b, m, &err),
                         DEW_OK);
    assert_null(net);
    assert_string_equal(err.text, text);
}

TEST(faults_name_their_place)
{
    struct dew_fan *fan = small_fan();
    struct dew_duct_branch b[] = {fixed("cap", 0, 1, .01), cased(fan, 1, 2)};
    struct dew_duct_branch flap = fixed("flap", 0, 1, .01);

    flap.kind = DEW_BRANCH_BACKDRAFT;
    refused(b, 1, "no way leads from node 'core' to a known pressure");
    refused(b, 2,
            "fan 'supply fan' works on nothing: no other branch meets "
            "node 'core'");
    refused(&flap, 1, "damper 'flap': a leak of 0 is outside 1e-4 .. 1");
    b[1].fan = NULL;
    refused(b, 2, "fan 'supply fan' has no curve");
    b[0].to = 0;
    refused(b, 1, "branch 'cap' does not join two nodes");
    dew_ducts_fan_close(fan);
}

/* A branch alone, just inside and just outside each end. */
TEST(the_ends_of_a_branchs_ranges)
{
    const struct {
        double flow, power, leak;
        int good;
        const char *text;
    } rows[] = {
        {1e-7, 0.5, 1e-4, 1, NULL},
        {1e3, 1.0, 1.0, 1, NULL},
        {9e-8, 0.6, 0.1, 0,
         "branch 'flap': flow 9e-08 or power 0.6 is outside its range"},
        {1001, 0.6, 0.1, 0,
         "branch 'flap': flow 1001 or power 0.6 is outside its range"},
        {0.1, 0.49, 0.1, 0,
         "branch 'flap': flow 0.1 or power 0.49 is outside its range"},
        {0.1, 1.01, 0.1, 0,
         "branch 'flap': flow 0.1 or power 1.01 is outside its range"},
        {0.1, 0.6, 9e-5, 0,
         "damper 'flap': a leak of 9e-05 is outside 1e-4 .. 1"},
        {0.1, 0.6, 1.01, 0,
         "damper 'flap': a leak of 1.01 is outside 1e-4 .. 1"},
    };
    const struct dew_duct_node nodes[] = {{"out", 0}, {"in", 0}};

    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        struct dew_duct_branch flap = fixed("flap", 0, 1, rows[i].flow);

        flap.kind = DEW_BRANCH_DAMPER;
        flap.power = rows[i].power;
        flap.leak = rows[i].leak;
        if (rows[i].good)
            dew_ducts_network_close(open_net(nodes, 2, &flap, 1));
        else
            refused(&flap, 1, rows[i].text);
    }
}

TEST(a_setting_out_of_range_is_named)
{
    struct dew_duct_node nodes[] = {{"out", 0}, {"in", 0}};
    struct dew_fan *fan = small_fan();
    struct dew_duct_branch b = cased(fan, 0, 1);
    struct dew_ducts_network *net = open_net(nodes, 2, &b, 1);
    struct dew_error err = {0};
    double setting = 2.3;

    assert_int_equal(dew_ducts_network_solve(net, &setting, 1.2, &err),
                     DEW_ERANGE);
    assert_string_equal(err.text,
                        "the setting 2.3 of 'supply fan' is outside 0 .. 2");
    dew_ducts_network_close(net);
    dew_ducts_fan_close(fan);
}

ROWS(ties, tie_row);
RUN_TESTS("ducts: network");
