/*
 * A march through the RAM while the program runs, four bytes at a time, with interrupts off: three
 * bytes can wait in the receiver that long. Stack and own data included. boot.c does the same over
 * all of it before anything is kept there.
 */
#include "ram.h"

#include <avr/io.h>
#include <stdint.h>
#include <util/atomic.h>

#include "march.h"

#define SLICE_BYTES 4
#define SLICES_MASK ((RAMEND - RAMSTART) & ~(SLICE_BYTES - 1))

/* On a slice of its own: what it holds is worth nothing when its own turn comes. */
static uint8_t spare[SLICE_BYTES] __attribute__((aligned(SLICE_BYTES)));
/* Bytes from the start of the RAM. Masked where it is used: a changed bit must not lead the march
 * into the registers. */
static uint16_t next;

/* No calls between saving and restoring: the slice may hold the stack. */
__attribute__((noinline)) bool ram_slice_sound(void)
{
    bool sound;
    ATOMIC_BLOCK(ATOMIC_FORCEON)
    {
        volatile uint8_t *const first = (volatile uint8_t *)(RAMSTART + (next & SLICES_MASK));
        volatile uint8_t *const kept = spare;
        for (uint8_t i = 0; i < SLICE_BYTES; i++) kept[i] = first[i];
        sound = march_sound(first, first + SLICE_BYTES);
        for (uint8_t i = 0; i < SLICE_BYTES; i++) first[i] = kept[i];
    }
    next = (next + SLICE_BYTES) & SLICES_MASK;
    return sound;
}

bool ram_through(void)
{
    return next == 0;
}
