import type { LotAnswer } from '../../client/answers.js';
import { day } from '../../parts/moment.js';
import { Section } from '../../parts/sheet/sheet.js';
import { Who } from '../../parts/who.js';
import { type Entry, historyOf } from './history-of.js';

/** What happened to the lot, by whom and when; its oldest entry first. */
export function HistorySection({ answer }: { answer: LotAnswer }) {
  const { bundle, lot } = answer;
  return (
    <Section question="Who did what, and when?" word="History">
      <ol className="history">
        {historyOf(bundle).map((entry) => (
          <li key={`${entry.on} ${entry.what}`}>
            <time dateTime={entry.on}>{day(entry.on)}</time>
            <p>
              {entry.what}
              <By entry={entry} answer={answer} />
            </p>
          </li>
        ))}
      </ol>
      <p className="quiet small">Judged by {lot.software}.</p>
    </Section>
  );
}

function By({ entry, answer }: { entry: Entry; answer: LotAnswer }) {
  if (entry.people.length === 0) return '.';
  return (
    <>
      {', by '}
      {entry.people.map((person, index) => (
        <span key={person}>
          {index > 0 && (index === entry.people.length - 1 ? ' and ' : ', ')}
          <Who people={answer.bundle.people} person={person} />
        </span>
      ))}
      .
    </>
  );
}
