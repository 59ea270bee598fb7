/** A name with case, blanks and Unicode form taken away: two that agree in it are one name to a reader. */
export function folded(name: string): string {
  return name.normalize('NFKC').toLowerCase().replace(/\s+/gu, '');
}

/** The known name a reader may have meant: at most a third of its letters differ. */
export function nearestName(name: string, known: readonly string[]): string | undefined {
  const written = folded(name);
  let best: { name: string; distance: number } | undefined;
  for (const one of known) {
    const distance = editDistance(written, folded(one));
    if (distance * 3 <= Math.max(written.length, folded(one).length) && (!best || distance < best.distance))
      best = { name: one, distance };
  }
  return best?.name;
}

/** How many letters to insert, delete or replace (Wagner and Fischer 1974, J. ACM 21, 168-173). */
function editDistance(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++)
      row[j] = Math.min(
        (above[j] as number) + 1,
        (row[j - 1] as number) + 1,
        (above[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1),
      );
    above = row;
  }
  return above[b.length] as number;
}
