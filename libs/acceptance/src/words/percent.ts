export { printChance as chanceInWords, printPercent as percent, printShare as shareInWords } from '@breakbook/units';
