import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { endFinding, findingLine } from '../../../src/store/chain/finding.ts';
import {
  attemptId,
  attemptOfId,
  carePath,
  chainPath,
  databasePath,
  isAttemptFolder,
  isPage,
  isPhotograph,
  isStoreName,
  jobPersonalPath,
  lockPath,
  personalPath,
  placeOfAttempt,
} from '../../../src/store/chain/paths.ts';
import { recordsFolder } from '../records-folder.ts';

describe('a folder of records', () => {
  test('has its places', () => {
    expect(chainPath('r')).toBe(join('r', 'chain.jsonl'));
    expect(lockPath('r')).toBe(join('r', 'chain.held'));
    expect(databasePath('r')).toBe(join('r', 'meniscus.db'));
    expect(carePath('r')).toBe(join('r', 'care'));
    expect(jobPersonalPath('r/demo')).toBe(join('r/demo', 'personal.json'));
    const [repair, care] = [
      { kind: 'repair', id: 'demo/attempt-2', seq: 7 },
      { kind: 'care', id: 'demo', seq: 7 },
    ];
    expect(personalPath('r', repair)).toBe(join('r', 'demo', 'attempt-2', 'personal.json'));
    expect(personalPath('r', care)).toBe(join('r', 'personal', '7.json'));
  });

  test.each(['personal', 'care', 'chain.jsonl', 'chain.held', 'meniscus.db', 'meniscus.db-wal'])(
    'keeps the name %s to itself',
    (name) => expect(isStoreName(name)).toBe(true),
  );
  test.each(['demo-0001', 'chain', 'careful', 'my-chain.jsonl', 'meniscus', 'personal-2'])(
    'leaves the name %s to a job',
    (name) => expect(isStoreName(name)).toBe(false),
  );

  test.each(['report.html', 'report.pdf', 'report.json', 'certificate.pdf', 'certificate.es.html'])(
    'knows %s as a page',
    (name) => expect(isPage(name)).toBe(true),
  );
  test.each(['my-report.html', 'report.html.part', 'report', 'certificate.txt', 'report..pdf'])(
    'does not take %s for a page',
    (name) => expect(isPage(name)).toBe(false),
  );
  test.each(['photo-before.jpg', 'photo-before.jpeg', 'photo-after.png'])(
    'knows %s as a photograph',
    (name) => expect(isPhotograph(name)).toBe(true),
  );
  test.each(['a-photo-before.jpg', 'photo-before.jpg.part', 'photo-during.jpg', 'photo-after.gif'])(
    'does not take %s for a photograph',
    (name) => expect(isPhotograph(name)).toBe(false),
  );
});

describe('an attempt', () => {
  test('has the name of its job, and from the second on its number', () => {
    expect(attemptId('demo', 1)).toBe('demo');
    expect(attemptId('demo', 2)).toBe('demo/attempt-2');
    expect(attemptOfId('demo')).toEqual({ job: 'demo', number: 1 });
    expect(attemptOfId('demo/attempt-12')).toEqual({ job: 'demo', number: 12 });
    expect(attemptOfId('demo-attempt-2')).toEqual({ job: 'demo-attempt-2', number: 1 });
  });

  test('lies in a folder of its own', () => {
    expect(['attempt-2', 'attempt-10'].map(isAttemptFolder)).toEqual([true, true]);
    const others = ['attempt-', 'attempt-2b', 'an-attempt-2', 'attempt'];
    expect(others.map(isAttemptFolder)).toEqual([false, false, false, false]);
  });

  test('is placed by the journal of its job: a job may be called attempt-2', () => {
    const records = recordsFolder();
    const job = join(records, 'demo');
    mkdirSync(join(job, 'attempt-2'), { recursive: true });
    writeFileSync(join(job, 'journal.jsonl'), '');
    expect(placeOfAttempt(job)).toEqual({ records, id: 'demo' });
    expect(placeOfAttempt(join(job, 'attempt-2'))).toEqual({ records, id: 'demo/attempt-2' });
    expect(placeOfAttempt(join(job, 'notes'))).toEqual({ records: job, id: 'notes' });
    expect(placeOfAttempt(join(records, 'attempt-2'))).toEqual({ records, id: 'attempt-2' });
  });
});

describe('a finding', () => {
  const finding = { where: 'chain', what: 'hash', expected: 'a', found: 'b' } as const;

  test('names its entry where there is one', () => {
    expect(findingLine({ ...finding, seq: null, id: null })).toBe(
      'chain: hash: expected a, found b',
    );
    expect(findingLine({ ...finding, seq: 3, id: null })).toBe(
      'chain at entry 3: hash: expected a, found b',
    );
    expect(findingLine({ ...finding, seq: 3, id: 'demo' })).toBe(
      'chain at entry 3 (demo): hash: expected a, found b',
    );
  });

  test('of a cut end names the entry that the database knows', () => {
    expect(findingLine(endFinding({ seq: 9, hash: 'abc' }, 7))).toBe(
      'chain at entry 8: end of the chain: expected entry 9 with hash abc, which meniscus.db knows, found an end after entry 7',
    );
  });
});
