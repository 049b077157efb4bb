/*
 * libFuzzer's door to the firmware: puts the firmware's memory back to power-up, then runs its own
 * main() on one input. Half of the mutations get the checks of their unit messages right, because
 * no search finds sixteen bits by chance often enough. chip.c decides what an input means.
 */
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "chip.h"
#include "oracle.h"
#include "protocol.h"

extern uint8_t __start_firmware_zeros[], __stop_firmware_zeros[];
extern uint8_t __start_firmware_values[], __stop_firmware_values[];
static uint8_t values[4096];

size_t LLVMFuzzerMutate(uint8_t *data, size_t size, size_t maxSize);

/* Between the firmware's variables lie forbidden bytes of the address sanitizer, which are put back
 * as well. */
__attribute__((no_sanitize("address", "undefined"), noinline)) static void put(volatile uint8_t *to, const uint8_t *from, size_t count)
{
    for (size_t i = 0; i < count; i++) to[i] = from ? from[i] : 0;
}

static void power_up(void)
{
    static bool kept;
    const size_t count = (size_t)(__stop_firmware_values - __start_firmware_values);
    if (count > sizeof values) abort();
    if (kept) put(__start_firmware_values, values, count);
    else put(values, __start_firmware_values, count);
    kept = true;
    put(__start_firmware_zeros, 0, (size_t)(__stop_firmware_zeros - __start_firmware_zeros));
}

static void print_tally(void)
{
    fprintf(stderr, "accepted outputs %lu, limits %lu, resets %lu; unit messages sent %lu\n", tally.outputs, tally.limits, tally.resets, tally.sent);
}

int LLVMFuzzerInitialize(int *count, char ***arguments)
{
    (void)count, (void)arguments;
    atexit(print_tally);
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    power_up();
    chip_run(data, size);
    return 0;
}

static void mend_check(uint8_t *message, size_t count)
{
    if (count < 4) return;
    uint8_t *check = message + count - 3;
    const uint16_t crc = oracle_check(message, (unsigned)(count - 3));
    for (int i = 0; i < 3; i++) check[i] = (uint8_t)(crc >> 7 * i & 0x7F);
}

size_t LLVMFuzzerCustomMutator(uint8_t *data, size_t size, size_t maxSize, unsigned seed)
{
    size = LLVMFuzzerMutate(data, size, maxSize);
    if (seed & 1) return size;
    size_t begun = 0;
    for (size_t i = HEADER_BYTES + 1; i < size; i++) {
        if (data[i - 1] == SYSEX_START && data[i] == UNIT_SYSEX) begun = i + 1;
        else if (data[i] == SYSEX_END && begun) {
            mend_check(data + begun, i - begun);
            begun = 0;
        } else if (data[i] >= 0x80) begun = 0;
    }
    return size;
}
