/*
 * The gate between the host's requests and the actuators; nothing else drives their pins. It
 * decides what a trip stops. Without a running lease everything is safe. A trip overrides the
 * outputs that it concerns. The lamp is off whenever the shield switch reads open, even during the
 * two ticks that a trip takes. Requests, lease and numbering are kept twice: where the two differ,
 * the lease has ended. protection.c decides which trips are in force and does not know the gate.
 */
#include "gate.h"

#include <util/atomic.h>

#include "limits.h"
#include "pins.h"
#include "protection.h"
#include "protocol.h"
#include "switches.h"
#include "twin.h"

/* What each trip stops; any other makes everything safe, selector included. */
#define STOPS_PRESSURE (TRIP(OVER_PRESSURE_SWITCH) | TRIP(PRESSURE_CEILING) | TRIP(PRESSURE_SENSOR))
#define STOPS_LAMP (TRIP(SHIELD) | TRIP(HEAT_SINK) | TRIP(LAMP_TIME) | TRIP(GLASS_HOT))
#define STOPS_PART (STOPS_PRESSURE | STOPS_LAMP)

#define SEQUENCE_MASK 0x3FFF
#define NEWER_BY_AT_MOST 0x1FFF

static const struct outputs SAFE = {.flags = FLAG_VENT_OPEN, .pump = 0, .lamp = 0};

static struct {
    struct outputs wanted;
    struct outputs acting;
    uint16_t leaseLeftMs;
    /* Number of the last outputs taken from the host. */
    uint16_t taken;
} keptRequest[2] = {{.wanted = {.flags = FLAG_VENT_OPEN}, .acting = {.flags = FLAG_VENT_OPEN}}};

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

static void end_lease(void)
{
    keptRequest[0].leaseLeftMs = 0;
    keptRequest[0].wanted = SAFE;
    outputs_signal(BUZZER_PIN, false);
}

/* Before any change. Call with interrupts off, or from an interrupt. */
static void check_own(void)
{
    if (TWIN_SOUND(keptRequest)) return;
    protection_raise(TRIP(MEMORY));
    end_lease();
}

/* Call with interrupts off, after check_own(). */
static void apply(void)
{
    const trip_set trips = protection_trips();
    struct outputs allowed = keptRequest[0].leaseLeftMs == 0 || (trips & ~STOPS_PART) ? SAFE : keptRequest[0].wanted;
    if (trips & STOPS_PRESSURE) pressure_off(&allowed);
    if ((trips & STOPS_LAMP) || !(switches_read() & SWITCH_SHIELD_CLOSED)) lamp_off(&allowed);
    keptRequest[0].acting = allowed;
    TWIN_CLOSE(keptRequest);
    outputs_drive(&allowed);
}

void gate_start(void)
{
    end_lease();
    apply();
}

bool gate_want(const struct outputs *asked, uint16_t sequence)
{
    bool newer;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        check_own();
        const uint16_t by = (sequence - keptRequest[0].taken) & SEQUENCE_MASK;
        newer = by > 0 && by <= NEWER_BY_AT_MOST;
        if (newer) {
            keptRequest[0].taken = sequence & SEQUENCE_MASK;
            keptRequest[0].wanted = *asked;
            keptRequest[0].leaseLeftMs = limits_of(LIMIT_LEASE_MS);
        }
        apply();
    }
    return newer;
}

void gate_make_safe(void)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        check_own();
        end_lease();
        apply();
    }
}

void gate_tick(void)
{
    check_own();
    if (keptRequest[0].leaseLeftMs > 0 && --keptRequest[0].leaseLeftMs == 0) end_lease();
    apply();
}

const struct outputs *gate_wanted(void)
{
    return &keptRequest[0].wanted;
}

const struct outputs *gate_acting(void)
{
    return &keptRequest[0].acting;
}

bool gate_leased(void)
{
    return keptRequest[0].leaseLeftMs > 0;
}

uint16_t gate_taken(void)
{
    return keptRequest[0].taken;
}
