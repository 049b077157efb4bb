/**
 * The parts list, printed from the tables of parts: one row per kind, in the order of the drawings.
 */
import { PARTS } from './circuit.ts';
import { PART_TYPES, type PartTypeName, partType } from './part-types.ts';
import { AIR_PARTS } from './pneumatics.ts';

/** `S1a` and `S1b` are contacts of one device. */
const device = (part: string): string => part.replace(/[a-z]$/, '');

/** The devices of each kind, each once. */
export function devicesOf(name: PartTypeName): readonly string[] {
  const all = Object.entries({ ...PARTS, ...AIR_PARTS });
  return [...new Set(all.filter(([, type]) => type === name).map(([part]) => device(part)))];
}

const HEAD = `# Parts

Made from the tables in this folder; a test compares them. No makes are named: any part with the rating will do. Basis: *demo* is an invented value of the demo unit, *computed* follows from the loads of the demo unit, *rule of thumb* is common practice in electronics with no source, *pin map* is what firmware and host rely on, *from memory* has a source that nobody has opened.

| part | quantity | what | value | rating | basis | why |
| --- | --- | --- | --- | --- | --- | --- |`;

const NOT_DRAWN = `
Not drawn: wire 0.75 mm² on the 12 V side and 0.5 mm² to valves and pump; fuse holders; keyed supply plug; screened sensor cable; blanking plug for the hose; closed, vented enclosure; UV-tight shield; screw terminals with ferrules (rule of thumb).
`;

function row(name: PartTypeName): string {
  const { what, value, rating, basis, why } = partType(name);
  const devices = devicesOf(name);
  return `| ${[devices.join(', '), devices.length, what, value, rating, basis, why].join(' | ')} |`;
}

export const partsPage = (): string =>
  [HEAD, ...(Object.keys(PART_TYPES) as PartTypeName[]).map(row), NOT_DRAWN].join('\n');
