/** What one file may cost. A spectrum of a teaching laboratory is under a megabyte. */
export const MAX_BYTES = 50 * 1024 * 1024;
/** Over all traces of a file: a repeat count can ask for any number of points. */
export const MAX_POINTS = 4_000_000;
export const MAX_BLOCKS = 1000;
/** Of one block; a spectrometer writes some thousand. */
export const MAX_HEADERS = 10_000;
/** Of one line of a table. */
export const MAX_LINE = 20_000;
