/** Two cases of the campaign on the real firmware image; all of them: `npm run faults -- --board emulated`. */
import { expect, test } from 'vitest';
import { FIRMWARE_ROWS } from './rows-firmware.ts';
import { emulatedCases, runEmulated } from './try-emulated.ts';

test.each([
  ['flash-bit@seal-watch', 'board-tripped', 2],
  ['link-dead@seal-watch', 'link-lost', 1],
] as const)(
  '%s is found by %s within %d s, and harms nothing',
  async (id, by, withinS) => {
    const result = await runEmulated(`emulated/${id}`);
    expect(result.foundBy).toBe(by);
    expect(result.foundAfterS).toBeLessThanOrEqual(withinS);
    expect(result.breaches).toEqual([]);
    expect(result.falseClaims).toEqual([]);
  },
  600_000,
);

test('every fault of the firmware, and of line and board but for the clocks, is among the cases', () => {
  const rows = new Set(emulatedCases().map((id) => id.replace(/^emulated\/|@.*$/g, '')));
  for (const { id } of FIRMWARE_ROWS) expect(rows).toContain(id);
  for (const id of ['link-mute', 'frames-missing', 'board-restart', 'converter-stall']) {
    expect(rows).toContain(id);
  }
  for (const id of ['board-clock-fast', 'board-stall', 'host-clock-jump']) {
    expect(rows).not.toContain(id);
  }
});
