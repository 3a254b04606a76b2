import type { Visualisation } from '../../../../core/evidence/thin-layer/schema.ts';
import { useForm } from '../draft.ts';
import type { Draft, DraftReader } from '../draft.ts';
import { FlagField } from '../fields.tsx';
import { Seldom } from '../layout.tsx';

/** The usual ones first. */
const WORDS: Readonly<Record<Visualisation, string>> = {
  uv254: 'UV 254 nm',
  uv365: 'UV 365 nm',
  ownColour: 'its own colour',
  iodine: 'iodine',
  permanganate: 'permanganate dip',
  anisaldehyde: 'anisaldehyde dip',
  vanillin: 'vanillin dip',
  ninhydrin: 'ninhydrin',
  phosphomolybdate: 'phosphomolybdic acid dip',
  ceriumMolybdate: 'cerium molybdate dip',
  dinitrophenylhydrazine: '2,4-dinitrophenylhydrazine dip',
  ferricChloride: 'iron(III) chloride',
  bromocresolGreen: 'bromocresol green',
  sulfuricAcid: 'sulfuric acid and heat',
  other: 'another way',
};

const WAYS = Object.keys(WORDS) as readonly Visualisation[];
const USUAL = 5;

const seenWith = (way: Visualisation) => `way_${way}`;
/** Turned round, since a spot counts as seen until someone says that it is not. */
const unseenWith = (way: Visualisation) => `unseen_${way}`;

export const waysIn = (draft: Draft): readonly Visualisation[] =>
  WAYS.filter((way) => draft[seenWith(way)] === true);

/** What the plate was looked at with. */
export function WaysFields() {
  const { problems } = useForm();
  const flag = (way: Visualisation) => (
    <FlagField key={way} name={seenWith(way)} label={WORDS[way]} />
  );
  const problem = problems['ways'];
  return (
    <fieldset
      className="thin-layer-ways"
      tabIndex={-1}
      data-wrong={problem !== undefined || undefined}
    >
      <legend>Looked at with</legend>
      <div className="thin-layer-flags">{WAYS.slice(0, USUAL).map(flag)}</div>
      <Seldom summary="Other dips and sprays">
        <div className="thin-layer-flags">{WAYS.slice(USUAL).map(flag)}</div>
      </Seldom>
      {problem !== undefined && <p className="wrong">{problem}</p>}
    </fieldset>
  );
}

export const readWays = (reader: DraftReader): readonly Visualisation[] =>
  WAYS.filter((way) => reader.flag(seenWith(way)) === true);

/** Which of these ways shows one spot: all of them, until one is taken out. */
export function SeenFields({ ways }: { readonly ways: readonly Visualisation[] }) {
  const { draft, set, problems } = useForm();
  if (ways.length < 2) return null;
  return (
    <fieldset className="thin-layer-ways">
      <legend>Seen with</legend>
      <div className="thin-layer-flags">
        {ways.map((way) => (
          <label key={way} className="evidence-flag">
            <input
              type="checkbox"
              checked={draft[unseenWith(way)] !== true}
              aria-invalid={problems['seen'] === undefined ? undefined : true}
              onChange={({ target }) => set(unseenWith(way), !target.checked)}
            />
            {WORDS[way]}
          </label>
        ))}
      </div>
      {problems['seen'] !== undefined && <p className="wrong">{problems['seen']}</p>}
    </fieldset>
  );
}

export function readSeen(
  spot: DraftReader,
  ways: readonly Visualisation[],
): readonly Visualisation[] {
  if (ways.length < 2) return ways;
  const seen = ways.filter((way) => spot.flag(unseenWith(way)) !== true);
  if (seen.length === 0) spot.say('seen', 'A spot is seen in one way at least.');
  return seen;
}
