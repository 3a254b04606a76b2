import type { ComponentProps } from 'react';
import './controls.css';

/** `first` is what one came for, at most one a view; `plain` reads as a word. */
export function Button({
  rank = 'usual',
  ...rest
}: ComponentProps<'button'> & { readonly rank?: 'first' | 'usual' | 'plain' }) {
  return <button type="button" {...rest} className="button" data-rank={rank} />;
}
