/**
 * Where matter is, or has gone. Written as a path: `stock/ethanol`, `vessel/flask/organic`, `air`,
 * `waste/aqueous`, `loss/12`, `reaction/reduction`, `unwritten/reaction 1`, `unexplained/12`.
 * `reaction/…` is a turntable: what goes in comes out again in another form, so its mass and
 * elements always stand at nought. `unwritten/…` supplies what a schematic equation leaves out.
 * `unexplained/…` supplies mass that was weighed and cannot be there.
 */
export type Account = string;

export type AccountKind =
  'stock' | 'vessel' | 'air' | 'waste' | 'loss' | 'reaction' | 'unwritten' | 'unexplained';

export function accountKind(account: Account): AccountKind {
  const end = account.indexOf('/');
  return (end < 0 ? account : account.slice(0, end)) as AccountKind;
}
