/*
 * Assembles bytes into messages. Any byte of 0x80 and above begins a message, even in the middle of
 * one. The unfinished message is dropped, so that a lost byte costs one message and never the next.
 * A sysex longer than the buffer is dropped whole. commands.c decides what a message means.
 */
#include "parser.h"

#include <stdbool.h>

#include "commands.h"
#include "firmata.h"
#include "protocol.h"
#include "unit.h"

#define SYSEX_SIZE 64
#define DATA_MASK 0x7F
#define NO_COMMAND 0

static uint8_t command = NO_COMMAND;
static uint8_t bytes[SYSEX_SIZE];
static uint8_t length;
static uint8_t expected;
static bool tooLong;

static void begin(uint8_t byte)
{
    if (command == SYSEX_START) unit_count_bad();
    command = byte;
    length = 0;
    tooLong = false;
    expected = command_data_bytes(byte);
    if (byte == SYSEX_START || expected > 0) return;
    command = NO_COMMAND;
    command_run(byte, bytes);
}

static void end_sysex(void)
{
    command = NO_COMMAND;
    if (tooLong) unit_count_bad();
    else if (length > 0) sysex_run(bytes[0], bytes + 1, (uint8_t)(length - 1));
}

static void data(uint8_t byte)
{
    if (command == NO_COMMAND) return;
    if (length == SYSEX_SIZE) {
        tooLong = true;
        return;
    }
    bytes[length++] = byte;
    if (command == SYSEX_START || length < expected) return;
    const uint8_t complete = command;
    command = NO_COMMAND;
    command_run(complete, bytes);
}

void parser_byte(uint8_t byte)
{
    if (byte <= DATA_MASK) data(byte);
    else if (byte != SYSEX_END) begin(byte);
    else if (command == SYSEX_START) end_sysex();
    else command = NO_COMMAND;
}
