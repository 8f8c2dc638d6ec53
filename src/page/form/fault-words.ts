import type { Fault } from '../../measure/fault.ts'

/**
 * Some faults speak of a plan's JSON; whoever fills in the form sees rows and boxes. The same fault in the form's words;
 * all others pass as they are.
 */
export function inFormWords(fault: Fault): Fault {
  const field = String(fault.path.at(-1) ?? '')
  const say = (detail: string, hint?: string): Fault => ({ ...fault, detail, hint })
  if (fault.code === 'too-few' || fault.code === 'missing')
    if (field === 'elements') return say('there is no element yet', 'fill in at least one row')
  switch (fault.code) {
    case 'missing':
      if (field === 'kind') return say('choose straight, curve or easement')
      if (field === 'turn') return say('choose left or right')
      if (field === 'radius' || field === 'diameter') return say('a curve needs its diameter or its radius')
      if (field === 'angle') return say('a curve needs its angle or its length')
      if (LENGTHS.has(field)) return say('a length is needed here', EXAMPLE)
      return fault
    case 'unknown-field':
      return fault.path.includes('elements') ? say('leave this blank: an element of this kind has none') : fault
    case 'wrong-type':
      return fault.detail.includes('number') ? say(fault.detail, 'write the number alone') : fault
    case 'unknown-value':
      return fault.detail.startsWith('""') ? say('choose one') : fault
    case 'contradictory':
      if (field === 'joinsExisting')
        return say(fault.detail, 'take out the ticks at its ends, or the tick for a closed loop')
      return fault
    default:
      return fault
  }
}

const EXAMPLE = 'write for example "6 ft", "7 ft 6 in" or "2.4 m"'
const LENGTHS: ReadonlySet<string> = new Set([
  'length',
  'at',
  'elevation',
  'height',
  'headWidth',
  'footWidth',
  'webThickness',
])
