/**
 * How long the judgement of a lot of 30 takes, with every criterion that needs no simulation for the lot: the lot of burst
 * rims of the sample lots, its runs judged again and again under other names, strengths a little apart.
 */
import { fileURLToPath } from 'node:url';
import { evaluateLot, judgeLot, judgeRun } from '@breakbook/acceptance';
import { openLotFolder } from '../../apps/cli/dist/lot-folder.js';

const LOT = fileURLToPath(new URL('../../sample-runs/dunlin-42-keyed', import.meta.url));
const SPECIMENS = 30;
const WANTED = 50;

const criteriaOn = (limit, modes) => {
  const bound = { kind: 'tolerance bound', limit, coverage: 0.9, confidence: 0.9 };
  return [
    { kind: 'every specimen', limit },
    { kind: 'failures at most', limit, allowed: 1 },
    ...['normal', 'lognormal', 'weibull', 'distribution-free'].map((distribution) => ({ ...bound, distribution })),
    { kind: 'zero failures', limit, reliability: 0.9, confidence: 0.9 },
    {
      kind: 'zero failures',
      limit,
      reliability: 0.9,
      confidence: 0.9,
      raised: { loadRatio: 1.05, shape: 10, shapeSource: 'invented', lowerShapes: [5], modes },
    },
    { kind: 'mean', limit, confidence: 0.95 },
  ].map((criterion, index) => ({ criterion: `c-${index}`, ...criterion }));
};

/** Prints what one judgement takes, the runs' own verdicts included and apart. */
export function benchJudging() {
  const { bundle, filesOf } = openLotFolder(LOT);
  const { runs } = evaluateLot(bundle, filesOf);
  const [first] = bundle.plan.lines;
  const [limit] = first.limits;
  const modes = [...new Set(runs.flatMap(({ run }) => run.examination?.modes.map(({ code }) => code) ?? []))];
  const plan = {
    ...bundle.plan,
    claim: { ...bundle.plan.claim, population: 'process', pooling: 'none' },
    lines: [
      {
        ...first,
        specimens: SPECIMENS,
        criteria: criteriaOn(limit, modes),
        limits: first.limits,
        combination: undefined,
      },
    ],
  };
  // Rims left whole would have their bounds calibrated by simulation.
  const valid = runs.filter(
    ({ run }) => run.planLine === first.line && run.examination?.endReason === 'something broke',
  );
  const copies = Array.from({ length: SPECIMENS }, (_, index) => {
    const one = valid[index % valid.length];
    const run = { ...one.run, run: `B-${index}`, specimen: `B-${index}` };
    const characteristics = one.reading.characteristics.map((each) =>
      each.value.kind === 'exact' ? { ...each, value: { kind: 'exact', value: each.value.value + index } } : each,
    );
    return { run, reading: { ...one.reading, run: run.run, characteristics } };
  });
  const specimens = copies.map(({ run }) => ({
    ...bundle.specimens[0],
    specimen: run.specimen,
    origin: 'drawn at random',
  }));
  const { methods, limits, lot } = bundle;
  const methodOf = ({ run }) =>
    methods.find(({ method, revision }) => method === run.method && revision === run.methodRevision);
  const verdicts = () =>
    copies.map((one) => ({ ...one, judgement: judgeRun({ plan, method: methodOf(one), limits, ...one }) }));
  const judgedRuns = verdicts();
  const judge = (some) => judgeLot({ plan, lot, methods, limits, specimens, runs: some });

  const { criteria } = judge(judgedRuns).lines[0];
  const best = (run) => {
    const rounds = Array.from({ length: 20 }, () => {
      const start = performance.now();
      run();
      return performance.now() - start;
    });
    return Math.min(...rounds);
  };
  const lotAlone = best(() => judge(judgedRuns));
  const all = best(() => judge(verdicts()));
  console.log(
    `\n${SPECIMENS} specimens, ${criteria.length} criteria (${criteria.map(({ outcome }) => outcome).join(', ')}):`,
  );
  console.log(
    `  the lot ${lotAlone.toFixed(1)} ms; verdicts on each specimen too ${all.toFixed(1)} ms; wanted ${WANTED} ms${all <= WANTED ? '' : ' (missed)'}`,
  );
}
