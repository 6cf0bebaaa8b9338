/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The command line: finds the command, and sees that its result gets out. */
#include <csv.h>
#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <yaml.h>
#include <zlib.h>

#include "cli/cli.h"
#include "core/num.h"

#ifdef __GLIBC__
#include <gnu/libc-version.h>
#define C_LIBRARY "glibc ", gnu_get_libc_version()
#elif defined __wasi__ /* it tells no version */
#define C_LIBRARY "wasi-libc", ""
#else /* nor its name */
#define C_LIBRARY "another C library than glibc", ""
#endif

#ifndef __wasm__ /* no surveys there */
#include <sqlite3.h>
#define SQLITE "SQLite ", sqlite3_libversion(), ", "
#else
#define SQLITE "", "", ""
#endif

const struct cli__command cli__commands[CLI__COMMANDS] = {
#define X(name, does) {#name, cli__cmd_##name, does},
    CLI__COMMAND_MAP(X)
#undef X
};

static void help(FILE *to)
{
    fputs("dewledger keeps the books of heat and water of a tight house.\n"
          "\n"
          "usage: dewledger COMMAND [WORD...] [--OPTION...]\n"
          "\n",
          to);
    for (size_t i = 0; i < CLI__COMMANDS; i++)
        fprintf(to, "  %-9s %s\n", cli__commands[i].name,
                cli__commands[i].does);
    fputs(
        "\n"
        "Begin with: dewledger start --out house.yaml\n"
        "            dewledger run house.yaml\n"
        "\n"
        "dewledger COMMAND --help says more of one; dewledger --version names\n"
        "the libraries.  Exit: 0 done, 1 bad input, 2 bad usage, 3 failed, and\n"
        "with --strict 4 when a STOP caution stands.\n",
        to);
}

static void version(void)
{
    printf("dewledger " DEW_VERSION "\n"
           "GSL %s, libyaml %s, jansson %s, zlib %s, libcsv %d.%d, %s%s%s%s%s\n"
           "Free software: GNU GPL version 3 or later, no warranty.\n",
           core__num_version(), yaml_get_version_string(),
           jansson_version_str(), zlibVersion(), CSV_MAJOR, CSV_MINOR, SQLITE,
           C_LIBRARY);
}

/*
 * Runs at every exit, argp's too.  A result that did not reach the disk or
 * the reader must not look like one that did.
 */
static void see_it_out(void)
{
    int bad, unread;

    errno = 0;
    bad = fflush(stdout) == EOF || ferror(stdout);
    unread = cli__unread();
    if (fclose(stdout) == 0 && !bad)
        return;
    if (!unread)
        cli__fail(CLI__FAILED, "the result could not be written: %s",
                  errno ? strerror(errno) : "an earlier write failed");
    _exit(CLI__FAILED);
}

static int unknown(const char *word)
{
    const char *names[CLI__COMMANDS], *near;

    for (size_t i = 0; i < CLI__COMMANDS; i++)
        names[i] = cli__commands[i].name;
    near = cli__nearest(word, names, CLI__COMMANDS);
    if (word[0] == '-')
        return cli__fail(CLI__BAD_USAGE,
                         "%s: options come after the command "
                         "(dewledger --help lists them)",
                         word);
    if (near != NULL)
        return cli__fail(CLI__BAD_USAGE, "no command %s; nearest is %s", word,
                         near);
    return cli__fail(CLI__BAD_USAGE,
                     "no command %s (dewledger --help lists them)", word);
}

static int run(const struct cli__command *command, int argc, char **argv)
{
    char name[32];

    snprintf(name, sizeof name, "dewledger %s", command->name);
    argv[0] = name;
    return command->run(argc, argv);
}

static int dispatch(int argc, char **argv)
{
    static char help_option[] = "--help";

    if (strcmp(argv[1], "--version") == 0)
        return version(), CLI__DONE;
    if (strcmp(argv[1], "--help") == 0 ||
        (strcmp(argv[1], "help") == 0 && argc == 2))
        return help(stdout), CLI__DONE;
    if (strcmp(argv[1], "help") == 0) {
        argv[1] = argv[2];
        argv[2] = help_option;
    }
    for (size_t i = 0; i < CLI__COMMANDS; i++)
        if (strcmp(argv[1], cli__commands[i].name) == 0)
            return run(&cli__commands[i], argc - 1, argv + 1);
    return unknown(argv[1]);
}

int main(int argc, char **argv)
{
    /* a closed pipe, or a file grown to its limit, shall be an error of write,
       not a silent death */
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN);
    argp_err_exit_status = CLI__BAD_USAGE;
    core__num_quiet();
    if (atexit(see_it_out) != 0)
        return CLI__FAILED;
    if (argc < 2)
        return help(stderr), CLI__BAD_USAGE;
    return dispatch(argc, argv);
}
