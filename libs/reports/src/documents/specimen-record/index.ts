import { SPECIMEN_STATES } from '@breakbook/lab';
import { GIVEN_MARKS } from '../../content/given-by.js';
import type { DocumentSheet, Fact, Section } from '../../parts/blocks.js';
import { timeOf } from '../../words/dates.js';
import type { Printing } from '../../words/printing.js';
import { sheetWords } from '../../words/sheet-words.js';
import { termIn } from '../../words/terms.js';
import { quantityInWords } from '../../words/units.js';
import { numberOf } from '../lot-test-report/head.js';
import type { SpecimenRecordContent } from './content.js';
import { MESSAGES } from './messages.js';
import { runsSection } from './runs.js';

/** The life of one specimen: as it came, each state it was in, what was done with it, and what becomes of it. */
export function specimenRecord(content: SpecimenRecordContent, printing: Printing): DocumentSheet {
  const messages = MESSAGES[printing.language];
  const { identity, lab, product, lot, specimen, state, states } = content;
  const name = numberOf(identity, printing);
  const since = states.findLast((one) => one.state === state);
  return {
    words: sheetWords(printing),
    head: {
      issuer: { name: lab.name, address: lab.address },
      kind: messages.kind,
      subject: messages.subject({ specimen: specimen.specimen, product: product.name, lot: lot.lot }),
      number: name,
      outcome: {
        outcome: 'not evaluated',
        word: termIn(printing, state),
        sentence: since
          ? messages.sentence({
              specimen: specimen.specimen,
              state: termIn(printing, state),
              at: timeOf(since.at, lab.zone),
              by: since.by,
            })
          : messages.received(specimen.specimen, timeOf(specimen.receivedAt, lab.zone)),
      },
      state: termIn(printing, state),
      next: nextOf(content, printing),
      ...(identity.replaces
        ? { banner: messages.replaces({ ...identity.replaces, name: numberOf(identity.replaces, printing) }) }
        : {}),
      facts: factsOf(content, printing),
    },
    sections: [
      statesSection(content, printing),
      runsSection(content, printing),
      photosSection(content, printing),
      fateSection(content, printing),
      closingSection(content, printing),
    ],
    foot: { identity: `${messages.kind} ${name}`, notice: messages.notice },
    endMark: messages.endMark(name),
  };
}

function nextOf({ state, keeping, legalHolds }: SpecimenRecordContent, printing: Printing): string {
  const { next } = MESSAGES[printing.language];
  if (legalHolds.length > 0) return next.held;
  if (SPECIMEN_STATES.allows['make a run with it'].some((one) => one === state)) return next.run;
  return keeping && state !== 'disposed' ? next.keep(keeping.until) : next.none;
}

function factsOf(content: SpecimenRecordContent, printing: Printing): Fact[] {
  const messages = MESSAGES[printing.language];
  const { facts } = messages;
  const { identity, lab, customer, product, lot, drawnBy, specimen, report } = content;
  const build = Object.entries(specimen.build ?? {}).map(([name, value]) => `${name} ${value}`);
  return [
    { label: facts.customer, value: `${customer.name}; ${customer.contact}` },
    { label: facts.product, value: `${product.name} (${product.product})` },
    { label: facts.lot, value: `${lot.lot}, ${termIn(printing, lot.kind)}` },
    { label: facts.serial, value: specimen.serial ?? messages.noSerial(specimen.noSerialReason ?? '') },
    { label: facts.origin, value: termIn(printing, specimen.origin) },
    {
      label: facts.drawn,
      value: lot.sampling
        ? `${lot.sampling.drawnOn}, ${drawnBy ?? lot.sampling.drawnBy}: ${lot.sampling.rule}, ${lot.sampling.place}`
        : messages.asReceived,
    },
    { label: facts.received, value: `${timeOf(specimen.receivedAt, lab.zone)} (${lab.zone})` },
    { label: facts.condition, value: specimen.condition },
    {
      label: facts.mass,
      value: specimen.mass ? quantityInWords(specimen.mass.value, specimen.mass.unit, printing) : messages.notMeasured,
    },
    { label: facts.build, value: build.length === 0 ? messages.noneStated : build.join('; ') },
    { label: facts.report, value: report ? numberOf(report, printing) : messages.noReport },
    {
      label: facts.issued,
      value: `${timeOf(identity.issuedAt, lab.zone)} (${lab.zone}); ${identity.replaces ? numberOf(identity.replaces, printing) : messages.firstIssue}`,
    },
  ];
}

function statesSection({ states, lab }: SpecimenRecordContent, printing: Printing): Section {
  const { states: words } = MESSAGES[printing.language];
  return {
    heading: words.heading,
    blocks: [
      {
        block: 'table',
        columns: [{ title: words.since }, { title: words.state }, { title: words.by }, { title: words.said }],
        rows: states.map(({ state, at, by, note, run }) => [
          timeOf(at, lab.zone),
          termIn(printing, state),
          by,
          [...(run === undefined ? [] : [words.inRun(run)]), ...(note === undefined ? [] : [note])].join('; '),
        ]),
        empty: words.none,
      },
    ],
  };
}

function photosSection({ photos, lab }: SpecimenRecordContent, printing: Printing): Section {
  const { photos: words, runs } = MESSAGES[printing.language];
  return {
    heading: words.heading,
    blocks: [
      {
        block: 'table',
        columns: [{ title: words.file }, { title: words.caption }, { title: words.taken }, { title: words.digest }],
        rows: photos.map(({ name, caption, shows, run, takenBy, takenAt, device, sha256 }) => [
          name,
          {
            text: caption,
            under: [...(shows === undefined ? [] : [shows]), ...(run === undefined ? [] : [runs.ofRun(run)])].join(
              '; ',
            ),
          },
          { text: takenBy, under: `${timeOf(takenAt, lab.zone)}; ${device}` },
          sha256 ?? runs.unknown,
        ]),
        empty: words.none,
      },
      ...(photos.length === 0 ? [] : [{ block: 'paragraph', tone: 'note', text: words.note } as const]),
    ],
  };
}

function fateSection(content: SpecimenRecordContent, printing: Printing): Section {
  const { fate } = MESSAGES[printing.language];
  const { keeping, legalHolds, disposal, nonconformities, lab, runs } = content;
  const orNone = (items: readonly string[]) => (items.length === 0 ? fate.none : items.join('; '));
  const givers = [
    ...new Set(
      runs.flatMap(({ results }) => results.flatMap(({ givenBy }) => (givenBy ? [GIVEN_MARKS[givenBy]] : []))),
    ),
  ].sort();
  return {
    heading: fate.heading,
    blocks: [
      {
        block: 'facts',
        columns: 2,
        facts: [
          { label: fate.keeping, value: keeping ? fate.until(keeping.until, keeping.note) : fate.notSaid },
          { label: fate.holds, value: orNone(legalHolds.map(({ number, reference }) => `${number}, ${reference}`)) },
          {
            label: fate.disposal,
            value: disposal
              ? [
                  fate.disposalOf({ ...disposal, state: fate.states[disposal.state] }),
                  ...(disposal.exception === undefined ? [] : [disposal.exception]),
                  ...(disposal.done ? [fate.done({ ...disposal.done, at: timeOf(disposal.done.at, lab.zone) })] : []),
                ].join(' ')
              : fate.notAsked,
          },
          ...(disposal
            ? [
                {
                  label: `${fate.askedBy}; ${fate.authorisedBy}`,
                  value: `${disposal.askedBy}; ${disposal.authorisedBy ?? fate.none}`,
                },
              ]
            : []),
          {
            label: fate.nonconformities,
            value: orNone(
              nonconformities.map(
                ({ number, title, state }) => `${number}, ${title} (${state === 'open' ? fate.open : fate.closed})`,
              ),
            ),
          },
          { label: fate.opinions, value: fate.none },
          { label: fate.outside, value: givers.length === 0 ? fate.none : fate.given(givers.join(' ')) },
        ],
      },
    ],
  };
}

function closingSection({ identity, lab }: SpecimenRecordContent, printing: Printing): Section {
  const { reach, signing } = MESSAGES[printing.language];
  return {
    heading: reach.heading,
    blocks: [
      {
        block: 'paragraph',
        tone: 'note',
        text: `${reach.text} ${reach.status(`${timeOf(identity.issuedAt, lab.zone)} (${lab.zone})`)}`,
      },
      {
        block: 'signatures',
        signatures: (['prepared', 'reviewed', 'authorised'] as const).map((meaning) => {
          const found = identity.signatures.find((one) => one.meaning === meaning);
          return {
            meaning: signing.meanings[meaning],
            name: found?.name ?? signing.notSigned,
            role: found?.role ?? '',
            signed: found ? `${timeOf(found.at, lab.zone)} (${lab.zone})` : '',
          };
        }),
      },
    ],
  };
}
