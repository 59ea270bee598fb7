/** Quantities with UCUM units: codes, exact conversion, reading unit names without guessing, printing for people. */
export { convert, converter, sameDimension, UnitError } from './convert.js';
export { printChance, printPercent, printShare } from './percent.js';
export {
  decimalsBeside,
  decimalsFor,
  printDeclared,
  printDown,
  printFixed,
  printQuantity,
  printSignificant,
  unitSymbol,
} from './print.js';
export { isDifference, QUANTITY_KINDS, type Quantity, type QuantityKind, valueIn } from './quantity.js';
export { type Unit, unitByCode } from './unit.js';
export { readUnitName, type UnitProblem } from './unit-name.js';
