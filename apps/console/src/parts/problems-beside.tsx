import type { Problem } from '@breakbook/lab';
import { createContext, type ReactNode, useContext, useEffect, useMemo, useRef, useState } from 'react';
import { ProblemAnswer } from '../client/problem-answer.js';
import { capital } from './capital.js';

interface Beside {
  error: Error | null;
  problems: readonly Problem[];
  /** Where fields stand that tell what is refused of them. */
  places: readonly string[];
  enter: (place: string) => () => void;
}

const BesideContext = createContext<Beside | undefined>(undefined);

interface ProblemsBesideProps {
  /** Why what was sent was refused. */
  error: Error | null;
  /** Where the content stands in the body that is sent: "/content". */
  within?: string;
  children: ReactNode;
}

/**
 * A form whose fields have beside them what was refused of them: each names its place in the body by `at`. The first that
 * is to be mended takes the cursor; what is beside no field is told by `ProblemsElsewhere`.
 */
export function ProblemsBeside({ error, within = '', children }: ProblemsBesideProps) {
  const box = useRef<HTMLDivElement>(null);
  const [places, setPlaces] = useState<readonly string[]>([]);
  const problems = useMemo(() => problemsOf(error, within), [error, within]);
  const [enter] = useState(() => (place: string) => {
    setPlaces((before) => [...before, place]);
    return () => setPlaces((before) => before.filter((_, index) => index !== before.indexOf(place)));
  });
  const beside = useMemo<Beside>(() => ({ error, problems, places, enter }), [error, problems, places, enter]);
  useEffect(() => {
    if (problems.length > 0) box.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }, [problems]);
  return (
    <BesideContext value={beside}>
      <div ref={box} className="beside">
        {children}
      </div>
    </BesideContext>
  );
}

/** How many things are to be mended, and those that stand beside no field; said aloud when they appear. */
export function ProblemsElsewhere() {
  const { error, problems = [], places = [] } = useContext(BesideContext) ?? {};
  const elsewhere = problems.filter(({ pointer }) => !places.some((place) => isAt(pointer, place)));
  const here = new Set(problems.filter((one) => !elsewhere.includes(one)).map(({ pointer }) => pointer));
  return (
    <div role="alert" className="form-problem">
      {error && <p>{problems.length === 0 ? error.message : summary(here.size)}</p>}
      {elsewhere.map((one) => (
        <p key={`${one.pointer} ${one.detail}`}>
          {one.detail} {one.action}
        </p>
      ))}
    </div>
  );
}

function summary(here: number): string {
  const untaken = 'It was not taken, and nothing was changed.';
  if (here === 0) return untaken;
  return here === 1
    ? `${untaken} One thing is to be mended, said beside its field above.`
    : `${untaken} ${here} things are to be mended, said beside their fields above.`;
}

/** With places as the fields name them. */
function problemsOf(error: Error | null, within: string): Problem[] {
  if (!(error instanceof ProblemAnswer)) return [];
  return error.refused.problems.map((one) =>
    one.pointer?.startsWith(within) ? { ...one, pointer: one.pointer.slice(within.length) } : one,
  );
}

function isAt(pointer: string | undefined, place: string): boolean {
  return pointer === place || (pointer?.startsWith(`${place}/`) ?? false);
}

/** What was refused of what stands at this place or below it, without the place, which the field's label tells. */
export function useProblemsAt(place: string | undefined): string[] {
  const beside = useContext(BesideContext);
  const enter = beside?.enter;
  useEffect(() => (place === undefined ? undefined : enter?.(place)), [enter, place]);
  if (place === undefined || !beside) return [];
  return [...new Set(beside.problems.filter(({ pointer }) => isAt(pointer, place)).map(saidOf))];
}

function saidOf({ code, found, detail, action }: Problem): string {
  const isEmpty = found === '' || found === '[]';
  if (code === 'body.missing-field' || (isEmpty && code !== 'body.format')) return 'Nothing is filled in here.';
  return [capital(detail.replace(/^\/\S*: /, '')), action].filter(Boolean).join(' ');
}
