/**
 * Changes that no test kills, and why. `equivalent`: nothing that a pin, a message or memory shows
 * is any different. `timing`: something happens a moment sooner or later, within what is asked of it.
 */
export interface Accepted {
  readonly file: string;
  /** The source line, without its indentation and comment. */
  readonly code: string;
  readonly changes: readonly string[];
  readonly kind: 'equivalent' | 'timing';
  readonly reason: string;
}

const row = (
  kind: Accepted['kind'],
  file: string,
  code: string,
  changes: readonly string[],
  reason: string,
): Accepted => ({ kind, file, code, changes, reason });

const EQUIVALENT: readonly Accepted[] = [
  row('equivalent', 'adc.c', 'static struct scan scans[2];', ['2 => 3'], 'the third is not used'),
  row('equivalent', 'answers.c', '#define MODES_END 0x10', ['0x10 => 0x11'], 'no pin has mode 16'),
  row(
    'equivalent',
    'answers.c',
    'for (uint8_t mode = 0; mode < MODES_END; mode++) {',
    ['< => <='],
    'no pin has mode 16',
  ),
  row(
    'equivalent',
    'answers.c',
    'if (pin < PIN_COUNT) pinsDue |= 1UL << pin;',
    ['< => <='],
    'what is due is looked through up to the last pin',
  ),
  row(
    'equivalent',
    'answers.c',
    'serial_put(c & GROUP_MASK);',
    ['& GROUP_MASK => (dropped)'],
    'all texts are ASCII',
  ),
  row(
    'equivalent',
    'boot.c',
    'PORTB &= (uint8_t)~ACTUATOR_MASK_B;',
    ['~ => (dropped)'],
    'any reset clears the port registers already',
  ),
  row(
    'equivalent',
    'buttons.c',
    'if (ticksSeen < DEBOUNCE_TICKS) ticksSeen++;',
    ['< => <='],
    'it counts one further, which nothing asks for',
  ),
  row(
    'equivalent',
    'limits.c',
    '[LIMIT_HEAT_SINK_FLOOR] = {COMPILED_HEAT_SINK_FLOOR, 0, false},',
    ['0 => 1'],
    'the compiled floor, which may only go up, is above either',
  ),
  row(
    'equivalent',
    'message.c',
    'if (length <= CHECK_GROUPS) return false;',
    ['false => true'],
    'the only caller has looked at the length',
  ),
  row(
    'equivalent',
    'reports.c',
    'if (channel >= ANALOGUE_INPUTS) return;',
    ['return => (dropped)'],
    'a bit above the eighth falls out of a byte',
  ),
  row(
    'equivalent',
    'reports.c',
    'if (asked < SHORTEST_INTERVAL_MS) asked = SHORTEST_INTERVAL_MS;',
    ['< => <='],
    'the bound itself becomes the bound',
  ),
  row(
    'equivalent',
    'reports.c',
    'if (asked > LONGEST_INTERVAL_MS) asked = LONGEST_INTERVAL_MS;',
    ['> => >='],
    'the bound itself becomes the bound',
  ),
  row(
    'equivalent',
    'reports.c',
    'for (uint8_t i = 0; i < SCAN_LENGTH; i++) {',
    ['< => <='],
    'the byte past the table is no channel, as the image is laid out',
  ),
  row(
    'equivalent',
    'protection.c',
    'pressureCounts = scan ? scan->counts[PRESSURE_SCAN] : 0;',
    ['0 => 1'],
    'either is below what a live sensor gives',
  ),
  row(
    'equivalent',
    'reports.c',
    'for (uint8_t port = 0; port < PORT_TOTAL; port++) {',
    ['< => <='],
    'nobody can ask for the port after the last',
  ),
];

const ROOM = 'an answer waits for a few bytes more or less of room, which the reserve covers';
const TIMING: readonly Accepted[] = [
  row(
    'timing',
    'answers.c',
    '#define CAPABILITY_BYTES (3 + 5 * PIN_COUNT)',
    ['3 => 4', '+ => -', '5 => 6'],
    ROOM,
  ),
  row('timing', 'answers.c', '#define PIN_STATE_BYTES 7', ['7 => 8'], ROOM),
  row(
    'timing',
    'answers.c',
    '[ANSWER_FIRMWARE] = {5 + 2 * (sizeof firmwareName - 1), send_firmware},',
    ['2 => 3'],
    ROOM,
  ),
  row(
    'timing',
    'answers.c',
    '[ANSWER_I2C_FULL] = {3 + 2 * (sizeof i2cFull - 1), send_i2c_full},',
    ['2 => 3', '- => +'],
    ROOM,
  ),
  row(
    'timing',
    'protection.c',
    '#define MS_PER_S 1000UL',
    ['1000UL => 1001UL'],
    'a thousandth more of the longest lamp time',
  ),
  row(
    'timing',
    'reports.c',
    'if ((int32_t)(nowMs - dueMs) < 0) return;',
    ['< => <='],
    'all reports come a tick later',
  ),
  row(
    'timing',
    'reports.c',
    'if ((int32_t)(nowMs - dueMs) >= 0) dueMs = nowMs + intervalMs;',
    ['>= => >'],
    'after a stop of the main loop one report comes a tick after the other',
  ),
  row(
    'timing',
    'display.c',
    '{0x30, false, 6},',
    ['6 => 7'],
    'the display is set up a millisecond later',
  ),
  row(
    'timing',
    'display.c',
    'else if ((int32_t)(nowMs - nextMs) >= 0) probe(nowMs);',
    ['>= => >'],
    'the display is asked for a sign of life a millisecond later',
  ),
  row(
    'timing',
    'reports.c',
    'dueMs += intervalMs;',
    ['dueMs += intervalMs => (dropped)'],
    'the next frame is due from when the last was sent, which is later only after a missed tick',
  ),
];

export const REMAINING: readonly Accepted[] = [...EQUIVALENT, ...TIMING];
