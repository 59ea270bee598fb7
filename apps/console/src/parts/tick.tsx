import './tick.css';

/** Something that is so or is not. */
export function Tick({ word, ticked, onTick }: { word: string; ticked: boolean; onTick: (ticked: boolean) => void }) {
  return (
    <label className="tick">
      <input type="checkbox" checked={ticked} onChange={({ target }) => onTick(target.checked)} />
      <span>{word}</span>
    </label>
  );
}
