import type { Open, Whole } from '../fields/field.ts'
import { exactlyOneOf, length, list, name, part, shape } from '../fields/kinds.ts'
import { LIMITS } from './limits.ts'

/* What stands beside the line: walls, trees, rocks, posts. */

const LONGEST_NAME = 100

export const CORNER = shape('ObstacleCorner', 'A corner of an obstacle, or of the outline of the garden.', {
  x: length({ required: true, may: 'of either sign', label: 'x' }),
  y: length({ required: true, may: 'of either sign', label: 'y' }),
})

const CIRCLE = shape('ObstacleCircle', 'A round obstacle, such as a post or the trunk of a tree.', {
  x: length({ required: true, may: 'of either sign', label: 'Centre x' }),
  y: length({ required: true, may: 'of either sign', label: 'Centre y' }),
  radius: length({ required: true, label: 'Radius' }),
})

export const OBSTACLE = shape(
  'Obstacle',
  'Something that cars must not touch, as it lies on the sheet: a circle, or a polygon by its corners in order.',
  {
    name: name({
      component: 'ObstacleName',
      required: true,
      longest: LONGEST_NAME,
      says: 'Name of the obstacle, unique in the plan',
      label: 'Name',
    }),
    height: length({
      may: 'of either sign',
      note: 'Height of its top, measured from the same zero as the elevations of the tracks. What is no higher than the rails beside it is never touched; as high as any car when left out.',
      label: 'Height of its top',
      blank: 'higher than the cars',
    }),
    circle: part(CIRCLE, { label: 'Circle' }),
    polygon: list(CORNER, {
      least: 3,
      most: LIMITS.corners,
      note: 'At least three corners, in order around it; its sides do not cross.',
      label: 'Corners',
      entry: 'corner',
    }),
  },
  exactlyOneOf('polygon', 'circle'),
)

export interface ObstacleInput extends Open<typeof OBSTACLE.fields> {}
export interface Obstacle extends Whole<typeof OBSTACLE.fields> {}
