/*
 * Protection that does not depend on a host, evaluated in the tick interrupt, so that a stuck main
 * loop cannot stop it. A cause seen in two ticks in a row trips, and a trip stays until a host
 * clears it with its cause gone. This file decides what trips and when a cause is gone. The caller
 * passes in what the outputs are and what the self-tests have found. gate.c decides what a trip
 * stops. What must outlast a tick is kept twice; where the two differ, the worse counts.
 */
#include "protection.h"

#include <util/atomic.h>

#include "boot.h"
#include "limits.h"
#include "switches.h"
#include "twin.h"

/* Margin inside a limit, in counts, that a trip needs before it can be cleared. */
#define PRESSURE_BACK_COUNTS 10
#define TEMPERATURE_BACK_COUNTS 20
#define MS_PER_S 1000UL

/* Causes that are not subject to noise: one occurrence trips. */
#define AT_ONCE (TRIP(LAMP_TIME) | TRIP(SETTINGS) | TRIP(MEMORY) | TRIP(PROGRAM) | TRIP(REGISTERS) | TRIP(RESTART_LOOP))
/* Causes that are gone when the latest tick has not seen them. */
#define GONE_UNSEEN (TRIP(MEMORY) | TRIP(PROGRAM) | TRIP(OUTPUT_PINS) | TRIP(CONVERTER) | TRIP(REGISTERS) | TRIP(RESTART_LOOP))

static struct {
    trip_set trips;
    trip_set seenBefore;
    uint32_t lampOnMs;
} keptTrips[2];
/* From the latest tick. */
static uint16_t pressureCounts;
static uint16_t heatSinkCounts;
static uint16_t glassCounts;

static bool pressure_live(void)
{
    return pressureCounts >= PRESSURE_LIVE_LOWEST && pressureCounts <= PRESSURE_LIVE_HIGHEST;
}

static bool thermistor_live(uint16_t counts)
{
    return counts >= THERMISTOR_LIVE_LOWEST && counts <= THERMISTOR_LIVE_HIGHEST;
}

/* A hotter thermistor reads lower. */
static bool too_hot(uint16_t counts, uint8_t limit)
{
    return counts < limits_of(limit) || !thermistor_live(counts);
}

static bool cool_again(uint16_t counts, uint8_t limit)
{
    return thermistor_live(counts) && counts >= limits_of(limit) + TEMPERATURE_BACK_COUNTS;
}

static uint32_t longest_lamp_on_ms(void)
{
    return limits_of(LIMIT_LONGEST_LAMP_ON_S) * MS_PER_S;
}

static trip_set switch_causes(uint8_t switches)
{
    trip_set seen = 0;
    if (switches & SWITCH_EMERGENCY_STOP_PRESSED) seen |= TRIP(EMERGENCY_STOP);
    if (switches & SWITCH_OVER_PRESSURE_TRIPPED) seen |= TRIP(OVER_PRESSURE_SWITCH);
    return seen;
}

static trip_set pressure_causes(const struct outputs *wanted)
{
    const bool atStake = wanted->pump > 0 || !(wanted->flags & FLAG_VENT_OPEN);
    trip_set seen = 0;
    if (pressureCounts > limits_of(LIMIT_PRESSURE_CEILING)) seen |= TRIP(PRESSURE_CEILING);
    if (atStake && !pressure_live()) seen |= TRIP(PRESSURE_SENSOR);
    return seen;
}

static trip_set lamp_causes(uint8_t switches, const struct outputs *wanted)
{
    trip_set seen = 0;
    if (!outputs_lamp_on(wanted)) return 0;
    if (!(switches & SWITCH_SHIELD_CLOSED)) seen |= TRIP(SHIELD);
    if (too_hot(heatSinkCounts, LIMIT_HEAT_SINK_FLOOR)) seen |= TRIP(HEAT_SINK);
    if (too_hot(glassCounts, LIMIT_GLASS_FLOOR)) seen |= TRIP(GLASS_HOT);
    if (keptTrips[0].lampOnMs >= longest_lamp_on_ms()) seen |= TRIP(LAMP_TIME);
    return seen;
}

static trip_set settings_cause(void)
{
    if (limits_intact()) return 0;
    limits_restore();
    return TRIP(SETTINGS);
}

/* Call with interrupts off, or from an interrupt. */
static void check_own(void)
{
    if (TWIN_SOUND(keptTrips)) return;
    keptTrips[0].trips |= ~keptTrips[1].trips | TRIP(MEMORY);
    keptTrips[0].seenBefore |= ~keptTrips[1].seenBefore;
    if (~keptTrips[1].lampOnMs > keptTrips[0].lampOnMs) keptTrips[0].lampOnMs = ~keptTrips[1].lampOnMs;
    TWIN_CLOSE(keptTrips);
}

void protection_start(void)
{
    keptTrips[0].trips = boot_causes();
    TWIN_CLOSE(keptTrips);
}

void protection_tick(uint8_t switches, const struct scan *scan, const struct outputs *wanted, const struct outputs *acting, trip_set found)
{
    check_own();
    /* A converter without a new scan reads as broken wires. */
    pressureCounts = scan ? scan->counts[PRESSURE_SCAN] : 0;
    heatSinkCounts = scan ? scan->counts[HEAT_SINK_TEMPERATURE_SCAN] : 0;
    glassCounts = scan ? scan->counts[GLASS_TEMPERATURE_SCAN] : 0;
    if (outputs_lamp_on(acting)) keptTrips[0].lampOnMs++;
    else if (keptTrips[0].lampOnMs > 0) keptTrips[0].lampOnMs--;
    /* The copy of the limits is checked before anything is compared with it. */
    const trip_set settings = settings_cause();
    const trip_set seen = found | settings | switch_causes(switches) | pressure_causes(wanted) | lamp_causes(switches, wanted);
    keptTrips[0].trips |= seen & (keptTrips[0].seenBefore | AT_ONCE);
    keptTrips[0].seenBefore = seen;
    TWIN_CLOSE(keptTrips);
}

void protection_raise(trip_set causes)
{
    check_own();
    keptTrips[0].trips |= causes;
    TWIN_CLOSE(keptTrips);
}

trip_set protection_trips(void)
{
    check_own();
    return keptTrips[0].trips;
}

static trip_set causes_not_gone(void)
{
    const uint8_t switches = switches_read();
    trip_set standing = switch_causes(switches) | (keptTrips[0].seenBefore & GONE_UNSEEN);
    const bool pressureBack = pressure_live() && pressureCounts + PRESSURE_BACK_COUNTS <= limits_of(LIMIT_PRESSURE_CEILING);
    if (!pressureBack) standing |= TRIP(PRESSURE_CEILING) | TRIP(PRESSURE_SENSOR);
    if (!(switches & SWITCH_SHIELD_CLOSED)) standing |= TRIP(SHIELD);
    if (!cool_again(heatSinkCounts, LIMIT_HEAT_SINK_FLOOR)) standing |= TRIP(HEAT_SINK);
    if (!cool_again(glassCounts, LIMIT_GLASS_FLOOR)) standing |= TRIP(GLASS_HOT);
    if (keptTrips[0].lampOnMs > longest_lamp_on_ms() / 2) standing |= TRIP(LAMP_TIME);
    return standing;
}

void protection_clear(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        check_own();
        keptTrips[0].trips &= causes_not_gone();
        TWIN_CLOSE(keptTrips);
    }
}
