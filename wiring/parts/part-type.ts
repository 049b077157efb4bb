/**
 * A kind of part: its symbol on the drawing, its rating, and the reason for the rating. The small
 * builders here only save writing; the kinds are in the tables beside this file.
 */
export type SymbolName =
  | 'resistor'
  | 'capacitor'
  | 'diode'
  | 'suppressor'
  | 'led'
  | 'nmos'
  | 'pmos'
  | 'contact'
  | 'button'
  | 'fuse'
  | 'motor'
  | 'coil'
  | 'thermistor'
  | 'module';

/** Source of a rating. */
export type Basis = 'demo' | 'computed' | 'rule of thumb' | 'pin map' | 'from memory';

export interface PartType {
  readonly symbol: SymbolName;
  /** Short, for the drawing. */
  readonly value: string;
  readonly what: string;
  readonly rating: string;
  readonly why: string;
  readonly basis: Basis;
  /** Position without power or force, of a contact or a valve. */
  readonly normally?: 'open' | 'closed';
  /** A winding: its current needs a path when it is switched off. */
  readonly winding?: true;
  /** Passes air; its terminals are ports. */
  readonly pneumatic?: true;
}

export const type = (
  symbol: SymbolName,
  value: string,
  what: string,
  rating: string,
  basis: Basis,
  why: string,
): PartType => ({ symbol, value, what, rating, basis, why });

const ohmText = (ohm: number): string => (ohm >= 1000 ? `${ohm / 1000} kΩ` : `${ohm} Ω`);
export const resistor = (ohm: number, basis: Basis, why: string): PartType =>
  type('resistor', ohmText(ohm), 'film resistor', '1 %, 0.25 W', basis, why);
export const capacitor = (value: string, what: string, rating: string, why: string): PartType =>
  type('capacitor', value, what, rating, 'rule of thumb', why);
export const module = (
  value: string,
  what: string,
  rating: string,
  basis: Basis,
  why: string,
): PartType => type('module', value, what, rating, basis, why);
export const fuse = (value: string, why: string): PartType =>
  type(
    'fuse',
    value,
    'cartridge fuse 5 × 20 mm, slow, in a holder',
    `${value}, 32 V DC or more`,
    'computed',
    why,
  );
export const contact = (value: string, what: string, rating: string, why: string): PartType => ({
  ...type('contact', value, what, rating, 'demo', why),
  normally: 'closed',
});

export const air = (
  value: string,
  what: string,
  rating: string,
  basis: Basis,
  why: string,
): PartType => ({
  ...module(value, what, rating, basis, why),
  pneumatic: true,
});
