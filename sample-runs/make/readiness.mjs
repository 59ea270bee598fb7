/**
 * What a person confirms before a run. Cautions are general; the lab's own risk assessment and local law decide.
 * Common practice of over-pressure testing, no source.
 */

export const waterReadiness = [
  'The medium is water, not air: a litre of air at 20 bar holds about 3 kJ, a litre of water about 1 J. Nothing in the circuit is connected to a compressed-air line.',
  'Air is bled from rim, hose and pump at the highest point before the line is closed. Trapped air turns a water test into an air test.',
  'The shield is closed and whole, and is sized for the energy of this set-up; nobody stands in the plane of the wheel.',
  'The pump is run from outside the shield, and the area is marked and empty.',
  'The relief valve is set above the programme and below the rating of the weakest fitting; hoses are restrained at both ends; gauges and hoses are in date.',
  'Vent to zero is proven before the run and again before the shield is opened: two indications agree on zero pressure.',
  'Eye and hearing protection is worn by everyone in the room.',
  'Broken composite splinters: cut-resistant gloves and eye protection for handling, edges taped, parts bagged, dust taken up with a filtered vacuum cleaner and never blown off.',
  'Follow the pressure-system law where you are, and ask a competent person. This list is a record that people looked; it is never a safety control, and it stops nothing.',
];

export const benchTableReadiness = [
  ...waterReadiness.slice(0, -1),
  'Each station has its own isolating valve, proven to close on a sudden loss of pressure, so that a broken rim does not empty the others.',
  ...waterReadiness.slice(-1),
];
