import { printFixed } from '@breakbook/units';
import type { Sent } from '../../../client/send-run.js';
import { Progress } from '../../../parts/progress.js';
import { Refusal } from './refusal.js';

interface SendSectionProps {
  lacking: readonly string[];
  error: Error | null;
  sending: boolean;
  /** What the form names is still being looked up. */
  looking: boolean;
  sent: Sent | undefined;
}

/** What still lacks, how far the upload is, why it was refused; and the act itself with what follows from it. */
export function SendSection({ lacking, error, sending, looking, sent }: SendSectionProps) {
  return (
    <>
      {lacking.length > 0 && (
        <div role="alert" className="refusal">
          <h3>Before it can be sent</h3>
          <ul className="notes">
            {lacking.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </div>
      )}
      {error && !sending && <Refusal error={error} />}
      <p className="quiet">
        Recorded with your name and the time. After that the files never change, a correction is a new version with its
        reason, and whether the run is valid is decided by somebody else.
      </p>
      {sending && <Progress {...progressOf(sent)} />}
      <div className="actions">
        <button className="action main" type="submit" disabled={sending || looking}>
          Record run
        </button>
      </div>
    </>
  );
}

function progressOf(sent: Sent | undefined): { says: string; share?: number } {
  if (!sent || sent.of === 0) return { says: 'Sending the run' };
  if (sent.bytes >= sent.of) return { says: `All ${printFixed(sent.of, 0)} bytes sent; the files are being read` };
  return {
    says: `Sending: ${printFixed(sent.bytes, 0)} of ${printFixed(sent.of, 0)} bytes`,
    share: sent.bytes / sent.of,
  };
}
