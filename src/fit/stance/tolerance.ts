/** Metres by which two things may overlap and still only touch; far below a tape's reading, far above rounding. */
export const TOUCH_TOLERANCE = 1e-9;

/** Metres by which a line on the ground may graze a zone: ten touches wide, so that a solved stance re-checks as clear. */
export const GRAZE_TOLERANCE = 1e-8;

/** Metres to which the value of a stance is solved. */
export const VALUE_TOLERANCE = 1e-11;

/** Sine of the angle below which two directions count as parallel. */
export const PARALLEL_TOLERANCE = 1e-11;
