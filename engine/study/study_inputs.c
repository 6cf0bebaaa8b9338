/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "dew/study.h"

#define WORDS(name, words) words,

const char *dew_layout_text(enum dew_layout layout)
{
    static const char *const text[] = {DEW_LAYOUT_MAP(WORDS)};

    return (unsigned)layout < DEW_LAYOUTS ? text[layout] : "no such layout";
}

const char *dew_core_text(enum dew_core_kind core)
{
    static const char *const text[] = {DEW_CORE_MAP(WORDS)};

    return (unsigned)core < DEW_CORE_KINDS ? text[core] : "no such core";
}

const char *dew_answer_text(enum dew_answer answer)
{
    return answer == DEW_ANSWER_YES  ? "yes"
           : answer == DEW_ANSWER_NO ? "no"
                                     : "unknown";
}
