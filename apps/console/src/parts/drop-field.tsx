import { type DragEvent, useId, useState } from 'react';
import './drop-field.css';

interface DropFieldProps {
  label: string;
  several?: boolean;
  /** Media types that can be chosen. */
  accept?: string;
  onFiles: (files: File[]) => void;
}

/** Where files are dropped, or chosen. */
export function DropField({ label, several = false, accept, onFiles }: DropFieldProps) {
  const id = useId();
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    onFiles([...event.dataTransfer.files]);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a shortcut; the file field inside does the same
    <div
      className={over ? 'drop over' : 'drop'}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        type="file"
        multiple={several}
        accept={accept}
        onChange={({ target }) => {
          onFiles([...(target.files ?? [])]);
          target.value = '';
        }}
      />
    </div>
  );
}
