import type { Limit, MeasuredLimit, PlanTemplate } from '@breakbook/lab';
import { Field, Select } from '../../../parts/field.js';
import { Picks } from '../../../parts/picks.js';
import { Section } from '../../../parts/sheet/sheet.js';
import { usePrint } from '../../../parts/units/reader.js';
import { useMe } from '../../people/me.js';
import type { ChosenDesign } from './chosen-design.js';
import { type Filling, isRaised, limitsFor, methodsFor, modesOf, named } from './filling.js';
import type { OnRecord } from './write-plan-page.js';

const NOT_CHOSEN = { value: '', word: 'not chosen yet' };

/** Product, method, limits and approver: what a draft leaves open. */
export function FillingSection(given: {
  of: OnRecord;
  filling: Filling;
  template: PlanTemplate;
  design: ChosenDesign | undefined;
  onChange: (next: Partial<Filling>) => void;
}) {
  const { of, filling, template, design, onChange } = given;
  const me = useMe();
  const print = usePrint();
  const methods = methodsFor(template, of.methods);
  const method = methods.find((one) => named(one) === filling.method);
  const approvers = of.people.filter(({ person, duties }) => person !== me.person && duties.includes('define'));
  return (
    <Section
      question="Of what, by which method, against which limits?"
      word="Filled in"
      aside="Only methods and limits in force are offered: a plan rests on nothing that is only proposed."
    >
      <div className="sliders">
        <Field
          label="Number of the plan"
          value={filling.plan}
          hint="Unique in the lab, such as P-DUNLIN-7"
          onChange={({ target }) => onChange({ plan: target.value })}
        />
        <Select
          label="Product"
          value={filling.product}
          options={[NOT_CHOSEN, ...of.products.map(({ product, name }) => ({ value: product, word: name }))]}
          onChange={({ target }) => onChange({ product: target.value })}
        />
        <Field
          label="Use that is claimed"
          value={filling.use}
          hint="Such as: touring events, rim brake"
          onChange={({ target }) => onChange({ use: target.value })}
        />
        <Select
          label="Method"
          value={filling.method}
          options={[
            NOT_CHOSEN,
            ...methods.map((one) => ({
              value: named(one),
              word: `${one.method} rev. ${one.revision}, ${one.title}`,
            })),
          ]}
          onChange={({ target }) => onChange({ method: target.value, modes: [] })}
        />
        {template.limits.map((place) => (
          <Select
            key={place.place}
            label={`Limit at "${place.place}"${place.needed ? '' : ', may be left out'}`}
            value={filling.limits[place.place] ?? ''}
            options={[
              place.needed ? NOT_CHOSEN : { value: '', word: 'left out' },
              ...limitsFor(place, of.limits).map((one) => ({
                value: named(one),
                word: `${one.limit} rev. ${one.revision}, ${limitSaid(one, print)}`,
              })),
            ]}
            onChange={({ target }) => onChange({ limits: { ...filling.limits, [place.place]: target.value } })}
          />
        ))}
        <Field
          label="Specimens"
          inputMode="numeric"
          value={filling.specimens}
          hint={design ? 'As designed' : `Left empty: ${template.specimens}, or as many as the claim needs`}
          onChange={({ target }) => onChange({ specimens: target.value })}
        />
        <Select
          label="Who approves it"
          value={filling.approvedBy}
          options={[NOT_CHOSEN, ...approvers.map(({ person, name }) => ({ value: person, word: name }))]}
          onChange={({ target }) => onChange({ approvedBy: target.value })}
        />
        <Field
          label="On"
          type="date"
          value={filling.approvedOn}
          onChange={({ target }) => onChange({ approvedOn: target.value })}
        />
      </div>
      {isRaised(design) && (
        <Picks
          legend="Failure modes known at the limit: another one found at the raised load ends the demonstration"
          several
          options={modesOf(template, method).map(({ code, meaning }) => ({ value: code, word: code, hint: meaning }))}
          picked={filling.modes}
          onPick={(modes) => onChange({ modes })}
        />
      )}
      <OtherLimit template={template} filling={filling} limits={of.limits} design={design} />
    </Section>
  );
}

/** A design reckoned for another limit says nothing of this one. */
function OtherLimit(given: {
  template: PlanTemplate;
  filling: Filling;
  limits: readonly Limit[];
  design: ChosenDesign | undefined;
}) {
  const { template, filling, limits, design } = given;
  const print = usePrint();
  const [main] = template.limits;
  const limit = main && limitsFor(main, limits).find((one) => named(one) === filling.limits[main.place]);
  if (!design || !limit) return null;
  if (limit.bound === 'at least' && limit.value === design.limit.value && limit.unit === design.limit.unit) return null;
  return (
    <p role="status">
      The design was reckoned for at least {print.declared(design.limit.value, design.limit.unit)}, and {limit.limit}{' '}
      rev. {limit.revision} says {limitSaid(limit, print)}: the number of specimens and the chances of a good lot are
      those of the other limit. What the claim itself risks stands below.
    </p>
  );
}

function limitSaid(limit: MeasuredLimit, print: ReturnType<typeof usePrint>): string {
  const value = (one: number) => print.declared(one, limit.unit);
  return limit.bound === 'between'
    ? `between ${value(limit.lower)} and ${value(limit.upper)}`
    : `${limit.bound} ${value(limit.value)}`;
}
