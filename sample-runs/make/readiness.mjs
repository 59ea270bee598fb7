/**
 * What a person confirms before a run. Cautions are general; the lab's own risk assessment and local law decide.
 * Common practice of over-pressure, brake-heat and drop testing, no source.
 */

const SPLINTERS =
  'Broken composite splinters: cut-resistant gloves and eye protection for handling, edges taped, parts bagged, dust taken up with a filtered vacuum cleaner and never blown off.';

export const waterReadiness = [
  'The medium is water, not air: a litre of air at 20 bar holds about 3 kJ, a litre of water about 1 J. Nothing in the circuit is connected to a compressed-air line.',
  'Air is bled from rim, hose and pump at the highest point before the line is closed. Trapped air turns a water test into an air test.',
  'The shield is closed and whole, and is sized for the energy of this set-up; nobody stands in the plane of the wheel.',
  'The pump is run from outside the shield, and the area is marked and empty.',
  'The relief valve is set above the programme and below the rating of the weakest fitting; hoses are restrained at both ends; gauges and hoses are in date.',
  'Vent to zero is proven before the run and again before the shield is opened: two indications agree on zero pressure.',
  'Eye and hearing protection is worn by everyone in the room.',
  SPLINTERS,
  'Follow the pressure-system law where you are, and ask a competent person. This list is a record that people looked; it is never a safety control, and it stops nothing.',
];

export const benchTableReadiness = [
  ...waterReadiness.slice(0, -1),
  'Each station has its own isolating valve, proven to close on a sudden loss of pressure, so that a broken rim does not empty the others.',
  ...waterReadiness.slice(-1),
];

export const heatReadiness = [
  'The guard is closed and locked, and stays locked until the drum has coasted down: rotating wheel, drum and drive catch hair, sleeves and hands.',
  'The tyre holds air, not water: a litre at 8 bar holds about 1 kJ, and pressure rises as it warms. The guard is sized for a tyre that bursts; hearing and eye protection is worn by everyone in the room.',
  'Extraction runs at the brake: hot resin and pads give off fumes. Whether anyone needs a respirator is settled by the risk assessment of the lab.',
  'No solvent, cloth or packing is near the brake; a carbon dioxide or powder extinguisher is in reach; somebody who can use it stays until the rim is cold.',
  'The emergency stop is in reach from where the run is watched, and was tried today.',
  'Rim, pads and caliper stay hot for long: nobody touches them above 45 °C, and the hot-surface sign hangs on the guard until then. The time of release is recorded.',
  'The tyre is let down through its valve before the wheel is taken off, behind the guard.',
  SPLINTERS,
  'Follow the law on machines and workplaces where you are, and ask a competent person. This list is a record that people looked; it is never a safety control, and it stops nothing.',
];

export const dropReadiness = [
  'The mechanical prop is in whenever a hand is under the carriage, and is seen to be out before the guard is closed.',
  'The guard is closed and whole, and the release works only from outside it; nobody arms the tower with the guard open.',
  'The catcher was tried today without a wheel: it holds the carriage after the first rebound.',
  'Rope, winch and hook are in date and lift no more than their rating.',
  'Wheel and fixture are bolted to the stated torque, and no tool lies in the tower.',
  'Eye protection is worn by everyone in the room: rims and spokes let go of sharp pieces.',
  'The rubber pad on the striker is whole, in date, and within its hardness.',
  SPLINTERS,
  'Follow the law on machines and workplaces where you are, and ask a competent person. This list is a record that people looked; it is never a safety control, and it stops nothing.',
];
