/**
 * How fast was the striker when it met the part, by a gate with two edges above it?
 *
 *     v = d / Δt + g Δt / 2   as it passes the lower edge
 *     v_i = √(v² + 2 g s)     at contact, s below that edge
 *
 * The speed at the middle of the passage time is exactly d / Δt where the acceleration is constant. It also holds for a
 * striker that rises through the gate: what it had at contact. `distance` and `above` in m, `seconds` in s, gravity in m/s².
 *
 * Source: ASTM D7136/D7136M, impact velocity: v_i = d/(t₂ − t₁) + g (t_i − (t₁ + t₂)/2) (from memory); with t_i = t₂ it is
 * the first line.
 */
export function gateSpeed(distance: number, seconds: number, above: number, gravity: number): number {
  const atEdge = distance / seconds + (gravity * seconds) / 2;
  return Math.sqrt(atEdge * atEdge + 2 * gravity * above);
}
