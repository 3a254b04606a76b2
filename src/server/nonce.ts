/** Stands in the built pages where each answer puts a nonce of its own. */
export const NONCE_MARK = 'nonce-of-this-answer';
