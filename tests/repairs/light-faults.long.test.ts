/** The faults of lamp and light sensor that the quick test leaves out. */
import { test } from 'vitest';
import { expectNotShown, FALSE_LIGHT } from './light-faults.ts';

test.each(FALSE_LIGHT.filter(({ liesWell }) => !liesWell))('is not shown: $fault', expectNotShown);
