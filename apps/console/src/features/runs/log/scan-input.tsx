import { type ReactNode, useId, useState } from 'react';

interface ScanInputProps {
  label: string;
  value: string;
  /** Called with what was scanned or typed, when its line end comes or the field is left. */
  onCode: (code: string) => void;
  hint?: ReactNode;
  said?: ReactNode;
}

/** A field for a label: a scanner's line end looks the code up and goes on to the next field, and sends nothing yet. */
export function ScanInput({ label, value, onCode, hint, said }: ScanInputProps) {
  const id = useId();
  const [typed, setTyped] = useState<string>();
  const done = () => {
    if (typed === undefined) return;
    onCode(typed.trim());
    setTyped(undefined);
  };
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        enterKeyHint="next"
        value={typed ?? value}
        aria-describedby={`${id}-hint`}
        onChange={({ target }) => setTyped(target.value)}
        onBlur={done}
        onKeyDown={(event) => {
          if (event.key !== 'Enter') return;
          event.preventDefault();
          done();
          nextField(event.currentTarget)?.focus();
        }}
      />
      <div className="hint" id={`${id}-hint`}>
        {hint}
      </div>
      <div className="said" role="status">
        {said}
      </div>
    </div>
  );
}

function nextField(field: HTMLInputElement): HTMLElement | undefined {
  const fields = [...(field.form?.querySelectorAll<HTMLElement>('input:not([type=hidden]), select, textarea') ?? [])];
  return fields[fields.indexOf(field) + 1];
}
