/*
 * Eight known bytes where the stack's room ends, above the program's data. A stack that grows into
 * them is about to grow into the data. selftest.c decides what follows.
 */
#include "stack.h"

#include <stdint.h>

#define CANARY_BYTES 8
#define CANARY 0x6D

/* The linker's: the first byte above the program's data. */
extern uint8_t __heap_start[];

void stack_paint(void)
{
    for (uint8_t i = 0; i < CANARY_BYTES; i++) __heap_start[i] = (uint8_t)(CANARY ^ i);
}

bool stack_sound(void)
{
    uint8_t wrong = 0;
    for (uint8_t i = 0; i < CANARY_BYTES; i++) wrong |= (uint8_t)(__heap_start[i] ^ CANARY ^ i);
    return wrong == 0;
}
