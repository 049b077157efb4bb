/*
 * The limits in force. The compiled limits apply after every reset. A host may tighten them, never
 * set them looser than compiled, and a message counts as a whole or not at all. The copy in RAM
 * carries a CRC. protection.c checks it and decides what follows.
 */
#include "limits.h"

#include <avr/pgmspace.h>
#include <util/atomic.h>
#include <util/crc16.h>

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
};

/* Not static: image.json gives tests its address, so that they can corrupt it. */
struct kept_limits {
    struct limits limits;
    uint16_t check;
} keptLimits;

static uint16_t check_of(const struct limits *limits)
{
    const uint8_t *bytes = (const uint8_t *)limits;
    uint16_t crc = 0;
    for (uint8_t i = 0; i < sizeof *limits; i++) crc = _crc_xmodem_update(crc, bytes[i]);
    /* Inverted, so that RAM wiped to zeros does not pass as a valid copy. */
    return (uint16_t)~crc;
}

void limits_store(const struct limits *accepted)
{
    const uint16_t check = check_of(accepted);
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        keptLimits.limits = *accepted;
        keptLimits.check = check;
    }
}

void limits_restore(void)
{
    struct limits compiled;
    for (uint8_t i = 0; i < LIMIT_COUNT; i++) compiled.value[i] = pgm_read_word(&rules[i].compiled);
    limits_store(&compiled);
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
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { *inForce = keptLimits.limits; }
}

uint16_t limits_of(uint8_t index)
{
    return keptLimits.limits.value[index];
}

bool limits_intact(void)
{
    return keptLimits.check == check_of(&keptLimits.limits);
}
