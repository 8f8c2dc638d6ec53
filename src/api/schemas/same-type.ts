/** A type with its intersections merged and `readonly` dropped, all the way down. */
export type Flat<T> = T extends readonly (infer Item)[]
  ? Flat<Item>[]
  : T extends object
    ? { -readonly [Key in keyof T]: Flat<T[Key]> }
    : T

/** `true` when two types have the same fields of the same types, optional ones too; otherwise `false`. */
export type Same<A, B> = (<T>() => T extends Flat<A> ? 1 : 2) extends <T>() => T extends Flat<B> ? 1 : 2 ? true : false

/** A schema's output can be written to, the program's own type cannot; nothing else may differ. */
export type Mutable<T> = T extends readonly (infer Item)[]
  ? Mutable<Item>[]
  : T extends object
    ? { -readonly [Key in keyof T]: Mutable<T[Key]> }
    : T
