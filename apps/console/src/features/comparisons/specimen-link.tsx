import { Link } from 'react-router';
import { specimenAddress } from '../../parts/addresses.js';

/** A specimen by its code, which is not broken where a column is narrow. */
export function SpecimenLink({ of }: { of: string }) {
  return (
    <Link className="whole" to={specimenAddress(of)}>
      {of}
    </Link>
  );
}
