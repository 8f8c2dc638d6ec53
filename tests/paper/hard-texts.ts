/** Texts that a workbook, or the program that opens it, has another meaning for. */
export const HARD_TEXTS = [
  ...['_x000D_', '_x000d_', '_x005F_', '_x005F_x000D_', '__x0041_', '_x0041_x0042_', '_x41_', '_xd83d_', '_x00e4_'],
  ...['#N/A', '#REF!', '#DIV/0!', '#SPILL!', '#NAME?', '# 3', '#_x000D_'],
  ...['TRUE', 'false', '1e5', '007', '1/2', '1-3/4', '2024-01-01', '12:30', '10 %'],
  ...['=1+1', '{=1}', '+1', '-1', '@x', '＝1', "'quoted", "''twice"],
  ...[' ahead', 'behind ', '\ttab', '\u00a0no-break', '\u2003em', ' ', 'two\nlines', '\n', '\ufeffmark', 'a\u2028b'],
  ...['<b>&amp;"', 'é', '😀'],
] as const
