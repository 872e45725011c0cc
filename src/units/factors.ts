/**
 * Every conversion factor of the project, once. A factor multiplies a value in the named unit to give SI (metres,
 * litres for volume, pascals, metres per second, radians).
 *
 * Exact by definition: the inch, foot, yard and mile (international yard and pound agreement of 1959), the United
 * States gallon (231 cubic inches), the imperial gallon (4.546 09 L), the pound (0.453 592 37 kg) and standard gravity
 * (9.806 65 m/s2), from memory; the pound per square inch, the mile per hour and the knot follow from them.
 */
export const METRES_PER_INCH = 0.0254;
export const INCHES_PER_FOOT = 12;
export const METRES_PER_FOOT = 0.3048;

/**
 * An inch is 254 and a foot 3048 tenths of a millimetre. Multiplied and divided by whole numbers, a length in feet
 * gives the very number that its metric form gives: 6 ft is 1.8288 m to the last bit, where 6 x 0.3048 is not.
 */
export const TENTHS_OF_MILLIMETRE_PER_INCH = 254;
export const TENTHS_OF_MILLIMETRE_PER_FOOT = 3048;
export const TENTHS_OF_MILLIMETRE_PER_YARD = 9144;
export const TENTHS_OF_MILLIMETRE_PER_METRE = 10_000;
export const METRES_PER_MILE = 1609.344;
export const METRES_PER_NAUTICAL_MILE = 1852;
export const MILLIMETRES_PER_METRE = 1000;
export const CENTIMETRES_PER_METRE = 100;

/** 231 cubic inches. */
export const LITRES_PER_US_GALLON = 3.785411784;
/** A quarter of a United States gallon. */
export const LITRES_PER_US_QUART = 0.946352946;
export const LITRES_PER_IMPERIAL_GALLON = 4.54609;
export const LITRES_PER_CUBIC_METRE = 1000;

export const WATTS_PER_KILOWATT = 1000;

export const KILOGRAMS_PER_POUND = 0.45359237;
export const STANDARD_GRAVITY = 9.80665;
export const PASCALS_PER_PSI = (KILOGRAMS_PER_POUND * STANDARD_GRAVITY) / (METRES_PER_INCH * METRES_PER_INCH);
export const PASCALS_PER_BAR = 100_000;
export const PASCALS_PER_KILOPASCAL = 1000;
export const PASCALS_PER_MEGAPASCAL = 1_000_000;

export const SECONDS_PER_HOUR = 3600;
export const METRES_PER_SECOND_PER_MPH = METRES_PER_MILE / SECONDS_PER_HOUR;
export const METRES_PER_SECOND_PER_KMH = MILLIMETRES_PER_METRE / SECONDS_PER_HOUR;
export const METRES_PER_SECOND_PER_KNOT = METRES_PER_NAUTICAL_MILE / SECONDS_PER_HOUR;

export const DEGREES_PER_HALF_TURN = 180;
export const RADIANS_PER_DEGREE = Math.PI / DEGREES_PER_HALF_TURN;
export const PERCENT = 100;
