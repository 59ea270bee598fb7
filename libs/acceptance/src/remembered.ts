/**
 * The same function, its answers kept by what was asked, the oldest given up beyond `most`: for seeded simulations, which
 * take seconds and always come to the same. What is asked must be plain data.
 */
export function remembered<Asked, Answer>(most: number, work: (asked: Asked) => Answer): (asked: Asked) => Answer {
  const known = new Map<string, { answer: Answer }>();
  return (asked) => {
    const key = JSON.stringify(asked);
    const found = known.get(key);
    if (found) return found.answer;
    const made = { answer: work(asked) };
    if (known.size >= most) known.delete(known.keys().next().value as string);
    known.set(key, made);
    return made.answer;
  };
}
