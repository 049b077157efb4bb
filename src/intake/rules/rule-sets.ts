/**
 * The rule sets that come with the unit, each a data file. They are checked like a shop's own file
 * when they are loaded. A person chooses which of them apply to a job; the program never guesses.
 */
import type { Checked } from '../../core/settings.ts';
import asNzs236611999 from '../rule-sets/as-nzs-2366-1-1999.json' with { type: 'json' };
import auNswVsi3 from '../rule-sets/au-nsw-vsi-3.json' with { type: 'json' };
import caBcMvaDivision7 from '../rule-sets/ca-bc-mva-division-7.json' with { type: 'json' };
import caQcC242R32 from '../rule-sets/ca-qc-c-24-2-r-32.json' with { type: 'json' };
import caSkInspection from '../rule-sets/ca-sk-inspection.json' with { type: 'json' };
import deVerkehrsblatt1986 from '../rule-sets/de-verkehrsblatt-1986.json' with { type: 'json' };
import gbBsAu242a1998 from '../rule-sets/gb-bs-au-242a-1998.json' with { type: 'json' };
import gbMotOver3500kg from '../rule-sets/gb-mot-over-3500kg.json' with { type: 'json' };
import gbMotUpTo3500kg from '../rule-sets/gb-mot-up-to-3500kg.json' with { type: 'json' };
import nlRdw2005 from '../rule-sets/nl-rdw-2005.json' with { type: 'json' };
import nzVirmInService from '../rule-sets/nz-virm-in-service.json' with { type: 'json' };
import us49Cfr39360C from '../rule-sets/us-49-cfr-393-60-c.json' with { type: 'json' };
import usMdComar11220220 from '../rule-sets/us-md-comar-11-22-02-20.json' with { type: 'json' };
import usNyInspection from '../rule-sets/us-ny-inspection.json' with { type: 'json' };
import usRolags from '../rule-sets/us-rolags.json' with { type: 'json' };
import usWvInspection from '../rule-sets/us-wv-inspection.json' with { type: 'json' };
import { parseRuleSet, type RuleSet } from './rule-set.ts';

const BUILT_IN: Readonly<Record<string, unknown>> = {
  'as-nzs-2366-1-1999.json': asNzs236611999,
  'au-nsw-vsi-3.json': auNswVsi3,
  'ca-bc-mva-division-7.json': caBcMvaDivision7,
  'ca-qc-c-24-2-r-32.json': caQcC242R32,
  'ca-sk-inspection.json': caSkInspection,
  'de-verkehrsblatt-1986.json': deVerkehrsblatt1986,
  'gb-bs-au-242a-1998.json': gbBsAu242a1998,
  'gb-mot-over-3500kg.json': gbMotOver3500kg,
  'gb-mot-up-to-3500kg.json': gbMotUpTo3500kg,
  'nl-rdw-2005.json': nlRdw2005,
  'nz-virm-in-service.json': nzVirmInService,
  'us-49-cfr-393-60-c.json': us49Cfr39360C,
  'us-md-comar-11-22-02-20.json': usMdComar11220220,
  'us-ny-inspection.json': usNyInspection,
  'us-rolags.json': usRolags,
  'us-wv-inspection.json': usWvInspection,
};

export function loadBuiltInRuleSets(): Checked<readonly RuleSet[]> {
  const checked = Object.entries(BUILT_IN).map(([file, set]) => parseRuleSet(set, file));
  const problems = checked.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, value: checked.flatMap((one) => (one.ok ? [one.value] : [])) };
}
