/*
 * The limits in force. The compiled limits apply after every reset. A host may tighten them, never
 * set them looser than compiled, and a message counts as a whole or not at all. The copy in RAM
 * is kept twice. protection.c checks it in every tick and decides what follows.
 */
#include "limits.h"

#include <avr/pgmspace.h>
#include <util/atomic.h>

#include "twin.h"

/* A shorter lease would expire between two messages of any host. */
#define SHORTEST_LEASE_MS 100

struct rule {
    uint16_t compiled;
    uint16_t least;
    bool tighterIsLower;
};

static const struct rule rules[LIMIT_COUNT] PROGMEM = {
    [LIMIT_PRESSURE_CEILING] = {COMPILED_PRESSURE_CEILING, PRESSURE_LIVE_LOWEST, true},
    [LIMIT_HEAT_SINK_FLOOR] = {COMPILED_HEAT_SINK_FLOOR, 0, false},
    [LIMIT_LONGEST_LAMP_ON_S] = {COMPILED_LONGEST_LAMP_ON_S, 0, true},
    [LIMIT_LEASE_MS] = {COMPILED_LEASE_MS, SHORTEST_LEASE_MS, true},
    [LIMIT_GLASS_FLOOR] = {COMPILED_GLASS_FLOOR, 0, false},
};

/* Not static: image.json gives tests its address, so that they can corrupt it. */
struct kept_limits {
    struct limits limits;
    bool ofHost;
} keptLimits[2];

static void keep(const struct limits *limits, bool ofHost)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        keptLimits[0].limits = *limits;
        keptLimits[0].ofHost = ofHost;
        TWIN_CLOSE(keptLimits);
    }
}

void limits_store(const struct limits *accepted)
{
    keep(accepted, true);
}

void limits_restore(void)
{
    struct limits compiled;
    for (uint8_t i = 0; i < LIMIT_COUNT; i++) compiled.value[i] = pgm_read_word(&rules[i].compiled);
    keep(&compiled, false);
}

uint8_t limits_judge(const struct limits *asked, uint8_t *offender)
{
    for (uint8_t i = 0; i < LIMIT_COUNT; i++) {
        struct rule rule;
        memcpy_P(&rule, &rules[i], sizeof rule);
        const uint16_t value = asked->value[i];
        *offender = i;
        if (rule.tighterIsLower ? value > rule.compiled : value < rule.compiled) return VERDICT_WOULD_LOOSEN;
        if (value < rule.least) return VERDICT_MALFORMED;
    }
    *offender = NO_OFFENDER;
    return VERDICT_ACCEPTED;
}

void limits_read(struct limits *inForce)
{
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { *inForce = keptLimits[0].limits; }
}

uint16_t limits_of(uint8_t index)
{
    return keptLimits[0].limits.value[index];
}

bool limits_of_host(void)
{
    return keptLimits[0].ofHost;
}

bool limits_intact(void)
{
    return TWIN_SOUND(keptLimits);
}
