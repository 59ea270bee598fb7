import { COMPARISON_STATES, type Comparison, Observation, Refusal, requireAllowed } from '@breakbook/lab';
import { type Page, type Reader, Records, type Rows, tables } from '@breakbook/records';
import { Injectable } from '@nestjs/common';
import { type FindOptionsWhere, In } from 'typeorm';
import { refuseClaims } from '../comparisons/claims.js';
import { type ComparisonStanding, heldComparison } from '../comparisons/comparison-standing.js';
import { itemsOf } from '../comparisons/declared.js';
import { requireConsent } from '../custody/require-consent.js';
import { completed } from '../records/completed.js';
import type { Change, PageOf } from '../records/kept.js';
import { Names } from '../records/names.js';
import { nextPlace, pageAsked } from '../records/paging.js';
import { peopleBehind, saidBy } from '../records/read-kind.js';
import { within } from '../records/within.js';
import type { SignedInActor } from '../sign-in/signed-in.decorator.js';
import type { NewObservation, ObservationAnswer, ObservationsAsked } from './observation-answers.js';

/** A clock may be this far ahead of ours, in ms. */
const CLOCK_AHEAD = 5 * 60_000;

/** What was seen of the declared features, on items and on the reference alike. */
@Injectable()
export class ObservationsService {
  constructor(private readonly records: Records) {}

  async list(
    labId: string,
    comparison: string,
    { specimen, feature, ...paging }: ObservationsAsked,
  ): Promise<PageOf<ObservationAnswer>> {
    const reader = this.records.read(labId);
    const where: FindOptionsWhere<tables.Observation> = {
      comparisonId: (await reader.named(tables.Comparison, comparison)).id,
      ...(await within<tables.Observation, tables.Specimen>(reader, tables.Specimen, 'specimen', specimen)),
      ...(feature === undefined ? {} : { feature }),
    };
    const page: Page<tables.Observation> = pageAsked(paging, 'number');
    const { rows, more } = await reader.page(tables.Observation, where, page);
    const items: ObservationAnswer[] = [];
    for (const one of rows) items.push(await answerOf(reader, one));
    return { items, next: nextPlace(rows.at(-1)?.number, more) };
  }

  record(by: SignedInActor, comparison: string, asked: NewObservation): Promise<ObservationAnswer> {
    return this.records.change(by, 'observation recorded', async (rows) => {
      const standing = await heldComparison(rows, comparison);
      const content = completed(Observation, { ...asked, by: by.person });
      await refuseClaims({ '/note': content.note });
      const specimen = await examined(rows, standing, content, '');
      const { id: specimenId } = specimen;
      const { feature } = content;
      const known = await rows.maybe(tables.Observation, { comparisonId: standing.noun.id, specimenId, feature });
      if (known)
        throw new Refusal({
          code: 'state.conflict',
          pointer: '/feature',
          found: feature,
          detail: `Feature ${feature} of specimen ${specimen.key} was looked at already: observation ${known.number}. Nothing was changed.`,
          action: 'Where it was written down wrongly, correct it with the reason; both stay.',
        });
      const noun = await rows.add(tables.Observation, { comparisonId: standing.noun.id, specimenId, feature });
      await rows.addVersion(tables.ObservationVersion, noun.id, { content });
      return answerOf(rows, noun);
    });
  }

  correct(
    by: SignedInActor,
    { comparison, number, follows }: { comparison: string; number: number; follows: number },
    { content: asked, reason }: Change<NewObservation>,
  ): Promise<ObservationAnswer> {
    return this.records.change(by, 'observation corrected', reason, async (rows) => {
      const standing = await heldComparison(rows, comparison);
      const noun =
        (await rows.maybe(tables.Observation, { comparisonId: standing.noun.id, number })) ??
        (await rows.one(tables.Observation, `${number}`));
      const content = completed(Observation, { ...asked, by: by.person }, 'content');
      await refuseClaims({ '/content/note': content.note, '/reason': reason });
      const specimen = await examined(rows, standing, content, '/content');
      if (specimen.id !== noun.specimenId || content.feature !== noun.feature)
        throw new Refusal({
          code: 'state.conflict',
          pointer: '/content',
          detail: `Observation ${number} is of feature ${noun.feature} of another specimen, or of another feature, than is said here. What it is of never changes.`,
          action: 'Record the other one by itself, and correct this one to what was seen.',
        });
      await rows.addVersion(tables.ObservationVersion, noun.id, { content }, follows);
      return answerOf(rows, noun);
    });
  }
}

/** The specimen looked at; refused where the approved declaration does not ask for it, or it may not be looked at yet. */
async function examined(
  rows: Rows,
  { noun, state, inForce }: ComparisonStanding,
  observation: Observation,
  at: string,
): Promise<tables.Specimen> {
  requireAllowed(COMPARISON_STATES, 'record an observation', state, {
    thing: `comparison ${noun.key}`,
    action: 'Have what is declared approved by another person first.',
  });
  const declared = inForce?.content;
  if (!declared || !inForce) throw new Error(`Comparison ${noun.key} is approved by no revision.`);
  const names = new Names(rows, at);
  const feature = declared.features.find((one) => one.feature === observation.feature);
  if (!feature)
    names.note(
      'body.not-found',
      '/feature',
      `comparison ${noun.key} rev. ${declared.revision} declares ${declared.features.map((one) => one.feature).join(', ') || 'no feature'}. What is looked at besides is declared first, by a further revision.`,
      observation.feature,
    );
  const specimen = await names.of(tables.Specimen, observation.specimen, '/specimen');
  const isItem = specimen && (await isOneOf(rows, declared, specimen));
  if (specimen && !isItem && !(await isUnit(rows, inForce, specimen)))
    names.note(
      'body.not-found',
      '/specimen',
      `is neither an item nor a unit of the reference of comparison ${noun.key} rev. ${declared.revision}.`,
      observation.specimen,
    );
  if (Date.parse(observation.at) > rows.at.getTime() + CLOCK_AHEAD)
    names.note('body.range', '/at', 'lies in the future. Write down what was seen.', observation.at);
  if (specimen) await noteMissingPhotos(names, specimen, observation);
  names.refuse();
  if (!specimen) throw new Error('A specimen that is not there was not refused.');
  if (feature?.changesItem && isItem)
    await requireConsent(rows, specimen, {
      what: feature.title,
      at: observation.at,
      pointer: `${at}/feature`,
    });
  return specimen;
}

async function isOneOf(reader: Reader, declared: Comparison, specimen: tables.Specimen): Promise<boolean> {
  return (await itemsOf(reader, declared)).some(({ id }) => id === specimen.id);
}

async function isUnit(
  reader: Reader,
  { referenceRevisionId, alternativeRevisionId }: tables.ComparisonRevision,
  { id: specimenId }: tables.Specimen,
): Promise<boolean> {
  const ids = [referenceRevisionId, alternativeRevisionId].filter((id): id is string => id !== null);
  return (await reader.find(tables.ReferenceUnit, { revisionId: In(ids), specimenId })).length > 0;
}

async function noteMissingPhotos(names: Names, specimen: tables.Specimen, { photos = [] }: Observation): Promise<void> {
  const kept = await photosOf(names.reader, specimen.id);
  for (const [index, photo] of photos.entries())
    if (!kept.has(photo))
      names.note(
        'body.not-found',
        `/photos/${index}`,
        `no photo with this SHA-256 is attached to specimen ${specimen.key}. Attach it first.`,
        photo,
      );
}

/** Numbers of the photos attached to a specimen, by the SHA-256 of their bytes. */
async function photosOf(reader: Reader, specimenId: string): Promise<Map<string, number>> {
  const attached = await reader.find(tables.Attachment, { specimenId });
  const raws = await reader.find(tables.RawBytes, { id: In(attached.map(({ rawId }) => rawId)) });
  const digests = new Map(raws.map(({ id, sha256 }) => [id, sha256]));
  return new Map(
    attached.flatMap(({ rawId, mediaType, number }) =>
      mediaType.startsWith('image/') ? [[digests.get(rawId) ?? '', number] as const] : [],
    ),
  );
}

async function answerOf(reader: Reader, noun: tables.Observation): Promise<ObservationAnswer> {
  const history = await reader.history(tables.ObservationVersion, noun.id);
  const people = await peopleBehind(reader, history);
  const said = history.map((version) => ({ ...saidBy(version, people), content: version.content }));
  const now = said.at(-1);
  if (!now) throw new Error(`Observation ${noun.number} says nothing.`);
  const photos = await photosOf(reader, noun.specimenId);
  return {
    number: noun.number,
    ...now,
    attachments: (now.content.photos ?? []).flatMap((one) => photos.get(one) ?? []),
    earlier: said.slice(0, -1),
  };
}
