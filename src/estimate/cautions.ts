import type { Plan } from './plan.ts'

/** A load above this is lifted by two, common practice. */
const ONE_PERSON_KG = 20

/** The usual cautions for the work this plan asks for. They replace no local code and no licensed person. */
export function cautionsFor(
  plan: Pick<Plan, 'metal' | 'bender' | 'power'>,
  railMassKg: number | null,
  heldInHeat = false,
): string[] {
  const stainless = plan.metal.id === 'stainless' || plan.metal.id === 'steel'
  return [
    'Cutting: wear eye and ear protection, clamp the rail on both sides of the cut, keep hands and sleeves away from the disc, let the end cool, and deburr it before handling.',
    stainless
      ? 'Bending: stainless and hard steel rail is springy. A stick let go under load whips; stand out of its plane, fix both ends before releasing it, and wear eye protection and gloves.'
      : 'Bending: rail under load is a spring. Stand out of its plane, keep fingers off the rollers and the pinch between rail and form, and wear eye protection.',
    'Twist: a sideways load off the shear centre twists rail as it bends it. Sight the foot flat on a table after each bend.',
    ...(plan.bender.roller
      ? [
          'Rollers: keep fingers, sleeves and hair out of the pinch between rail and rollers, and support the far end of the stick before it tips or swings.',
        ]
      : []),
    ...(heldInHeat
      ? [
          'Heat: rail that is held cannot grow and is pressed together on a hot day. Do not loosen its clamps or lift its ties then: it can spring sideways. Look along the straights before the first train.',
        ]
      : []),
    ...(railMassKg !== null && railMassKg > ONE_PERSON_KG
      ? [
          `Lifting: this plan takes ${railMassKg.toFixed(0)} kg of rail. Carry long bundles with two people, tied at three places, clear of overhead wires.`,
        ]
      : []),
    'Ground: before you dig, drill or split rock find out what lies buried there; wear eye, ear and dust protection and keep others away.',
    ...(plan.power && plan.power !== 'none'
      ? [
          'Current in the rails: outdoors only low voltage, from a supply made for it and kept dry, with a fuse in each feeder that its wire can carry. The side of the supply that meets the mains is for a licensed electrician.',
        ]
      : []),
    'Mains power near water is work for a licensed electrician. Local codes and the makers’ instructions come before anything printed here.',
  ]
}
