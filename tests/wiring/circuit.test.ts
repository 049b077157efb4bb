import { describe, expect, test } from 'vitest';
import { NETS, PARTS } from '../../wiring/parts/circuit.ts';
import type { PartType } from '../../wiring/parts/part-type.ts';
import { type PartTypeName, partType } from '../../wiring/parts/part-types.ts';
import { AIR_NETS, PRESSURE_LADDER_KPA } from '../../wiring/parts/pneumatics.ts';
import { ACTUATOR_PINS, BUTTON_LADDER, PIN_NAMES, PINS } from '../../wiring/pin-map.ts';

const typeOf = (part: string): PartType => partType((PARTS as Record<string, PartTypeName>)[part]!);
const partsOf = (wanted: (type: PartType) => boolean) =>
  Object.keys(PARTS).filter((part) => wanted(typeOf(part)));
const ends = Object.entries(NETS).flatMap(([net, list]) => list.map((end) => [end, net] as const));
const netOf = (end: string): string => {
  const found = ends.filter(([one]) => one === end);
  expect(found, `${end} is on exactly one net`).toHaveLength(1);
  return found[0]![1];
};
const partsOn = (net: string) => (NETS[net] ?? []).map((end) => end.split('.')[0]!);
/** Part at whose other end `net` comes out, for parts with two ends. */
const across = (part: string, net: string) =>
  ends
    .filter(([end, other]) => end.startsWith(`${part}.`) && other !== net)
    .map(([, other]) => other);

const TWO_ENDED: Partial<Record<PartType['symbol'], readonly string[]>> = {
  resistor: ['a', 'b'],
  capacitor: ['a', 'b'],
  thermistor: ['a', 'b'],
  fuse: ['a', 'b'],
  contact: ['a', 'b'],
  button: ['a', 'b'],
  motor: ['a', 'b'],
  coil: ['a', 'b'],
  diode: ['A', 'K'],
  suppressor: ['A', 'K'],
  led: ['A', 'K'],
  nmos: ['G', 'D', 'S'],
  pmos: ['G', 'D', 'S'],
};

describe('the circuit', () => {
  test('joins every pin of the pin map exactly once', () => {
    for (const name of PIN_NAMES) netOf(`pin.${name}`);
    expect(ends.filter(([end]) => end.startsWith('pin.'))).toHaveLength(PIN_NAMES.length);
  });

  test('names the net of a pin as the pin is labelled', () => {
    for (const name of PIN_NAMES) expect(netOf(`pin.${name}`)).toBe(PINS[name].label);
  });

  test('joins every terminal of every part exactly once, and no terminal that does not exist', () => {
    for (const part of Object.keys(PARTS)) {
      const expected = TWO_ENDED[typeOf(part).symbol];
      const joined = ends
        .filter(([end]) => end.startsWith(`${part}.`))
        .map(([end]) => end.split('.')[1]!);
      expect(new Set(joined).size, part).toBe(joined.length);
      if (expected) expect([...joined].sort(), part).toEqual([...expected].sort());
      else expect(joined.length, part).toBeGreaterThan(1);
    }
    for (const [end] of ends) {
      const part = end.split('.')[0]!;
      expect(part === 'pin' || part in PARTS, end).toBe(true);
    }
  });

  test('has no net with a single end', () => {
    for (const [net, list] of Object.entries(NETS)) expect(list.length, net).toBeGreaterThan(1);
  });

  test('holds every actuator down while nothing drives it', () => {
    for (const name of ACTUATOR_PINS) {
      const series = partsOn(netOf(`pin.${name}`)).find((part) => part !== 'pin')!;
      const driven = across(series, netOf(`pin.${name}`))[0]!;
      const down = partsOn(driven).filter(
        (part) =>
          part in PARTS &&
          typeOf(part).symbol === 'resistor' &&
          across(part, driven).includes('GND'),
      );
      expect(down, `${name} has a pull-down`).toHaveLength(1);
    }
  });

  test('gives every winding a fly-back diode across it, cathode on the supply', () => {
    const windings = partsOf(({ winding }) => winding === true);
    expect(windings.length).toBeGreaterThanOrEqual(4);
    for (const part of windings) {
      const [plus, minus] = typeOf(part).symbol === 'module' ? ['+', '-'] : ['a', 'b'];
      const diodes = partsOf(({ symbol }) => symbol === 'diode').filter(
        (diode) =>
          netOf(`${diode}.K`) === netOf(`${part}.${plus}`) &&
          netOf(`${diode}.A`) === netOf(`${part}.${minus}`),
      );
      expect(diodes, part).toHaveLength(1);
    }
  });

  test('feeds every 12 V branch through a fuse of its own', () => {
    const branches = ['12V', '12V_PUMP', '12V_VALVES', '12V_LAMP', '12V_LOGIC'];
    for (const net of branches) {
      const feeding = partsOf(({ symbol }) => symbol === 'fuse').filter(
        (fuse) => netOf(`${fuse}.b`) === net,
      );
      expect(feeding, net).toHaveLength(1);
    }
    for (const load of ['M1', 'Y1', 'Y2']) expect(branches).toContain(netOf(`${load}.a`));
  });

  test('lets no branch fuse be more than half the main fuse', () => {
    const amperes = (part: string) => Number(typeOf(part).value.match(/T (\d+) A/)![1]);
    for (const fuse of ['F2', 'F3', 'F4', 'F5'])
      expect(amperes(fuse)).toBeLessThanOrEqual(amperes('F1') / 2);
  });

  test('has a vent that is normally open and safety switches that are normally closed', () => {
    expect(typeOf('Y1').normally).toBe('open');
    for (const part of ['S1a', 'S1b', 'S2', 'S3a', 'S3b', 'S4'])
      expect(typeOf(part).normally, part).toBe('closed');
  });

  test('stops pump, valves and lamp with one contact of the emergency stop, and keeps the logic on', () => {
    for (const fuse of ['F2', 'F3', 'F4']) expect(netOf(`${fuse}.a`)).toBe(netOf('S1a.b'));
    expect(netOf('S1a.a')).toBe('12V');
    expect(netOf('F5.a')).toBe('12V');
    expect(partsOn('12V_ACT').sort()).toEqual(['F2', 'F3', 'F4', 'S1a']);
  });

  test('gives the drives of pump and vent no way to ground but the over-pressure switch', () => {
    expect(netOf('Q1.S')).toBe('RETURN');
    expect(netOf('Q2.S')).toBe('RETURN');
    expect(netOf('S2.a')).toBe('RETURN');
    expect(netOf('S2.b')).toBe('GND');
    const toGround = [...new Set(partsOn('RETURN'))].filter((part) =>
      across(part, 'RETURN').includes('GND'),
    );
    expect(toGround).toEqual(['S2']);
  });

  test('lets the shield switch break the supply of the lamp itself', () => {
    expect(netOf('S3a.a')).toBe(netOf('F4.b'));
    expect(netOf('Q4.S')).toBe(netOf('S3a.b'));
    expect(partsOn(netOf('Q4.D')).sort()).toEqual(['Q4', 'S4']);
  });

  test('gives the lamp driver no supply but through the thermal cut-out, which no pin can bridge', () => {
    expect(netOf('S4.a')).toBe(netOf('Q4.D'));
    expect(netOf('U2.IN')).toBe(netOf('S4.b'));
    expect(partsOn(netOf('U2.IN')).sort()).toEqual(['S4', 'U2']);
  });

  test('reads a safety switch as unsafe when its wire breaks: a pull-up behind the contact', () => {
    for (const [contact, pin] of [
      ['S1b', 'emergencyStop'],
      ['S2', 'overPressureSwitch'],
      ['S3b', 'shieldSwitch'],
    ] as const) {
      const node = netOf(`${contact}.a`);
      expect(netOf(`${contact}.b`)).toBe('GND');
      expect(
        partsOn(node).some((part) => across(part, node).includes('5V')),
        contact,
      ).toBe(true);
      expect(
        partsOn(node).some((part) => across(part, node).includes(PINS[pin].label)),
        pin,
      ).toBe(true);
    }
  });

  test('builds the button ladder and the dividers of the pin map', () => {
    expect(typeOf('R27').value).toBe('10 kΩ');
    const values = ['R28', 'R29', 'R37', 'R38'].map((part) => typeOf(part).value);
    expect(values).toEqual(['8.2 kΩ', '18 kΩ', '27 kΩ', '68 kΩ']);
    for (const [button, resistor] of [
      ['SB2', 'R28'],
      ['SB3', 'R29'],
      ['SB1', 'R37'],
    ] as const) {
      expect(netOf(`${button}.a`)).toBe(netOf(`${resistor}.b`));
      expect(netOf(`${resistor}.a`)).toBe('A3');
    }
    expect([netOf('R38.a'), netOf('R38.b')]).toEqual(['A3', 'GND']);
    expect([typeOf('R25').value, typeOf('R26').value]).toEqual(['30 kΩ', '10 kΩ']);
    expect([typeOf('R23').value, typeOf('R24').value]).toEqual(['10 kΩ', '10 kΩ']);
  });
});

test('HOLD has no resistor: it wins over every other button, and a shorted wire reads as HOLD', () => {
  expect([netOf('SB4.a'), netOf('SB4.b')]).toEqual(['A3', 'GND']);
  expect(BUTTON_LADDER.ohm.hold).toBe(0);
});

describe('the air side', () => {
  const airEnds = Object.values(AIR_NETS).flat();

  test('joins every port once', () => {
    expect(new Set(airEnds).size).toBe(airEnds.length);
  });

  test("has the relief valve on the pump's outlet, ahead of the selector", () => {
    const { OUTLET } = AIR_NETS;
    expect(OUTLET).toEqual(expect.arrayContaining(['M1.outlet', 'RV1.in', 'Y2.outlet']));
  });

  test('lets working pressure, switch and relief valve act in this order, under what the pump can do', () => {
    const { highestWorking, switchOpens, reliefOpens, pumpDeadHead } = PRESSURE_LADDER_KPA;
    const rising = [highestWorking, switchOpens, reliefOpens, pumpDeadHead];
    expect([...rising].sort((a, b) => a - b)).toEqual(rising);
  });
});
