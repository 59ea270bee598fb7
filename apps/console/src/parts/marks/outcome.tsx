import { outcomeSign } from '@breakbook/figures';
import { Marks } from '../figures/marks.js';
import './outcome.css';
import { likeOutcome, type OutcomeWord } from './outcome-words.js';

/** An outcome: its sign, and always its word beside it. `as` says it in other words of the same meaning. */
export function Outcome({ word, as, large = false }: { word: OutcomeWord; as?: string; large?: boolean }) {
  return (
    <span className={large ? 'outcome large' : 'outcome'}>
      <svg viewBox="0 0 16 16" aria-hidden="true">
        <Marks marks={outcomeSign(likeOutcome(word), { at: [8, 8], radius: 6.2 })} />
      </svg>
      <span className="word">{as ?? word}</span>
    </span>
  );
}
