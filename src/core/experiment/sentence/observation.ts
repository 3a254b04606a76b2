/** What is seen happen by itself; nobody does it, so no verb of the trade is looked for. */
const HAPPENS =
  /^(?:in (?:about |ca\.? )?[\w– -]{1,24}(?:min(?:utes)?|h(?:ours?)?|s(?:econds)?)\.?,? )?(?:(?:and|then|whereupon),? )?(?:an?|the|all(?: of)? the|two|some|colou?rless|white|yellow)\s(?:(?!was\b|were\b|is\b|are\b|be\b|been\b)[\w-]+\s){1,6}?(?:forms?|formed|separates?|separated|appears?|appeared|precipitates|precipitated|fades?|faded|became|becomes?|turns?|turned|dissolves?|dissolved|evolves?|evolved|ceases?|ceased|changes|changed|crystalli[sz]es?|crystalli[sz]ed|developed|begins?|began)\b/i;
const GIVEN =
  /\b(?:was|were|is|are) (?:then |thus )?(?:obtained|afforded|produced|furnished|observed|noted|seen)\b/i;
/** A figure of matter: a sentence that holds one does more than look. */
const MATTER = /\d\s*(?:k?g|mg|[mµμ]?[lL]|cm3|cm³|m?mol|equiv)(?![\p{L}])/u;

export function isObservation(text: string): boolean {
  return (HAPPENS.test(text) || GIVEN.test(text)) && !MATTER.test(text);
}
