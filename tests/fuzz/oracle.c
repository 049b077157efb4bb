/*
 * What the firmware may do, written a second time and held against it after every byte and tick: the
 * request in force is that of the last acceptable message, limits are a host's only within the
 * compiled ones, no actuator moves by a byte that does not end a message whose check holds, and what
 * leaves the board is whole. Numbers come from protocol.h, decisions from hal/README.md. Stops the
 * run at the first difference.
 */
#include "oracle.h"

#include <avr/io.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <util/twi.h>

#include "chip.h"
#include "firmata.h"
#include "gate.h"
#include "limits.h"
#include "pins.h"
#include "protection.h"
#include "twi.h"

#define LONGEST_SYSEX 64
#define CHECK_BYTES 3
#define HALF_OF_NUMBERS 8192
#define NUMBERS 16384

#define MUST(condition) \
    do { \
        if (!(condition)) { \
            fprintf(stderr, "%s:%d: not so: %s\n", __FILE__, __LINE__, #condition); \
            abort(); \
        } \
    } while (0)

struct tally tally;

static const struct outputs SAFE = {.flags = FLAG_VENT_OPEN};
static struct outputs wanted;
static unsigned leaseMs, taken;
static uint16_t limits[LIMIT_COUNT];

struct sysex {
    bool open;
    unsigned count;
    uint8_t bytes[LONGEST_SYSEX];
};
static struct sysex received, sent;
static unsigned dataDue, busBytes;

void __real_parser_byte(uint8_t byte);

uint16_t oracle_check(const uint8_t *bytes, unsigned count)
{
    /* Four bits at a time. */
    static const uint16_t steps[16] = {0x0000, 0x1021, 0x2042, 0x3063, 0x4084, 0x50A5, 0x60C6, 0x70E7,
                                       0x8108, 0x9129, 0xA14A, 0xB16B, 0xC18C, 0xD1AD, 0xE1CE, 0xF1EF};
    unsigned crc = 0;
    for (unsigned i = 0; i < 2 * count; i++) {
        const unsigned nibble = i % 2 ? bytes[i / 2] & 15 : bytes[i / 2] >> 4;
        crc = ((crc << 4) ^ steps[(crc >> 12 ^ nibble) & 15]) & 0xFFFF;
    }
    return (uint16_t)crc;
}

static unsigned two(const uint8_t *bytes)
{
    return bytes[0] + 128u * bytes[1];
}

/* Without the unit's command: kind, body, check. */
static bool check_holds(const uint8_t *bytes, unsigned count)
{
    if (count <= CHECK_BYTES) return false;
    const uint8_t *check = bytes + count - CHECK_BYTES;
    return two(check) + 16384u * check[2] == oracle_check(bytes, count - CHECK_BYTES);
}

static bool is_safe(const struct outputs *asked)
{
    return asked->pump == 0 && asked->lamp == 0 && (asked->flags & FLAG_VENT_OPEN) && !(asked->flags & FLAG_LAMP_ENABLED);
}

static void make_safe(void)
{
    wanted = SAFE;
    leaseMs = 0;
}

static void expect_outputs(const uint8_t *body)
{
    const unsigned number = two(body), flags = body[2], pump = two(body + 3), lamp = two(body + 5);
    if (flags > 15 || pump > 255 || lamp > 255) {
        make_safe();
        return;
    }
    const struct outputs asked = {.flags = flags & 7, .pump = (uint8_t)pump, .lamp = (uint8_t)lamp};
    const unsigned ahead = (number + NUMBERS - taken) % NUMBERS;
    if (ahead == 0 || ahead >= HALF_OF_NUMBERS) {
        if (is_safe(&asked)) make_safe();
        return;
    }
    tally.outputs++;
    taken = number;
    wanted = asked;
    leaseMs = limits[LIMIT_LEASE_MS];
}

static bool never_looser(const uint16_t *of)
{
    return of[LIMIT_PRESSURE_CEILING] <= COMPILED_PRESSURE_CEILING && of[LIMIT_HEAT_SINK_FLOOR] >= COMPILED_HEAT_SINK_FLOOR &&
           of[LIMIT_LONGEST_LAMP_ON_S] <= COMPILED_LONGEST_LAMP_ON_S && of[LIMIT_LEASE_MS] <= COMPILED_LEASE_MS &&
           of[LIMIT_GLASS_FLOOR] >= COMPILED_GLASS_FLOOR;
}

static void expect_limits(const uint8_t *body)
{
    uint16_t asked[LIMIT_COUNT];
    for (int i = 0; i < LIMIT_COUNT; i++) asked[i] = (uint16_t)two(body + 2 * i);
    if (!never_looser(asked) || asked[LIMIT_LEASE_MS] < 100 || asked[LIMIT_PRESSURE_CEILING] < PRESSURE_LIVE_LOWEST) return;
    tally.limits++;
    memcpy(limits, asked, sizeof limits);
}

/* Whether the byte ended a message that may move an actuator. */
static bool expect(uint8_t byte)
{
    struct sysex *in = &received;
    if (byte < 0x80) {
        if (in->open && in->count < LONGEST_SYSEX) in->bytes[in->count] = byte;
        if (in->open) in->count++;
        return false;
    }
    const bool whole = byte == SYSEX_END && in->open && in->count > 0 && in->count <= LONGEST_SYSEX;
    in->open = byte == SYSEX_START;
    if (byte == FIRMATA_SYSTEM_RESET) {
        tally.resets++;
        make_safe();
        return true;
    }
    const bool sound = whole && in->bytes[0] == UNIT_SYSEX && check_holds(in->bytes + 1, in->count - 1);
    if (sound) {
        const unsigned body = in->count - 2 - CHECK_BYTES;
        if (in->bytes[1] == KIND_OUTPUTS && body == 7) expect_outputs(in->bytes + 2);
        if (in->bytes[1] == KIND_LIMITS && body == 10) expect_limits(in->bytes + 2);
    }
    in->count = 0;
    return sound;
}

struct pins {
    unsigned pump, lamp;
    bool ventClosed, lampEnabled, selector;
};

static unsigned duty(unsigned connected, unsigned compare, unsigned high)
{
    return connected ? compare : high ? 255 : 0;
}

static struct pins pins_now(void)
{
    return (struct pins){
        .pump = duty(TCCR1A & _BV(COM1A1), OCR1A, PORTB & _BV(PUMP_DRIVE_BIT)),
        .lamp = duty(TCCR1A & _BV(COM1B1), OCR1B, PORTB & _BV(LAMP_DRIVE_BIT)),
        .ventClosed = PORTD & _BV(VENT_CLOSE_BIT),
        .lampEnabled = PORTB & _BV(LAMP_ENABLE_BIT),
        .selector = PORTD & _BV(SELECTOR_PRESSURE_BIT),
    };
}

static bool same(const struct pins *a, const struct pins *b)
{
    return a->pump == b->pump && a->lamp == b->lamp && a->ventClosed == b->ventClosed && a->lampEnabled == b->lampEnabled &&
           a->selector == b->selector;
}

static void check_pins(const struct pins *now)
{
    MUST(now->pump == 0 || (leaseMs > 0 && now->pump == wanted.pump));
    MUST(now->lamp == 0 || (leaseMs > 0 && now->lamp == wanted.lamp));
    MUST(!now->ventClosed || (leaseMs > 0 && !(wanted.flags & FLAG_VENT_OPEN)));
    MUST(!now->lampEnabled || (leaseMs > 0 && wanted.flags & FLAG_LAMP_ENABLED));
    MUST(!now->selector || (leaseMs > 0 && wanted.flags & FLAG_SELECTOR_PRESSURE));
    MUST(shieldOpenMs == 0 || (now->lamp == 0 && !now->lampEnabled));
    MUST(pressureSwitchOpenMs < 2 || (now->pump == 0 && !now->ventClosed));
    MUST(stopPressedMs < 2 || (now->pump == 0 && !now->ventClosed && now->lamp == 0 && !now->lampEnabled));
}

static void check_state(void)
{
    const struct outputs *is = gate_wanted();
    struct limits inForce;
    limits_read(&inForce);
    MUST(is->flags == wanted.flags && is->pump == wanted.pump && is->lamp == wanted.lamp);
    MUST(gate_taken() == taken && gate_leased() == (leaseMs > 0));
    MUST(never_looser(inForce.value) && memcmp(inForce.value, limits, sizeof limits) == 0);
    /* What is kept twice has not been written over, and the pins obey. */
    MUST(!(protection_trips() & (TRIP(MEMORY) | TRIP(SETTINGS) | TRIP(OUTPUT_PINS))));
}

/* In place of parser_byte(), by the linker. */
void __wrap_parser_byte(uint8_t byte)
{
    const struct pins before = pins_now();
    __real_parser_byte(byte);
    const struct pins after = pins_now();
    const bool mayMove = expect(byte);
    MUST(mayMove || same(&before, &after));
    check_pins(&after);
    check_state();
}

void oracle_tick(void)
{
    if (leaseMs > 0 && --leaseMs == 0) make_safe();
    const struct pins now = pins_now();
    check_pins(&now);
    check_state();
}

static void check_sent_sysex(void)
{
    MUST(sent.count > 0);
    if (sent.bytes[0] != UNIT_SYSEX) return;
    MUST(sent.count <= LONGEST_SYSEX && check_holds(sent.bytes + 1, sent.count - 1));
    tally.sent++;
}

void oracle_sent(uint8_t byte)
{
    if (byte < 0x80) {
        MUST(sent.open || dataDue > 0);
        if (!sent.open) dataDue--;
        else if (sent.count++ < LONGEST_SYSEX) sent.bytes[sent.count - 1] = byte;
        return;
    }
    /* Nothing begins before the last has ended. */
    MUST(dataDue == 0 && sent.open == (byte == SYSEX_END));
    if (sent.open) check_sent_sysex();
    sent.open = byte == SYSEX_START;
    sent.count = 0;
    if (byte != SYSEX_START && byte != SYSEX_END) dataDue = 2;
}

/* A queue that was written over is read as writes of any length. */
void oracle_bus(uint8_t status)
{
    busBytes = status == TW_MT_DATA_ACK ? busBytes + 1 : 0;
    MUST(busBytes <= TWI_LONGEST);
}

void oracle_start(void)
{
    static const uint16_t compiled[LIMIT_COUNT] = {COMPILED_PRESSURE_CEILING, COMPILED_HEAT_SINK_FLOOR,
                                                   COMPILED_LONGEST_LAMP_ON_S, COMPILED_LEASE_MS, COMPILED_GLASS_FLOOR};
    memcpy(limits, compiled, sizeof limits);
    make_safe();
    taken = dataDue = busBytes = 0;
    received.open = sent.open = false;
    received.count = sent.count = 0;
}
