/**
 * Text of which no number is torn: on the page a line does not end within `6' 10 1/16"` or before the unit of `52 mm`. Files, sheets and
 * what is searched keep plain spaces.
 */
const WITHIN =
  /(\d['′]?) (?=\d+\/\d|\d+"|\d+ \d+\/\d|(?:mm|m²|kg|kN\/m²|kPa|MPa|N m|lb|lb ft|lb\/ft²|ft²|psi)(?![\w/]))/g;

export const unbroken = (text: string): string => text.replace(WITHIN, '$1\u00a0');
