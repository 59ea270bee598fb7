import { createContext, type ReactNode, useContext, useEffect, useId, useState } from 'react';
import './sheet.css';

interface Contents {
  add: (section: { id: string; word: string }) => () => void;
}

const ContentsContext = createContext<Contents | undefined>(undefined);

/**
 * One thing on one sheet: who it is at the top, what was found below. `title` names the browser's tab. The sheet's
 * sections enter themselves in its contents.
 */
export function Sheet({ title, children }: { title: string; children: ReactNode }) {
  const [sections, setSections] = useState<{ id: string; word: string }[]>([]);
  const [contents] = useState<Contents>(() => ({
    add: (section) => {
      setSections((before) => [...before, section].sort(inTheirOrder));
      return () => setSections((before) => before.filter(({ id }) => id !== section.id));
    },
  }));
  return (
    <ContentsContext value={contents}>
      <title>{`${title} · Breakbook`}</title>
      <article className="sheet">{children}</article>
      {sections.length > 2 && (
        <nav className="contents" aria-label="On this sheet">
          <ol>
            {sections.map(({ id, word }) => (
              <li key={id}>
                <a href={`#${id}`}>{word}</a>
              </li>
            ))}
          </ol>
        </nav>
      )}
    </ContentsContext>
  );
}

/** Sections enter as they come to be drawn; the contents name them as they stand on the sheet. */
function inTheirOrder(a: { id: string }, b: { id: string }): number {
  const [one, other] = [document.getElementById(a.id), document.getElementById(b.id)];
  if (!one || !other) return 0;
  return one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING ? -1 : 1;
}

interface HeadStripProps {
  /** What kind of thing this is: "Lot", "Run". */
  noun: string;
  /** Its number, and in quieter type what it is of. */
  name: ReactNode;
  of?: ReactNode;
  outcome?: ReactNode;
  /** One sentence that says why. */
  sentence?: ReactNode;
  /** What happens next, and whose turn it is. */
  next?: ReactNode;
  facts?: readonly Fact[];
  actions?: ReactNode;
}

export interface Fact {
  term: string;
  says: ReactNode;
}

/** Who this is, its outcome in words, what happens next; actions at its right end. */
export function HeadStrip({ noun, name, of, outcome, sentence, next, facts = [], actions }: HeadStripProps) {
  return (
    <header className="head">
      <h1>
        <span className="noun">{noun}</span> {name}
        {of !== undefined && <span className="of"> {of}</span>}
      </h1>
      {outcome !== undefined && <p className="standing">{outcome}</p>}
      {sentence !== undefined && <p className="why">{sentence}</p>}
      {next !== undefined && (
        <p className="next">
          <strong>Next</strong> {next}
        </p>
      )}
      {actions !== undefined && <div className="actions">{actions}</div>}
      {facts.length > 0 && <Facts of={facts} />}
    </header>
  );
}

/** A few terms with what they say, on one line where there is room. */
export function Facts({ of }: { of: readonly Fact[] }) {
  return (
    <dl className="facts">
      {of.map(({ term, says }) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{says}</dd>
        </div>
      ))}
    </dl>
  );
}

interface SectionProps {
  /** The question this section answers, or what it holds. */
  question: string;
  /** Its short name in the sheet's contents. */
  word: string;
  /** Said under the question, in the margin. */
  aside?: ReactNode;
  children: ReactNode;
}

/** One question and its answer: the question in the margin, the answer beside it. */
export function Section({ question, word, aside, children }: SectionProps) {
  const id = `s${useId().replaceAll(/[^A-Za-z0-9]/g, '')}`;
  const contents = useContext(ContentsContext);
  useEffect(() => contents?.add({ id, word }), [contents, id, word]);
  return (
    <section className="section" id={id} aria-labelledby={`${id}-q`}>
      <div className="question">
        <h2 id={`${id}-q`}>{question}</h2>
        {aside !== undefined && <div className="aside">{aside}</div>}
      </div>
      <div className="answer">{children}</div>
    </section>
  );
}

/** Detail that most readers pass over: how a number was computed. */
export function Fold({ word, children }: { word: string; children: ReactNode }) {
  return (
    <details className="fold">
      <summary>{word}</summary>
      <div className="folded">{children}</div>
    </details>
  );
}
