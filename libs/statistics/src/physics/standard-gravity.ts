/** Standard acceleration of free fall, m/s². Exact by definition: ISO 80000-3; NIST SP 811 (2008), appendix B.8. */
export const STANDARD_GRAVITY = 9.80665;
