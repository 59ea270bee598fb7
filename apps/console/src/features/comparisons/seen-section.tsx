import type { ComparisonResult, Feature, FeatureComparison, Person } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import type { ComparisonRecord, ObservationRecord } from '../../client/answers.js';
import { observationsQuery } from '../../client/comparison-queries.js';
import { photoAddress, thumbnailAddress } from '../../client/queries.js';
import { specimenAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { moment } from '../../parts/moment.js';
import { Fold, Section } from '../../parts/sheet/sheet.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { Level } from './level.js';
import { ObservationForm } from './observation-form.js';
import { SpecimenLink } from './specimen-link.js';
import './seen-section.css';

interface SeenSectionProps {
  of: ComparisonRecord;
  result: ComparisonResult | undefined;
  people: readonly Person[];
  zone: string;
}

/** What was seen of each declared feature: the reference at the left, the items at the right. */
export function SeenSection({ of, result, people, zone }: SeenSectionProps) {
  const { duties } = useMe();
  const { data: observations = [] } = useQuery(observationsQuery(of.comparison));
  const { features } = of.content;
  if (features.length === 0) return null;
  return (
    <Section
      question="What does it look like, beside the reference?"
      word="Seen"
      aside="Each feature as it was written down, in the order declared. Photos are small copies; open one to see it as it came."
    >
      {features.map((feature) => (
        <FeatureSeen
          key={feature.feature}
          feature={feature}
          found={result?.features.find((one) => one.feature.feature === feature.feature)}
          observations={observations.filter(({ content }) => content.feature === feature.feature)}
          of={of}
          around={{ people, zone }}
        />
      ))}
      {duties.includes('record') && of.inForce !== undefined && of.state !== 'withdrawn' && (
        <Fold word="Write down what is seen">
          <ObservationForm key={observations.length} of={of} observations={observations} zone={zone} />
        </Fold>
      )}
    </Section>
  );
}

interface FeatureSeenProps {
  feature: Feature;
  found: FeatureComparison | undefined;
  observations: readonly ObservationRecord[];
  of: ComparisonRecord;
  around: { people: readonly Person[]; zone: string };
}

function FeatureSeen({ feature, found, observations, of, around }: FeatureSeenProps) {
  const { tell } = usePrint();
  const { compared } = of.content;
  const isItem = (specimen: string) => compared.what === 'two groups' || compared.items.includes(specimen);
  const ofItems = observations.filter(({ content }) => isItem(content.specimen));
  const ofReference = observations.filter(({ content }) => !isItem(content.specimen));
  return (
    <article className="seen">
      <h3>
        <bdi>{feature.title}</bdi> {found && <Level of={found.finding} />}
      </h3>
      <p className="quiet small">
        {feature.kind}: <bdi>{feature.howRead}</bdi>
        {feature.changesItem && ' Looking changes the item.'}
      </p>
      {found && <p>{tell(found.sentence)}</p>}
      <div className="side-by-side">
        <div>
          <h4>Reference</h4>
          {found && found.variants.length > 0 && (
            <ul className="notes">
              {found.variants.map((built) => (
                <li key={built}>
                  <bdi className="verbatim">{built}</bdi>, by the build records
                </li>
              ))}
            </ul>
          )}
          {ofReference.length > LISTED_AT_ONCE ? (
            alikeIn(ofReference).map((alike) => <SeenAlike key={alike[0].number} of={alike} around={around} />)
          ) : (
            <Observations of={ofReference} around={around} empty="Nothing was written down of it yet." />
          )}
        </div>
        <div>
          <h4>Items</h4>
          {found?.items.map(({ specimen, level, sentence }) => (
            <p key={specimen}>
              <SpecimenLink of={specimen} />: <Level of={level} />
              {/* The sentence above tells of those that were found as the whole was. */}
              {level !== found.finding && <span className="under">{tell(sentence)}</span>}
            </p>
          ))}
          <Observations of={ofItems} around={around} empty="Nothing was written down of them yet." />
        </div>
      </div>
    </article>
  );
}

/** So many are listed one by one; of more it is told how many were seen alike, and each is folded away. */
const LISTED_AT_ONCE = 3;

type SomeObservations = readonly [ObservationRecord, ...ObservationRecord[]];

/** What was seen in the same words, the most frequent first; quantities in one unit stand together. */
function alikeIn(observations: readonly ObservationRecord[]): SomeObservations[] {
  const groups = new Map<string, [ObservationRecord, ...ObservationRecord[]]>();
  for (const one of observations) {
    const { seen, quantity } = one.content;
    const kind = JSON.stringify([seen, quantity?.unit]);
    const group = groups.get(kind);
    if (group) group.push(one);
    else groups.set(kind, [one]);
  }
  return [...groups.values()].sort((a, b) => b.length - a.length);
}

/** What many units have in common, with its photos, and every one of them a click away. */
function SeenAlike({ of, around }: { of: SomeObservations; around: FeatureSeenProps['around'] }) {
  const { declared } = usePrint();
  const [first] = of;
  const quantities = of.flatMap(({ content: { quantity } }) => quantity ?? []).toSorted((a, b) => a.value - b.value);
  const [least, most] = [quantities[0], quantities.at(-1)];
  const units = new Set(of.map(({ content }) => content.specimen)).size;
  const pictured = of.filter(({ attachments }) => attachments.length > 0);
  return (
    <>
      <p>
        <strong>
          {first.content.seen === undefined ? (
            least && most && `${declared(least.value, least.unit)} to ${declared(most.value, most.unit)}`
          ) : (
            <bdi className="verbatim">{first.content.seen}</bdi>
          )}
        </strong>
        , on {units} {units === 1 ? 'unit' : 'units'}
      </p>
      {pictured.map((one) => (
        <Photos key={one.number} of={one} />
      ))}
      <Fold word="Each of them">
        <Observations of={of} around={around} empty="" />
      </Fold>
    </>
  );
}

function Photos({ of: { attachments, content } }: { of: ObservationRecord }) {
  if (attachments.length === 0) return null;
  return (
    <div className="seen-photos">
      {attachments.map((n) => (
        <a key={n} href={photoAddress(n)} target="_blank" rel="noreferrer">
          <img
            src={thumbnailAddress(n)}
            alt={`${content.feature} of ${content.specimen}, attachment ${n}`}
            loading="lazy"
          />
        </a>
      ))}
    </div>
  );
}

function Observations(given: { of: readonly ObservationRecord[]; around: FeatureSeenProps['around']; empty: string }) {
  const { of, around, empty } = given;
  if (of.length === 0) return <p className="quiet">{empty}</p>;
  return (
    <ul className="seen-list">
      {of.map((one) => (
        <OneObservation key={one.number} one={one} around={around} />
      ))}
    </ul>
  );
}

function OneObservation({
  one,
  around: { people, zone },
}: {
  one: ObservationRecord;
  around: FeatureSeenProps['around'];
}) {
  const { declared } = usePrint();
  const { content, earlier, reason } = one;
  const { specimen, seen, quantity, instrument, givenBy, provider, note, by, at } = content;
  return (
    <li>
      <p>
        <Link to={specimenAddress(specimen)}>{specimen}</Link>:{' '}
        <strong>
          {seen === undefined ? (
            quantity && declared(quantity.value, quantity.unit)
          ) : (
            <bdi className="verbatim">{seen}</bdi>
          )}
        </strong>
        {instrument !== undefined && <>, by {instrument}</>}
      </p>
      {givenBy !== undefined && (
        <p>
          <Outcome word="undecided" as="not found by this lab" />: given by {givenBy}
          {provider !== undefined && (
            <>
              , <bdi>{provider}</bdi>
            </>
          )}
          .
        </p>
      )}
      {note !== undefined && (
        <p>
          <bdi>{note}</bdi>
        </p>
      )}
      <Photos of={one} />
      <p className="quiet small">
        <Who people={people} person={by} />, {moment(at, zone)}
        {earlier.length > 0 && (
          <>
            . Corrected: <bdi>{reason}</bdi>. Before:{' '}
            <bdi>
              {earlier.map(({ content: was }) => was.seen ?? `${was.quantity?.value} ${was.quantity?.unit}`).join('; ')}
            </bdi>
          </>
        )}
      </p>
    </li>
  );
}
