import { Link } from 'react-router';
import { lotAddress, runAddress } from '../../../parts/addresses.js';
import { Field } from '../../../parts/field.js';
import { Picks } from '../../../parts/picks.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { clockIn } from '../../../parts/zoned.js';
import type { OfDraft } from './log-run-page.js';
import { ScanInput } from './scan-input.js';
import type { FoundNames } from './use-named.js';

/** Which specimen is run, on which rig, under which line of the plan, from when on? */
export function WhichSection({ draft, change, named }: OfDraft) {
  return (
    <Section
      question="Which specimen, on which rig?"
      word="Specimen and rig"
      aside="Scan the labels or type their codes; the scanner's line end goes on to the next field."
    >
      <div className="pair">
        <ScanInput
          label="Specimen"
          value={draft.specimen}
          onCode={(specimen) => change({ specimen, line: '' })}
          said={<SpecimenSaid named={named} />}
        />
        <ScanInput
          label="Rig"
          value={draft.rig}
          onCode={(rig) => change({ rig })}
          hint="Leave empty where values are keyed and no rig was used."
          said={
            named.rigError?.message ??
            (named.rig &&
              `${named.rig.content.name}, ${named.rig.content.location}. ${named.layoutRevision === undefined ? 'It has no file layout, so no file of it can be read.' : `File layout revision ${named.layoutRevision}.`}`)
          }
        />
      </div>
      {named.choices.length > 0 && (
        <Picks
          legend="Plan line"
          options={named.choices.map(({ value, plan, line }) => ({
            value,
            word: `${plan.plan} rev. ${plan.revision}, line ${line.line}: ${line.title}`,
            hint: `${plan.title}. Method ${line.method} rev. ${line.methodRevision}.`,
          }))}
          picked={named.choice ? [named.choice.value] : []}
          onPick={([line = '']) => change({ line, ready: [], modes: [] })}
        />
      )}
      {named.unfit.length > 0 && (
        <p className="quiet small">
          Not offered, because rig {named.rig?.key} does not record what the method asks for:{' '}
          {named.unfit.map(({ plan, line }) => `${plan.plan} rev. ${plan.revision}, line ${line.line}`).join('; ')}.
        </p>
      )}
      {named.lot && !named.looking && named.choices.length === 0 && named.unfit.length === 0 && (
        <p>
          The product of this lot has no plan in force yet. What is claimed is declared before the test: have a plan
          written and approved.
        </p>
      )}
      <div className="pair">
        <Field
          label="Number of the run"
          value={draft.run ?? named.number}
          onChange={({ target }) => change({ run: target.value })}
          hint="Unique in the lab. The proposed one counts the runs of the specimen."
        />
        <div>
          <Field
            label={`Began (clock of ${named.zone.replaceAll('_', ' ')})`}
            type="datetime-local"
            step={1}
            value={draft.startedAt}
            onChange={({ target }) => change({ startedAt: target.value })}
            hint="Filled in from the file where it says so."
          />
          <button
            type="button"
            className="plain"
            onClick={() => change({ startedAt: clockIn(named.zone, Date.now()) })}
          >
            It begins now
          </button>
        </div>
      </div>
    </Section>
  );
}

function SpecimenSaid({ named: { specimen, specimenError, lot } }: { named: FoundNames }) {
  if (specimenError) return specimenError.message;
  if (!specimen) return null;
  const { key, content, state, destroyedIn, stressedIn } = specimen;
  return (
    <>
      {key}: {content.origin}, lot <Link to={lotAddress(content.lot)}>{content.lot}</Link>, serial{' '}
      <bdi>{content.serial ?? `none: ${content.noSerialReason}`}</bdi>.
      {destroyedIn !== undefined && (
        <strong>
          {' '}
          It was destroyed in run <Link to={runAddress(content.lot, destroyedIn)}>{destroyedIn}</Link> and cannot be run
          again.
        </strong>
      )}
      {state === 'retained' && <strong> It is retained: have it taken out before it is run.</strong>}
      {stressedIn !== undefined && (
        <strong>
          {' '}
          It survived run {stressedIn.join(', ')}; it is run again only under a plan line that takes such survivors.
        </strong>
      )}
      {lot?.closed && <strong> Its lot is closed to further runs.</strong>}
    </>
  );
}
