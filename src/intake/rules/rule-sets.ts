/**
 * The rule sets that come with the unit, each a data file. They are checked like a shop's own file
 * when they are loaded. A person chooses which of them apply to a job; the program never guesses.
 */
import type { Checked } from '../../core/settings.ts';
import caBcMvaDivision7 from '../rule-sets/america/ca-bc-mva-division-7.json' with { type: 'json' };
import caOnInspection from '../rule-sets/america/ca-on-inspection.json' with { type: 'json' };
import caQcC242R32 from '../rule-sets/america/ca-qc-c-24-2-r-32.json' with { type: 'json' };
import caSkInspection from '../rule-sets/america/ca-sk-inspection.json' with { type: 'json' };
import us49Cfr39360C from '../rule-sets/america/us-49-cfr-393-60-c.json' with { type: 'json' };
import usMd29020111 from '../rule-sets/america/us-md-29-02-01-11.json' with { type: 'json' };
import usMdComar11220220 from '../rule-sets/america/us-md-comar-11-22-02-20.json' with {
  type: 'json',
};
import usMo11Csr502270 from '../rule-sets/america/us-mo-11-csr-50-2-270.json' with { type: 'json' };
import usNyInspection from '../rule-sets/america/us-ny-inspection.json' with { type: 'json' };
import usRolags from '../rule-sets/america/us-rolags.json' with { type: 'json' };
import usUtR714160 from '../rule-sets/america/us-ut-r714-160.json' with { type: 'json' };
import usVa19vac3070580 from '../rule-sets/america/us-va-19vac30-70-580.json' with { type: 'json' };
import usWvInspection from '../rule-sets/america/us-wv-inspection.json' with { type: 'json' };
import at57a2019 from '../rule-sets/europe/at-57a-2019.json' with { type: 'json' };
import chVts2019 from '../rule-sets/europe/ch-vts-2019.json' with { type: 'json' };
import deVerkehrsblatt1986 from '../rule-sets/europe/de-verkehrsblatt-1986.json' with {
  type: 'json',
};
import deVerkehrsblatt1986Over3500kg from '../rule-sets/europe/de-verkehrsblatt-1986-over-3500kg.json' with {
  type: 'json',
};
import eaeuTrCu0182011 from '../rule-sets/europe/eaeu-tr-cu-018-2011.json' with { type: 'json' };
import frControleTechnique2018 from '../rule-sets/europe/fr-controle-technique-2018.json' with {
  type: 'json',
};
import gbBsAu242a1998 from '../rule-sets/europe/gb-bs-au-242a-1998.json' with { type: 'json' };
import gbBsAu242b2022 from '../rule-sets/europe/gb-bs-au-242b-2022.json' with { type: 'json' };
import gbBsAu242b2022Over3500kg from '../rule-sets/europe/gb-bs-au-242b-2022-over-3500kg.json' with {
  type: 'json',
};
import gbMotOver3500kg from '../rule-sets/europe/gb-mot-over-3500kg.json' with { type: 'json' };
import gbMotUpTo3500kg from '../rule-sets/europe/gb-mot-up-to-3500kg.json' with { type: 'json' };
import ieNct from '../rule-sets/europe/ie-nct.json' with { type: 'json' };
import nlRdw2005 from '../rule-sets/europe/nl-rdw-2005.json' with { type: 'json' };
import nlRdw2005Over3500kg from '../rule-sets/europe/nl-rdw-2005-over-3500kg.json' with {
  type: 'json',
};
import seBesiktning from '../rule-sets/europe/se-besiktning.json' with { type: 'json' };
import uaGstu364997 from '../rule-sets/europe/ua-gstu-3649-97.json' with { type: 'json' };
import asNzs236611999 from '../rule-sets/oceania/as-nzs-2366-1-1999.json' with { type: 'json' };
import auNswVsi3 from '../rule-sets/oceania/au-nsw-vsi-3.json' with { type: 'json' };
import auQldInspection from '../rule-sets/oceania/au-qld-inspection.json' with { type: 'json' };
import auVicRoadworthiness from '../rule-sets/oceania/au-vic-roadworthiness.json' with {
  type: 'json',
};
import nzVirmInService from '../rule-sets/oceania/nz-virm-in-service.json' with { type: 'json' };
import { parseRuleSet, type RuleSet } from './rule-set.ts';

const BUILT_IN: Readonly<Record<string, unknown>> = {
  'america/ca-bc-mva-division-7.json': caBcMvaDivision7,
  'america/ca-on-inspection.json': caOnInspection,
  'america/ca-qc-c-24-2-r-32.json': caQcC242R32,
  'america/ca-sk-inspection.json': caSkInspection,
  'america/us-49-cfr-393-60-c.json': us49Cfr39360C,
  'america/us-md-29-02-01-11.json': usMd29020111,
  'america/us-md-comar-11-22-02-20.json': usMdComar11220220,
  'america/us-mo-11-csr-50-2-270.json': usMo11Csr502270,
  'america/us-ny-inspection.json': usNyInspection,
  'america/us-rolags.json': usRolags,
  'america/us-ut-r714-160.json': usUtR714160,
  'america/us-va-19vac30-70-580.json': usVa19vac3070580,
  'america/us-wv-inspection.json': usWvInspection,
  'europe/at-57a-2019.json': at57a2019,
  'europe/ch-vts-2019.json': chVts2019,
  'europe/de-verkehrsblatt-1986.json': deVerkehrsblatt1986,
  'europe/de-verkehrsblatt-1986-over-3500kg.json': deVerkehrsblatt1986Over3500kg,
  'europe/eaeu-tr-cu-018-2011.json': eaeuTrCu0182011,
  'europe/fr-controle-technique-2018.json': frControleTechnique2018,
  'europe/gb-bs-au-242a-1998.json': gbBsAu242a1998,
  'europe/gb-bs-au-242b-2022.json': gbBsAu242b2022,
  'europe/gb-bs-au-242b-2022-over-3500kg.json': gbBsAu242b2022Over3500kg,
  'europe/gb-mot-over-3500kg.json': gbMotOver3500kg,
  'europe/gb-mot-up-to-3500kg.json': gbMotUpTo3500kg,
  'europe/ie-nct.json': ieNct,
  'europe/nl-rdw-2005.json': nlRdw2005,
  'europe/nl-rdw-2005-over-3500kg.json': nlRdw2005Over3500kg,
  'europe/se-besiktning.json': seBesiktning,
  'europe/ua-gstu-3649-97.json': uaGstu364997,
  'oceania/as-nzs-2366-1-1999.json': asNzs236611999,
  'oceania/au-nsw-vsi-3.json': auNswVsi3,
  'oceania/au-qld-inspection.json': auQldInspection,
  'oceania/au-vic-roadworthiness.json': auVicRoadworthiness,
  'oceania/nz-virm-in-service.json': nzVirmInService,
};

export function loadBuiltInRuleSets(): Checked<readonly RuleSet[]> {
  const checked = Object.entries(BUILT_IN).map(([file, set]) => parseRuleSet(set, file));
  const problems = checked.flatMap((one) => (one.ok ? [] : one.problems));
  if (problems.length > 0) return { ok: false, problems };
  const sets = checked.flatMap((one) => (one.ok ? [one.value] : []));
  return { ok: true, value: sets.toSorted((a, b) => (a.id < b.id ? -1 : 1)) };
}
