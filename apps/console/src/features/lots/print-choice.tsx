import type { PrintChoice, PrintUnits } from '@breakbook/lab';
import { unitSymbol } from '@breakbook/units';
import { Choice } from '../../parts/choice.js';
import '../../parts/units/unit-switch.css';

const KINDS: readonly { kind: keyof PrintUnits; legend: string; units: readonly string[] }[] = [
  { kind: 'pressure', legend: 'Pressures in', units: ['kPa', 'bar', '[psi]'] },
  { kind: 'temperature', legend: 'Temperatures in', units: ['Cel', '[degF]'] },
  { kind: 'energy', legend: 'Energies in', units: ['J', '[ft_i].[lbf_av]'] },
  { kind: 'force', legend: 'Forces in', units: ['N', '[lbf_av]'] },
  { kind: 'length', legend: 'Lengths in', units: ['mm', '[in_i]'] },
  { kind: 'mass', legend: 'Masses in', units: ['g', '[oz_av]'] },
];
const AS_KEPT = 'as kept';

/** On what, in which language and in which units the report is printed; nothing that is stored changes. */
export function PrintChoices({ print, onChoose }: { print: PrintChoice; onChoose: (print: PrintChoice) => void }) {
  const units: PrintUnits = print.units === AS_KEPT ? {} : print.units;
  const chooseUnit = (kind: keyof PrintUnits, unit: string) => {
    const { [kind]: _, ...others } = units;
    const chosen: PrintUnits = unit === AS_KEPT ? others : { ...others, [kind]: unit };
    onChoose({ ...print, units: Object.keys(chosen).length === 0 ? AS_KEPT : chosen });
  };
  return (
    <details className="units">
      <summary>How it is printed</summary>
      <div>
        <Choice
          legend="Language"
          options={[
            { value: 'en', word: 'English' },
            { value: 'de', word: 'German' },
          ]}
          chosen={print.language}
          onChoose={(language) => onChoose({ ...print, language })}
        />
        <Choice
          legend="Paper"
          options={[
            { value: 'A4', word: 'A4' },
            { value: 'Letter', word: 'Letter' },
          ]}
          chosen={print.paper}
          onChoose={(paper) => onChoose({ ...print, paper })}
        />
        {KINDS.map(({ kind, legend, units: offered }) => (
          <Choice
            key={kind}
            legend={legend}
            options={[AS_KEPT, ...offered].map((unit) => ({
              value: unit,
              word: unit === AS_KEPT ? unit : unitSymbol(unit),
            }))}
            chosen={units[kind] ?? AS_KEPT}
            onChoose={(unit) => chooseUnit(kind, unit)}
          />
        ))}
      </div>
    </details>
  );
}
