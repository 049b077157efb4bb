/*
 * The protection that does not depend on a host, judged in the tick interrupt, so that a stuck main
 * loop cannot stop it. A cause seen in two ticks in a row trips, and a trip stays until a host
 * clears it with its cause gone. Decides what trips and when a cause is gone. What the outputs are
 * is handed in, and what a trip stops is decided in gate.c.
 */
#include "protection.h"

#include <util/atomic.h>

#include "boot.h"
#include "limits.h"
#include "switches.h"

/* How far back inside a limit counts must be before its trip can be cleared. */
#define PRESSURE_BACK_COUNTS 10
#define HEAT_SINK_BACK_COUNTS 20
#define LIMITS_CHECK_EVERY_TICKS 10
#define MS_PER_S 1000UL

/* Causes that are no matter of noise: seen once is enough. */
#define AT_ONCE (TRIP(LAMP_TIME) | TRIP(WATCHDOG) | TRIP(SETTINGS))

static uint16_t trips;
static uint16_t seenBefore;
static uint32_t lampOnMs;
static uint8_t ticksToLimitsCheck;
/* Of the latest tick. */
static uint16_t pressureCounts;
static uint16_t heatSinkCounts;

static bool pressure_live(void)
{
    return pressureCounts >= PRESSURE_LIVE_LOWEST && pressureCounts <= PRESSURE_LIVE_HIGHEST;
}

static bool heat_sink_live(void)
{
    return heatSinkCounts >= THERMISTOR_LIVE_LOWEST && heatSinkCounts <= THERMISTOR_LIVE_HIGHEST;
}

static uint32_t longest_lamp_on_ms(void)
{
    return limits_of(LIMIT_LONGEST_LAMP_ON_S) * MS_PER_S;
}

static uint16_t switch_causes(uint8_t switches)
{
    uint16_t seen = 0;
    if (switches & SWITCH_EMERGENCY_STOP_PRESSED) seen |= TRIP(EMERGENCY_STOP);
    if (switches & SWITCH_OVER_PRESSURE_TRIPPED) seen |= TRIP(OVER_PRESSURE_SWITCH);
    return seen;
}

static uint16_t pressure_causes(const struct outputs *wanted)
{
    const bool atStake = wanted->pump > 0 || !(wanted->flags & FLAG_VENT_OPEN);
    uint16_t seen = 0;
    if (pressureCounts > limits_of(LIMIT_PRESSURE_CEILING)) seen |= TRIP(PRESSURE_CEILING);
    if (atStake && !pressure_live()) seen |= TRIP(PRESSURE_SENSOR);
    return seen;
}

static uint16_t lamp_causes(uint8_t switches, const struct outputs *wanted)
{
    uint16_t seen = 0;
    if (!outputs_lamp_on(wanted)) return 0;
    if (!(switches & SWITCH_SHIELD_CLOSED)) seen |= TRIP(SHIELD);
    if (heatSinkCounts < limits_of(LIMIT_HEAT_SINK_FLOOR) || !heat_sink_live()) seen |= TRIP(HEAT_SINK);
    if (lampOnMs >= longest_lamp_on_ms()) seen |= TRIP(LAMP_TIME);
    return seen;
}

static uint16_t settings_cause(void)
{
    if (ticksToLimitsCheck-- > 0) return 0;
    ticksToLimitsCheck = LIMITS_CHECK_EVERY_TICKS - 1;
    if (limits_intact()) return 0;
    limits_restore();
    return TRIP(SETTINGS);
}

void protection_start(void)
{
    trips = boot_after_watchdog() ? TRIP(WATCHDOG) : 0;
}

void protection_tick(uint8_t switches, const struct scan *scan, const struct outputs *wanted, const struct outputs *acting)
{
    /* A converter that gives nothing reads as two broken wires. */
    pressureCounts = scan ? scan->counts[PRESSURE_SCAN] : 0;
    heatSinkCounts = scan ? scan->counts[HEAT_SINK_TEMPERATURE_SCAN] : 0;
    if (outputs_lamp_on(acting)) lampOnMs++;
    else if (lampOnMs > 0) lampOnMs--;
    /* The copy of the limits is checked before anything is held against it. */
    const uint16_t settings = settings_cause();
    const uint16_t seen = settings | switch_causes(switches) | pressure_causes(wanted) | lamp_causes(switches, wanted);
    trips |= seen & (seenBefore | AT_ONCE);
    seenBefore = seen;
}

uint16_t protection_trips(void)
{
    return trips;
}

static uint16_t causes_not_gone(void)
{
    const uint8_t switches = switches_read();
    uint16_t standing = switch_causes(switches);
    const bool pressureBack = pressure_live() && pressureCounts + PRESSURE_BACK_COUNTS <= limits_of(LIMIT_PRESSURE_CEILING);
    const bool heatSinkBack = heat_sink_live() && heatSinkCounts >= limits_of(LIMIT_HEAT_SINK_FLOOR) + HEAT_SINK_BACK_COUNTS;
    if (!pressureBack) standing |= TRIP(PRESSURE_CEILING) | TRIP(PRESSURE_SENSOR);
    if (!(switches & SWITCH_SHIELD_CLOSED)) standing |= TRIP(SHIELD);
    if (!heatSinkBack) standing |= TRIP(HEAT_SINK);
    if (lampOnMs > longest_lamp_on_ms() / 2) standing |= TRIP(LAMP_TIME);
    return standing;
}

void protection_clear(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { trips &= causes_not_gone(); }
}
