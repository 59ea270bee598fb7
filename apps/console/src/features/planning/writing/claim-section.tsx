import type { PlanTemplate } from '@breakbook/lab';
import { printPercent } from '@breakbook/units';
import { capital } from '../../../parts/capital.js';
import { Choice } from '../../../parts/choice.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { usePrint } from '../../../parts/units/reader.js';
import type { ChosenDesign } from './chosen-design.js';

/** Which draft the plan begins from, and by which design it shows what it claims. */
export function ClaimSection(given: {
  templates: readonly PlanTemplate[];
  template: PlanTemplate;
  design: ChosenDesign | undefined;
  onTemplate: (template: PlanTemplate) => void;
  onNoDesign: () => void;
}) {
  const { templates, template, design, onTemplate, onNoDesign } = given;
  const print = usePrint();
  return (
    <Section question="Which test, and how does it show the claim?" word="Claim" aside={template.about}>
      <Choice
        legend="Draft"
        options={templates.map((one) => ({ value: one.template, word: capital(one.template) }))}
        chosen={template.template}
        onChoose={(next) => {
          const chosen = templates.find((one) => one.template === next);
          if (chosen) onTemplate(chosen);
        }}
      />
      {design ? (
        <>
          <p>
            As designed: {design.design}, {design.specimens} specimens, {printPercent(design.coverage)} with{' '}
            {printPercent(design.confidence)} confidence, about{' '}
            {design.population === 'lot' ? 'the units of one lot' : 'the process'}; reckoned for a limit of{' '}
            {print.declared(design.limit.value, design.limit.unit)}.
          </p>
          <button type="button" className="plain" onClick={onNoDesign}>
            Leave the design, and take what the draft proposes
          </button>
        </>
      ) : (
        <p>
          As the draft proposes: {template.claims.join('; ')}; {template.specimens} specimens,{' '}
          {printPercent(template.coverage)} with {printPercent(template.confidence)} confidence.
        </p>
      )}
    </Section>
  );
}
