import { isNotEvaluated } from '@breakbook/lab';
import { Link } from 'react-router';
import type { LotInList, LotStanding } from '../../client/answers.js';
import { useLots } from '../../client/queries.js';
import { lotAddress } from '../../parts/addresses.js';
import { capital } from '../../parts/capital.js';
import { MarginStrip } from '../../parts/figures/lab-figures.js';
import { Outcome } from '../../parts/marks/outcome.js';
import { HeadStrip, Sheet } from '../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../parts/trouble.js';
import { ToldFrom, usePrint } from '../../parts/units/reader.js';
import { byOutcome } from './by-outcome.js';
import './lots-page.css';

/** Every lot of the lab: where its weakest likely specimen stands, and what the plan says of it. */
export function LotsPage() {
  const { data, error, refetch, hasNextPage, fetchNextPage, isFetchingNextPage } = useLots();
  const lots = data?.pages.flatMap(({ items }) => items);
  return (
    <Sheet title="Lots">
      {lots ? (
        <>
          <HeadStrip noun="" name="Lots" of={hasNextPage ? `the newest ${lots.length}` : byOutcome(lots)} />
          {lots.length === 0 ? <NoLots /> : <LotList lots={lots} />}
          {hasNextPage && (
            <button type="button" className="action" onClick={() => void fetchNextPage()} disabled={isFetchingNextPage}>
              Show older lots
            </button>
          )}
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
          <Who lot={one} />
          {isNotEvaluated(one.evaluation) ? (
            <div className="stands">
              <p>
                <strong>
                  <Outcome word="not evaluated" />
                </strong>
              </p>
              <p className="said">
                {capital(one.evaluation.notEvaluated.because)}. Possible if {one.evaluation.notEvaluated.possibleIf}.
              </p>
            </div>
          ) : (
            <ToldFrom record={one.evaluation.strip}>
              <Standing of={one.evaluation} />
            </ToldFrom>
          )}
        </li>
      ))}
    </ol>
  );
}

function Who({ lot: { lot, kind, size, product, closed, evaluation } }: { lot: LotInList }) {
  return (
    <div className="who">
      <h2>
        <Link to={lotAddress(lot)}>{lot}</Link>
      </h2>
      <p>
        <bdi>{product.name}</bdi>
      </p>
      <p className="quiet small">
        {kind}, {size === 1 ? '1 unit' : `${size} units`}
        {closed && ', closed'}
      </p>
      {!isNotEvaluated(evaluation) && (
        <p className="quiet small">
          plan {evaluation.plan.plan} rev. {evaluation.plan.revision}
        </p>
      )}
    </div>
  );
}

function Standing({ of: { outcome, sentence, strip } }: { of: LotStanding }) {
  const { tell } = usePrint();
  return (
    <>
      <div className="stands">
        <p>
          <strong>
            <Outcome word={outcome} />
          </strong>
        </p>
        <p className="said">{tell(sentence)}</p>
      </div>
      <div className="where">
        {strip ? (
          <MarginStrip of={strip} caption={false} />
        ) : (
          <p className="quiet small">No result yet, so nothing stands on a scale.</p>
        )}
      </div>
    </>
  );
}
