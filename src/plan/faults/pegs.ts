import type { Fault } from '../../measure/fault.ts'
import type { PlanDraft } from '../reading/draft.ts'
import type { PegInput } from '../rows/pegs.ts'

const OF_TAPES = ['firstDistance', 'second', 'secondDistance', 'side'] as const

/** Pegs by name: each once, and each that others are measured from among them. */
export function pegFaults({ pegs = [] }: Pick<PlanDraft, 'pegs'>): Fault[] {
  const names = pegs.map((peg) => peg?.name)
  const isWhole = names.every((name) => name !== undefined)
  return pegs.flatMap((peg, index): Fault[] => {
    if (!peg) return []
    const at: Fault['path'] = ['pegs', index]
    return [
      ...(names.indexOf(peg.name) < index ? [twice(peg, at)] : []),
      ...(peg.first === undefined ? superfluous(peg, at) : missing(peg, at)),
      ...(['first', 'second'] as const).flatMap((end) => {
        const other = peg[end]
        const isKnown = other === undefined || (other !== peg.name && (!isWhole || names.includes(other)))
        return isKnown ? [] : [unknown(other, peg, [...at, end])]
      }),
      ...(peg.first !== undefined && peg.first === peg.second ? [same(peg, at)] : []),
    ]
  })
}

function twice({ name }: PegInput, at: Fault['path']): Fault {
  const detail = `there are two pegs of the name "${name}"`
  return { path: [...at, 'name'], code: 'contradictory', detail, hint: 'give every peg a name of its own' }
}

function missing(peg: PegInput, at: Fault['path']): Fault[] {
  return OF_TAPES.filter((field) => peg[field] === undefined).map((field) => ({
    path: [...at, field],
    code: 'missing',
    detail: `"${peg.name}" is measured from "${peg.first}", and ${field} is not given`,
    hint: 'a peg takes two distances from two other pegs, and the side of the line between them; or x and y',
  }))
}

function superfluous(peg: PegInput, at: Fault['path']): Fault[] {
  return OF_TAPES.filter((field) => peg[field] !== undefined).map((field) => ({
    path: [...at, field],
    code: 'contradictory',
    detail: `"${peg.name}" is not measured from a first peg, so ${field} says nothing`,
    hint: 'name the first peg, or leave this out',
  }))
}

function unknown(other: string, { name }: PegInput, path: Fault['path']): Fault {
  const detail = other === name ? `"${name}" is measured from itself` : `there is no peg "${other}"`
  return { path, code: 'unknown-value', detail, hint: 'name another peg of the plan' }
}

function same({ first }: PegInput, at: Fault['path']): Fault {
  const detail = `both distances are from "${first}"`
  return { path: [...at, 'second'], code: 'contradictory', detail, hint: 'measure from two different pegs' }
}
