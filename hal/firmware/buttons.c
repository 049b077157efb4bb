/*
 * Four buttons on one analogue input. A reading counts once it has stayed in one band of the ladder
 * for 20 ms. Presses are counted, so that none is lost with a frame. A button counts when it comes
 * out of rest; HOLD counts whatever else is down. The host decides what a press means, and what a
 * reading between two bands or of an open wire means.
 */
#include "buttons.h"

#include <stdbool.h>

#include "pins.h"
#include "protocol.h"

#define DEBOUNCE_TICKS 20
#define PRESS_MASK 3

static uint16_t presses;
static uint8_t steady = LADDER_RELEASED;
static uint8_t candidate = LADDER_RELEASED;
static uint8_t ticksSeen;

static bool within(uint16_t counts, uint16_t lowest, uint16_t highest)
{
    return counts >= lowest && counts <= highest;
}

#define IN_BAND(NAME) within(counts, BAND_##NAME##_LOWEST, BAND_##NAME##_HIGHEST)

static uint8_t step_of(uint16_t counts)
{
    if (IN_BAND(HOLD)) return LADDER_HOLD;
    if (IN_BAND(NO)) return LADDER_NO;
    if (IN_BAND(MORE)) return LADDER_MORE;
    if (IN_BAND(YES)) return LADDER_YES;
    if (IN_BAND(RELEASED)) return LADDER_RELEASED;
    return IN_BAND(OPEN) ? LADDER_OPEN : LADDER_BETWEEN;
}

static void count_press(uint8_t shift)
{
    const uint16_t mask = (uint16_t)(PRESS_MASK << shift);
    const uint16_t one = (uint16_t)(1u << shift);
    presses = (uint16_t)((presses & ~mask) | ((presses + one) & mask));
}

static void enter(uint8_t step)
{
    const bool fromRest = steady == LADDER_RELEASED;
    steady = step;
    if (step == LADDER_HOLD) count_press(PRESS_SHIFT_HOLD);
    else if (step == LADDER_YES && fromRest) count_press(PRESS_SHIFT_YES);
    else if (step == LADDER_NO && fromRest) count_press(PRESS_SHIFT_NO);
    else if (step == LADDER_MORE && fromRest) count_press(PRESS_SHIFT_MORE);
}

void buttons_tick(uint16_t counts)
{
    const uint8_t now = step_of(counts);
    if (now != candidate) {
        candidate = now;
        ticksSeen = 0;
    }
    if (ticksSeen < DEBOUNCE_TICKS) ticksSeen++;
    if (ticksSeen >= DEBOUNCE_TICKS && candidate != steady) enter(candidate);
}

uint16_t buttons_presses(void)
{
    return presses;
}

uint8_t buttons_ladder(void)
{
    return steady;
}
