import './progress.css';

interface ProgressProps {
  /** What is being done, and how much of how much. */
  says: string;
  /** How far it is, a fraction; left out while that is not known. */
  share?: number | undefined;
}

/** Long work: a bar with what is being done. */
export function Progress({ says, share }: ProgressProps) {
  return (
    <div className="progress">
      <p role="status">{says}</p>
      <progress aria-label={says} max={1} {...(share === undefined ? {} : { value: share })} />
    </div>
  );
}
