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
          {found && (
            <ul className="notes">
              {found.reference.map(({ seen, units }) => (
                <li key={seen}>
                  <bdi className="verbatim">{seen}</bdi>, on {units} {units === 1 ? 'unit' : 'units'}
                </li>
              ))}
              {found.variants.map((built) => (
                <li key={built}>
                  <bdi className="verbatim">{built}</bdi>, by the build records
                </li>
              ))}
            </ul>
          )}
          <Observations of={ofReference} around={around} empty="Nothing was written down of it yet." />
        </div>
        <div>
          <h4>Items</h4>
          {found?.items.map(({ specimen, level, sentence }) => (
            <p key={specimen}>
              <Level of={level} /> {tell(sentence)}
            </p>
          ))}
          <Observations of={ofItems} around={around} empty="Nothing was written down of them yet." />
        </div>
      </div>
    </article>
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
  const { content, attachments, earlier, reason } = one;
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
      {attachments.length > 0 && (
        <div className="seen-photos">
          {attachments.map((n) => (
            <a key={n} href={photoAddress(n)} target="_blank" rel="noreferrer">
              <img
                src={thumbnailAddress(n)}
                alt={`${content.feature} of ${specimen}, attachment ${n}`}
                loading="lazy"
              />
            </a>
          ))}
        </div>
      )}
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
