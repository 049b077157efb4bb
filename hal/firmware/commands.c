/*
 * Dispatches Firmata messages through two tables from command to handler. Unknown commands are
 * ignored, as Firmata requires. The work per message is bounded: answers are only marked as due
 * here, and answers.c sends them when the line has room.
 */
#include "commands.h"

#include <stdbool.h>

#include "answers.h"
#include "firmata.h"
#include "gate.h"
#include "pins_firmata.h"
#include "protocol.h"
#include "reports.h"
#include "twi.h"
#include "unit.h"

#define CHANNEL_MASK 0x0F
#define FIRST_WITHOUT_CHANNEL 0xF0
#define I2C_MODE_MASK 0x18
#define I2C_TEN_BIT 0x20

static uint16_t fourteen(const uint8_t *data)
{
    return data[0] | (uint16_t)(data[1] << 7);
}

static void on_digital(uint8_t port, const uint8_t *data) { pins_write_port(port, fourteen(data)); }
static void on_analog(uint8_t pin, const uint8_t *data)
{
    (void)data;
    pins_refuse_duty(pin);
}

static void on_report_analog(uint8_t channel, const uint8_t *data) { reports_analog(channel, data[0]); }
static void on_report_digital(uint8_t port, const uint8_t *data) { reports_digital(port, data[0]); }
static void on_pin_mode(uint8_t unused, const uint8_t *data) { (void)unused; pins_set_mode(data[0], data[1]); }
static void on_digital_pin(uint8_t unused, const uint8_t *data) { (void)unused; pins_write_level(data[0], data[1]); }

static void on_version(uint8_t unused, const uint8_t *data)
{
    (void)unused, (void)data;
    answers_ask(ANSWER_VERSION);
}

static void on_reset(uint8_t unused, const uint8_t *data)
{
    (void)unused, (void)data;
    gate_make_safe();
    pins_reset();
    reports_stop();
}

static const struct {
    uint8_t command;
    uint8_t dataBytes;
    void (*run)(uint8_t channel, const uint8_t *data);
} commands[] = {
    {FIRMATA_DIGITAL_MESSAGE, 2, on_digital},
    {FIRMATA_ANALOG_MESSAGE, 2, on_analog},
    {FIRMATA_REPORT_ANALOG, 1, on_report_analog},
    {FIRMATA_REPORT_DIGITAL, 1, on_report_digital},
    {FIRMATA_SET_PIN_MODE, 2, on_pin_mode},
    {FIRMATA_SET_DIGITAL_PIN, 2, on_digital_pin},
    {FIRMATA_REPORT_VERSION, 0, on_version},
    {FIRMATA_SYSTEM_RESET, 0, on_reset},
};
#define COMMAND_TOTAL (sizeof commands / sizeof commands[0])

/* Index into the table; the table's length when not found. */
static uint8_t find_command(uint8_t command)
{
    const uint8_t wanted = command < FIRST_WITHOUT_CHANNEL ? command & (uint8_t)~CHANNEL_MASK : command;
    uint8_t i = 0;
    while (i < COMMAND_TOTAL && commands[i].command != wanted) i++;
    return i;
}

uint8_t command_data_bytes(uint8_t command)
{
    const uint8_t i = find_command(command);
    return i < COMMAND_TOTAL ? commands[i].dataBytes : 0;
}

void command_run(uint8_t command, const uint8_t *data)
{
    const uint8_t i = find_command(command);
    if (i < COMMAND_TOTAL) commands[i].run(command & CHANNEL_MASK, data);
}

static void sysex_i2c(const uint8_t *data, uint8_t length)
{
    if (length < 2) return;
    if (data[1] & (I2C_MODE_MASK | I2C_TEN_BIT)) {
        answers_ask(ANSWER_NO_I2C_READS);
        return;
    }
    uint8_t bytes[TWI_LONGEST];
    uint8_t count = 0;
    for (uint8_t i = 2; i + 1 < length && count < TWI_LONGEST; i = (uint8_t)(i + 2))
        bytes[count++] = (uint8_t)fourteen(data + i);
    if (!twi_write(data[0], bytes, count, TWI_FOR_HOST)) answers_ask(ANSWER_I2C_FULL);
}

static void sysex_extended_analog(const uint8_t *data, uint8_t length)
{
    if (length >= 2) pins_refuse_duty(data[0]);
}

static void sysex_pin_state(const uint8_t *data, uint8_t length)
{
    if (length == 1) answers_ask_pin(data[0]);
}

static void sysex_sampling(const uint8_t *data, uint8_t length)
{
    if (length == 2) reports_interval(fourteen(data));
}

static void sysex_capability(const uint8_t *data, uint8_t length)
{
    (void)data, (void)length;
    answers_ask(ANSWER_CAPABILITY);
}

static void sysex_mapping(const uint8_t *data, uint8_t length)
{
    (void)data, (void)length;
    answers_ask(ANSWER_ANALOG_MAPPING);
}

static void sysex_firmware(const uint8_t *data, uint8_t length)
{
    (void)data, (void)length;
    answers_ask(ANSWER_FIRMWARE);
}

static const struct {
    uint8_t command;
    void (*run)(const uint8_t *data, uint8_t length);
} sysexes[] = {
    {UNIT_SYSEX, unit_message},
    {FIRMATA_ANALOG_MAPPING_QUERY, sysex_mapping},
    {FIRMATA_CAPABILITY_QUERY, sysex_capability},
    {FIRMATA_PIN_STATE_QUERY, sysex_pin_state},
    {FIRMATA_EXTENDED_ANALOG, sysex_extended_analog},
    {FIRMATA_I2C_REQUEST, sysex_i2c},
    {FIRMATA_QUERY_FIRMWARE, sysex_firmware},
    {FIRMATA_SAMPLING_INTERVAL, sysex_sampling},
};

void sysex_run(uint8_t command, const uint8_t *data, uint8_t length)
{
    for (uint8_t i = 0; i < sizeof sysexes / sizeof sysexes[0]; i++) {
        if (sysexes[i].command == command) sysexes[i].run(data, length);
    }
}
