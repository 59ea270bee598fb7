import { Link } from 'react-router';
import { type LotInList } from '../../client/answers.js';
import { useLots } from '../../client/queries.js';
import { lotAddress } from '../../parts/addresses.js';
import { MarginStrip } from '../../parts/figures/lab-figures.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { ToldFrom, usePrint } from '../../parts/units/reader.js';
import { byOutcome } from './by-outcome.js';
import './lots-page.css';

/** Every lot of the lab: where its weakest likely specimen stands, and what the plan says of it. */
export function LotsPage() {
  const { data, error, refetch } = useLots();
  return (
    <Sheet title="Lots">
      {data ? (
        <>
          <HeadStrip noun="" name="Lots" of={byOutcome(data.lots)} />
          {data.lots.length === 0 ? <NoLots /> : <LotList lots={data.lots} />}
        </>
      ) : error ? (
        <Trouble error={error} onAgain={() => void refetch()} />
      ) : (
        <Reading what="the list of lots" />
      )}
    </Sheet>
  );
}

function NoLots() {
  return (
    <p className="nothing">
      No lot is recorded in this lab yet. A lot comes first with its plan, its sampling record and its specimens; runs
      are then logged against the specimens.
    </p>
  );
}

function LotList({ lots }: { lots: readonly LotInList[] }) {
  return (
    <ol className="lots">
      {lots.map((one) => (
        <li key={one.lot}>
          <ToldFrom record={one.strip}>
            <LotLine lot={one} />
          </ToldFrom>
        </li>
      ))}
    </ol>
  );
}

function LotLine({ lot: { lot, kind, size, product, plan, outcome, sentence, strip } }: { lot: LotInList }) {
  const { tell } = usePrint();
  return (
    <>
      <div className="who">
        <h2>
          <Link to={lotAddress(lot)}>{lot}</Link>
        </h2>
        <p>
          <bdi>{product.name}</bdi>
        </p>
        <p className="quiet small">
          {kind}, {size === 1 ? '1 unit' : `${size} units`}
        </p>
        <p className="quiet small">
          plan {plan.plan} rev. {plan.revision}
        </p>
      </div>
      <div className="stands">
        <p>
          <strong>
            <Outcome word={outcome} />
          </strong>
        </p>
        <p className="said">{tell(sentence)}</p>
      </div>
      <div className="where">
        {strip === null ? (
          <p className="quiet small">No result yet, so nothing stands on a scale.</p>
        ) : (
          <MarginStrip of={strip} caption={false} />
        )}
      </div>
    </>
  );
}
