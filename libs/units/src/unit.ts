/// <reference path="./ucum-lhc.d.ts" />
import ucum from '@lhncbc/ucum-lhc';

/**
 * One unit of the Unified Code for Units of Measure (UCUM 2.1), case-sensitive code.
 * Parsing and factors come from the UCUM library; what is ours is the refusal to guess.
 */
export interface Unit {
  code: string;
  /** Exponents of the UCUM base units; two units convert into each other when these agree. */
  dimension: string;
  /** Size of one such unit in the UCUM library's base units; for temperature scales the size of one degree. */
  factor: number;
}

const TEMPERATURE_SCALES = new Set(['Cel', '[degF]']);

const known = new Map<string, Unit | undefined>();

/** The unit with this UCUM code, or undefined when UCUM has none. Nothing is corrected or guessed. */
export function unitByCode(code: string): Unit | undefined {
  if (!known.has(code)) known.set(code, read(code));
  return known.get(code);
}

function read(code: string): Unit | undefined {
  // The library answers for near misses too ("MMHG" for "mm[Hg]"); only a code valid as written counts.
  if (code === '' || /\s/.test(code)) return undefined;
  const answer = ucum.UcumLhcUtils.getInstance().getSpecifiedUnit(code, 'validate');
  const unit = answer.unit;
  if (!unit || answer.origString !== code || answer.retMsg.length > 0) return undefined;

  const dimension = String(unit.dim_?.dimVec_ ?? '0');
  // Special scales but temperature (pH, decibel) have no linear factor: they may label a channel, never convert.
  if (unit.cnv_ && !TEMPERATURE_SCALES.has(code)) return { code, dimension: `special ${code}`, factor: 1 };
  return { code, dimension, factor: unit.magnitude_ };
}
