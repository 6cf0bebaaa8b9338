/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line.  The only floor that prints or exits. */
#include <stdio.h>

int main(void)
{
    puts("dewledger " DEW_VERSION);
    return 0;
}
