/**
 * The firmware's tests once for each image in MUTANT_IMAGES, in the order of MUTANT_TESTS. One run
 * of vitest serves several images, whose start would otherwise take longer than their tests; what
 * comes after an image's first failure is skipped.
 */
import { beforeEach, describe, vi } from 'vitest';

const { MUTANT_IMAGES = '', MUTANT_TESTS = '' } = process.env;

for (const image of MUTANT_IMAGES.split(',')) {
  describe(image, () => {
    let failed = false;
    vi.resetModules();
    beforeEach((context) => {
      if (failed) context.skip();
      context.onTestFailed(() => {
        failed = true;
      });
    });
    for (const file of MUTANT_TESTS.split(',')) {
      describe(file, async () => {
        Object.assign(process.env, { FIRMWARE_IMAGE: image });
        await import(/* @vite-ignore */ `../../hal/firmware/${file}`);
      });
    }
  });
}
