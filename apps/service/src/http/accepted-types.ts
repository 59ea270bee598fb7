/** Does this Accept header take a media type? The most specific range that fits decides (RFC 9110, 12.5.1). */
export function accepts(header: string | undefined, type: string): boolean {
  if (header === undefined || header.trim() === '') return true;
  const [group] = type.split('/');
  let best = { specific: -1, quality: 0 };
  for (const part of header.split(',')) {
    const [range = '', ...parameters] = part.split(';').map((one) => one.trim().toLowerCase());
    const specific = [`*/*`, `${group}/*`, type].indexOf(range);
    if (specific > best.specific) best = { specific, quality: qualityOf(parameters) };
  }
  return best.quality > 0;
}

function qualityOf(parameters: string[]): number {
  const given = parameters.find((one) => one.startsWith('q='))?.slice(2);
  return given === undefined ? 1 : Number(given) || 0;
}
