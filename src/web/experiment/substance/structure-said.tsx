import type { Words } from '../../words/use-words.ts';
import { useDark } from '../../ui/use-dark.ts';
import { weighed } from './substance-form.ts';
import { useStructure } from './use-structure.ts';

/** What a SMILES comes to, as it is written: formula, molar mass, and the drawing to compare. */
export function StructureSaid({
  smiles,
  words,
}: {
  readonly smiles: string;
  readonly words: Words;
}) {
  const answer = useStructure(smiles);
  const dark = useDark();
  const known = weighed(smiles);
  const canonical = answer?.ok === true ? answer.canonical : undefined;
  return (
    <>
      <p role="status" className={answer?.ok === false ? 'wrong' : 'aid'}>
        {answer?.ok === false && (answer.message ?? 'This is not read as a structure.')}
        {answer?.ok !== false && known !== undefined && (
          <>
            {known.formula}, {words.number(known.molarMass_g_mol, 5)} g/mol
          </>
        )}
      </p>
      {canonical !== undefined && smiles.trim() !== '' && (
        <img
          className="experiment-structure"
          src={`/api/drawings?smiles=${encodeURIComponent(canonical)}&dark=${dark ? 1 : 0}`}
          alt={`Structure drawn from ${canonical}`}
        />
      )}
    </>
  );
}
