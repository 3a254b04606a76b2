import { useDark } from '../ui/use-dark.ts';
import type { AtomPlaces } from '../../wire/structure.ts';
import './structure-view.css';

/** A group of atoms that gives bands: each match is the atoms of one place. */
export interface DrawnGroup {
  readonly id: string;
  readonly label: string;
  readonly matches: readonly (readonly number[])[];
}

const RING_px = 11;

/**
 * A structure in which the atoms behind the selected bands are ringed. A group is selected by its
 * name beside the drawing, or by its atoms.
 */
export function StructureView({
  smiles,
  name,
  places,
  groups,
  selected,
  onSelect,
}: {
  readonly smiles: string;
  readonly name: string;
  readonly places: AtomPlaces | undefined;
  readonly groups: readonly DrawnGroup[];
  readonly selected: string | undefined;
  readonly onSelect: (group: string | undefined) => void;
}) {
  const dark = useDark();
  const drawing = `/api/drawings?smiles=${encodeURIComponent(smiles)}&dark=${dark ? 1 : 0}`;
  const shown = groups.find(({ id }) => id === selected);
  const groupAt = new Map(
    groups.flatMap(({ id, matches }) => matches.flat().map((atom) => [atom, id] as const)),
  );
  return (
    <figure className="structure">
      <div className="structure-drawing">
        <img src={drawing} alt={`Structure of ${name}`} />
        {places !== undefined && (
          <svg viewBox={`0 0 ${places.width} ${places.height}`} aria-hidden="true">
            {shown?.matches.flat().map((atom) => (
              <circle
                key={atom}
                className="structure-ring"
                cx={places.atoms[atom]?.x}
                cy={places.atoms[atom]?.y}
                r={RING_px}
              />
            ))}
            {[...groupAt].map(([atom, id]) => (
              <circle
                key={atom}
                className="structure-touch"
                cx={places.atoms[atom]?.x}
                cy={places.atoms[atom]?.y}
                r={RING_px}
                onClick={() => onSelect(id)}
              />
            ))}
          </svg>
        )}
      </div>
      <figcaption>
        <span className="structure-name">{name}</span>
        <span className="structure-groups">
          {groups.map(({ id, label }) => (
            <button
              key={id}
              type="button"
              className="structure-group"
              aria-pressed={id === selected}
              onClick={() => onSelect(id === selected ? undefined : id)}
            >
              {label}
            </button>
          ))}
        </span>
      </figcaption>
    </figure>
  );
}
