import type { DraftAsked, Limit, MeasuredLimit, Method, PlanTemplate, ShownBy } from '@breakbook/lab';
import type { ChosenDesign } from './chosen-design.js';

/** A plan as it is filled in. What is left empty is not chosen yet. */
export interface Filling {
  template: PlanTemplate['template'];
  plan: string;
  product: string;
  use: string;
  /** "method rev". */
  method: string;
  /** For each place of the template a limit, "limit rev". */
  limits: Record<string, string>;
  approvedBy: string;
  approvedOn: string;
  /** Empty: as the template proposes. */
  specimens: string;
  /** Failure modes known at the limit, where a raised load is planned. */
  modes: string[];
}

/** How revisions are told apart in a list of choices. */
export function named({ revision, ...one }: ({ method: string } | { limit: string }) & { revision: number }): string {
  return `${'method' in one ? one.method : one.limit} ${revision}`;
}

/** Methods that give what the template is about. */
export function methodsFor(template: PlanTemplate, methods: readonly Method[]): Method[] {
  return methods.filter(({ characteristics }) =>
    characteristics.some(({ characteristic }) => characteristic === template.characteristic),
  );
}

/** Limits on what a place of the template is about. */
export function limitsFor(place: PlanTemplate['limits'][number], limits: readonly Limit[]): MeasuredLimit[] {
  return limits.filter(
    (one): one is MeasuredLimit => one.bound !== 'absent' && one.characteristic === place.characteristic,
  );
}

/** Failure modes that count as failures of what the template is about. */
export function modesOf(template: PlanTemplate, method: Method | undefined): { code: string; meaning: string }[] {
  return (method?.failureModes ?? []).filter(
    ({ countsAs }) => (countsAs as Record<string, string>)[template.characteristic] === 'failure',
  );
}

/** What is still to be chosen, in words. */
export function lackingIn(filling: Filling, template: PlanTemplate, design: ChosenDesign | undefined): string[] {
  const places = template.limits.filter(({ place, needed }) => needed && !filling.limits[place]);
  return [
    ...(filling.plan.trim() === '' ? ['the number of the plan'] : []),
    ...(filling.product === '' ? ['the product'] : []),
    ...(filling.use.trim() === '' ? ['the use'] : []),
    ...(filling.method === '' ? ['the method'] : []),
    ...places.map(({ place }) => `the limit at "${place}"`),
    ...(isRaised(design) && filling.modes.length === 0 ? ['the failure modes known at the limit'] : []),
    ...(filling.approvedBy === '' ? ['who approves it'] : []),
  ];
}

export function isRaised(design: ChosenDesign | undefined): boolean {
  return design?.shownBy.kind === 'zero failures' && design.shownBy.raised !== undefined;
}

/** What the service is asked to draft. */
export function draftAsked(filling: Filling, design: ChosenDesign | undefined): DraftAsked {
  const { template, plan, product, use, method, approvedBy, approvedOn, specimens } = filling;
  return {
    template,
    plan: plan.trim(),
    product,
    use: use.trim(),
    approvedBy,
    approvedOn,
    method: apart(method).name,
    methodRevision: apart(method).revision,
    limits: Object.entries(filling.limits)
      .filter(([, limit]) => limit !== '')
      .map(([place, limit]) => ({ place, limit: apart(limit).name, revision: apart(limit).revision })),
    ...(specimens.trim() === '' ? {} : { specimens: Number(specimens) }),
    ...(design
      ? {
          coverage: design.coverage,
          confidence: design.confidence,
          population: design.population,
          shownBy: shownBy(design, filling.modes),
        }
      : {}),
  };
}

function shownBy({ shownBy: way }: ChosenDesign, modes: string[]): ShownBy {
  if (way.kind !== 'zero failures') return way;
  return way.raised ? { kind: way.kind, raised: { ...way.raised, modes } } : { kind: way.kind };
}

/** "BURST 3" as a name and a number; names hold no spaces. */
function apart(text: string): { name: string; revision: number } {
  const at = text.lastIndexOf(' ');
  return { name: text.slice(0, at), revision: Number(text.slice(at + 1)) };
}
