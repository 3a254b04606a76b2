/** A number and its unit, which a line end may not part. */
const AMOUNT = /(\d) (?=(?:[kmµ]?g|[mµ]?L|m?mol|min|h|s|M)\b|°C|%)/g;

/**
 * Text that is not broken in the wrong place: not within "1.12 g", and a name that begins with a
 * locant not behind it ("4-methyl" and never "4-", "methyl").
 */
export function Glued({ children }: { readonly children: string }) {
  const parts = children.replace(AMOUNT, '$1\u00a0').split(/(\d-[a-z])/i);
  return parts.map((part, i) =>
    i % 2 === 0 ? (
      part
    ) : (
      <span key={i} className="bench-glued">
        {part}
      </span>
    ),
  );
}
