import { Picks } from '../../../parts/picks.js';
import { Section } from '../../../parts/sheet/sheet.js';
import type { OfDraft } from './log-run-page.js';
import { isReady } from './to-new-run.js';

/** Is everything ready? What a person saw is recorded; nothing is released or held back by it. */
export function ReadySection({ draft, change, named: { method } }: OfDraft) {
  return (
    <Section
      question="Is everything ready?"
      word="Readiness"
      aside="A record of what you saw, not an interlock: Breakbook holds no rig back and releases none. Guards, valves and locks of the rig protect you, and the rules of your lab."
    >
      {!method ? (
        <p className="quiet">The list of the method stands here once specimen and plan line are known.</p>
      ) : method.readiness.length === 0 ? (
        <p className="quiet">This method has no readiness list.</p>
      ) : (
        <>
          <Picks
            several
            legend={`Confirm each line before hands move: ${method.method} rev. ${method.revision}`}
            options={method.readiness.map((line, index) => ({ value: String(index), word: line }))}
            picked={draft.ready.map(String)}
            onPick={(ready) => change({ ready: ready.map(Number), readyAt: new Date().toISOString() })}
          />
          <p className="quiet">
            {isReady(draft, method)
              ? 'All confirmed; recorded with your name and the time.'
              : `${method.readiness.length - draft.ready.length} of ${method.readiness.length} not confirmed. The run can be recorded so, and its sheet will say “readiness not recorded”.`}
          </p>
        </>
      )}
    </Section>
  );
}
