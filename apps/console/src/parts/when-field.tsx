import { Field } from './field.js';
import { clockIn, instantOf } from './zoned.js';

interface WhenFieldProps {
  label: string;
  at?: string;
  /** An instant. */
  value: string;
  zone: string;
  onChange: (instant: string) => void;
}

/** An instant, filled in as the lab's clock shows it, to the minute. */
export function WhenField({ label, at, value, zone, onChange }: WhenFieldProps) {
  const clock = Number.isNaN(Date.parse(value)) ? value : clockIn(zone, value).slice(0, 16);
  return (
    <Field
      label={label}
      {...(at === undefined ? {} : { at })}
      hint={`By the clock of the lab, ${zone.replaceAll('_', ' ')}.`}
      type="datetime-local"
      value={clock}
      onChange={({ target }) => onChange(instantOf(zone, target.value) ?? target.value)}
    />
  );
}

/** Now, to the minute that a form shows. */
export function thisMinute(): string {
  return new Date(Math.floor(Date.now() / 60_000) * 60_000).toISOString();
}
