/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One file, byte for byte, as DEW_NAME; the Makefile gives name and file. */
#define PASTE(a, b) a##b
#define END_OF(name) PASTE(name, _end)

#ifdef __wasm__ /* its linker keeps nothing that has no type and size */
#define SIZED(name, bytes)                                                     \
    .type name, @object;                                                       \
    .size name, bytes
    .section .rodata, "", @
#else
#define SIZED(name, bytes)
    .section .rodata
#endif
    .balign 16
    .hidden DEW_NAME
    .global DEW_NAME
DEW_NAME:
    .incbin DEW_FILE
    .hidden END_OF(DEW_NAME)
    .global END_OF(DEW_NAME)
END_OF(DEW_NAME):
    .byte 0
    SIZED(DEW_NAME, END_OF(DEW_NAME) - DEW_NAME)
    SIZED(END_OF(DEW_NAME), 1)
#ifndef __wasm__
    .section .note.GNU-stack, "", %progbits
#endif
