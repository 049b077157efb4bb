import { createPrivateKey, generateKeyPairSync } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fingerprintOf } from '../../../src/store/chain/signature.ts';
import { keyPath, knownUnit, openUnit } from '../../../src/store/chain/unit-key.ts';
import { recordsFolder } from '../records-folder.ts';

const byIn = (folder: string): string => {
  const opened = openUnit(folder);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  expect(opened.value.folder).toBe(folder);
  return opened.value.signer.by;
};

describe('the key of a unit', () => {
  test('is made at its first use, for its account alone, and kept from then on', () => {
    const folder = join(recordsFolder(), 'unit');
    const by = byIn(folder);
    expect(readdirSync(folder)).toEqual(['unit-key.pem']);
    expect(statSync(keyPath(folder)).mode & 0o777).toBe(0o600);
    expect(createPrivateKey(readFileSync(keyPath(folder))).asymmetricKeyType).toBe('ed25519');
    expect(byIn(folder)).toBe(by);
    expect(byIn(recordsFolder())).not.toBe(by);
  });

  test('is only looked for where nothing may be made', () => {
    const folder = recordsFolder();
    expect(knownUnit(folder)).toBeNull();
    expect(readdirSync(folder)).toEqual([]);
    const by = byIn(folder);
    expect(knownUnit(folder)?.signer.by).toBe(by);
    writeFileSync(keyPath(folder), 'no key');
    expect(knownUnit(folder)).toBeNull();
  });

  test.each([
    ['no key', 'no key', /not usable \(.+\)/],
    [
      'a key of another kind',
      generateKeyPairSync('ec', { namedCurve: 'P-256' })
        .privateKey.export({ format: 'pem', type: 'pkcs8' })
        .toString(),
      /not usable \(a key of type ec\)/,
    ],
  ])('that is %s is refused and left as it is', (_, text, value) => {
    const folder = recordsFolder();
    writeFileSync(keyPath(folder), text);
    expect(openUnit(folder)).toEqual({
      ok: false,
      problems: [
        {
          file: join(folder, 'unit-key.pem'),
          path: '',
          value: expect.stringMatching(value),
          accepted: 'an Ed25519 private key in PEM, or a folder in which one can be made',
        },
      ],
    });
    expect(readFileSync(keyPath(folder), 'utf8')).toBe(text);
  });

  test('that cannot be made is refused', () => {
    const folder = join(recordsFolder(), 'file');
    writeFileSync(folder, '');
    expect(openUnit(folder)).toMatchObject({ ok: false, problems: [{ file: keyPath(folder) }] });
    expect(existsSync(keyPath(folder))).toBe(false);
  });

  test('is refused where its name is taken by a folder', () => {
    const folder = recordsFolder();
    mkdirSync(keyPath(folder));
    expect(openUnit(folder)).toMatchObject({ ok: false });
    expect(readdirSync(folder)).toEqual(['unit-key.pem']);
  });

  test('has a fingerprint of eight groups: the start of the SHA-256 of its public bytes', () => {
    // RFC 8032, 7.1, test 1: its public key, hashed with coreutils' sha256sum.
    const by = Buffer.from(
      'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
      'hex',
    ).toString('base64url');
    expect(fingerprintOf(by)).toBe('21fe-31df-a154-a261-626b-f854-046f-d227');
  });
});
