import type { Hue, Theme } from './theme.ts';

/** How colours are put on: the drawing names them, a paint says them. */
export interface Paint {
  /** The attributes that give an element these colours. */
  readonly colour: (of: { readonly fill?: Hue; readonly stroke?: Hue }) => string;
  /** More attributes of a step's number, which a page colours where the step is the current one. */
  readonly number: string;
  /** Of the frame round the selected step. */
  readonly frame_px: number;
}

/** Written into the drawing, for one that stands alone. */
export const literalPaint = ({ colours, frame_px }: Theme): Paint => ({
  number: '',
  frame_px,
  colour: ({ fill, stroke }) =>
    [
      ...(fill === undefined ? [] : [`fill="${colours[fill]}"`]),
      ...(stroke === undefined ? [] : [`stroke="${colours[stroke]}"`]),
    ].join(' '),
});

/** As classes that flow-sheet.css gives the colours of the page, in whichever theme it is. */
export const pagePaint: Paint = {
  number: ' class="fs-number"',
  frame_px: 1.75,
  colour: ({ fill, stroke }) => {
    const classes = [
      ...(fill === undefined ? [] : [`fs-fill-${fill}`]),
      ...(stroke === undefined ? [] : [`fs-stroke-${stroke}`]),
    ];
    return `class="${classes.join(' ')}"`;
  },
};
