import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import {
  AIR_SHEETS,
  type DrawnSheet,
  ELECTRIC_SHEETS,
  LIGHT_SHEETS,
} from '../../wiring/drawing/diagram.ts';
import { wiringFiles } from '../../wiring/drawing/files.ts';
import { type Box, FONT_MM, type Point, type Text, textBox } from '../../wiring/drawing/shapes.ts';
import {
  type Block,
  onSegment,
  PAPER,
  segments,
  sheetShapes,
  terminalsOf,
} from '../../wiring/drawing/sheet.ts';
import { NETS } from '../../wiring/parts/circuit.ts';
import { AIR_NETS } from '../../wiring/parts/pneumatics.ts';

const SHEETS = [...ELECTRIC_SHEETS, ...AIR_SHEETS, ...LIGHT_SHEETS];
const named = SHEETS.map((drawn) => [drawn.sheet.file, drawn] as const);
const shapesOf = ({ sheet, catalogue }: DrawnSheet) => sheetShapes(sheet, catalogue);
const textsOf = (drawn: DrawnSheet): readonly Text[] =>
  shapesOf(drawn).filter((shape): shape is Text => shape.kind === 'text' && shape.text !== '');
const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** A text and a little air about it. */
const AIR = 0.1;
const roomOf = (words: Text): Box => {
  const { left, right, top, bottom } = textBox(words);
  return { left: left - AIR, right: right + AIR, top: top - AIR, bottom: bottom + AIR };
};

/** Whether a line runs through a box, its rim left out; lines at any angle. */
function crosses([x1, y1]: Point, [x2, y2]: Point, box: Box): boolean {
  const apart =
    Math.max(x1, x2) <= box.left ||
    Math.min(x1, x2) >= box.right ||
    Math.max(y1, y2) <= box.top ||
    Math.min(y1, y2) >= box.bottom;
  if (apart) return false;
  const steps = 200;
  for (let i = 0; i <= steps; i++) {
    const x = x1 + ((x2 - x1) * i) / steps;
    const y = y1 + ((y2 - y1) * i) / steps;
    if (x > box.left && x < box.right && y > box.top && y < box.bottom) return true;
  }
  return false;
}

/** All that touches: wires of one block that share a point, walked through. */
function groupsOf(block: Block, net: string): readonly (readonly Point[][])[] {
  const wires = block.wires.filter((wire) => wire.net === net).map(({ points }) => [...points]);
  const groups: Point[][][] = [];
  for (const wire of wires) {
    const meeting = groups.filter((group) => group.some((other) => touch(other, wire)));
    for (const group of meeting) groups.splice(groups.indexOf(group), 1);
    groups.push([...meeting.flat(), wire]);
  }
  return groups;
}
const on = (point: Point, points: readonly Point[]): boolean =>
  segments(points).some(([from, to]) => onSegment(point, from, to));
const touch = (a: readonly Point[], b: readonly Point[]): boolean =>
  a.some((point) => on(point, b)) || b.some((point) => on(point, a));

/** Nets of a terminal by what is drawn: wires and labels of other nets must not reach it. */
function drawnNets(block: Block, at: Point): readonly string[] {
  const wires = block.wires.filter(({ points }) => on(at, points)).map(({ net }) => net);
  const labels = block.labels
    .filter((label) => String(label.at) === String(at))
    .map(({ net }) => net);
  return [...new Set([...wires, ...labels])];
}

function endsDrawn(
  sheets: readonly DrawnSheet[],
  nets: Readonly<Record<string, readonly string[]>>,
) {
  const netOf = new Map(
    Object.entries(nets).flatMap(([net, ends]) => ends.map((end) => [end, net])),
  );
  return sheets.flatMap(({ sheet, catalogue }) =>
    sheet.blocks.flatMap((block) => {
      const ends = block.placements.flatMap((placement) => terminalsOf(placement, catalogue));
      return ends.map(([end, at]) => {
        const meeting = ends.filter(
          ([other, there]) => other !== end && String(there) === String(at),
        );
        return { end, at, block, drawn: drawnNets(block, at), net: netOf.get(end), meeting, netOf };
      });
    }),
  );
}

const CIRCUITS = [
  ['electric', ELECTRIC_SHEETS, NETS],
  ['air', AIR_SHEETS, AIR_NETS],
] as const;

describe.each(CIRCUITS)('the %s sheets draw what the table says', (_, sheets, nets) => {
  const drawn = endsDrawn(sheets, nets);

  test('every end of every net is drawn exactly once', () => {
    const all = Object.values(nets).flat();
    expect(drawn.map(({ end }) => end).sort()).toEqual([...all].sort());
  });

  test('every end touches its own net and no other', () => {
    for (const { end, drawn: found, net, meeting, netOf } of drawn) {
      const direct = meeting.map(([other]) => netOf.get(other));
      expect([...new Set([...found, ...direct])], end).toEqual([net]);
    }
  });

  test('wires of different nets never touch or cross', () => {
    for (const { sheet } of sheets) {
      for (const { wires, title } of sheet.blocks) {
        for (const [i, a] of wires.entries()) {
          for (const b of wires.slice(i + 1)) {
            if (a.net === b.net) continue;
            const meet = segments(a.points).some(([p, q]) =>
              segments(b.points).some(([r, s]) => cross(p, q, r, s)),
            );
            expect(meet, `${title}: ${a.net} and ${b.net}`).toBe(false);
          }
        }
      }
    }
  });

  test('what is drawn apart of one net carries its name', () => {
    for (const { net, block, at } of drawn) {
      if (net === undefined) continue;
      const inBlock = drawn.filter((other) => other.block === block && other.net === net);
      const groups = groupsOf(block, net);
      const mine = groups.find((group) => group.some((wire) => on(at, wire)));
      const whole = nets[net]!.length === inBlock.length;
      const reaches = (there: Point): boolean =>
        String(there) === String(at) || (mine ?? []).some((wire) => on(there, wire));
      const alone = whole && inBlock.every((other) => reaches(other.at));
      const labelled = block.labels.some((label) => label.net === net && reaches(label.at));
      expect(alone || labelled, `${block.title}: ${net} at ${at}`).toBe(true);
    }
  });
});

const between = (x: number, a: number, b: number): boolean =>
  x >= Math.min(a, b) && x <= Math.max(a, b);
/** Both along the grid. */
function cross([x1, y1]: Point, [x2, y2]: Point, [x3, y3]: Point, [x4, y4]: Point): boolean {
  const xs =
    Math.max(Math.min(x1, x2), Math.min(x3, x4)) <= Math.min(Math.max(x1, x2), Math.max(x3, x4));
  return (
    xs && (between(y1, y3, y4) || between(y2, y3, y4) || between(y3, y1, y2) || between(y4, y1, y2))
  );
}

describe.each(named)('%s is fit to print', (_, drawn) => {
  test('no text lies on another', () => {
    const texts = textsOf(drawn);
    for (const [i, a] of texts.entries()) {
      for (const b of texts.slice(i + 1)) {
        expect(overlap(textBox(a), textBox(b)), `"${a.text}" on "${b.text}"`).toBe(false);
      }
    }
  });

  test('no line runs through a text', () => {
    const texts = textsOf(drawn).filter(({ text }) => text !== 'M');
    for (const shape of shapesOf(drawn)) {
      if (shape.kind !== 'line') continue;
      for (const one of texts) {
        const hit = segments(shape.points).some(([from, to]) => crosses(from, to, roomOf(one)));
        expect(hit, `a line through "${one.text}" near ${one.at}`).toBe(false);
      }
    }
  });

  test('all text is inside the frame and tall enough to read', () => {
    for (const one of textsOf(drawn)) {
      const { left, right, top, bottom } = textBox(one);
      const inside = left > 3 && right < PAPER.width - 3 && top > 3 && bottom < PAPER.height - 3;
      expect(inside, one.text).toBe(true);
      expect(one.sizeMm ?? FONT_MM).toBeGreaterThanOrEqual(2.5);
    }
  });

  test('every text of a block is inside its block', () => {
    for (const block of drawn.sheet.blocks) {
      const one: DrawnSheet = {
        ...drawn,
        sheet: { ...drawn.sheet, title: '', notes: [], blocks: [block] },
      };
      for (const words of textsOf(one)) {
        const { left, right, top, bottom } = textBox(words);
        const [x, y] = block.at;
        const inside =
          left > x && right < x + block.size[0] && top > y && bottom < y + block.size[1];
        expect(inside, `${block.title}: ${words.text}`).toBe(true);
      }
    }
  });

  test('blocks do not overlap', () => {
    const boxes = drawn.sheet.blocks.map(({ at: [x, y], size: [width, height] }) => ({
      left: x,
      top: y,
      right: x + width,
      bottom: y + height,
    }));
    for (const [i, a] of boxes.entries()) {
      for (const b of boxes.slice(i + 1)) expect(overlap(a, b)).toBe(false);
    }
  });
});

test.each(Object.entries(wiringFiles()))(
  '%s is what the tables give: node wiring/write.js',
  (name, content) => {
    const file = fileURLToPath(new URL(`../../wiring/${name}`, import.meta.url));
    expect(readFileSync(file, 'utf8')).toBe(content);
  },
);
