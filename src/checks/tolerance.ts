/**
 * Limits have a tolerance: numbers that differ by rounding alone are the same number, so that nothing is called too close at exactly
 * its limit. A millionth of whatever unit: of a mm, a kg, a degree.
 */
const TOLERANCE = 1e-6;

export const isBelow = (value: number, limit: number): boolean => value < limit - TOLERANCE;

export const isAbove = (value: number, limit: number): boolean => value > limit + TOLERANCE;
