/** The program of the desk: reader, ledger and editor, fetched once, when someone first asks. */
export const deskProgram = () => import('./experiment-desk.tsx');
