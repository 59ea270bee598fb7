import { useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useEffect, useRef, useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { type Found, find } from './find.js';
import './scan-field.css';

type Answer = { said: string } | { several: Found[] };

/** Always ready for a scanner or a person: a code and a line end opens the sheet of what it names. */
export function ScanField() {
  const queries = useQueryClient();
  const navigate = useNavigate();
  const field = useRef<HTMLInputElement>(null);
  const [answer, setAnswer] = useState<Answer>();
  useSlash(field);

  const open = async (event: FormEvent) => {
    event.preventDefault();
    const typed = field.current?.value ?? '';
    if (typed.trim() === '') return setAnswer({ said: 'Scan a label, or type the number of a lot, run or specimen.' });
    const found = await find(typed, queries).catch((error: Error) => error);
    if (found instanceof Error) return setAnswer({ said: found.message });
    const [first] = found;
    if (!first)
      return setAnswer({
        said: `No lot, run, specimen or serial here is called “${typed.trim()}”. Check the label, or open the list of lots.`,
      });
    if (found.length > 1) return setAnswer({ several: found });
    if (field.current) field.current.value = '';
    setAnswer(undefined);
    return navigate(first.address);
  };

  return (
    <search className="scan">
      <form onSubmit={(event) => void open(event)}>
        <label className="unseen" htmlFor="scan">
          Scan or type a lot, run or specimen
        </label>
        <input
          id="scan"
          ref={field}
          type="text"
          autoComplete="off"
          spellCheck={false}
          enterKeyHint="go"
          placeholder="Scan or type a lot, run or specimen"
          aria-describedby="scan-answer"
          onKeyDown={(event) => {
            if (event.key !== 'Escape') return;
            setAnswer(undefined);
            field.current?.blur();
          }}
        />
        <span className="key" aria-hidden="true">
          /
        </span>
      </form>
      <div id="scan-answer" role="status">
        {answer && 'said' in answer && <p>{answer.said}</p>}
        {answer && 'several' in answer && (
          <ul>
            {answer.several.map(({ what, address }) => (
              <li key={address + what}>
                <Link to={address} onClick={() => setAnswer(undefined)}>
                  {what}
                </Link>
              </li>
            ))}
          </ul>
        )}
      </div>
    </search>
  );
}

/** "/" puts the cursor into the field, unless the person is typing somewhere else. */
function useSlash(field: { readonly current: HTMLInputElement | null }): void {
  useEffect(() => {
    const listen = (event: KeyboardEvent) => {
      const typing =
        event.target instanceof HTMLElement && event.target.closest('input:not([type=radio]), textarea, select');
      if (event.key !== '/' || typing || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      field.current?.focus();
      field.current?.select();
    };
    document.addEventListener('keydown', listen);
    return () => document.removeEventListener('keydown', listen);
  }, [field]);
}
