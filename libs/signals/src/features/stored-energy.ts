/** Ratio of specific heats of air and nitrogen, perfect diatomic gases. */
const GAMMA = 1.4;

/**
 * What energy does a compressed gas give up when it expands without heat to the pressure of the room? In J, for absolute
 * pressures in kPa and a volume in mL:
 *
 *     E = P V / (γ − 1) · [1 − (p_a / P)^((γ − 1)/γ)] = 2.5 P V [1 − (p_a / P)^(2/7)]   with γ = 1.4
 *     dE/dP = V / (γ − 1) · [1 − (p_a / P)^((γ − 1)/γ) / γ]
 *
 * Zero at the pressure of the room.
 *
 * Source: reversible adiabatic expansion of a perfect gas; ASME PCC-2, article 501, mandatory appendix II, writes it as
 * 2.5 P V [1 − (p_a / P)^0.286] (from memory).
 */
export function storedGasEnergy(
  absolute: number,
  room: number,
  volume: number,
): { energy: number; perPressure: number } {
  const cooled = (room / absolute) ** ((GAMMA - 1) / GAMMA);
  // kPa times mL is a thousandth of a joule.
  const perKilopascal = volume / 1000 / (GAMMA - 1);
  return { energy: perKilopascal * absolute * (1 - cooled), perPressure: perKilopascal * (1 - cooled / GAMMA) };
}
