import load, { type Highs } from 'highs'

/** The package's types are those of its CommonJS form, in which the module itself is not what is called. */
export const loadHighs = load as unknown as () => Promise<Highs>
