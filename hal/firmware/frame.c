/*
 * Builds one frame: everything the host needs to judge the unit, as of the latest scan of the
 * converter, with the time of now: a converter that stands still does not stop the clock.
 * Fields follow FRAME_LAYOUT of protocol.ts; a test decodes them with that layout.
 */
#include "frame.h"

#include <util/atomic.h>

#include "buttons.h"
#include "display.h"
#include "gate.h"
#include "limits.h"
#include "message.h"
#include "protection.h"
#include "protocol.h"
#include "serial.h"
#include "switches.h"
#include "tick.h"
#include "unit.h"

_Static_assert(FLAG_SELECTOR_PRESSURE == ACTING_SELECTOR_PRESSURE && FLAG_VENT_OPEN == ACTING_VENT_OPEN &&
                   FLAG_LAMP_ENABLED == ACTING_LAMP_ENABLED,
               "acting outputs go into the frame with the bits they were asked for");

#define COUNTS_FIELD(NAME) message_field(scan->counts[NAME##_SCAN], FRAME_##NAME##_GROUPS);

static uint16_t sequence;

void frame_send(const struct scan *scan)
{
    const uint16_t number = sequence++;
    if (serial_room() < MESSAGE_BYTES(FRAME_BODY_BYTES)) return;
    struct outputs acting;
    trip_set trips;
    uint8_t switches;
    bool leased;
    bool hostLimits;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE)
    {
        acting = *gate_acting();
        trips = protection_trips();
        switches = switches_read();
        leased = gate_leased();
        hostLimits = limits_of_host();
    }
    uint8_t bits = acting.flags;
    if (leased) bits |= ACTING_LEASED;
    if (display_answers()) bits |= ACTING_DISPLAY_ANSWERS;
    if (hostLimits) bits |= ACTING_HOST_LIMITS;

    message_begin(KIND_FRAME);
    message_field(number, FRAME_SEQUENCE_GROUPS);
    message_field(tick_now_ms(), FRAME_TIME_MS_GROUPS);
    FRAME_CHANNELS(COUNTS_FIELD)
    message_field(switches, FRAME_SWITCHES_GROUPS);
    message_field(buttons_presses(), FRAME_PRESSES_GROUPS);
    message_field(buttons_ladder(), FRAME_LADDER_GROUPS);
    message_field(trips, FRAME_TRIPS_GROUPS);
    message_field(bits, FRAME_ACTING_GROUPS);
    message_field(acting.pump, FRAME_PUMP_GROUPS);
    message_field(acting.lamp, FRAME_LAMP_GROUPS);
    message_field(unit_bad_messages(), FRAME_BAD_MESSAGES_GROUPS);
    message_end();
}
