/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One file, byte for byte, as DEW_NAME; the Makefile gives name and file. */
#define PASTE(a, b) a##b
#define END_OF(name) PASTE(name, _end)

    .section .rodata
    .balign 16
    .hidden DEW_NAME
    .global DEW_NAME
DEW_NAME:
    .incbin DEW_FILE
    .hidden END_OF(DEW_NAME)
    .global END_OF(DEW_NAME)
END_OF(DEW_NAME):
    .byte 0
    .section .note.GNU-stack, "", %progbits
