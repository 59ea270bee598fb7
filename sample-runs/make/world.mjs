/** The invented world of the sample lots: the maker, its lab, its people, its rim and the federation it rides under. */

export const lab = {
  lab: 'saltmarsh',
  name: 'Saltmarsh Wheelworks test lab',
  address: 'Saltmarsh Wheelworks, Test House\nOld Sluice Yard 3\nSaltmarsh',
  zone: 'Europe/Copenhagen',
};

/**
 * Seven people. Nobody holds both sides of a pair that must not meet on one thing: who records neither reviews nor
 * decides, who reviews does not decide, who calibrates does not review, and who keeps the accounts signs nothing.
 */
export const people = [
  { person: 'i-sorbo', name: 'Ingrid Sørbø', role: 'Design engineer, rims', duties: ['define'] },
  {
    person: 'b-ravenscroft',
    name: 'Bartholomew Ravenscroft-Achterberg van der Wielenmaker',
    role: 'Test engineer',
    duties: ['record'],
  },
  { person: 'd-zunic', name: 'Đorđe Žunić', role: 'Traceability clerk, stores', duties: ['draw', 'trace'] },
  { person: 'c-marandu', name: 'Chipo Marandu', role: 'Metrologist', duties: ['calibrate'] },
  { person: 'a-grossmann', name: 'Anneliese Größmann', role: 'Head of the lab', duties: ['review', 'issue'] },
  { person: 't-ibanez', name: 'Tomás Ibáñez Quirós', role: 'Head of quality', duties: ['define', 'decide'] },
  { person: 'y-hamasaki', name: 'Yūko Hamasaki', role: 'Works office', duties: ['audit', 'administer'] },
];

/** Who does what in every lot; limits, methods and plans are proposed by the design engineer. */
export const WHO = {
  approves: 't-ibanez',
  records: 'b-ravenscroft',
  draws: 'd-zunic',
  reviews: 'a-grossmann',
  calibrates: 'Chipo Marandu',
};

export const customer = { name: 'Saltmarsh Wheelworks, rim design office', contact: 'Ingrid Sørbø' };

export const product = {
  product: 'dunlin-42',
  name: 'Dunlin 42',
  description: 'Hooked composite rim, 42 mm deep, 622 mm bead seat, 36 spoke holes, for tandem and touring wheels.',
  beadStyle: 'hooked',
  brakeKind: 'disc',
  markedMaximum: { value: 830, unit: 'kPa', entered: { text: '8.3', unit: 'bar' } },
  innerWidth: { value: 19, unit: 'mm' },
};

/** The sister with brake tracks, for tandems that carry a rim brake as their drag brake. */
export const productWithTracks = {
  ...product,
  product: 'dunlin-42-r',
  name: 'Dunlin 42 R',
  description:
    'Hooked composite rim with brake tracks, 42 mm deep, 622 mm bead seat, 36 spoke holes, for tandem and touring wheels with rim brakes.',
  brakeKind: 'rim',
  glassTransition: { dry: { value: 185, unit: 'Cel' }, source: 'resin data sheet RS-4, 2025 (invented)' },
};

const federation = {
  revision: 1,
  basis: 'governing body',
  appliesTo: 'composite rims marked 8 bar or more; touring and tandem events; every brake kind',
  edition: '4th edition',
  inForceFrom: '2026-01-01',
  approvedBy: WHO.approves,
  standing: 'example to be confirmed',
  decisionRule: { rule: 'simple' },
};
const ruleBook = 'Overland Cycling Federation (invented), OCF Technical Rules, part W (wheels)';

export const limits = {
  rimBurst: {
    bound: 'at least',
    ...federation,
    limit: 'OCF-W-7.2',
    title: 'Rim strength under pressure',
    characteristic: 'burstPressure',
    source: `${ruleBook}, 7.2: a rim marked 8 bar or more shall hold 15 bar.`,
    value: 1500,
    unit: 'kPa',
  },
  hold: {
    bound: 'at least',
    ...federation,
    limit: 'OCF-W-7.3',
    title: 'Tyre stays on at 110 % of the marked pressure',
    characteristic: 'longestHold',
    source: `${ruleBook}, 7.3: with a tyre, 110 % of the lower of the pressures marked on rim and tyre, 5 min; the tyre stays on.`,
    value: 300,
    unit: 's',
  },
  rimProof: {
    bound: 'at least',
    ...federation,
    limit: 'OCF-W-7.4',
    title: 'Rim holds 150 % of the marked pressure with a tyre',
    characteristic: 'burstPressure',
    source: `${ruleBook}, 7.4: with a tyre, the rim shall hold 1.5 times the pressure marked on it (8.3 bar: 12.45 bar).`,
    value: 1245,
    unit: 'kPa',
  },
  internalBurst: {
    bound: 'at least',
    limit: 'SW-RIM-BURST',
    revision: 2,
    title: 'Rim strength under pressure, own limit',
    characteristic: 'burstPressure',
    basis: 'internal',
    appliesTo: 'Dunlin rims before release of a lot',
    source: 'Saltmarsh Wheelworks design sheet DS-42-03: 17.5 bar, a little over twice the marked pressure.',
    edition: 'issue C',
    inForceFrom: '2026-03-02',
    approvedBy: WHO.approves,
    standing: 'confirmed by the lab',
    decisionRule: { rule: 'guarded', r: 1 },
    value: 1750,
    unit: 'kPa',
  },
  heat: {
    bound: 'at least',
    ...federation,
    limit: 'OCF-W-8.1',
    title: 'Rim takes the heat of a long descent',
    characteristic: 'energySurvived',
    appliesTo: 'composite rims with brake tracks; touring and tandem events; rim brakes',
    source: `${ruleBook}, 8.1: at 300 W for 15 min and then at 600 W, in an air stream of 30 km/h, the rim shall take 125 Wh (450 kJ) of braking before it or its tyre lets go.`,
    value: 450,
    unit: 'kJ',
  },
  internalHeat: {
    bound: 'at least',
    limit: 'SW-RIM-HEAT',
    revision: 1,
    title: 'Rim takes the heat of a long descent, own limit',
    characteristic: 'energySurvived',
    basis: 'internal',
    appliesTo: 'Dunlin rims with brake tracks before release of a lot',
    source: 'Saltmarsh Wheelworks design sheet DS-42-07: 160 Wh (576 kJ), the brake-heat profile of a 900 m descent.',
    edition: 'issue A',
    inForceFrom: '2026-06-15',
    approvedBy: WHO.approves,
    standing: 'confirmed by the lab',
    decisionRule: { rule: 'guarded', r: 1 },
    value: 576,
    unit: 'kJ',
  },
  strike: {
    bound: 'at least',
    ...federation,
    limit: 'OCF-W-9.1',
    title: 'Wheel survives a strike of 40 J',
    characteristic: 'failureEnergy',
    appliesTo: 'wheels with composite rims; touring and tandem events; every brake kind',
    source: `${ruleBook}, 9.1: struck once without a tyre at 90° from the valve with at least 40 J, the wheel shall show no crack, no delamination and no broken spoke.`,
    value: 40,
    unit: 'J',
  },
  lateralRunOut: {
    bound: 'at most',
    ...federation,
    limit: 'OCF-W-9.2',
    title: 'Lateral run-out changes little by the strike',
    characteristic: 'lateralRunOutChange',
    appliesTo: 'wheels with composite rims; touring and tandem events; every brake kind',
    source: `${ruleBook}, 9.2: after the strike of 9.1 lateral run-out shall be larger by 0.5 mm at most.`,
    value: 0.5,
    unit: 'mm',
  },
  radialRunOut: {
    bound: 'at most',
    ...federation,
    limit: 'OCF-W-9.3',
    title: 'Radial run-out changes little by the strike',
    characteristic: 'radialRunOutChange',
    appliesTo: 'wheels with composite rims; touring and tandem events; every brake kind',
    source: `${ruleBook}, 9.3: after the strike of 9.1 radial run-out shall be larger by 0.5 mm at most.`,
    value: 0.5,
    unit: 'mm',
  },
  internalStrike: {
    bound: 'at least',
    limit: 'SW-WHEEL-DROP',
    revision: 1,
    title: 'Wheel survives rising strikes, own limit',
    characteristic: 'failureEnergy',
    basis: 'internal',
    appliesTo: 'wheels with Dunlin rims before release of a lot',
    source: 'Saltmarsh Wheelworks design sheet DS-42-09: strikes at one point, 10 J more each time, whole up to 62 J.',
    edition: 'issue A',
    inForceFrom: '2026-06-15',
    approvedBy: WHO.approves,
    standing: 'confirmed by the lab',
    decisionRule: { rule: 'simple' },
    value: 62,
    unit: 'J',
  },
  internalTemperature: {
    bound: 'at least',
    limit: 'SW-RIM-TEMP',
    revision: 1,
    title: 'Track temperature at which a rim lets go, own limit',
    characteristic: 'temperatureAtFailure',
    basis: 'internal',
    appliesTo: 'wheels with Dunlin rims with brake tracks that are dragged until something lets go',
    source: 'Saltmarsh Wheelworks design sheet DS-42-11: 170 °C at the track.',
    edition: 'issue A',
    inForceFrom: '2026-08-03',
    approvedBy: WHO.approves,
    standing: 'confirmed by the lab',
    decisionRule: { rule: 'simple' },
    value: 170,
    unit: 'Cel',
  },
  internalOnset: {
    bound: 'at least',
    limit: 'SW-WHEEL-ONSET',
    revision: 1,
    title: 'Force at which a wheel begins to give way, own limit',
    characteristic: 'onsetForce',
    basis: 'internal',
    appliesTo: 'wheels with Dunlin rims that are struck once until they give way',
    source: 'Saltmarsh Wheelworks design sheet DS-42-12: 9 kN.',
    edition: 'issue A',
    inForceFrom: '2026-08-03',
    approvedBy: WHO.approves,
    standing: 'confirmed by the lab',
    decisionRule: { rule: 'simple' },
    value: 9,
    unit: 'kN',
  },
};

/** @param {{ limit: string, revision: number }} limit */
export function limitRef({ limit, revision }) {
  return { limit, revision };
}
