/**
 * Supply, fuses, regulator and the controller board. Ratings are computed from the loads of the demo
 * unit: pump 0.5 A (1.5 A stalled), valves 0.35 A each, lamp driver 1.2 A, logic 0.15 A, all at 12 V.
 */
import { capacitor, fuse, module, type PartType, type } from './part-type.ts';

export const POWER_TYPES = {
  supply: module(
    '12 V 5 A',
    'mains adapter, isolated, protective extra-low voltage, approved where it is used',
    '12 V DC, 5 A, limits its own current',
    'computed',
    'All loads together take 2.6 A, 3.6 A with the pump stalled. A bought, closed adapter keeps mains out of the unit.',
  ),
  fuseMain: fuse(
    'T 4 A',
    '2.6 A is 65 % of it, and it is twice the largest branch fuse, so that the branch opens first.',
  ),
  fusePump: fuse(
    'T 1 A',
    'Pump 0.5 A running; slow, for 1.5 A at the start. Protects the wire, not a stalled motor.',
  ),
  fuseValves: fuse('T 1 A', 'Two coils of 0.35 A: 70 % of it.'),
  fuseLamp: fuse('T 2 A', 'Lamp driver 1.2 A at full drive: 60 % of it.'),
  fuseLogic: fuse('T 1 A', 'Regulator 0.15 A; slow, for the charge of its capacitors.'),
  suppressor: type(
    'suppressor',
    '15 V 600 W',
    'transient suppressor diode, one-way',
    '15 V stand-off, 600 W for 1 ms',
    'rule of thumb',
    'Limits spikes to below the 30 V of the regulator; conducts when the supply is reversed, so that the main fuse opens.',
  ),
  bulk: capacitor(
    '470 µF',
    'electrolytic capacitor',
    '25 V, 105 °C',
    'Buffers 12 V against the pump. Ahead of the emergency stop, so that nothing behind it holds a charge.',
  ),
  regulatorIn: capacitor(
    '22 µF',
    'electrolytic capacitor',
    '25 V, 105 °C',
    'At the regulator, as such modules require.',
  ),
  regulatorOut: capacitor(
    '100 µF',
    'electrolytic capacitor',
    '10 V, 105 °C',
    'Buffers 5 V, which is also the reference of all analogue inputs.',
  ),
  regulator: module(
    '5 V 1 A',
    'step-down regulator module',
    '7 to 30 V in, 5 V ± 2 %, 1 A',
    'computed',
    'Board, display, sensors, lamps and buzzer take about 0.25 A.',
  ),
  controller: module(
    'ATmega328P, 5 V, 16 MHz',
    'controller board with an ATmega328P in the 32-lead package (A6 and A7 brought out)',
    '5 V, 16 MHz crystal, USB port with a diode against feeding back',
    'pin map',
    'Needs all eight analogue inputs; the 28-pin chip has six.',
  ),
  bridge: module(
    'USB bridge',
    'USB-to-serial bridge, part of most controller boards',
    '250000 baud, 5 V levels',
    'pin map',
    'Link to the host.',
  ),
} as const satisfies Readonly<Record<string, PartType>>;
