import type { ReferenceUnit } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { LotInList, SpecimenRecord } from '../../client/answers.js';
import { lotsOfProductQuery } from '../../client/comparison-queries.js';
import { specimensOfQuery } from '../../client/queries.js';
import { FormProblem } from '../../parts/field.js';
import { Picks } from '../../parts/picks.js';

interface PickSpecimensProps {
  product: string;
  picked: readonly ReferenceUnit[];
  onPick: (picked: ReferenceUnit[]) => void;
  /** Specimens that may be chosen; the others are not offered. */
  fits: (specimen: SpecimenRecord) => boolean;
}

/** Specimens of a product, chosen lot by lot. */
export function PickSpecimens({ product, picked, onPick, fits }: PickSpecimensProps) {
  const { data: lots, error } = useQuery({ ...lotsOfProductQuery(product), enabled: product !== '' });
  if (product === '') return <p>Choose the product first; its lots stand here then.</p>;
  if (error) return <FormProblem error={error} />;
  if (!lots) return null;
  if (lots.length === 0) return <p>No lot of this product was received yet.</p>;
  return (
    <div>
      {lots.map((lot) => (
        <OfLot key={lot.lot} lot={lot} picked={picked} onPick={onPick} fits={fits} />
      ))}
    </div>
  );
}

type OfLotProps = Omit<PickSpecimensProps, 'product'> & { lot: LotInList };

function OfLot({ lot: { lot, kind }, picked, onPick, fits }: OfLotProps) {
  const [open, setOpen] = useState(false);
  const { data } = useQuery({ ...specimensOfQuery(lot), enabled: open });
  const own = picked.filter((unit) => unit.lot === lot);
  const others = picked.filter((unit) => unit.lot !== lot);
  const offered = data?.filter(fits) ?? [];
  const choose = (keys: readonly string[]) =>
    onPick([...others, ...offered.filter(({ key }) => keys.includes(key)).map(unitOf)]);
  return (
    <details className="fold" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>
        Lot {lot}, {kind}: {own.length === 0 ? 'none chosen' : `${own.length} chosen`}
      </summary>
      <div className="folded">
        {data && offered.length === 0 && <p>It has no specimen that can be chosen here.</p>}
        {offered.length > 0 && (
          <>
            <Picks
              legend={`Specimens of lot ${lot}`}
              several
              options={offered.map(({ key, content }) => ({
                value: key,
                word: <bdi>{key}</bdi>,
                hint: `${content.serial === undefined ? 'without a serial' : `serial ${content.serial}`}, ${content.origin}`,
              }))}
              picked={own.map(({ specimen }) => specimen)}
              onPick={choose}
            />
            <button
              type="button"
              className="plain"
              onClick={() => choose(own.length === offered.length ? [] : offered.map(({ key }) => key))}
            >
              {own.length === offered.length ? `None of lot ${lot}` : `All of lot ${lot}`}
            </button>
          </>
        )}
      </div>
    </details>
  );
}

function unitOf({ key, content: { lot, serial } }: SpecimenRecord): ReferenceUnit {
  return { specimen: key, lot, ...(serial === undefined ? {} : { serial }) };
}
