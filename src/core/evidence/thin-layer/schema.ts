import * as z from 'zod';

export const STATIONARY_PHASES = [
  'silica',
  'alumina',
  'reversedPhase',
  'cellulose',
  'other',
] as const;

export type StationaryPhase = (typeof STATIONARY_PHASES)[number];

/** How spots are made visible. */
export const VISUALISATIONS = [
  'ownColour',
  'uv254',
  'uv365',
  'iodine',
  'permanganate',
  'anisaldehyde',
  'vanillin',
  'ninhydrin',
  'phosphomolybdate',
  'ceriumMolybdate',
  'dinitrophenylhydrazine',
  'ferricChloride',
  'bromocresolGreen',
  'sulfuricAcid',
  'other',
] as const;

export type Visualisation = (typeof VISUALISATIONS)[number];

/**
 * What was put on the start line. `coSpot`: two samples on one place; `other`: a by-product, say.
 */
export const LANE_KINDS = ['product', 'startingMaterial', 'authentic', 'coSpot', 'other'] as const;

export type LaneKind = (typeof LANE_KINDS)[number];

const name = z.string().min(1).max(200);
const note = z.string().max(2000);
/**
 * Readings of a ruler may lie below its zero by a little, and spots above the front are reported.
 */
const reading = z.number().min(-500).max(500);
const pixel = z.number().min(-100_000).max(100_000);
/** A point tapped on a photograph: pixels to the right, pixels down. */
const point = z.tuple([pixel, pixel]).readonly();

const spotSchema = z
  .strictObject({
    /** On the ruler whose zero `start_mm` was read on; with a ruler plate. */
    position_mm: reading.exactOptional(),
    /** The centre of the spot; with a photograph. */
    point: point.exactOptional(),
    seenBy: z.array(z.enum(VISUALISATIONS)).max(VISUALISATIONS.length).readonly(),
    colour: z.string().max(100).exactOptional(),
    intensity: z.enum(['strong', 'medium', 'faint']).exactOptional(),
    tailing: z.boolean().exactOptional(),
    /** Who the person thinks it is. */
    substance: name.exactOptional(),
  })
  .readonly();

const laneSchema = z
  .strictObject({
    kind: z.enum(LANE_KINDS),
    /** The substance applied, by name; of a co-spot, the second sample beside the product. */
    substance: name.exactOptional(),
    /** Of a co-spot: what was put on the same place. */
    of: z.array(z.enum(LANE_KINDS)).min(2).max(4).readonly().exactOptional(),
    /** Where the front differs from lane to lane. */
    front_mm: reading.exactOptional(),
    spots: z.array(spotSchema).max(20).readonly(),
  })
  .readonly();

const measureSchema = z.discriminatedUnion('by', [
  z
    .strictObject({
      by: z.literal('ruler'),
      start_mm: reading,
      front_mm: reading,
    })
    .readonly(),
  z
    .strictObject({
      by: z.literal('photograph'),
      /** Two points of the start line, far apart. */
      start: z.tuple([point, point]).readonly(),
      /** One point of the front, or two where it is not parallel to the start line. */
      front: z.union([z.tuple([point]), z.tuple([point, point])]).readonly(),
      /** Start line to front, if known: then ± 0.5 mm can be told in pixels. */
      run_mm: z.number().positive().max(500).exactOptional(),
    })
    .readonly(),
]);

/** A developed plate as entered. */
export const thinLayerEnteredSchema = z
  .strictObject({
    technique: z.literal('thinLayer'),
    stationaryPhase: z.enum(STATIONARY_PHASES),
    eluent: z.string().min(1).max(300),
    measure: measureSchema,
    /** Everything that the plate was looked at with, whether it showed a spot or not. */
    visualisations: z.array(z.enum(VISUALISATIONS)).max(VISUALISATIONS.length).readonly(),
    lanes: z.array(laneSchema).min(1).max(20).readonly(),
    note: note.exactOptional(),
  })
  .readonly();

export type ThinLayerEntered = z.infer<typeof thinLayerEnteredSchema>;
export type ThinLayerMeasure = ThinLayerEntered['measure'];
export type ThinLayerLane = ThinLayerEntered['lanes'][number];
export type ThinLayerSpot = ThinLayerLane['spots'][number];
