/**
 * Two pairs of wheels bought at a market, each compared with the same reference: what was asked, what was declared before
 * testing, who had the wheels in hand, and what was seen on them.
 *
 * The first pair was made elsewhere: a word of the label misspelt, lighter, fewer plies, and it lets go about 100 °C
 * earlier, both tracks molten, while a strike pulls its spokes out (common practice, no source). The second pair was made
 * by the maker. In the custody of one wheel of the first pair nobody wrote down one hand-over.
 */

import { doubtfulLots, EXAMINER, FIRST_PAIR, LOTS, SECOND_PAIR } from './doubtful-lots.mjs';
import { hardDrop, heatEnd } from './end-methods.mjs';
import { later } from './recorded-run.mjs';
import { productWithTracks, WHO } from './world.mjs';

/** Who defines what is compared, and with what. */
const CHOOSES = 'i-sorbo';
const BALANCE = 'balance WB-3, certificate SWL-26-194';
const GAUGE = 'inside calliper IC-2, certificate SWL-26-195';
const OUTSIDE = 'Estuary Materials Laboratory (invented)';
const LABEL = 'DUNLIN 42 R / 622 x 19C / MAX 8.3 BAR / SALTMARSH WHEELWORKS';
const PLIES = '14 plies: 0/45/-45/0/90/0/45/-45/0/90/0/-45/45/0';
const DRILLED = '36 holes, offset left and right in turn by 2 mm, drilled after cure';
const MARKED = 'serial engraved by laser inside the bed, left of the valve hole';

const features = [
  {
    feature: 'label-text',
    title: 'Text of the label',
    kind: 'label text',
    howRead: 'Letter by letter as printed; a stroke between lines; capitals as capitals.',
    changesItem: false,
  },
  {
    feature: 'serial-mark',
    title: 'How the serial is marked',
    kind: 'marking',
    howRead: 'How it was put on and where, seen from the valve side.',
    changesItem: false,
  },
  {
    feature: 'spoke-holes',
    title: 'Drilling of the spoke holes',
    kind: 'drilling',
    howRead: 'Number, offset to the nearest millimetre, and whether fibres are cut.',
    changesItem: false,
  },
  {
    feature: 'mass',
    title: 'Mass of the wheel',
    kind: 'mass',
    howRead: 'Without tyre, rim tape and skewer, spoke reflectors taken off.',
    changesItem: false,
  },
  {
    feature: 'inner-width',
    title: 'Inner width of the rim',
    kind: 'dimension',
    howRead: 'Between the hooks, mean of four places a quarter turn apart.',
    changesItem: false,
  },
  {
    feature: 'plies',
    title: 'Ply count and order beside the valve hole',
    kind: 'ply count and order',
    howRead:
      'Polished section 40 mm from the valve hole, of what is left after the test; from outside to inside, degrees to the hoop.',
    changesItem: true,
  },
];

const ofRuns = (
  /** @type {string} */ name,
  /** @type {string} */ title,
  /** @type {{ method: string, revision: number }} */ method,
  /** @type {string} */ characteristic,
  /** @type {string} */ unit,
  /** @type {number} */ differenceThatMatters,
) => ({
  name,
  title,
  source: { from: 'runs', method: method.method, methodRevision: method.revision, characteristic },
  unit,
  tool: { kind: 'prediction', distribution: 'normal', of: 'each', side: 'below', lots: 'vary' },
  differenceThatMatters,
});
const ofExamination = (
  /** @type {string} */ feature,
  /** @type {string} */ title,
  /** @type {string} */ unit,
  /** @type {number} */ differenceThatMatters,
) => ({
  name: feature,
  title,
  source: { from: 'examination', feature },
  unit,
  tool: { kind: 'prediction', distribution: 'normal', of: 'each', side: 'either', lots: 'vary' },
  differenceThatMatters,
});

const characteristics = [
  ofRuns('heat', 'Track temperature at failure', heatEnd, 'temperatureAtFailure', 'Cel', 60),
  ofRuns('strike', 'Force at the onset of damage', hardDrop, 'onsetForce', 'kN', 5),
  ofExamination('mass', 'Mass of the wheel', 'g', 60),
  ofExamination('inner-width', 'Inner width of the rim', 'mm', 1),
];

const notExamined = [
  'age, storage and use before the wheels were bought',
  'resin family and fibre volume',
  'hubs, spokes and bearings, beyond their being there',
  'burst pressure, fatigue and braking in the wet',
];

const declared = {
  revision: 1,
  product: productWithTracks.product,
  characteristics,
  features,
  confidence: 0.95,
  correction: 'Holm',
  power: 0.9,
  notExamined,
  blind: { blinded: [WHO.records, WHO.reviews], listKeptBy: WHO.draws },
  seed: 20_261_026,
  declaredBy: CHOOSES,
};

/** @param {ReturnType<typeof doubtfulLots>['reference']} wheels */
function referenceOf(wheels) {
  return {
    reference: 'D42R-KNOWN',
    revision: 1,
    title: 'Dunlin 42 R of four production lots, March to June 2026',
    product: productWithTracks.product,
    madeFrom: '2026-03-09',
    madeTo: '2026-06-12',
    choice:
      'Every wheel that was drawn by lot from the four production lots of the period and tested to the end in August and September; none was left out. Chosen before any wheel from the market was looked at.',
    units: wheels.map(({ specimen, lot, serial }) => ({ specimen, lot, serial })),
    variants: {
      list: 'change notes and label orders of Dunlin 42 R, January to September 2026',
      checkedBy: WHO.draws,
      features: {
        'label-text': ['DUNLIN 42 R / 622 x 19C / MAX 830 KPA / SALTMARSH WHEELWORKS'],
        'serial-mark': [],
        'spoke-holes': [],
        plies: [],
      },
    },
    chosenBy: CHOOSES,
    frozenAt: '2026-10-23T13:00:00Z',
  };
}

/** @typedef {{ specimen: string, mass: number, width: number, label: string, mark: string, holes: string, plies?: string, at: string, pliesAt: string }} Looked */

/** @param {Looked} looked */
function observationsOf({ specimen, mass, width, label, mark, holes, plies, at, pliesAt }) {
  const by = EXAMINER.person;
  const seen = (/** @type {string} */ feature, /** @type {string} */ what, /** @type {number} */ minutes) => ({
    specimen,
    feature,
    seen: what,
    by,
    at: later(at, minutes),
  });
  return [
    seen('label-text', label, 0),
    seen('serial-mark', mark, 3),
    seen('spoke-holes', holes, 8),
    {
      specimen,
      feature: 'mass',
      quantity: { value: mass, unit: 'g' },
      instrument: BALANCE,
      by,
      at: later(at, 12),
    },
    {
      specimen,
      feature: 'inner-width',
      quantity: { value: width, unit: 'mm' },
      instrument: GAUGE,
      by,
      at: later(at, 18),
    },
    ...(plies
      ? [
          {
            specimen,
            feature: 'plies',
            seen: plies,
            givenBy: 'outside provider',
            provider: OUTSIDE,
            note: 'Section of what was left of the rim; report of the laboratory on file.',
            by,
            at: pliesAt,
          },
        ]
      : []),
  ];
}

const locked = { at: '2026-11-25T09:00:00Z', by: WHO.approves };

/** The wheels of the reference; one of each lot was cut for its plies. @param {ReturnType<typeof doubtfulLots>['reference']} wheels */
function seenOnReference(wheels) {
  const cut = LOTS.map(({ lot }) => wheels.find((wheel) => wheel.lot === lot)?.specimen);
  return wheels.flatMap(({ specimen, mass, width }, index) =>
    observationsOf({
      specimen,
      mass,
      width,
      label: LABEL,
      mark: MARKED,
      holes: DRILLED,
      ...(cut.includes(specimen) ? { plies: PLIES } : {}),
      at: later('2026-08-13T08:30:00Z', 22 * index),
      pliesAt: '2026-10-05T14:00:00Z',
    }),
  );
}

const STORES = 'Finished-goods store, locked cage 2';
const BENCH = 'Examination room';
const WHOLE = 'Seen as new, no damage; nothing missing.';

/**
 * From the goods door to what is left of the wheel.
 * @param {{ specimen: string, broughtBy: string, bought: string, received: string, test: 'drag' | 'strike', tested: string, left: string, seals: [string, string, string], unwritten?: boolean }} story
 */
function custodyOf({ specimen, broughtBy, bought, received, test, tested, left, seals, unwritten }) {
  const bay = test === 'drag' ? 'Test House, bay 3' : 'Test House, bay 4';
  const store = WHO.draws;
  const event = (/** @type {string} */ step, /** @type {string} */ at, /** @type {object} */ rest) => ({
    specimen,
    step,
    at,
    changesItem: false,
    recordedBy: store,
    ...rest,
  });
  const [bag, box, remains] = seals;
  return [
    event('received', received, {
      from: broughtBy,
      to: store,
      place: 'Goods door',
      seal: bag,
      condition: `${bought} ${WHOLE} Put into a bag and sealed before witnesses.`,
    }),
    event('stored', later(received, 25), { to: store, place: STORES, seal: bag, condition: 'Bag and seal whole.' }),
    event('handed over', later(received, 24 * 60), {
      from: store,
      to: EXAMINER.person,
      place: BENCH,
      seal: bag,
      condition: 'Bag and seal whole.',
    }),
    event('seal opened', later(received, 24 * 60 + 10), {
      to: EXAMINER.person,
      place: BENCH,
      seal: bag,
      condition: WHOLE,
      recordedBy: EXAMINER.person,
    }),
    event('examined', later(received, 24 * 60 + 20), {
      to: EXAMINER.person,
      place: BENCH,
      condition:
        'Looked at, photographed, measured and weighed; nothing changed. Labels, serial and print then covered by tape.',
      recordedBy: EXAMINER.person,
    }),
    event('sealed', later(received, 26 * 60), {
      to: EXAMINER.person,
      place: BENCH,
      seal: box,
      condition: 'In a box under its blind code.',
      recordedBy: EXAMINER.person,
    }),
    event('handed over', later(received, 26 * 60 + 15), {
      from: EXAMINER.person,
      to: store,
      place: STORES,
      seal: box,
      condition: 'Box and seal whole.',
    }),
    event('handed over', later(tested, -40), {
      from: unwritten ? 'y-hamasaki' : store,
      to: WHO.records,
      place: bay,
      seal: box,
      condition: unwritten
        ? 'Box and seal whole. It stood in the works office; no entry tells how it came there from the cage.'
        : 'Box and seal whole.',
    }),
    event('seal opened', later(tested, -30), {
      to: WHO.records,
      place: bay,
      seal: box,
      condition: 'As it was when it was sealed; tape in place.',
      recordedBy: WHO.records,
    }),
    event('tested', tested, {
      to: WHO.records,
      place: bay,
      condition: left,
      changesItem: true,
      recordedBy: WHO.records,
    }),
    event('sealed', later(tested, 130), {
      to: WHO.records,
      place: bay,
      seal: remains,
      condition: 'All that was left, loose pieces bagged with it.',
      recordedBy: WHO.records,
    }),
    event('handed over', later(tested, 150), {
      from: WHO.records,
      to: store,
      place: STORES,
      seal: remains,
      condition: 'Seal whole.',
    }),
    event('given out', '2026-11-19T08:30:00Z', {
      from: store,
      to: OUTSIDE,
      place: 'Goods door, by own courier',
      seal: remains,
      condition:
        'A piece of 60 mm beside the valve hole, cut off before a witness, in a bag under this seal. What is left stays in the cage.',
      changesItem: true,
    }),
  ];
}

const PAIRS = {
  first: {
    broughtBy: 'Ferdinand Achterop, who had bought the pair',
    bought: 'Bought on Sunday 11 October 2026 at the Fenbridge Sunday market, third row, cash, no receipt.',
    received: '2026-10-27T09:00:00Z',
  },
  second: {
    broughtBy: 'Mariam Oduya-Lindqvist, who had bought the pair',
    bought:
      'Bought on Sunday 18 October 2026 at the Fenbridge Sunday market, from a private table, cash, hand-written receipt.',
    received: '2026-10-27T09:40:00Z',
  },
};

const MOLTEN = 'Let go in the drag: both brake tracks molten, flange spread.';
const OPENED = 'Let go in the drag: flange spread and split.';
const OUT = 'Gave way in the strike: spokes pulled out of the rim.';
const CRACKED = 'Gave way in the strike: sidewall dull and cracked, spokes in place.';

/** @param {{ broughtBy: string }} pair @param {string} why */
function consentsOf({ broughtBy }, why) {
  return [
    {
      kind: 'consent',
      party: broughtBy,
      about:
        'Both wheels may be tested until they break and cut up afterwards; what is left stays under seal until 31 December 2028.',
      at: '2026-10-27T09:10:00Z',
      recordedBy: EXAMINER.person,
    },
    {
      kind: 'notice',
      party: 'Office of the Fenbridge Sunday market, for the seller',
      about: `${why} The seller may attend or name somebody until 13 November 2026. Sent by recorded post; nobody answered.`,
      at: '2026-10-30T15:00:00Z',
      recordedBy: EXAMINER.person,
    },
  ];
}

const question = (/** @type {readonly string[]} */ [dragged, struck]) =>
  `Do the wheels ${dragged} and ${struck} agree with wheels of the model Dunlin 42 R made from March to June 2026 in track temperature at failure, force at the onset of damage, mass and inner width, and in label, serial mark, drilling and plies? Each takes one test that ends it: ${dragged} is dragged, ${struck} is struck.`;

export function doubtfulComparisons() {
  const { reference: wheels, items, documents, files } = doubtfulLots();
  const reference = referenceOf(wheels);
  const onReference = seenOnReference(wheels);
  const wheel = (/** @type {string} */ code) =>
    /** @type {(typeof items)[number]} */ (items.find(({ specimen }) => specimen === code));
  const looked = (/** @type {readonly string[]} */ pair, /** @type {string} */ at, /** @type {object} */ other) =>
    pair.flatMap((specimen, index) => {
      const { mass, width } = wheel(specimen);
      return observationsOf({
        specimen,
        mass,
        width,
        label: LABEL,
        mark: MARKED,
        holes: DRILLED,
        plies: PLIES,
        at: later(at, 30 * index),
        pliesAt: '2026-11-24T10:00:00Z',
        ...other,
      });
    });
  const compared = (/** @type {readonly string[]} */ pair) => ({
    what: 'items with a reference',
    reference: { reference: reference.reference, revision: reference.revision },
    items: [...pair],
  });
  const [firstDragged = '', firstStruck = ''] = FIRST_PAIR;
  const [secondDragged = '', secondStruck = ''] = SECOND_PAIR;

  return {
    folder: 'dunlin-42-doubtful',
    files,
    documents: {
      'comparison.json': {
        comparison: {
          comparison: 'D42R-C1',
          title: 'A pair of wheels bought at the Fenbridge Sunday market on 11 October 2026',
          question: question(FIRST_PAIR),
          compared: compared(FIRST_PAIR),
          ...declared,
          mayGoToCourt: true,
          declaredAt: '2026-10-26T14:00:00Z',
        },
        reference,
        custody: [
          ...custodyOf({
            specimen: firstDragged,
            ...PAIRS.first,
            test: 'drag',
            tested: '2026-11-17T07:30:00Z',
            left: MOLTEN,
            seals: ['SW-0417', 'SW-0431', 'SW-0452'],
          }),
          ...custodyOf({
            specimen: firstStruck,
            ...PAIRS.first,
            test: 'strike',
            tested: '2026-11-18T08:00:00Z',
            left: OUT,
            seals: ['SW-0418', 'SW-0432', 'SW-0454'],
            unwritten: true,
          }),
        ],
        consents: consentsOf(PAIRS.first, 'What is left may be put before a court.'),
        observations: [
          ...onReference,
          ...looked(FIRST_PAIR, '2026-10-28T09:20:00Z', {
            label: LABEL.replace('WHEELWORKS', 'WEELWORKS'),
            mark: 'serial printed on a sticker on the sidewall',
            plies: '11 plies: 0/45/-45/0/90/0/90/0/-45/45/0',
          }),
        ],
        locked,
      },
      'second-pair.json': {
        comparison: {
          comparison: 'D42R-C2',
          title: 'A pair of wheels bought at the Fenbridge Sunday market on 18 October 2026',
          question: question(SECOND_PAIR),
          compared: compared(SECOND_PAIR),
          ...declared,
          mayGoToCourt: false,
          declaredAt: '2026-10-26T14:20:00Z',
        },
        reference,
        custody: [
          ...custodyOf({
            specimen: secondDragged,
            ...PAIRS.second,
            test: 'drag',
            tested: '2026-11-17T08:50:00Z',
            left: OPENED,
            seals: ['SW-0419', 'SW-0433', 'SW-0453'],
          }),
          ...custodyOf({
            specimen: secondStruck,
            ...PAIRS.second,
            test: 'strike',
            tested: '2026-11-18T09:00:00Z',
            left: CRACKED,
            seals: ['SW-0420', 'SW-0434', 'SW-0455'],
          }),
        ],
        consents: consentsOf(PAIRS.second, 'The buyer asked for the comparison.'),
        observations: [...onReference, ...looked(SECOND_PAIR, '2026-10-28T10:20:00Z', {})],
        locked,
      },
      ...documents,
    },
  };
}
