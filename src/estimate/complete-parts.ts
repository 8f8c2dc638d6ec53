import type { Extra, Panel, Supplies, Ties } from '../laying/supplies.ts'
import { type Assume, assumed, completePack, DEFAULTS, mm, shelved } from './complete-plan.ts'
import type { ExtraInput, PanelInput, SuppliesInput, TiesInput } from './plan.ts'

/** Ties with their spacing, singly or in strips. Moulded strips hold the rail with what is moulded on them. */
export function completeTies(ties: TiesInput, assume: Assume): Ties {
  const at = '/supplies/ties'
  const { strip, perLength } = ties
  const pack = strip ? completePack(strip, `${at}/strip`, assume) : completePack(ties, at, assume)
  const given = ties.spacing ?? (perLength && perLength.length / perLength.count)
  const [usual, reason] = strip
    ? [0, 'moulded strips hold the rail themselves']
    : [DEFAULTS.fastenersPerTie, 'two a rail a tie, common practice']
  return {
    ...pack,
    spacing: given ?? assumed(assume, `${at}/spacing`, DEFAULTS.tieSpacingMm, mm, 'not given; centre to centre'),
    fastenersPerTie: ties.fastenersPerTie ?? assumed(assume, `${at}/fastenersPerTie`, usual, String, reason),
    tiesPerStrip: strip?.ties ?? null,
    jointTies: ties.jointTies ?? false,
  }
}

/** Without ready-made track nothing is assumed of it. */
export function completePanels(input: SuppliesInput, assume: Assume): Pick<Supplies, 'panels' | 'readyMade'> {
  const { panels = [], readyMade } = input
  if (panels.length === 0) return { panels: [], readyMade: readyMade ?? DEFAULTS.readyMade }
  return {
    panels: panels.map((panel, index) => completePanel(panel, `/supplies/panels/${index}`, assume)),
    readyMade:
      readyMade ??
      assumed(assume, '/supplies/readyMade', DEFAULTS.readyMade, String, 'ready-made pieces where the bill is lower'),
  }
}

function completePanel(panel: PanelInput, at: string, assume: Assume): Panel {
  const { name, ties, joiners, price, massEachG } = panel
  const curve = 'length' in panel ? null : { radiusMm: panel.radius, angleRad: (panel.angle * Math.PI) / 180 }
  return {
    name: name ?? null,
    lengthMm: 'length' in panel ? panel.length : curve!.radiusMm * curve!.angleRad,
    curve,
    ties: ties ?? assumed(assume, `${at}/ties`, 0, String, 'two rails without ties'),
    joiners: joiners ?? assumed(assume, `${at}/joiners`, 0, String, 'none in the pack'),
    price: price ?? null,
    ...shelved(panel, at, assume),
    massEachG: massEachG ?? null,
  }
}

export function completeExtra(extra: ExtraInput, index: number, assume: Assume): Extra {
  const { item, per, quantity } = extra
  return { item, per, quantity, ...completePack(extra, `/extras/${index}`, assume) }
}
