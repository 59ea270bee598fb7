import { LotBundle } from '@breakbook/lab';
import { describe, expect, it } from 'vitest';
import { bundleOf } from '../fixtures/invented-bundle.js';
import { checkBundle } from './check-bundle.js';

/** One change to a bundle in which everything fits, by the JSON Pointer of its place. */
function changed(pointer: string, value: unknown): LotBundle {
  const bundle = structuredClone(bundleOf());
  const parts = pointer.split('/').slice(1);
  const last = parts.pop() as string;
  let here = bundle as unknown as Record<string, unknown>;
  for (const part of parts) here = here[part] as Record<string, unknown>;
  if (value === undefined) delete here[last];
  else here[last] = value;
  return bundle;
}

function movedBy(person: string, movedAt = '2031-02-05T11:00:00Z') {
  return { instant: 'failure', at: 12, reason: 'heard on the film', person, movedAt };
}

describe('checkBundle', () => {
  it('finds nothing wrong where everything fits, and the schema agrees', () => {
    expect(checkBundle(bundleOf())).toEqual([]);
    expect(LotBundle.safeParse(bundleOf()).success).toBe(true);
  });

  it.each<[pointer: string, value: unknown, code: string, words: string, place?: string]>([
    ['/lab/zone', 'Europe/Atlantis', 'meta.unknown', 'no zone of the time-zone database'],
    ['/plan/product', 'HERON-30', 'state.conflict', 'is for product HERON-30'],
    ['/lot/product', 'HERON-30', 'state.conflict', 'lot L-0031 is of product HERON-30'],
    ['/plan/approvedBy', 'zoe', 'body.not-found', 'there is no person zoe'],
    ['/lot/sampling/drawnBy', 'zoe', 'body.not-found', 'there is no person zoe'],
    ['/limits/0/approvedBy', 'zoe', 'body.not-found', 'there is no person zoe'],
    ['/methods/0/approvedBy', 'zoe', 'body.not-found', 'there is no person zoe'],
    ['/lot/size', 4, 'state.conflict', '5 specimens cannot come from lot L-0031 of 4', '/specimens'],
    ['/specimens/2/lot', 'L-0030', 'state.conflict', 'specimen 0403 is of lot L-0030'],
    [
      '/specimens/2/build',
      { moulded: 'cem' },
      'duty.conflict',
      'cem drew the specimens and built specimen 0403',
      '/lot/sampling/drawnBy',
    ],
    ['/specimens/2/specimen', '0402', 'meta.duplicate', '0402 stands at /specimens/1 already'],
    ['/runs/2/run', 'R-1', 'meta.duplicate', 'R-1 stands at /runs/0 already'],
    ['/plan/lines/0/methodRevision', 9, 'body.not-found', 'there is no method BURST rev. 9'],
    ['/plan/lines/0/characteristic', 'rimWidth', 'meta.unknown', 'does not give. It gives burstPressure, rampRate'],
    ['/plan/lines/0/specimens', 41, 'state.conflict', 'asks for 41 specimens of a lot of 40'],
    [
      '/plan/lines/0/limits/1/revision',
      5,
      'body.not-found',
      'there is no limit BP-EXT rev. 5',
      '/plan/lines/0/limits/1',
    ],
    ['/limits/1/characteristic', 'rimWidth', 'meta.unknown', 'BP-EXT rev. 2 is about rimWidth'],
    ['/limits/1/unit', 'mm', 'unit.wrong-dimension', 'is in mm, and burstPressure is given in kPa'],
    [
      '/limits/1/inForceFrom',
      '2031-02-02',
      'state.conflict',
      'is in force from 2031-02-02, and the plan was approved on 2031-02-01',
      '/plan/lines/0/limits/1',
    ],
    [
      '/runs/1/specimen',
      '0999',
      'meta.unknown',
      'run R-2 is on specimen 0999, which is not among the specimens of lot L-0031',
    ],
    ['/runs/1/planLine', 'heat', 'meta.unknown', 'names plan line heat, and plan P-DUNLIN rev. 1 has burst'],
    [
      '/runs/1/methodRevision',
      2,
      'state.conflict',
      'was made by BURST rev. 2, and line burst asks for BURST rev. 3',
      '/runs/1/method',
    ],
    ['/runs/1/rig', undefined, 'body.missing-field', 'needs its rig and the layout revision'],
    ['/runs/1/rig', 'RIG-9', 'meta.unknown', 'there is no rig RIG-9'],
    ['/runs/1/layoutRevision', 4, 'body.not-found', 'rig RIG-1 has no layout revision 4'],
    ['/runs/1/operator', 'zoe', 'body.not-found', 'there is no person zoe'],
    ['/runs/1/examination/person', 'zoe', 'body.not-found', 'there is no person zoe'],
    ['/runs/1/validity/person', 'zoe', 'body.not-found', 'there is no person zoe'],
    [
      '/runs/1/examination/modes/0/code',
      'BF-NEW',
      'meta.unknown',
      'knows no failure mode BF-NEW. It knows BF-FLG, BT-OFF, BX-PUMP',
    ],
    [
      '/runs/1/validity/person',
      'ben',
      'duty.conflict',
      'ben decided that run R-2 is valid and ran it and examined its specimen',
    ],
    ['/runs/1/files/0/name', 'R-1.csv', 'run.duplicate', 'R-1.csv is the file of run R-1 already'],
    [
      '/runs/1/startedAt',
      '2031-01-31T09:00:00Z',
      'state.conflict',
      'before plan P-DUNLIN rev. 1 was approved on 2031-02-01',
    ],
    [
      '/methods/0/inForceFrom',
      '2031-02-06',
      'state.conflict',
      'before BURST rev. 3 came into force',
      '/runs/0/startedAt',
    ],
    [
      '/specimens/1/receivedAt',
      '2031-02-06T08:00:00Z',
      'state.conflict',
      'before specimen 0402 was received',
      '/runs/1/startedAt',
    ],
    ['/runs/1/examination/at', '2031-02-05T08:00:00Z', 'state.conflict', 'was examined before it started'],
    ['/runs/1/validity/at', '2031-02-05T08:00:00Z', 'state.conflict', 'was decided before it started'],
    ['/runs/1/instants', [movedBy('zoe')], 'body.not-found', 'there is no person zoe', '/runs/1/instants/0/person'],
    [
      '/runs/1/instants',
      [movedBy('ben', '2031-02-05T08:00:00Z')],
      'state.conflict',
      'has a moment moved before it started',
      '/runs/1/instants/0/movedAt',
    ],
    [
      '/runs/1/instants',
      [movedBy('dot')],
      'duty.conflict',
      'dot decided that run R-2 is valid and moved a moment of its record',
      '/runs/1/validity/person',
    ],
    ['/rigs/0/placements/0/sensor', 'PT-9', 'body.not-found', 'there is no sensor PT-9'],
    ['/calibrations/0/sensor', 'PT-9', 'body.not-found', 'there is no sensor PT-9'],
    ['/layouts/0/rig', 'RIG-9', 'body.not-found', 'there is no rig RIG-9'],
  ])('%s = %j: %s', (pointer, value, code, words, place = pointer) => {
    expect(checkBundle(changed(pointer, value))).toContainEqual(
      expect.objectContaining({ code, pointer: place, detail: expect.stringContaining(words) }),
    );
  });

  it('names the revision that had taken a limit over', () => {
    const bundle = bundleOf();
    const [first] = bundle.limits;
    if (!first) throw new Error('the fixture has limits');
    bundle.limits.push({ ...first, revision: 3, inForceFrom: '2031-01-15' });
    expect(checkBundle(bundle)).toMatchObject([
      {
        code: 'state.conflict',
        pointer: '/plan/lines/0/limits/0',
        detail: expect.stringContaining('rev. 3 had taken its place on 2031-01-15'),
      },
    ]);
  });

  it('takes a limit that came into force on the very day, and a later revision that came after it', () => {
    const bundle = changed('/limits/0/inForceFrom', '2031-02-01');
    const [first] = bundle.limits;
    if (!first) throw new Error('the fixture has limits');
    bundle.limits.push({ ...first, revision: 3, inForceFrom: '2031-02-02' });
    expect(checkBundle(bundle)).toEqual([]);
  });

  it('refuses a lower bound against a limit that is no lower one', () => {
    const bundle = bundleOf();
    const [limit] = bundle.limits;
    const [line] = bundle.plan.lines;
    if (!limit || !line) throw new Error('the fixture has a limit and a line');
    bundle.limits[0] = { ...limit, bound: 'at most', value: 2000 } as typeof limit;
    line.criteria = [
      {
        kind: 'tolerance bound',
        criterion: 'b',
        limit: { limit: limit.limit, revision: limit.revision },
        distribution: 'normal',
        coverage: 0.9,
        confidence: 0.95,
      },
    ];
    expect(checkBundle(bundle)).toMatchObject([{ code: 'state.conflict', pointer: '/plan/lines/0/criteria/0/limit' }]);
  });

  // 2031-01-31T23:30Z is 1 February in Helsinki (UTC+2 in winter; IANA time-zone database).
  it("counts days in the lab's zone", () => {
    const bundle = changed('/lab/zone', 'Europe/Helsinki');
    bundle.runs = bundle.runs.slice(0, 1).map((run) => ({ ...run, startedAt: '2031-01-31T23:30:00Z' }));
    bundle.specimens = bundle.specimens.map((one) => ({ ...one, receivedAt: '2031-01-30T08:00:00Z' }));
    expect(checkBundle(bundle)).toEqual([]);
    bundle.lab.zone = 'Europe/Lisbon';
    expect(checkBundle(bundle)).toMatchObject([{ code: 'state.conflict', pointer: '/runs/0/startedAt' }]);
  });
});
