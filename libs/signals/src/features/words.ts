import { printSignificant, unitSymbol } from '@breakbook/units';

/** Numbers inside sentences. */
export const inUnit = (unit: string) => (value: number) => `${printSignificant(value, 5)} ${unitSymbol(unit)}`;
export const kPa = inUnit('kPa');
export const seconds = (value: number) => `${printSignificant(value, 4)} s`;
export const percent = (share: number) => `${printSignificant(100 * share, 3)} %`;
export const ratio = (value: number) => printSignificant(value, 4);
