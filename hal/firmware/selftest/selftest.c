/*
 * Decides which self-test runs when, and which trip its finding is. In every tick: set-up of the
 * chip, outputs read back, canary. In slices from the main loop: flash and RAM, each all through in
 * well under a second; the tick watches that they come round. A fault of flash or RAM stays until a
 * reset, because the program that would find it gone is itself in doubt.
 */
#include "selftest.h"

#include <util/atomic.h>

#include "boot.h"
#include "flash.h"
#include "ram.h"
#include "registers.h"
#include "stack.h"
#include "twin.h"

/* One slice of each a tick: a pass of the RAM takes 0.5 s, one of the flash 0.4 s. */
#define LATE_AFTER_MS 2000
#define FLASH_THROUGH 1
#define RAM_THROUGH 2
#define ALL_THROUGH (FLASH_THROUGH | RAM_THROUGH)
#define WATCHED_RESTARTS_MS 10000
/* Causes of the boot that a person cannot set aside at once. */
#define STANDING_FROM_BOOT (TRIP(MEMORY) | TRIP(RESTART_LOOP))

static struct {
    trip_set standing;
    uint16_t sinceAllMs;
    uint16_t upMs;
    uint8_t through;
} keptFindings[2];

/* Call with interrupts off, or from an interrupt. */
static void check_own(void)
{
    if (TWIN_SOUND(keptFindings)) return;
    keptFindings[0].standing |= (trip_set)~keptFindings[1].standing | TRIP(MEMORY);
    keptFindings[0].sinceAllMs = 0;
    keptFindings[0].through = 0;
}

static void note(trip_set standing, uint8_t through)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        check_own();
        keptFindings[0].standing |= standing;
        keptFindings[0].through |= through;
        TWIN_CLOSE(keptFindings);
    }
}

void selftest_start(void)
{
    keptFindings[0].standing = boot_causes() & STANDING_FROM_BOOT;
    if (!flash_sound()) keptFindings[0].standing |= TRIP(PROGRAM);
    TWIN_CLOSE(keptFindings);
    stack_paint();
}

trip_set selftest_tick(const struct outputs *driven)
{
    check_own();
    if (keptFindings[0].through == ALL_THROUGH) keptFindings[0].sinceAllMs = keptFindings[0].through = 0;
    if (++keptFindings[0].sinceAllMs > LATE_AFTER_MS) keptFindings[0].standing |= TRIP(PROGRAM);
    if (keptFindings[0].upMs < WATCHED_RESTARTS_MS && ++keptFindings[0].upMs == WATCHED_RESTARTS_MS) {
        boot_forget_restarts();
        keptFindings[0].standing &= ~TRIP(RESTART_LOOP);
    }
    if (!stack_sound()) keptFindings[0].standing |= TRIP(MEMORY);
    TWIN_CLOSE(keptFindings);
    trip_set seen = keptFindings[0].standing;
    if (!registers_hold()) seen |= TRIP(REGISTERS);
    if (!outputs_obeyed(driven)) seen |= TRIP(OUTPUT_PINS);
    return seen;
}

void selftest_slice(void)
{
    trip_set found = 0;
    uint8_t through = 0;
    if (!ram_slice_sound()) found |= TRIP(MEMORY);
    if (ram_through()) through |= RAM_THROUGH;
    if (!flash_slice_sound()) found |= TRIP(PROGRAM);
    if (flash_through()) through |= FLASH_THROUGH;
    if (found || through) note(found, through);
}
