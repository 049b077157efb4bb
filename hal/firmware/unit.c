/*
 * The unit's own messages from the host: outputs, limits, text. Each is checked before it takes
 * effect. An unacceptable message is counted and answered, and its intent is never guessed. gate.c,
 * protection.c and limits.c decide what outputs and limits lead to.
 */
#include "unit.h"

#include <util/atomic.h>

#include "display.h"
#include "gate.h"
#include "limits.h"
#include "message.h"
#include "protection.h"
#include "serial.h"

#define BAD_MESSAGES_MASK 0x7F
#define KNOWN_FLAGS (FLAG_SELECTOR_PRESSURE | FLAG_VENT_OPEN | FLAG_LAMP_ENABLED | FLAG_CLEAR_TRIPS)
#define ACTUATOR_FLAGS (FLAG_SELECTOR_PRESSURE | FLAG_VENT_OPEN | FLAG_LAMP_ENABLED)

#define AT_FLAGS OUTPUTS_SEQUENCE_GROUPS
#define AT_PUMP (AT_FLAGS + OUTPUTS_FLAGS_GROUPS)
#define AT_LAMP (AT_PUMP + OUTPUTS_PUMP_GROUPS)

static uint8_t badMessages;
static struct {
    bool waits;
    uint8_t verdict;
    uint8_t offender;
} report;

void unit_count_bad(void)
{
    badMessages = (badMessages + 1) & BAD_MESSAGES_MASK;
}

uint8_t unit_bad_messages(void)
{
    return badMessages;
}

/* A refusal without room is left out: the frame's count still shows it. */
static void refuse(uint8_t kind, uint8_t reason)
{
    unit_count_bad();
    if (serial_room() < MESSAGE_BYTES(REFUSAL_BODY_BYTES) + FRAME_RESERVE) return;
    message_begin(KIND_REFUSAL);
    message_field(kind, REFUSAL_REFUSED_KIND_GROUPS);
    message_field(reason, REFUSAL_REASON_GROUPS);
    message_end();
}

static void report_limits(uint8_t verdict, uint8_t offender)
{
    report.waits = true;
    report.verdict = verdict;
    report.offender = offender;
}

static void take_outputs(const uint8_t *body)
{
    const uint16_t sequence = message_read(body, OUTPUTS_SEQUENCE_GROUPS);
    const uint8_t flags = body[AT_FLAGS];
    const uint16_t pump = message_read(body + AT_PUMP, OUTPUTS_PUMP_GROUPS);
    const uint16_t lamp = message_read(body + AT_LAMP, OUTPUTS_LAMP_GROUPS);
    if ((flags & (uint8_t)~KNOWN_FLAGS) || pump > FULL_DUTY || lamp > FULL_DUTY) {
        gate_make_safe();
        refuse(KIND_OUTPUTS, REFUSAL_OUT_OF_RANGE);
        return;
    }
    const struct outputs asked = {.flags = flags & ACTUATOR_FLAGS, .pump = (uint8_t)pump, .lamp = (uint8_t)lamp};
    const bool safe = outputs_are_safe(&asked);
    if (!gate_want(&asked, sequence)) {
        /* An older request for the safe state does no harm. */
        if (safe) gate_make_safe();
        refuse(KIND_OUTPUTS, REFUSAL_REPEATED);
        return;
    }
    if (!(flags & FLAG_CLEAR_TRIPS) || !safe) return;
    protection_clear();
}

static void take_limits(const uint8_t *body)
{
    struct limits asked;
    uint8_t offender;
    /* Every limit has two groups. */
    for (uint8_t i = 0; i < LIMIT_COUNT; i++) asked.value[i] = message_read(body + 2 * i, 2);
    const uint8_t verdict = limits_judge(&asked, &offender);
    if (verdict == VERDICT_ACCEPTED) limits_store(&asked);
    report_limits(verdict, offender);
}

static void take_text(const uint8_t *body)
{
    if (body[0] >= TEXT_ROWS) refuse(KIND_TEXT, REFUSAL_OUT_OF_RANGE);
    else display_text(body[0], body + TEXT_ROW_GROUPS);
}

static void take_letter(const uint8_t *body)
{
    const uint8_t *rows = body + LETTER_CODE_GROUPS;
    bool fits = body[0] < LETTER_SLOTS;
    for (uint8_t i = 0; i < LETTER_ROWS; i++) {
        if (rows[i] >> LETTER_COLUMNS) fits = false;
    }
    if (fits) display_letter(body[0], rows);
    else refuse(KIND_LETTER, REFUSAL_OUT_OF_RANGE);
}

static const struct {
    uint8_t kind;
    uint8_t bodyBytes;
    void (*take)(const uint8_t *body);
} kinds[] = {
    {KIND_OUTPUTS, OUTPUTS_BODY_BYTES, take_outputs},
    {KIND_LIMITS, LIMITS_BODY_BYTES, take_limits},
    {KIND_TEXT, TEXT_BODY_BYTES, take_text},
    {KIND_LETTER, LETTER_BODY_BYTES, take_letter},
};
#define KIND_TOTAL (sizeof kinds / sizeof kinds[0])

/* Limits are answered by their report, everything else by a refusal. */
static void turn_down(uint8_t kind, uint8_t refusal, uint8_t verdict)
{
    if (kind != KIND_LIMITS) {
        refuse(kind, refusal);
        return;
    }
    unit_count_bad();
    report_limits(verdict, NO_OFFENDER);
}

void unit_message(const uint8_t *bytes, uint8_t length)
{
    const uint8_t kind = length > 0 ? bytes[0] : 0;
    if (length <= CHECK_GROUPS) {
        turn_down(kind, REFUSAL_MALFORMED, VERDICT_MALFORMED);
        return;
    }
    if (!message_check(bytes, length)) {
        turn_down(kind, REFUSAL_BAD_CHECKSUM, VERDICT_BAD_CHECKSUM);
        return;
    }
    for (uint8_t i = 0; i < KIND_TOTAL; i++) {
        if (kinds[i].kind != kind) continue;
        if (length - 1 - CHECK_GROUPS == kinds[i].bodyBytes) kinds[i].take(bytes + 1);
        else turn_down(kind, REFUSAL_MALFORMED, VERDICT_MALFORMED);
        return;
    }
    refuse(kind, REFUSAL_UNKNOWN_KIND);
}

void unit_poll(void)
{
    if (!report.waits || serial_room() < MESSAGE_BYTES(LIMITS_REPORT_BODY_BYTES) + FRAME_RESERVE) return;
    report.waits = false;
    message_begin(KIND_LIMITS_REPORT);
    message_field(report.verdict, LIMITS_REPORT_VERDICT_GROUPS);
    message_field(report.offender, LIMITS_REPORT_OFFENDER_GROUPS);
    struct limits inForce;
    uint16_t taken;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) { taken = gate_taken(); }
    limits_read(&inForce);
    message_field(taken, LIMITS_REPORT_TAKEN_GROUPS);
    for (uint8_t i = 0; i < LIMIT_COUNT; i++) message_field(inForce.value[i], 2);
    message_end();
}
