import { blocksOf, inlineOf } from './markdown.ts';
import type { Block } from './markdown.ts';

/** They stand above the text, with the title. */
const ABOVE = new Set(['Course', 'Worked']);

/** The text as it is handed out, without what stands on the page already. */
export function Handout({ text }: { readonly text: string }) {
  const blocks = blocksOf(text);
  const title = blocks.findIndex((block) => block.kind === 'heading' && block.level === 1);
  return (
    <div className="experiment-handout">
      {blocks
        .filter((block, i) => i !== title && !(block.kind === 'fact' && ABOVE.has(block.key)))
        .map((block, i) => (
          <BlockOf key={i} block={block} />
        ))}
    </div>
  );
}

function BlockOf({ block }: { readonly block: Block }) {
  if (block.kind === 'heading')
    return block.level < 3 ? <h2>{block.text}</h2> : <h3>{block.text}</h3>;
  if (block.kind === 'fact')
    return (
      <p className="experiment-fact">
        <strong>{block.key}:</strong> <Words text={block.text} />
      </p>
    );
  if (block.kind === 'remark')
    return (
      <blockquote>
        <Words text={block.text} />
      </blockquote>
    );
  if (block.kind === 'paragraph')
    return (
      <p>
        <Words text={block.text} />
      </p>
    );
  const items = block.items.map((item, i) => (
    <li key={i}>
      <Words text={item} />
    </li>
  ));
  return block.first === null ? <ul>{items}</ul> : <ol start={block.first}>{items}</ol>;
}

function Words({ text }: { readonly text: string }) {
  return inlineOf(text).map((piece, i) => {
    if (piece.kind === 'strong') return <strong key={i}>{piece.text}</strong>;
    if (piece.kind === 'emphasis') return <em key={i}>{piece.text}</em>;
    return piece.text;
  });
}
