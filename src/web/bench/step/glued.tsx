/** A name that begins with a locant is not broken behind it: "4-methyl" and never "4-", "methyl". */
export function Glued({ children }: { readonly children: string }) {
  const parts = children.split(/(\d-[a-z])/i);
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
