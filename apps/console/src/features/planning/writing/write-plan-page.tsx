import type { Limit, Method, Person, PlanTemplate, Product } from '@breakbook/lab';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useSearchParams } from 'react-router';
import {
  labQuery,
  limitsInForceQuery,
  methodsInForceQuery,
  peopleQuery,
  productsQuery,
  templatesQuery,
} from '../../../client/queries.js';
import { HeadStrip, Sheet } from '../../../parts/sheet/sheet.js';
import { Reading, Trouble } from '../../../parts/trouble.js';
import { clockIn } from '../../../parts/zoned.js';
import { designIn } from './chosen-design.js';
import { ClaimSection } from './claim-section.js';
import { type Filling, lackingIn, limitsFor, methodsFor, named } from './filling.js';
import { FillingSection } from './filling-section.js';
import { WrittenSection } from './written-section.js';

/** What plans are written of. */
export interface OnRecord {
  templates: readonly PlanTemplate[];
  products: readonly Product[];
  methods: readonly Method[];
  limits: readonly Limit[];
  people: readonly Person[];
  zone: string;
}

/** A plan, written from a draft and, where one was chosen, a design; nothing is kept until it is proposed. */
export function WritePlanPage() {
  const templates = useQuery(templatesQuery);
  const products = useQuery(productsQuery);
  const methods = useQuery(methodsInForceQuery);
  const limits = useQuery(limitsInForceQuery);
  const people = useQuery(peopleQuery);
  const lab = useQuery(labQuery);
  const asked = [templates, products, methods, limits, people, lab];
  const error = asked.map((one) => one.error).find(Boolean);
  return (
    <Sheet title="Write a plan">
      <HeadStrip
        noun="Write a plan"
        name=""
        sentence="A draft, and the design chosen for it, filled in with product, method and limits. Nothing is kept until it is proposed, and nothing is judged by it until another person has approved it."
      />
      {error ? (
        <Trouble
          error={error}
          onAgain={() => {
            for (const one of asked) void one.refetch();
          }}
        />
      ) : templates.data && products.data && methods.data && limits.data && people.data && lab.data ? (
        <PlanBeingWritten
          of={{
            templates: templates.data,
            products: products.data.map(({ content }) => content),
            methods: methods.data.map(({ content }) => content),
            limits: limits.data.map(({ content }) => content),
            people: people.data,
            zone: lab.data.zone,
          }}
        />
      ) : (
        <Reading what="what is on record" />
      )}
    </Sheet>
  );
}

function PlanBeingWritten({ of }: { of: OnRecord }) {
  const [search, setSearch] = useSearchParams();
  const design = designIn(search.get('design'));
  const [filling, setFilling] = useState(() => begun(of, search.get('template'), design?.specimens));
  const template = of.templates.find((one) => one.template === filling.template) as PlanTemplate;
  const lacking = lackingIn(filling, template, design);
  return (
    <>
      <ClaimSection
        templates={of.templates}
        template={template}
        design={design}
        onTemplate={(next) => setFilling((now) => ({ ...now, ...placesOf(of, next) }))}
        onNoDesign={() => {
          setFilling((now) => ({ ...now, specimens: '', modes: [] }));
          setSearch({ template: filling.template }, { replace: true });
        }}
      />
      <FillingSection
        of={of}
        filling={filling}
        template={template}
        design={design}
        onChange={(next) => setFilling((now) => ({ ...now, ...next }))}
      />
      <WrittenSection filling={filling} design={design} lacking={lacking} />
    </>
  );
}

/** What is on record once only is chosen already. */
function begun(of: OnRecord, asked: string | null, specimens: number | undefined): Filling {
  const template = of.templates.find((one) => one.template === asked) ?? (of.templates[0] as PlanTemplate);
  return {
    plan: '',
    product: only(of.products.map(({ product }) => product)),
    use: '',
    approvedBy: '',
    approvedOn: clockIn(of.zone, Date.now()).slice(0, 10),
    specimens: specimens === undefined ? '' : String(specimens),
    ...placesOf(of, template),
  };
}

/** Another test has other methods, limits and modes. */
function placesOf(of: OnRecord, template: PlanTemplate): Pick<Filling, 'template' | 'method' | 'limits' | 'modes'> {
  return {
    template: template.template,
    method: only(methodsFor(template, of.methods).map(named)),
    limits: Object.fromEntries(
      template.limits.map((place) => [place.place, place.needed ? only(limitsFor(place, of.limits).map(named)) : '']),
    ),
    modes: [],
  };
}

function only(choices: readonly string[]): string {
  return choices.length === 1 ? (choices[0] as string) : '';
}
