import { Link } from 'react-router';
import { HeadStrip, Sheet } from '../parts/sheet/sheet.js';

export function NothingHere() {
  return (
    <Sheet title="No such sheet">
      <HeadStrip
        noun="No sheet"
        name="at this address"
        sentence="Nothing is kept under this address, or it is not yours to see."
        next={
          <>
            scan a label, or open <Link to="/lots">the list of lots</Link>.
          </>
        }
      />
    </Sheet>
  );
}
