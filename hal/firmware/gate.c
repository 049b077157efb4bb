/*
 * The gate between what a host wants and what the actuators do; nothing else drives their pins.
 * It decides what a trip stops: without a running lease everything is safe; a trip overrides what
 * it concerns; and the lamp never burns while the shield switch reads open, not even for the two
 * ticks that a trip takes. Which trips are in force is decided in protection.c, which knows no gate.
 */
#include "gate.h"

#include <util/atomic.h>

#include "limits.h"
#include "pins.h"
#include "protection.h"
#include "protocol.h"
#include "switches.h"

/* What a trip stops. Everything: safe as a whole, selector included. */
#define STOPS_ALL (TRIP(EMERGENCY_STOP) | TRIP(WATCHDOG) | TRIP(SETTINGS))
#define STOPS_PRESSURE (TRIP(OVER_PRESSURE_SWITCH) | TRIP(PRESSURE_CEILING) | TRIP(PRESSURE_SENSOR))
#define STOPS_LAMP (TRIP(SHIELD) | TRIP(HEAT_SINK) | TRIP(LAMP_TIME))

static const struct outputs SAFE = {.flags = FLAG_VENT_OPEN, .pump = 0, .lamp = 0};

static struct outputs wanted = {.flags = FLAG_VENT_OPEN};
static struct outputs acting = {.flags = FLAG_VENT_OPEN};
static uint16_t leaseLeftMs;

static void lamp_off(struct outputs *outputs)
{
    outputs->flags &= (uint8_t)~FLAG_LAMP_ENABLED;
    outputs->lamp = 0;
}

static void pressure_off(struct outputs *outputs)
{
    outputs->flags |= FLAG_VENT_OPEN;
    outputs->pump = 0;
}

/* With interrupts off. */
static void apply(void)
{
    const uint16_t trips = protection_trips();
    struct outputs allowed = leaseLeftMs == 0 || (trips & STOPS_ALL) ? SAFE : wanted;
    if (trips & STOPS_PRESSURE) pressure_off(&allowed);
    if ((trips & STOPS_LAMP) || !(switches_read() & SWITCH_SHIELD_CLOSED)) lamp_off(&allowed);
    acting = allowed;
    outputs_drive(&acting);
}

static void end_lease(void)
{
    leaseLeftMs = 0;
    wanted = SAFE;
    outputs_signal(BUZZER_PIN, false);
}

void gate_want(const struct outputs *asked)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        wanted = *asked;
        leaseLeftMs = limits_of(LIMIT_LEASE_MS);
        apply();
    }
}

void gate_make_safe(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        end_lease();
        apply();
    }
}

void gate_tick(void)
{
    if (leaseLeftMs > 0 && --leaseLeftMs == 0) end_lease();
    apply();
}

const struct outputs *gate_wanted(void)
{
    return &wanted;
}

const struct outputs *gate_acting(void)
{
    return &acting;
}

bool gate_leased(void)
{
    return leaseLeftMs > 0;
}
