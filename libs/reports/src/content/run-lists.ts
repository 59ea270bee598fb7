/**
 * Numbers of runs or specimens in few words: "161 to 168, 171". Only plain numbers that follow each other are drawn
 * together; every other key stands by itself.
 */
export function listedKeys(keys: readonly string[], to: string): string {
  const parts: string[] = [];
  for (let from = 0; from < keys.length; ) {
    let end = from;
    while (follows(keys[end], keys[end + 1])) end += 1;
    const first = keys[from] ?? '';
    if (end - from >= 2) parts.push(`${first} ${to} ${keys[end]}`);
    else parts.push(...keys.slice(from, end + 1));
    from = end + 1;
  }
  return parts.join(', ');
}

function follows(one: string | undefined, next: string | undefined): boolean {
  if (one === undefined || next === undefined) return false;
  return /^[1-9]\d{0,14}$/.test(one) && /^[1-9]\d{0,14}$/.test(next) && Number(next) === Number(one) + 1;
}
