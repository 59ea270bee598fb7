import './outcome.css';
import { type MarkForm, markOf, type OutcomeWord } from './mark-of.js';

const TONES: Record<MarkForm, string> = {
  disc: 'green',
  'disc with a gap': 'ochre',
  'ring with a bar': 'ochre',
  'square on its corner': 'vermilion',
  ring: 'slate',
};

/** An outcome: its mark, and always its word beside it. `as` says it in other words of the same meaning. */
export function Outcome({ word, as, large = false }: { word: OutcomeWord; as?: string; large?: boolean }) {
  const form = markOf(word);
  return (
    <span className={large ? 'outcome large' : 'outcome'}>
      <svg className={`mark ${TONES[form]}`} viewBox="0 0 16 16" aria-hidden="true" data-form={form}>
        <Form form={form} />
      </svg>
      <span className="word">{as ?? word}</span>
    </span>
  );
}

function Form({ form }: { form: MarkForm }) {
  switch (form) {
    case 'disc':
      return <circle cx="8" cy="8" r="6.5" fill="currentColor" />;
    case 'disc with a gap':
      return <path d="M6.9 1.6v12.8a6.5 6.5 0 0 1 0-12.8zM9.1 1.6v12.8a6.5 6.5 0 0 0 0-12.8z" fill="currentColor" />;
    case 'ring with a bar':
      return (
        <path
          d="M8 2.3a5.7 5.7 0 1 0 0 11.4 5.7 5.7 0 0 0 0-11.4zM4.6 8h6.8"
          fill="none"
          stroke="currentColor"
          strokeWidth="1.8"
        />
      );
    case 'square on its corner':
      return <path d="M8 .9 15.1 8 8 15.1.9 8z" fill="currentColor" />;
    case 'ring':
      return <circle cx="8" cy="8" r="5.7" fill="none" stroke="currentColor" strokeWidth="1.8" />;
  }
}
