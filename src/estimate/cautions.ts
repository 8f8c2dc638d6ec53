import type { Engine } from '../plan/rows/cars.ts'
import type { Plan } from './plan.ts'

/** A wall or a bank higher than this is for somebody who knows how to build one; in many places it needs a permit. */
const HIGH_BANK_MM = 1000

/** Heavier loads need two people, common practice. */
const ONE_PERSON_KG = 20

/** The usual cautions for the work of this plan. They do not replace local codes or licensed persons. */
export function cautionsFor(
  plan: Pick<Plan, 'metal' | 'bender' | 'power'>,
  railMassKg: number | null,
  heldInHeat = false,
  sprungIn = false,
  deepestMm: number | null = null,
  drives: readonly Engine['drive'][] = [],
): string[] {
  const stainless = plan.metal.id === 'stainless' || plan.metal.id === 'steel'
  return [
    'Cutting: wear eye and ear protection, clamp the rail on both sides of the cut, keep hands and sleeves away from the disc, let the cut end cool and deburr it before handling.',
    stainless
      ? 'Bending: stainless and hard steel rail is springy. A stick released under load whips: stand out of its plane, secure both ends before releasing it, and wear eye protection and gloves.'
      : 'Bending: rail under load is a spring. Stand out of its plane, keep fingers away from the rollers and the pinch point between rail and form, and wear eye protection.',
    ...(sprungIn
      ? [
          'Springing in: rail held in a curve is a loaded spring. Hold its free end until the last tie is fastened, wear eye protection, and hold both ends again before you loosen a joint or a tie.',
        ]
      : []),
    'Twist: a sideways load off the shear centre twists the rail as it bends. After each bend check that the foot lies flat on a table.',
    ...(plan.bender.roller
      ? [
          'Rollers: keep fingers, sleeves and hair away from the pinch point between rail and rollers, and support the far end of the stick before it tips or swings.',
        ]
      : []),
    ...(heldInHeat
      ? [
          'Heat: held rail cannot expand and is under compression on a hot day. Do not loosen its clamps or lift its ties then: it can spring sideways. Look along the straights before the first train.',
        ]
      : []),
    ...(railMassKg !== null && railMassKg > ONE_PERSON_KG
      ? [
          `Lifting: this plan takes ${railMassKg.toFixed(0)} kg of rail. Carry long bundles with two people, tied in three places, clear of overhead wires.`,
        ]
      : []),
    ...(drives.length > 0
      ? [
          'Hills: what an engine pulls and holds here is worked out, not tested. Try a new grade with the engine alone and then with few cars, with somebody below them, and keep children, hands and feet off the track. Brake or chock cars before you uncouple them on a grade.',
        ]
      : []),
    ...(drives.includes('steam')
      ? [
          'Live steam: a boiler is a pressure vessel with a fire. Have it tested as your local code and its maker require. On a grade its water runs to one end: keep enough that its crown stays covered on the steepest stretch both ways, and never leave it alone. Burns and blown fittings: wear gloves and eye protection.',
        ]
      : []),
    'Ground: before you dig, drill or split rock, find out what is buried there; wear eye, ear and dust protection and keep others away.',
    ...(deepestMm === null
      ? []
      : [
          'Digging: some days before, ask for buried lines to be marked (in North America call 811), and dig by hand near the marks. Do not stand in a narrow cut that is deeper than your waist: its sides fall in without warning.',
          'Rock: drilling and splitting make sharp chips and dust that harms the lungs. Wet the hole, wear a mask made for such dust, goggles and ear protection, and strike wedges in turn, standing to the side.',
          ...(deepestMm > HIGH_BANK_MM
            ? [
                `Retaining walls: this plan cuts or fills by up to ${(deepestMm / 1000).toFixed(1)} m. Walls and steep banks of that height fail without drainage and a footing: have them designed, and ask whether they need a permit.`,
              ]
            : []),
        ]),
    ...(plan.power && plan.power !== 'none'
      ? [
          'Current in the rails: use only low voltage outdoors, from a supply made for it and kept dry, with a fuse in each feeder rated for its wire. The mains side of the supply is work for a licensed electrician.',
        ]
      : []),
    'Mains power near water is work for a licensed electrician. Local codes and the makers’ instructions take precedence over anything printed here.',
  ]
}
