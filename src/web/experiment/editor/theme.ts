import { EditorView } from '@codemirror/view';

const severity = (name: string) => ({ color: `var(--${name})` });
const shape = {
  display: 'block',
  width: '0.6em',
  height: '0.6em',
  border: '2px solid currentColor',
};

/** The editor lives in its own tree of styles; it takes its colours from the page's tokens. */
export const editorTheme = EditorView.theme({
  '&': { height: '100%', color: 'var(--ink)', fontSize: '1.0625rem' },
  '&.cm-focused': { outline: 'none' },
  '.cm-scroller': { fontFamily: 'var(--font)', lineHeight: '1.6', overflow: 'auto' },
  '.cm-content': { padding: '1rem 0 4rem', caretColor: 'var(--accent)' },
  // Beside the caret, which a glance may miss.
  '.cm-content:focus': { boxShadow: 'inset 2px 0 0 var(--edge)' },
  '.cm-line': { padding: '0 1rem 0 0.25rem' },
  '.cm-gutters': { background: 'transparent', border: 'none', color: 'inherit' },
  '.findings-gutter': { width: '1.25rem' },
  '.findings-gutter .cm-gutterElement': { padding: '0.55em 0 0 0.35rem' },
  '.shape': shape,
  '.shape-error': { ...severity('error'), background: 'currentColor' },
  '.shape-warning': { ...severity('warning'), rotate: '45deg' },
  '.shape-note': { ...severity('note'), borderRadius: '50%' },
  '.cm-line::selection, .cm-line ::selection': { background: 'var(--life)' },
  '.current-step': { boxShadow: 'inset 3px 0 0 var(--accent)', background: 'var(--paper-raised)' },
  '.text-title': { fontWeight: '800', fontSize: '1.2em' },
  '.text-heading': { fontWeight: '700', fontSize: '1.08em' },
  '.text-part': { fontWeight: '700' },
  '.text-number': { fontWeight: '700', color: 'var(--quiet)', fontVariantNumeric: 'tabular-nums' },
  '.text-bullet': { color: 'var(--quiet)' },
  '.text-remark': { fontStyle: 'italic', color: 'var(--quiet)' },
  '.text-verb': { fontWeight: '650' },
  '.text-amount': { fontVariantNumeric: 'tabular-nums', color: 'var(--line-aqueous)' },
  '.wrong': {
    textDecorationLine: 'underline',
    textDecorationStyle: 'wavy',
    textDecorationThickness: '1.5px',
    textUnderlineOffset: '0.25em',
    textDecorationSkipInk: 'none',
  },
  '.wrong-error': { textDecorationColor: 'var(--error)' },
  '.wrong-warning': { textDecorationColor: 'var(--warning)' },
  '.wrong-note': { textDecorationColor: 'var(--note)', textDecorationStyle: 'dotted' },
  '.cm-tooltip': {
    border: '1px solid var(--edge)',
    borderRadius: '4px',
    background: 'var(--paper-raised)',
    color: 'var(--ink)',
  },
  '.cm-tooltip.cm-tooltip-autocomplete > ul': {
    fontFamily: 'var(--font)',
    maxHeight: '15rem',
    maxWidth: 'min(34rem, 92vw)',
  },
  '.cm-tooltip.cm-tooltip-autocomplete > ul > li': {
    padding: '0.3rem 0.75rem',
    lineHeight: '1.4',
    whiteSpace: 'nowrap',
  },
  '.cm-tooltip-autocomplete ul li[aria-selected]': {
    background: 'var(--ink)',
    color: 'var(--paper)',
  },
  '.cm-completionDetail': { fontStyle: 'normal', opacity: '0.75', marginLeft: '0.75em' },
  '.cm-completionMatchedText': { textDecoration: 'none' },
});
