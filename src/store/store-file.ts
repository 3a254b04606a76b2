/** The name of the store in its folder. */
export const STORE_FILE = 'weighboat.sqlite';
