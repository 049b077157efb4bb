/**
 * The one pin map. The firmware's pins.h is generated from it, the host driver and the emulator
 * import it, and the wiring diagram and parts list are drawn from it or checked against it. It is
 * written for an ATmega328P in its 32-lead package, which has eight analogue inputs, and counts pins
 * as the Firmata protocol does: 0 to 13 digital, 14 to 21 for A0 to A7.
 */

export type PinRole =
  /** Drives something that can do harm: only the board's own protection touches the pin. */
  | 'actuator'
  /** Drives lamp, buzzer: harmless. */
  | 'signal'
  /** A contact that is closed while all is well; open or broken reads as the unsafe position. */
  | 'safety-switch'
  | 'analogue'
  | 'bus'
  | 'serial';

export interface PinRow {
  readonly role: PinRole;
  /** As printed beside the pin on common boards. */
  readonly label: string;
  readonly firmataPin: number;
  /** Port letter and bit of the chip; null for the two inputs that are analogue only. */
  readonly port: { readonly letter: 'B' | 'C' | 'D'; readonly bit: number } | null;
  readonly adcChannel: number | null;
  /** Timer output that can drive this pin with a duty, 8 bits. */
  readonly pwm: 'OC1A' | 'OC1B' | null;
  /** What the wire carries, and what a high level means. */
  readonly carries: string;
}

const digital = (
  role: PinRole,
  firmataPin: number,
  carries: string,
  pwm: PinRow['pwm'] = null,
): PinRow => ({
  role,
  label: `D${firmataPin}`,
  firmataPin,
  port: firmataPin < 8 ? { letter: 'D', bit: firmataPin } : { letter: 'B', bit: firmataPin - 8 },
  adcChannel: null,
  pwm,
  carries,
});

const analogue = (role: PinRole, channel: number, carries: string): PinRow => ({
  role,
  label: `A${channel}`,
  firmataPin: 14 + channel,
  port: channel < 6 ? { letter: 'C', bit: channel } : null,
  adcChannel: role === 'bus' ? null : channel,
  pwm: null,
  carries,
});

export const PINS = {
  serialIn: digital('serial', 0, 'from the host, 250000 baud'),
  serialOut: digital('serial', 1, 'to the host, 250000 baud'),
  emergencyStop: digital('safety-switch', 2, 'emergency stop, second contact: low while released'),
  overPressureSwitch: digital(
    'safety-switch',
    3,
    'over-pressure switch: low while pressure is sound',
  ),
  shieldSwitch: digital('safety-switch', 4, 'UV shield switch: low while the shield is closed'),
  buzzer: digital('signal', 5, 'buzzer: high sounds'),
  ventClose: digital('actuator', 6, 'vent valve, normally open: high closes it'),
  selectorPressure: digital(
    'actuator',
    7,
    'selector valve: high joins the chamber to the pressure side',
  ),
  lampEnable: digital('actuator', 8, 'lamp supply: high enables it'),
  pumpDrive: digital('actuator', 9, 'pump: duty of its drive', 'OC1A'),
  lampDrive: digital('actuator', 10, 'lamp current: duty of its drive', 'OC1B'),
  statusRed: digital('signal', 11, 'status lamp, red: high lights'),
  statusGreen: digital('signal', 12, 'status lamp, green: high lights'),
  statusBlue: digital('signal', 13, 'status lamp, blue: high lights'),
  pressure: analogue(
    'analogue',
    0,
    'chamber pressure, live zero: 0.5 V at 0, 4.5 V at 400 kPa absolute',
  ),
  irradiance: analogue('analogue', 1, 'UV irradiance, live zero: 0.5 V dark, 4.5 V at 40 mW/cm2'),
  glassTemperature: analogue('analogue', 2, 'glass thermistor on the low side of 10 kOhm'),
  buttons: analogue('analogue', 3, 'four buttons on a resistor ladder'),
  displayData: analogue('bus', 4, 'display, I2C data'),
  displayClock: analogue('bus', 5, 'display, I2C clock'),
  heatSinkTemperature: analogue(
    'analogue',
    6,
    'lamp heat sink thermistor on the low side of 10 kOhm',
  ),
  supplyVoltage: analogue('analogue', 7, 'supply through 30 kOhm over 10 kOhm: 5 V at 20 V'),
} as const satisfies Readonly<Record<string, PinRow>>;

export type PinName = keyof typeof PINS;
export const PIN_NAMES = Object.keys(PINS) as readonly PinName[];

/** Pins of the harmful outputs, all low when safe. */
export const ACTUATOR_PINS = PIN_NAMES.filter((name) => PINS[name].role === 'actuator');

/** The display: a 20 x 4 character module behind an 8-bit I2C port expander. */
export const DISPLAY_ADDRESS = 0x27;
/** Expander bit of each line of the display; data 4 to 7 are on bits 4 to 7. */
export const DISPLAY_BITS = { registerSelect: 0, readWrite: 1, enable: 2, backlight: 3 } as const;

/**
 * The ladder: 10 kOhm from the pin to 5 V, and 68 kOhm to ground beside the buttons, at the far end of
 * their cable. A button shorts the pin to ground through its own resistor. HOLD has none, so that it
 * wins over every other button, and a shorted wire reads as HOLD.
 *
 * Only counts in a band belong to something: the middle of each is its resistors' own, and 20 counts
 * of it are 9 % of a button's resistor. Two buttons at once, HOLD aside, read between two bands; so
 * does a part that has drifted. MORE stands between NO and YES: neither can drift into the other
 * unseen. An open wire reads more than no button.
 */
export const BUTTON_LADDER = {
  pullUpOhm: 10_000,
  restOhm: 68_000,
  ohm: { hold: 0, no: 8_200, more: 18_000, yes: 27_000 },
  bands: {
    /** Up to 1.7 kOhm: a worn contact of HOLD still is one. */
    hold: { lowest: 0, highest: 150 },
    no: { lowest: 412, highest: 452 },
    more: { lowest: 581, highest: 621 },
    yes: { lowest: 654, highest: 694 },
    released: { lowest: 852, highest: 932 },
    open: { lowest: 980, highest: 1023 },
  },
} as const;
