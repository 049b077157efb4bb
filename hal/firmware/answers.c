/*
 * Answers to Firmata's queries, and warnings as strings. An answer is sent when the line has room
 * for all of it. Until then it is one pending bit, so that no caller waits and a flood of queries
 * takes no more room than one. pins_firmata.c decides what the pins can do.
 */
#include "answers.h"

#include <avr/pgmspace.h>
#include <stdbool.h>

#include "firmata.h"
#include "message.h"
#include "pins.h"
#include "pins_firmata.h"
#include "protocol.h"
#include "serial.h"

#define MODES_END 0x10
#define GROUP_MASK 0x7F
#define GROUP_BITS 7
/* A pin needs at most two modes of two bytes and an end marker. */
#define CAPABILITY_BYTES (3 + 5 * PIN_COUNT)
#define PIN_STATE_BYTES 7

static const char firmwareName[] PROGMEM = FIRMWARE_NAME;
static const char noReads[] PROGMEM = "I2C reads are not supported";
static const char i2cFull[] PROGMEM = "I2C write dropped: queue full";

static uint8_t due;
static uint32_t pinsDue;

void answers_ask(enum answer answer)
{
    due = (uint8_t)(due | 1U << answer);
}

void answers_ask_pin(uint8_t pin)
{
    if (pin < PIN_COUNT) pinsDue |= 1UL << pin;
}

static void put_text(const char *text)
{
    for (uint8_t c; (c = pgm_read_byte(text)) != 0; text++) {
        serial_put(c & GROUP_MASK);
        serial_put(c >> GROUP_BITS);
    }
}

static void put_string(const char *text)
{
    serial_put(SYSEX_START);
    serial_put(FIRMATA_STRING_DATA);
    put_text(text);
    serial_put(SYSEX_END);
}

static void send_version(void)
{
    serial_put(FIRMATA_REPORT_VERSION);
    serial_put(FIRMATA_MAJOR);
    serial_put(FIRMATA_MINOR);
}

static void send_firmware(void)
{
    serial_put(SYSEX_START);
    serial_put(FIRMATA_QUERY_FIRMWARE);
    serial_put(FIRMWARE_MAJOR);
    serial_put(FIRMWARE_MINOR);
    put_text(firmwareName);
    serial_put(SYSEX_END);
}

static void send_capability(void)
{
    serial_put(SYSEX_START);
    serial_put(FIRMATA_CAPABILITY_RESPONSE);
    for (uint8_t pin = 0; pin < PIN_COUNT; pin++) {
        for (uint8_t mode = 0; mode < MODES_END; mode++) {
            const uint8_t resolution = pins_resolution(pin, mode);
            if (resolution == 0) continue;
            serial_put(mode);
            serial_put(resolution);
        }
        serial_put(FIRMATA_END_OF_PIN);
    }
    serial_put(SYSEX_END);
}

/* Bus pins get channel numbers, too: hosts count analogue inputs without gaps. */
static void send_mapping(void)
{
    serial_put(SYSEX_START);
    serial_put(FIRMATA_ANALOG_MAPPING_RESPONSE);
    for (uint8_t pin = 0; pin < PIN_COUNT; pin++)
        serial_put(pin < FIRST_ANALOGUE_PIN ? FIRMATA_NO_CHANNEL : (uint8_t)(pin - FIRST_ANALOGUE_PIN));
    serial_put(SYSEX_END);
}

static void send_no_reads(void) { put_string(noReads); }
static void send_i2c_full(void) { put_string(i2cFull); }

static const struct {
    uint8_t bytes;
    void (*send)(void);
} answers[ANSWER_TOTAL] = {
    [ANSWER_VERSION] = {3, send_version},
    [ANSWER_FIRMWARE] = {5 + 2 * (sizeof firmwareName - 1), send_firmware},
    [ANSWER_CAPABILITY] = {CAPABILITY_BYTES, send_capability},
    [ANSWER_ANALOG_MAPPING] = {3 + PIN_COUNT, send_mapping},
    [ANSWER_NO_I2C_READS] = {3 + 2 * (sizeof noReads - 1), send_no_reads},
    [ANSWER_I2C_FULL] = {3 + 2 * (sizeof i2cFull - 1), send_i2c_full},
};

static bool fits(uint8_t bytes)
{
    return serial_room() >= bytes + FRAME_RESERVE;
}

static void send_pin_states(void)
{
    for (uint8_t pin = 0; pin < PIN_COUNT && fits(PIN_STATE_BYTES); pin++) {
        if (!(pinsDue & (1UL << pin))) continue;
        pinsDue &= ~(1UL << pin);
        const uint8_t state = pins_state(pin);
        serial_put(SYSEX_START);
        serial_put(FIRMATA_PIN_STATE_RESPONSE);
        serial_put(pin);
        serial_put(pins_mode(pin));
        serial_put(state & GROUP_MASK);
        serial_put(state >> GROUP_BITS);
        serial_put(SYSEX_END);
    }
}

void answers_poll(void)
{
    for (uint8_t i = 0; due != 0 && i < ANSWER_TOTAL; i++) {
        if (!(due & (1U << i)) || !fits(answers[i].bytes)) continue;
        due &= (uint8_t)~(1U << i);
        answers[i].send();
    }
    if (pinsDue != 0) send_pin_states();
}
