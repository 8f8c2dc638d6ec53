import type { Open, Whole } from '../fields/field.ts'
import { length, number, shape } from '../fields/kinds.ts'

/* The ground under a track, and how it is cut and filled. */

export const GROUND_POINT = shape(
  'GroundPoint',
  'How high the ground is at a station, before anything is dug; straight lines between. Two points at one station are a step, such as a wall.',
  {
    at: length({ required: true, may: 'zero or more', label: 'Distance from the start' }),
    elevation: length({ required: true, may: 'of either sign', label: 'Elevation of the ground' }),
  },
)

export const GROUND_PLACE = shape(
  'GroundPlace',
  'How high the ground is at a place of the sheet, before anything is dug.',
  {
    x: length({ required: true, may: 'of either sign', label: 'x' }),
    y: length({ required: true, may: 'of either sign', label: 'y' }),
    elevation: length({ required: true, may: 'of either sign', label: 'Elevation of the ground' }),
  },
)

const slope = { least: 0, most: 20, unit: 'alone' } as const

export const EARTHWORKS = shape(
  'EarthworksSettings',
  'How cuttings are dug and embankments heaped where tracks give their ground. The formation is the prepared surface that the ballast lies on.',
  {
    formationWidth: length({
      component: 'FormationWidth',
      says: 'Width of the formation; as wide as the bottom of the ballast when left out, or 250 mm without a roadbed',
      label: 'Width of the formation',
      blank: 'the bottom of the ballast, or 250 mm',
    }),
    formationDepth: length({
      component: 'FormationDepth',
      may: 'zero or more',
      says: 'How far the formation lies below the elevations of the track; rail, ties and ballast together when left out, or 0 without a roadbed',
      label: 'Depth of the formation',
      hint: 'below the elevations of the track',
      blank: 'rail, ties and ballast, or 0',
    }),
    cutSlope: number({
      ...slope,
      component: 'CutSlope',
      says: 'Slope of the sides of a cutting, run over rise; 1 when left out, but for the vertical sides of a trench',
      label: 'Side slope of cuttings, run over rise',
      blank: '1; a trench its own slope',
      called: 'side slope of cuttings',
    }),
    fillSlope: number({
      ...slope,
      component: 'FillSlope',
      usual: 1.5,
      because: 'ordinary soil, common practice',
      says: 'Slope of the sides of an embankment, run over rise',
      label: 'Side slope of embankments, run over rise',
      called: 'side slope of embankments',
    }),
    swellPct: number({
      component: 'SwellPct',
      least: 0,
      most: 200,
      unit: 'in percent',
      usual: 25,
      because: 'ordinary soil takes up a quarter more once it is dug, common practice',
      sign: ' %',
      says: 'How much more room soil takes in the barrow than in the ground, percent',
      label: 'Swell of dug soil, %',
      called: 'swell',
    }),
    barrowL: number({
      component: 'BarrowL',
      least: 1,
      most: 10_000,
      unit: 'in litres',
      usual: 80,
      because: 'a garden wheelbarrow, common practice',
      sign: ' L',
      says: 'What a barrow holds, L',
      label: 'Barrow, litres',
      called: 'barrow',
    }),
  },
)

export interface GroundPlace extends Open<typeof GROUND_PLACE.fields> {}
export interface GroundPoint extends Open<typeof GROUND_POINT.fields> {}
export interface EarthworksSettings extends Whole<typeof EARTHWORKS.fields> {}
