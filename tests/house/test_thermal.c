/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The conductances of [ISO13790] annex C, losses, ground and slabs.  The
 * standard's hours are marched in tests/march/test_heat.c.
 */
#include "support/rows.h"

#include <string.h>

#include "dew/thermal.h"

static const double pi = 3.14159265358979323846;

/* 100 m2, medium, H_w 20, H_op 60, 300 W inside, 200 W sun. */
static const double gains = 300.0, sun = 200.0;

static struct dew_thermal room(double opaque, double ground)
{
    struct dew_fabric_nodes in = {
        .floor_area = 100.0,
        .loss = {.opaque = opaque, .glazed = 20.0, .ground = ground},
        .capacity = dew_house_fabric_capacity(DEW_FABRIC_MEDIUM, 100.0),
        .mass_area = dew_house_fabric_area(DEW_FABRIC_MEDIUM, 100.0),
        .contents = dew_house_contents(250.0, 100.0),
    };
    struct dew_thermal out;

    assert_int_equal(dew_house_thermal(&in, &out, NULL), DEW_OK);
    return out;
}

/* clang-format off */
/* [ISO13370], by hand: 90 m2, 38 m, walls 0.3 m, 2 m deep.  m2K/W, W/(m2 K),
   W/K. */
static const struct basement { const char *source; enum dew_soil soil; double wall_r, floor_r, u_floor, u_wall, loss, swing_loss; } basement_rows[] = {
    {"[ISO13370] basement, sand, bare walls",         DEW_SOIL_SAND, 0.15, 0,    0.5463, 1.0115, 126.0, 72.2},
    {"[ISO13370] basement, sand, walls insulated",    DEW_SOIL_SAND, 1.91, 0,    0.5463, 0.2830, 70.7,  40.1},
    {"[ISO13370] basement, clay, walls insulated",    DEW_SOIL_CLAY, 1.91, 0,    0.4226, 0.2643, 58.1,  26.7},
    {"[ISO13370] basement, sand, walls and floor",    DEW_SOIL_SAND, 1.91, 0.88, 0.3623, 0.3191, 56.9,  27.2},
};

/* U of slabs on clay without insulation by exposed perimeter over area, walls
   0.3 m: printed to two decimals in [CIBSE-A] table 3.15, from memory. */
static const struct slab { const char *source; double ratio, u; } slab_rows[] = {
    {"[CIBSE-A] perimeter over area 0.10", 0.10, 0.22},
    {"[CIBSE-A] perimeter over area 0.20", 0.20, 0.37},
    {"[CIBSE-A] perimeter over area 0.25", 0.25, 0.44},
    {"[CIBSE-A] perimeter over area 0.50", 0.50, 0.70},
};

static const struct fault { const char *text; struct dew_fabric_nodes in; } fault_rows[] = {
    {"floor_area: 9.9 is outside 10 .. 4000 m2",         {9.9, {1, 1, 1}, 1e6, 20, 1e5}},
    {"capacity: 0 is outside the numbers above 0",       {99., {1, 1, 1}, 0.0, 20, 1e5}},
    {"contents: nan is outside the numbers above 0",     {99., {1, 1, 1}, 1e6, 20, NAN}},
    {"contents: inf is outside the numbers above 0",     {99., {1, 1, 1}, 1e6, 20, INFINITY}},
    {"contents: -1 is outside the numbers above 0",      {99., {1, 1, 1}, 1e6, 20, -1.}},
    {"capacity: inf is outside the numbers above 0",     {99., {1, 1, 1}, INFINITY, 20, 1e5}},
    {"mass_area: 0 is outside 0 .. 4.5 x floor_area",    {99., {1, 1, 1}, 1e6, 0, 1e5}},
    {"mass_area: 446 is outside 0 .. 4.5 x floor_area",  {99., {1, 1, 1}, 1e6, 446, 1e5}},
    {"loss: 183 W/K through walls, roof and ground is outside 0 .. 182 W/K, 9.1 for each m2 of the fabric's inside: too little insulation, or too much wall and roof for the floor",
                                                         {99., {181, 1, 2}, 1e6, 20, 1e5}},
    {"loss.glazed: 5000 is outside 0 .. 9.1 x (4.5 x floor_area - mass_area) W/K",
                                                         {99., {1, 5e3, 2}, 1e6, 20, 1e5}},
};
/* clang-format on */

TEST(conductances_are_the_standards)
{
    struct dew_thermal n = room(60.0, 0.0);

    assert_near(n.h_is, 1552.5, 1e-10);
    assert_near(n.h_ms, 2275.0, 1e-10);
    assert_near(n.h_em, 61.62528, 5e-6);
    assert_near(n.mass_share * (0.5 * gains + sun), 194.4444, 5e-5);
    assert_near((1.0 - n.mass_share - n.lost_share) * (0.5 * gains + sun),
                153.8462, 5e-5);
}

/* With the ground at the outdoors' temperature the split must not show: the
   two paths beyond the mass, in series with it, add to the losses given. */
TEST(ground_and_wall_add_to_their_losses)
{
    struct dew_thermal n = room(41.3, 18.7);
    double beyond = n.h_em + n.h_ground;

    assert_near(1.0 / (1.0 / n.h_ms + 1.0 / beyond), 60.0, 1e-12);
    assert_near(n.h_em / n.h_ground, 41.3 / 18.7, 1e-13);
    assert_near(beyond, room(60.0, 0.0).h_em, 1e-12);
}

TEST(losses_add_by_kind)
{
    const struct dew_part parts[] = {{DEW_PART_OPAQUE, 93.4, 0.21},
                                     {DEW_PART_GLAZED, 17.3, 1.34},
                                     {DEW_PART_OPAQUE, 112.0, 0.13},
                                     {DEW_PART_GROUND, 109.5, 0.24},
                                     {DEW_PART_GLAZED, 2.1, 1.8}};
    const struct dew_part bad[] = {{DEW_PART_OPAQUE, 93.4, 0.21},
                                   {DEW_PART_GLAZED, -1.0, 1.3}};
    struct dew_losses out = {0};
    struct dew_error err = {0};
    char line[300];

    assert_int_equal(dew_house_losses(parts, 5, &out, NULL), DEW_OK);
    assert_near(out.opaque, 34.174, 1e-12);
    assert_near(out.glazed, 26.962, 1e-12);
    assert_near(out.ground, 26.28, 1e-12);
    assert_int_equal(dew_house_losses(bad, 2, &out, &err), DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "parts: part 1: -1 m2 at 1.3 W/(m2 K) is no loss");
    assert_near(out.opaque, 34.174, 1e-12);
}

TEST(facades_fill_and_stop)
{
    struct dew_thermal n = room(60.0, 0.0);
    struct dew_facade south = {180.0, 90.0, dew_house_aperture(9.7, 0.8, 0.55),
                               0.9, dew_house_absorbing(31.0, 0.6, 0.23)};
    struct dew_error err = {0};
    char line[300];

    assert_near(south.aperture, 4.268, 1e-12);
    assert_near(south.absorbing, 0.171120, 1e-12);
    for (int i = 0; i < DEW_FACADES; i++)
        assert_int_equal(dew_house_add_facade(&n, &south, NULL), DEW_OK);
    assert_int_equal(dew_house_add_facade(&n, &south, &err), DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "facade_count: 7 is outside 0 .. 6");
    assert_int_equal(n.facade_count, DEW_FACADES);
    assert_nan(dew_house_aperture(9.7, 1.1, 0.55));
}

/* Monthly means of a known wave, integrated exactly, give the wave back. */
TEST(wave_comes_back_from_monthly_means)
{
    const double mean = 8.7, swing = 13.9, coldest = 27.3;
    double monthly[12];
    struct dew_wave wave;

    for (int m = 0; m < 12; m++) {
        double a = 2 * pi * (m / 12.0 - coldest / 365.0);
        double b = 2 * pi * ((m + 1) / 12.0 - coldest / 365.0);

        monthly[m] = mean - swing * (sin(b) - sin(a)) / (b - a);
    }
    wave = dew_house_yearly_wave(monthly);
    assert_near(wave.mean, mean, 1e-12);
    assert_near(wave.swing, swing, 1e-12);
    assert_near(wave.coldest, coldest, 1e-10);
}

static void slab_has_the_tabled_u(void **state)
{
    const struct slab *row = *state;
    struct dew_slab slab = {.area = 137.0,
                            .perimeter = 137.0 * row->ratio,
                            .wall = 0.3,
                            .soil = DEW_SOIL_CLAY};
    struct dew_wave outdoors = {9.3, 8.1, 25.0};
    struct dew_earth earth;

    assert_int_equal(dew_house_slab(&slab, &outdoors, &earth, NULL), DEW_OK);
    assert_near(earth.loss / slab.area, row->u, 0.005);
    assert_near(earth.lean, 0.17 * earth.loss / slab.area, 1e-15);
    assert_near(earth.wave.mean, 9.3, 0.0);
    assert_true(earth.wave.swing > 0.0 && earth.wave.swing < 8.1);
    assert_near(earth.wave.coldest, 25.0 + 365.0 / 12.0, 1e-12);
}

/* Insulation slows the loss; the standard's two forms meet within 1 %. */
TEST(slab_insulation_lowers_the_loss)
{
    struct dew_slab slab = {
        .area = 112.0, .perimeter = 44.7, .wall = 0.35, .soil = DEW_SOIL_SAND};
    struct dew_wave outdoors = {9.3, 8.1, 350.0};
    struct dew_earth earth = {0};
    double before = INFINITY;

    for (int i = 0; i <= 120; i++) {
        slab.resistance = 0.1 * i;
        assert_int_equal(dew_house_slab(&slab, &outdoors, &earth, NULL),
                         DEW_OK);
        assert_true(earth.loss < before);
        assert_true(!isfinite(before) || earth.loss > 0.75 * before);
        before = earth.loss;
    }
    assert_near(earth.wave.coldest, 350.0 + 365.0 / 12.0 - 365.0, 1e-12);
}

static struct dew_earth earth_below(const struct dew_slab *slab)
{
    struct dew_wave outdoors = {9.3, 8.1, 25.0};
    struct dew_earth earth;

    assert_int_equal(dew_house_slab(slab, &outdoors, &earth, NULL), DEW_OK);
    return earth;
}

/* Floor and walls are told apart by their films in the lean. */
static void basement_has_the_standards_u(void **state)
{
    const struct basement *row = *state;
    struct dew_slab slab = {90.0,      38.0, 0.3,        row->floor_r,
                            row->soil, 2.0,  row->wall_r};
    struct dew_earth e = earth_below(&slab);
    double walls = 38.0 * 2.0, films = e.lean * (90.0 + walls);
    double floor = (films - 0.13 * e.loss) / (0.17 - 0.13);

    assert_near(e.loss, row->loss, 0.05);
    assert_near(floor / 90.0, row->u_floor, 0.00005);
    assert_near((e.loss - floor) / walls, row->u_wall, 0.00005);
    assert_near(e.wave.swing / 8.1 * e.loss, row->swing_loss, 0.05);
}

/* [ISO13370]: its formulas meet those of the slab, by hand 0.7886 W/(m2 K). */
TEST(basement_of_no_depth_is_a_slab)
{
    struct dew_slab slab = {90.0, 38.0, 0.3, 0.0, DEW_SOIL_SAND, 0.0, 0.15};
    struct dew_earth flat = earth_below(&slab), e;

    assert_near(flat.loss / 90.0, 0.7886, 0.00005);
    slab.depth = 1e-7;
    e = earth_below(&slab);
    assert_near(e.loss, flat.loss, 1e-4);
    assert_near(e.wave.swing, flat.wave.swing, 1e-4);
    assert_near(e.lean, flat.lean, 1e-7);
}

TEST(slab_fault_names_its_member)
{
    struct dew_slab slab = {90.0, 38.0, 0.3, 0.0, DEW_SOIL_SAND, 6.2, 0.15};
    struct dew_wave outdoors = {9.3, 8.1, 25.0};
    struct dew_error err = {0}, next = {0};
    struct dew_earth out = {.loss = 3.25};
    char line[300];

    assert_int_equal(dew_house_slab(&slab, &outdoors, &out, &err), DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line),
                        "depth: 6.2 is outside 0 .. 6 m");
    slab.depth = 2.0;
    slab.wall_resistance = -0.1;
    assert_int_equal(dew_house_slab(&slab, &outdoors, &out, &next), DEW_ERANGE);
    assert_string_equal(dew_error_line(&next, line, sizeof line),
                        "wall_resistance: -0.1 is outside 0 .. 20 m2K/W");
    assert_near(out.loss, 3.25, 0.0);
}

TEST(ground_node_is_coldest_on_its_day)
{
    struct dew_earth earth = {11.0, {10.9, 3.7, 57.0}, 0.07};
    struct dew_thermal n = room(60.0, 10.0);

    dew_house_set_ground(&n, &earth);
    assert_near(n.floor_lean, 0.07, 0.0);
    assert_near(dew_house_ground_t(&n, 57.0), 7.2, 1e-12);
    assert_near(dew_house_ground_t(&n, 57.0 + 182.5), 14.6, 1e-12);
    assert_near(dew_house_ground_t(&n, 57.0 + 91.25), 10.9, 1e-12);
}

/* [ISO13790] 11.3.5 by hand for the demo's house: F_r R_se U A h_r x 11 K with
   R_se 0.04, h_r 4.5; to the watt's last digit printed. */
static const struct sky_row {
    const char *name;
    double area, u, view, want;
} sky_rows[] = {
    {"roof at 11 K, 52.2 W [ISO13790]", 176.5, 0.14943, 1.0, 52.2},
    {"walls at 11 K, 29.8 W [ISO13790]", 111.2, 0.27039, 0.5, 29.8},
    {"windows at 11 K, 52.4 W [ISO13790]", 26.48, 2.0, 0.5, 52.4},
};

static void sky_takes_the_standards_watts(void **state)
{
    const struct sky_row *row = *state;

    assert_near(11.0 * dew_house_sky(row->area, row->u, row->view), row->want,
                0.05);
}

TEST(sky_outside_its_range_is_no_number)
{
    assert_nan(dew_house_sky(-1.0, 0.3, 0.5));
    assert_nan(dew_house_sky(100.0, -0.3, 0.5));
    assert_nan(dew_house_sky(100.0, 0.3, 1.01));
}

static void fault_names_its_member(void **state)
{
    const struct fault *row = *state;
    struct dew_error err = {0};
    struct dew_thermal out = {.h_is = 3.25};
    char line[300];

    assert_int_equal(dew_house_thermal(&row->in, &out, &err), DEW_ERANGE);
    assert_string_equal(dew_error_line(&err, line, sizeof line), row->text);
    assert_near(out.h_is, 3.25, 0.0);
}

ROWS(slab_rows, slab_has_the_tabled_u);
ROWS(basement_rows, basement_has_the_standards_u);
ROWS(sky_rows, sky_takes_the_standards_watts);
ROWS(fault_rows, fault_names_its_member);
RUN_TESTS("house, thermal");
