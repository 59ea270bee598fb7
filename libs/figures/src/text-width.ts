/**
 * Advance widths of U+0020 to U+007E in DejaVu Sans 2.37 and its bold, in 1/2048 of the size; read from the fonts'
 * own hmtx tables.
 */
const REGULAR = [
  651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690, 1303, 1303, 1303, 1303, 1303,
  1303, 1303, 1303, 1303, 1303, 690, 690, 1716, 1716, 1716, 1087, 2048, 1401, 1405, 1430, 1577, 1294, 1178, 1587, 1540,
  604, 604, 1343, 1141, 1767, 1532, 1612, 1235, 1612, 1423, 1300, 1251, 1499, 1401, 2025, 1403, 1251, 1403, 799, 690,
  799, 1716, 1024, 1024, 1255, 1300, 1126, 1300, 1260, 721, 1300, 1298, 569, 569, 1186, 569, 1995, 1298, 1253, 1300,
  1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212, 1075, 1303, 690, 1303, 1716,
];
const BOLD = [
  713, 934, 1067, 1716, 1425, 2052, 1786, 627, 936, 936, 1071, 1716, 778, 850, 778, 748, 1425, 1425, 1425, 1425, 1425,
  1425, 1425, 1425, 1425, 1425, 819, 819, 1716, 1716, 1716, 1188, 2048, 1585, 1561, 1503, 1700, 1399, 1399, 1681, 1714,
  762, 762, 1587, 1305, 2038, 1714, 1741, 1501, 1741, 1577, 1475, 1397, 1663, 1585, 2259, 1579, 1483, 1485, 936, 748,
  936, 1716, 1024, 1024, 1382, 1466, 1214, 1466, 1389, 891, 1466, 1458, 702, 702, 1362, 702, 2134, 1458, 1407, 1466,
  1466, 1010, 1219, 979, 1458, 1335, 1892, 1321, 1335, 1192, 1458, 748, 1458, 1716,
];
const UNITS_PER_EM = 2048;
/** Spaces that hold a number and its unit together: U+00A0, and U+202F between groups of digits. */
const SPACES: Record<number, [regular: number, bold: number]> = { 160: [651, 713], 8239: [409, 409] };
/** Signs of the trade (± − ≥) are as wide as a plus sign; East Asian scripts are square. */
const SIGN = 1716;
const FIRST_SQUARE = 0x2e80;

/**
 * How wide a text will be on paper, in points. The screen's face is narrower, so labels that keep apart on paper keep
 * apart there too.
 */
export function textWidth(text: string, size: number, strong = false): number {
  const widths = strong ? BOLD : REGULAR;
  let sum = 0;
  for (const character of text) {
    const point = character.codePointAt(0) ?? 0;
    sum += widths[point - 32] ?? SPACES[point]?.[strong ? 1 : 0] ?? (point < FIRST_SQUARE ? SIGN : UNITS_PER_EM);
  }
  return (sum * size) / UNITS_PER_EM;
}

/** A text that is no wider than this: where it is, its beginning and an ellipsis. */
export function fitted(text: string, size: number, width: number): string {
  if (textWidth(text, size) <= width) return text;
  const letters = [...text];
  let kept = letters.length;
  const shortened = () => `${letters.slice(0, kept).join('').trimEnd()}…`;
  while (kept > 1 && textWidth(shortened(), size) > width) kept -= 1;
  return shortened();
}
