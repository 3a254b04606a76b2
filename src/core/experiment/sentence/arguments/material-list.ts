import { readMaterials } from '../materials.ts';
import type { RawMaterial } from '../materials.ts';
import { readReference } from '../reference.ts';
import { DONE, beginsDeed } from './deeds.ts';
import type { Vocabulary } from '../vocabulary.ts';
import type { Reader } from './reader.ts';

/** Words that go back to something said before, or tell what is done: never the name of a material. */
const NO_MATERIAL =
  /^(?:it|them|this|that|these|those|everything|the (?:rest|remainder)|rest|remainder|(?:this|that) (?:solution|mixture)|remainder of .*|(?:dissolving|diluting|using)\b.*|per \w+|which .*|by which .*)$/i;

/** "water in ice" stands in a bath. */
const IN_BATH =
  /\bin (?:(?:an?|the) )?(?:ice|ice[- ](?:water|salt)|(?:water|oil|ice|steam|sand)[- ]?bath)$/i;

export const readList: Reader = (piece, vocabulary) => {
  const list = readMaterials(piece);
  const { trouble } = list;
  const materials = list.materials.map((material) => lying(material, vocabulary));
  if (materials.length === 0) return undefined;
  let cost = 0;
  for (const material of materials) {
    if (NO_MATERIAL.test(material.name) || DONE.test(material.name)) return undefined;
    if (!material.ref && /\b(?:to|into|onto|in|on|from) (?:the|an?)\b/i.test(material.name))
      cost += 8;
    if (material.name === '') cost += 1.5;
    else if (material.ref) cost += 1;
    else if (!vocabulary.knows(material.name))
      cost += (material.amounts.length > 0 ? 4 : 9) + 0.2 * material.name.split(' ').length;
    else if (material.amounts.length === 0) cost += 0.6;
    if (/^(?:dry|dried) \(/i.test(material.name)) return undefined;
    if (/\b(?:by|and) (?:dissolving|mixing|adding|diluting)\b/i.test(material.name))
      return undefined;
    if (material.name.split(' ').length > 8) cost += 6;
    if (IN_BATH.test(material.name)) cost += 3;
    if (!material.definite && beginsDeed(material.name, vocabulary)) cost += 12;
  }
  return { argument: { kind: 'materials', materials }, cost, trouble };
};

/** "the filtrate" among materials is what lies in a vessel already. */
function lying(material: RawMaterial, vocabulary: Vocabulary): RawMaterial {
  const part =
    /^(?:half|most|two thirds|three quarters|an? (?:third|quarter|fifth|tenth)) of the /i.test(
      material.name,
    );
  if (
    (!material.definite && !part) ||
    material.amounts.length > 0 ||
    vocabulary.knows(material.name)
  )
    return material;
  const ref = readReference(part ? material.name : `the ${material.name}`, vocabulary);
  return ref ? { ...material, ref } : material;
}

/** "(MgSO4)", "(Na2SO4, 1 g)": only a material that is known. */
export const readBracket: Reader = (piece, vocabulary) => {
  const inner = /^\(([^()]+)\)[,;:]?$/.exec(piece.text);
  if (!inner || !vocabulary.knows(inner[1]!.split(',')[0]!.trim())) return undefined;
  return readList({ text: inner[1]!, start: piece.start + 1 }, vocabulary);
};

/** "dried (MgSO4)": a material in brackets that has nothing before it. */
export const readBracketed: Reader = (piece, vocabulary) => {
  const inner = /^\((?:over )?([^()]*(?:\([^()]*\))?[^()]*)\)$/.exec(piece.text.trim());
  return inner
    ? readList({ text: inner[1]!, start: piece.start + piece.text.indexOf(inner[1]!) }, vocabulary)
    : undefined;
};
