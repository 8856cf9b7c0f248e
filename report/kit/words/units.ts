/** Units and formulas as print has them, from the plain letters of a scenario file: cm², °, Ω. */

/** Order matters: degC before deg. */
const SIGNS: readonly (readonly [RegExp, string])[] = [
  [/\bdegC\b/g, '°C'],
  [/ ?\bdeg\b/g, '°'],
  [/\b(m)?ohm\b/g, '$1Ω'],
  [/\^2(?![.\d])/g, '²'],
  [/\^3(?![.\d])/g, '³'],
  [/\bkg\/m3\b/g, 'kg/m³'],
];

/** "13 cm^2" as "13 cm²", "400 deg/s" as "400°/s", "5 mohm" as "5 mΩ". */
export function printedUnits(text: string): string {
  return SIGNS.reduce((shown, [plain, sign]) => shown.replace(plain, sign), text);
}

/** The same, and the signs of a formula: "sqrt(2 m g / (density x drag area))" with a root and a true cross. */
export function printedFormula(text: string): string {
  return printedUnits(text)
    .replace(/\bsqrt(?=\()/g, '√')
    .replace(/ x /g, ' × ')
    .replace(/ - /g, ' − ');
}
