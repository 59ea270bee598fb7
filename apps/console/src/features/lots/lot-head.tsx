import { Link } from 'react-router';
import type { LotAnswer } from '../../client/answers.js';
import { dispositionAddress, logRunAddress, productAddress } from '../../parts/addresses.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { day } from '../../parts/moment.js';
import { HeadStrip } from '../../parts/sheet/sheet.js';
import { usePrint } from '../../parts/units/reader.js';
import { Who } from '../../parts/who.js';
import { useMe } from '../people/me.js';
import { LotWork } from './evaluate.js';
import { whatNext } from './what-next.js';

export function LotHead({ answer }: { answer: LotAnswer }) {
  const { tell } = usePrint();
  const { duties } = useMe();
  const { bundle, lot } = answer;
  const { product, plan, customer } = bundle;
  const { kind, size, madeFrom, madeTo, sampling } = bundle.lot;
  const next = whatNext(answer);
  return (
    <HeadStrip
      noun="Lot"
      name={lot.lot}
      of={
        <Link to={productAddress(product.product)}>
          <bdi>{product.name}</bdi>
        </Link>
      }
      outcome={<Outcome word={lot.outcome} large />}
      sentence={tell(lot.sentence)}
      next={
        <>
          {next.what} {next.who.length === 0 ? 'Nobody in this lab has that duty and is free to use it.' : 'Open to '}
          {next.who.map(({ person, name }, index) => (
            <span key={person}>
              {index > 0 && ', '}
              <bdi>{name}</bdi>
            </span>
          ))}
          {next.who.length > 0 && '.'}
        </>
      }
      actions={
        <>
          <LotWork lot={lot.lot} />
          <Link className="action" to={dispositionAddress(lot.lot)}>
            Disposition
          </Link>
          {duties.includes('record') && (
            <Link className="action" to={logRunAddress()}>
              Log a run
            </Link>
          )}
        </>
      }
      facts={[
        { term: 'Kind', says: `${kind} lot of ${size}` },
        { term: 'Made', says: madeFrom === madeTo ? day(madeFrom) : `${day(madeFrom)} to ${day(madeTo)}` },
        {
          term: 'Drawn',
          says: sampling ? (
            <>
              {day(sampling.drawnOn)}, by <Who people={bundle.people} person={sampling.drawnBy} />
            </>
          ) : (
            'not by this lab: results concern the sample as received'
          ),
        },
        { term: 'Plan', says: `${plan.plan} rev. ${plan.revision}: ${plan.title}` },
        { term: 'For', says: <bdi>{customer.name}</bdi> },
      ]}
    />
  );
}
