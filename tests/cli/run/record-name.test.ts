import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { recordName } from '../../../src/cli/run/record-name.ts';
import { nasty } from '../../core/nasty-text.ts';

describe('the name of a record', () => {
  test.each([
    ['demo-0001', 'demo-0001'],
    ['AB 12/3', 'AB-12-3'],
    ['-1-1', '1-1'],
    ['--help', 'help'],
    ['.hidden', 'hidden'],
    ['../../up', 'up'],
    ['...', 'job'],
    ['', 'job'],
    // The store keeps its own files under these names.
    ['personal', 'job-personal'],
    ['chain.jsonl', 'job-chain.jsonl'],
    ['meniscus.db', 'job-meniscus.db'],
  ])('made of "%s" is %s', (reference, name) => expect(recordName(reference)).toBe(name));

  test("made of any text begins with a letter, a digit or _, and is none of the store's", () => {
    fc.assert(
      fc.property(
        fc.oneof(nasty, fc.stringMatching(/^(chain|personal|meniscus.db)?[-.\\w]*$/)),
        (reference) => {
          const name = recordName(reference);
          expect(name).toMatch(/^[A-Za-z0-9_][A-Za-z0-9._-]*$/);
          expect(name).not.toMatch(/^(chain\.|meniscus\.db|personal$)/);
        },
      ),
      { seed: 1 },
    );
  });
});
