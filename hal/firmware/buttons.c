/*
 * Three buttons on one analogue input. A reading counts once it has stayed on one step of the
 * ladder for 20 ms. Presses are counted, so that none is lost with a frame. The host decides what a
 * press means.
 */
#include "buttons.h"

#include "pins.h"
#include "protocol.h"

#define DEBOUNCE_TICKS 20
#define PRESS_MASK 3

enum step { YES, NO, MORE, RELEASED };

static const uint8_t shifts[] = {[YES] = PRESS_SHIFT_YES, [NO] = PRESS_SHIFT_NO, [MORE] = PRESS_SHIFT_MORE};

static uint8_t presses;
static enum step steady = RELEASED;
static enum step candidate = RELEASED;
static uint8_t ticksSeen;

static enum step step_of(uint16_t counts)
{
    if (counts < BUTTON_YES_BELOW) return YES;
    if (counts < BUTTON_NO_BELOW) return NO;
    if (counts < BUTTON_MORE_BELOW) return MORE;
    return RELEASED;
}

static void count_press(enum step button)
{
    const uint8_t shift = shifts[button];
    const uint8_t count = ((presses >> shift) + 1) & PRESS_MASK;
    presses = (uint8_t)((presses & ~(PRESS_MASK << shift)) | (count << shift));
}

void buttons_tick(uint16_t counts)
{
    const enum step now = step_of(counts);
    if (now != candidate) {
        candidate = now;
        ticksSeen = 0;
    }
    if (ticksSeen < DEBOUNCE_TICKS) ticksSeen++;
    if (ticksSeen < DEBOUNCE_TICKS || candidate == steady) return;
    steady = candidate;
    if (steady != RELEASED) count_press(steady);
}

uint8_t buttons_presses(void)
{
    return presses;
}
