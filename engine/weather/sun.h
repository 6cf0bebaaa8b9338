/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Parts of the sun and the glass that the tests look at one by one. */
#ifndef DEW_WEATHER_SUN_H
#define DEW_WEATHER_SUN_H

/* The apparent sun as seen from the middle of the earth. */
struct weather__sun_place {
    double ascension;   /* rad   right ascension, of date                   */
    double declination; /* rad                                              */
    double distance;    /* au                                               */
    double sidereal;    /* rad   apparent sidereal time at Greenwich        */
};

/* days since 2000-01-01 12:00, UTC or dynamical time. */
struct weather__sun_place weather__sun_place(double days);

/* What one face of glass throws back at a cosine of incidence: across and
   along the plane of incidence. */
void weather__glass_face(double cosine, double *across, double *along);

/* Share of beam passed by panes whose normal path absorbs depth each. */
double weather__glass_passes(double cosine, int panes, double depth);

#endif
