/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Status codes, the record that says what went wrong and where, and the list
 * that holds every fault of one pass.
 *
 * A function that can fail returns an enum dew_status and takes, last, a
 * struct dew_error that the caller owns, zeroed, and may leave NULL.  The
 * first error set stays; later ones on the same record are ignored, so a
 * caller that passes one record through several calls reads the cause and
 * not an echo.  Readers take a struct dew_faults instead and go on to the
 * next fault.  Nothing in this library prints, exits or keeps process state.
 */
#ifndef DEW_STATUS_H
#define DEW_STATUS_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* One row per status: the code, and what it means in a few words. */
#define DEW_STATUS_MAP(X)                                                      \
    X(OK, "no error")                                                          \
    X(EMEM, "out of memory")                                                   \
    X(EIO, "a file could not be read or written")                              \
    X(ESYNTAX, "the file is not in the form it claims")                        \
    X(EUNKNOWN, "a name that nothing answers to")                              \
    X(EMISSING, "a required value is absent")                                  \
    X(ERANGE, "a value is outside its stated range")                           \
    X(EUNIT, "a unit is missing or does not fit")                              \
    X(EAMBIGUOUS, "more than one reading is possible: say which")              \
    X(ESOLVE, "an equation has no solution, or none was reached")              \
    X(EBALANCE, "an hour's ledger of water or heat does not close")

enum dew_status {
#define X(code, text) DEW_##code,
    DEW_STATUS_MAP(X)
#undef X
        DEW_STATUS_COUNT
};

/* Where an error arose; a field that does not apply keeps its zero. */
struct dew_error {
    enum dew_status status; /* DEW_OK until an error is set             */
    int line, column;       /* in the file, from 1; 0 = not from a file */
    int hour;               /* of the run, from 1; 0 = not in the march */
    char source[96];        /* file name; "..." + tail when too long    */
    char path[96];          /* "ventilator.flow", "vents[0].set", or "":
                               the place, the same however text reads   */
    char text[256];         /* what is wrong, what would be right       */
};

/*
 * Every fault of one pass, in the order found.  The caller owns list, of
 * room entries; count may pass room, and then the rest was only counted.
 */
struct dew_faults {
    struct dew_error *list;
    size_t room, count;
};

/* The few words of DEW_STATUS_MAP; never NULL.  Static, not to be freed. */
const char *dew_status_text(enum dew_status status);

/*
 * Write "source:line:column: path: text" into out, leaving out what does not
 * apply, and what a terminal would act on written in letters: \x1b, U+202E.
 * Returns out.  size > 0; the line is cut, never overrun.
 */
char *dew_error_line(const struct dew_error *err, char *out, size_t size);

#ifdef __cplusplus
}
#endif
#endif
