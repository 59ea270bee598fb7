import { Link } from 'react-router';
import { ProblemAnswer } from '../client/problem-answer.js';
import './trouble.css';

/** What went wrong and what to do, in the service's own words. */
export function Trouble({ error, onAgain }: { error: Error; onAgain: () => void }) {
  const known = error instanceof ProblemAnswer ? error : undefined;
  return (
    <div className="trouble" role="alert">
      <h1>{known?.title ?? 'This page could not be drawn'}</h1>
      <p>{known?.detail ?? 'The answer was not what this page expects. The record itself is untouched.'}</p>
      <p>
        {known?.action ?? 'Load the page again. If that does not help, tell the lab’s administrator what you opened.'}
      </p>
      {known?.status === 404 ? (
        <Link className="action" to="/lots">
          Open the list of lots
        </Link>
      ) : (
        <button type="button" className="action" onClick={onAgain}>
          Try again
        </button>
      )}
    </div>
  );
}

/** Said while something is read; shown only after a moment, since most answers come at once. */
export function Reading({ what }: { what: string }) {
  return (
    <p className="reading" role="status">
      Reading {what} …
    </p>
  );
}
